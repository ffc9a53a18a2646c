import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import type { Grid } from '../../src/worksheet/cells/cell';
import { number } from '../../src/worksheet/cells/kinds';
import { refusalOf } from '../../src/worksheet/wording/refusals';
import { evaluate } from './prepared';

// Codes of faults from all families meet in one list: of two sentences for one code only the last would be told.

const FOLDER = join(__dirname, '../../src/worksheet/wording');

test('no code of a fault is worded in two places', () => {
  const codes = readdirSync(FOLDER).flatMap((file) => {
    const text = readFileSync(join(FOLDER, file), 'utf8');
    return [...text.matchAll(/: Sentences<([^>]*)>/g)].flatMap(([, list]) =>
      [...list!.matchAll(/'(\w+)'/g)].map(([, code]) => code!),
    );
  });
  expect(codes.length).toBeGreaterThan(50);
  expect(codes.filter((code, at) => codes.indexOf(code) !== at)).toEqual([]);
});

// Common ways to write dates and times (ISO 8601 and the usual of day and month), and texts that are neither.
test.each([
  ['2026-03-11 08:00', true],
  ['2026-03-11T08:00:30', true],
  ['11/03/2026', true],
  ['3/11/26 8:05 PM', true],
  ['11.03.2026 08:00', true],
  ['08:00', true],
  ['8:00:30 pm', true],
  ['12-5', false],
  ['1.2.3.4', false],
  ['Birch-1', false],
  ['8 o’clock', false],
])('text %p in a column of numbers is told to be typed again as a date: %p', (written, isTold) => {
  const hint = 'it is text that looks like a date or time: type it again so that the sheet takes it as one';
  const says = refusalOf(number({ from: 0 }), written, { argument: 'times' }, 1900);
  expect(says.includes(hint)).toBe(isTold);
});

const strains: Grid = [
  ['strain', 'best'],
  ['Alder-3', 70_000],
];
const recipe: Grid = [
  ['ingredient', 'share', 'moisture'],
  ['sawdust', 0.7, 0.1],
  ['bran', 0.3, 2],
];
test.each<[string, string, Grid[], string]>([
  ['a date as a date', 'READYDATE', [[[2_958_000]], [['Alder-3']], strains], 'it is 9998-09-22'],
  ['a figure in six digits', 'BIOEFFICIENCY', [[[1]], [[-1 / 3]], [[0.6]]], 'it is -0.333333'],
  ['the row of a column', 'BIOEFFICIENCY', [[[1], [1], [-1]], [[2]], [[0.6]]], '(row 3 of the column)'],
  ['the row of a table', 'MIX', [recipe, [[10]], [[2.5]], [[0.6]]], '(row 3 of recipe)'],
])('a message tells %s', (_what, name, given, told) => {
  const { rows } = evaluate(
    catalogue.find((f) => f.name === name)!,
    given,
  );
  expect(rows.at(-1)![0]).toMatchObject({ reason: expect.stringContaining(told) });
});
