import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { described } from '../../src/worksheet/described';
import { allRan, cache, ROOT, type Step } from './steps';

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

const lines = (command: string, ...words: string[]): string[] =>
  spawnSync(command, words, { cwd: ROOT, encoding: 'utf8' })
    .stdout.split('\n')
    .filter((line) => line !== '');
const changed = [
  ...lines('git', 'diff', '--name-only', 'HEAD'),
  ...lines('git', 'ls-files', '-o', '--exclude-standard'),
].filter((path) => existsSync(join(ROOT, path)));
const withEnding = (ending: RegExp): string[] => changed.filter((path) => ending.test(path));

/** The tests of the maths that the definition calls. */
const mathsTests = lines('git', 'grep', '-l', `export const ${name} = defineFunction`, '--', 'src/worksheet')
  .concat(
    withEnding(/^src\/worksheet\/.*\.ts$/).filter((path) =>
      readFileSync(join(ROOT, path), 'utf8').includes(`export const ${name} =`),
    ),
  )
  .flatMap((path) =>
    [...readFileSync(join(ROOT, path), 'utf8').matchAll(/from '[./]*maths\/([^']+)'/g)].map(
      ([, to]) => `tests/maths/${to!}.test.ts`,
    ),
  )
  .filter((path) => existsSync(join(ROOT, path)));

const steps: readonly Step[] = [
  ['types', 'tsc', ['-p', 'tsconfig.json', '--incremental', '--tsBuildInfoFile', cache('check.types')]],
  ['lint', 'eslint', ['--no-warn-ignored', ...withEnding(/\.ts$/)]],
  ['format', 'prettier', ['--check', '--ignore-unknown', ...changed]],
  ['maths', 'jest', ['--selectProjects', 'node', ...mathsTests]],
  [
    'contract',
    'jest',
    ['--selectProjects', 'node', `tests/worksheet/${family}.contract.test.ts`, '-t', `^${name}\\b`],
  ],
  ['samples', 'jest', ['--selectProjects', 'node', 'tests/samples/calls.test.ts', '-t', name]],
];

/** Whether a step has files to look at; without any, a command would take all there are or complain. */
const hasFiles = ([what]: Step): boolean =>
  ({ lint: withEnding(/\.ts$/), format: changed, maths: mathsTests })[what]?.length !== 0;

void allRan(...steps.filter(hasFiles).map((step) => [step]));
