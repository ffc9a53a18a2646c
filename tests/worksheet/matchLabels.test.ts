import { beforeAll, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { isCellError, type Cell } from '../../src/worksheet/cells/cell';
import { MATCHLABELS } from '../../src/worksheet/records/matchLabels';
import { evaluate, prepared } from './prepared';

// Spelled lists against a rule of its own: the whole table of edit distances with exchanged neighbours (Damerau 1964;
// optimal string alignment). The names are invented.

beforeAll(() => prepared(MATCHLABELS));

const NAMES = [
  'Fernbank-7',
  'Fernbank-9',
  'Alder-3',
  'Alder-4',
  'Elder-3',
  'Birchwood',
  'Marsh-2',
  'Oak-1',
  'Moss-10',
  'Moss-1',
  'Rowanbark',
  'Rowantank',
  'Hillock',
];

/** Fewest letters put in, taken out, changed or exchanged with their neighbour, by the whole table. */
function distance(a: string, b: string): number {
  const table = Array.from({ length: a.length + 1 }, (_, i) =>
    Array.from({ length: b.length + 1 }, (_, j) => (i === 0 ? j : j === 0 ? i : 0)),
  );
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(table[i - 1]![j]! + 1, table[i]![j - 1]! + 1, table[i - 1]![j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        least = Math.min(least, table[i - 2]![j - 2]! + 1);
      }
      table[i]![j] = least;
    }
  }
  return table[a.length]![b.length]!;
}

const bare = (label: string): string => label.toLowerCase().replace(/[^a-z0-9]/g, '');
const seen = (label: string): string => bare(label).replace(/o/g, '0').replace(/[li]/g, '1');
const figures = (label: string): string => (bare(label).match(/\d+/g) ?? []).join(' ');

/** The labels of a list that one may stand for: several are refused, and so is none. */
function candidates(label: string, list: readonly string[]): string[] {
  const different = [...new Set(list)];
  const same = different.filter((one) => one.toLowerCase() === label.trim().toLowerCase());
  if (same.length > 0) return same;
  const alike = different.filter((one) => seen(one) === seen(label));
  if (alike.length > 0) return alike;
  if (bare(label).replace(/\d/g, '').length < 4) return [];
  return different.filter((one) => figures(one) === figures(label) && distance(bare(one), bare(label)) === 1);
}

const place = fc.nat({ max: 12 });
const letter = fc.constantFrom(...'abeknorstlio', '-', ' ', '1', '7');
const slip: fc.Arbitrary<(word: string) => string> = fc.oneof(
  fc.tuple(place, letter).map(
    ([at, one]) =>
      (word: string) =>
        word.slice(0, at) + one + word.slice(at),
  ),
  place.map((at) => (word: string) => word.slice(0, at) + word.slice(at + 1)),
  fc.tuple(place, letter).map(
    ([at, one]) =>
      (word: string) =>
        word.slice(0, at) + one + word.slice(at + 1),
  ),
  place.map(
    (at) => (word: string) =>
      word.slice(0, at) +
      word
        .slice(at, at + 2)
        .split('')
        .reverse()
        .join('') +
      word.slice(at + 2),
  ),
  fc.constant((word: string) => word.toUpperCase()),
  fc.constant((word: string) => word.replace('-', ' ')),
  fc.constant((word: string) => word.replace(/o/g, '0').replace(/l/g, '1')),
);
const spelled = fc
  .tuple(fc.constantFrom(...NAMES), fc.array(slip, { maxLength: 2 }))
  .map(([name, slips]) => slips.reduce((word, change) => change(word), name))
  .filter((word) => word.trim() !== '' && bare(word) !== '');

test('takes the one label that the table of distances allows, and refuses none or several', () => {
  const lists = fc.tuple(
    fc.uniqueArray(fc.constantFrom(...NAMES), { minLength: 2 }),
    fc.array(spelled, { minLength: 5, maxLength: 30 }),
  );
  fc.assert(
    fc.property(lists, ([list, labels]) => {
      const { rows } = evaluate(MATCHLABELS, [
        labels.map((label): Cell[] => [label]),
        list.map((one): Cell[] => [one]),
      ]);
      labels.forEach((label, at) => {
        const given = rows[at]![0]!;
        const allowed = candidates(label, list);
        const expected = allowed.length === 1 ? allowed[0] : allowed.length === 0 ? '#N/A' : '#VALUE!';
        expect([label, isCellError(given) ? given.code : given]).toEqual([label, expected]);
      });
    }),
    { numRuns: 200 },
  );
});

test('a label that is too far from every other is refused with the nearest', () => {
  const { rows } = evaluate(MATCHLABELS, [[['Frnbnk-7'], ['Sequoia']], NAMES.map((one): Cell[] => [one])]);
  const reasons = rows.map(([cell]) => (isCellError(cell) ? cell.reason : ''));
  expect(reasons[0]).toContain('"Fernbank-7"');
  expect(reasons[1]).toMatch(/^labels: "Sequoia" is not in list \(row 2 of the column\)$/);
});
