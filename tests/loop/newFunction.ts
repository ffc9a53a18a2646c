import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { FAMILIES, type Family } from '../../src/worksheet/constants';

// `npm run new NAME family [answer]`: lays out the files of a new function with the blanks to fill in. `answer` names
// the calculation and its files, in camel case: `npm run new DRYMASS substrate dryMass`.

const [name = '', family = '', answer = name.toLowerCase()] = process.argv.slice(2);

function refuse(reason: string): never {
  console.error(reason);
  process.exit(2);
}

if (!/^[A-Z]{3,}$/.test(name))
  refuse('npm run new NAME family [answer]: NAME must be three capital letters or more');
if (!FAMILIES.includes(family as Family))
  refuse(`family must be one of ${FAMILIES.join(', ')}; it is "${family}"`);
if (!/^[a-z][A-Za-z]*$/.test(answer))
  refuse(`answer must be letters, the first one small; it is "${answer}"`);

const FILES: Readonly<Record<string, string>> = {
  [`src/maths/${family}/${answer}.ts`]: `import { requirePositive } from '../shared/checks';

/**
 * What it gives, of what, from what.
 *
 * The formula in words, the definition chosen among rivals, the range it holds in.
 *
 * @param value unit and range
 * @returns unit
 * @throws invalid where …
 * @source author, year, title, equation
 */
export function ${answer}(value: number): number {
  requirePositive('value', value);
  return value;
}
`,
  [`tests/maths/${family}/${answer}.test.ts`]: `import { describe, expect, test } from '@jest/globals';
import { ${answer} } from '../../../src/maths/${family}/${answer}';
import { expectFault } from '../expectFault';

describe('${answer}(value)', () => {
  test.each([
    // a published value, its source beside it
    [NaN, NaN],
  ])('gives … for %p', (value, wanted) => {
    expect(${answer}(value)).toBeCloseTo(wanted, 10);
  });

  test('refuses what is not above 0', () => {
    expectFault(() => ${answer}(0), ['value', 'outside', { above: 0, given: 0 }]);
  });
});
`,
  [`src/worksheet/${family}/${answer}.ts`]: `import { ${answer} } from '../../maths/${family}/${answer}';
import { keyColumn } from '../cells/arguments';
import { number } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';

export const ${name} = defineFunction({
  name: '${name}',
  family: '${family}',
  arguments: [keyColumn('value', number({ above: 0 }), '')],
  result: value('', amount()),
  eachRow: ${answer},
});
`,
  [`src/worksheet/${family}/${answer}.words.ts`]: `import type { Words } from '../words';

export const words: Words = {
  summary: '',
  notes: [],
  sources: [],
  questions: [],
  examples: [],
  faults: [],
};
`,
};

const root = join(__dirname, '../..');
const there = Object.keys(FILES).filter((path) => existsSync(join(root, path)));
if (there.length > 0) refuse(`${there.join(', ')} already exists`);
for (const [path, text] of Object.entries(FILES)) {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}
console.log(
  [
    'Fill in:',
    ...Object.keys(FILES).map((path) => `  ${path}`),
    '  one formula in a sheet of sample-workbooks',
    `Then: npm run docs, npm run samples, npm run try ${name}`,
  ].join('\n'),
);
void import('./writeLists');
