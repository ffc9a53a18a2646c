import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { withFunctionTable } from '../../src/worksheet/functionTable';

test('the README lists every function as the catalogue has it (npm run docs writes the table)', () => {
  const readme = readFileSync(join(__dirname, '../../README.md'), 'utf8');
  expect(readme).toBe(withFunctionTable(readme));
});
