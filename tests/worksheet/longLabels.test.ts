import { beforeAll, expect, test } from '@jest/globals';
import { isCellError, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import { evaluate, prepared } from './prepared';

// A sentence stays a sentence whatever a cell holds: on one line, nothing in it that steers a terminal, no flood.

const HOSTILE = `Elm\n\u001b[31mred\u0007${' long'.repeat(80)}`;
/** The longest message, the words that an entry may be chosen from aside: those are ours. */
const LONGEST = 240;
const withoutChoice = (reason: string): string => reason.replace(/ must be one of [^;]*;/, '');

beforeAll(async () => {
  for (const f of described) await prepared(f);
});

const replaced = (grids: readonly Grid[], change: (cell: Cell, place: readonly number[]) => Cell): Grid[] =>
  grids.map((grid, a) => grid.map((row, r) => row.map((cell, c) => change(cell, [a, r, c]))));

test.each(described.map((f) => [f.name, f] as const))('%s', (_name, f) => {
  const long: string[] = [];
  for (const example of f.examples.slice(0, 3)) {
    const grids = example.arguments.map(exampleGrid);
    const texts = grids.flatMap((grid, a) =>
      grid.flatMap((row, r) =>
        row.flatMap((cell, c) =>
          typeof cell === 'string' && cell !== '' ? [{ cell, place: [a, r, c] }] : [],
        ),
      ),
    );
    // One cell alone, and a label wherever it is.
    const calls = texts.flatMap(({ cell, place }) => [
      replaced(grids, (old, at) => (at.join() === place.join() ? HOSTILE : old)),
      replaced(grids, (old) => (old === cell ? HOSTILE : old)),
    ]);
    for (const given of calls.slice(0, 80)) {
      const reasons = evaluate(f, given)
        .rows.flat()
        .filter(isCellError)
        .map(({ reason }) => reason);
      long.push(
        ...reasons.filter((reason) => withoutChoice(reason).length > LONGEST || /\p{Cc}/u.test(reason)),
      );
    }
  }
  expect(long).toEqual([]);
});

test('a text that no cell could hold is cut to the 32,767 letters that Excel takes, and says so by its end', () => {
  const ancestors = described.find(({ name }) => name === 'ANCESTORS')!;
  const pathTo = (older: string): Cell =>
    evaluate(ancestors, [[['B-1']], [[older], ['B-1']], [[null], [older]]]).rows[1]![2] as Cell;
  expect(pathTo('x'.repeat(100))).toBe(`B-1 → ${'x'.repeat(100)}`);
  expect(pathTo('x'.repeat(32_767))).toBe(`B-1 → ${'x'.repeat(32_760)}…`);
  // Never half of a sign that takes two letters.
  expect(pathTo(`a${'🍄'.repeat(16_383)}`)).toBe(`B-1 → a${'🍄'.repeat(16_379)}…`);
});
