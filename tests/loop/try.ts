import { described } from '../../src/worksheet/described';
import { allRan } from './steps';
import { filesOf, stepsOf } from './trySteps';

// `npm run try NAME`: what one function promises, in the time of a sip of tea. Types and lint of what changed, the
// tests of its maths, its contract, and the sample workbooks that call it.

const [name = ''] = process.argv.slice(2);
const definition = described.find((f) => f.name === name);
if (!definition) {
  console.error(
    `npm run try NAME: there is no function ${name || 'without a name'}; npm run docs lists new ones`,
  );
  process.exit(2);
}
const { family } = definition;

void allRan(stepsOf(name, family)).then(() => {
  if (process.exitCode) console.log(['The files of this function:', ...filesOf(name, family)].join('\n  '));
});
