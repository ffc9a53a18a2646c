import { describe, expect, test } from '@jest/globals';
import { agreesWith } from '../../../src/maths/audit/massExplanations';
import { USUAL_SETTINGS, yieldAudit } from '../../../src/maths/audit/yieldAudit';
import type { Finding, LotRecord, PickRecord, StrainFacts } from '../../../src/maths/audit/yieldRecords';
import { audited } from './books/audits';
import { bagFarm, shelfFarm, type Book } from './books/farms';
import { plantTare } from './books/slips';

// What a grower gets where a cell cannot be read, a lot is not known, or more was picked than loaded.

const strains = new Map<string, StrainFacts>([
  ['dusk', { earliest: undefined, firstPick: 7, pickDays: 3, flushGap: 12, flushes: 2, efficiency: 0.7 }],
]);
const LOADED = 46_000;
const PICKS = [
  [7, 8, 1],
  [8, 9, 1],
  [9, 7, 1],
  [19, 5, 2],
  [20, 4, 2],
] as const;
const lots = ['D-1', 'D-2', 'D-3'].map((lot, i): LotRecord => ({
  row: i + 2,
  lot,
  strain: 'Dusk',
  blocks: 30,
  blockMass: 2.5,
  moisture: 0.6,
  inoculated: undefined,
  loaded: LOADED + 4 * i,
  total: undefined,
}));
const picks = lots.flatMap(({ lot, loaded }, at) =>
  PICKS.map(([day, mass, flush], nth): PickRecord => ({
    row: PICKS.length * at + nth + 2,
    lot,
    date: Number(loaded) + day,
    mass: mass + 0.2 * at,
    flush,
    blocks: 30,
    picker: '',
    scale: '',
    grade: '',
    crate: '',
  })),
);
const told = (
  pickChanges: Readonly<Record<number, Partial<PickRecord>>>,
  first: Partial<LotRecord> = {},
): Finding[] =>
  yieldAudit(
    picks.map((pick) => ({ ...pick, ...pickChanges[pick.row] })),
    lots.map((lot) => (lot.row === 2 ? { ...lot, ...first } : lot)),
    strains,
    { ...USUAL_SETTINGS, unit: 'kg' },
  );

describe('yieldAudit of books written by hand', () => {
  test('finds nothing in the book as it is', () => {
    expect(told({})).toEqual([]);
  });

  test('tells what is equally sure in the order of rows, whatever is wrong with them', () => {
    const findings = told({
      3: { lot: 'Q-9' },
      6: { mass: 'heavy' },
      9: { lot: 'R-8' },
      12: { mass: '7,4' },
    });
    expect(findings.map(({ row, sure }) => [row, sure])).toEqual([3, 6, 9, 12].map((row) => [row, 1]));
  });

  test.each<[string, Record<number, Partial<PickRecord>>, string, number[][]]>([
    ['one spelling, two rows', { 3: { lot: 'D1' }, 5: { lot: 'D1' } }, 'lot spelling', [[3, 5]]],
    [
      'a lot that is not there, two rows',
      { 3: { lot: 'Q-9' }, 5: { lot: 'Q-9' } },
      'lot unknown',
      [[3], [5]],
    ],
    [
      'a lot that is not there, three rows',
      { 3: { lot: 'Q-9' }, 5: { lot: 'Q-9' }, 6: { lot: 'Q-9' } },
      'lot unknown',
      [[3, 5, 6]],
    ],
  ])('lines for a label: %s', (_what, changes, cause, rows) => {
    const findings = told(changes).filter((finding) => finding.cause === cause);
    expect(findings.map((finding) => finding.rows)).toEqual(rows);
  });

  test.each<[string, number[], [string, number, number | string, number | undefined][]]>([
    ['one pick of five', [3], [['harvests', 3, 40, 30]]],
    [
      'two of five',
      [3, 5],
      [
        ['harvests', 3, 40, 30],
        ['harvests', 5, 40, 30],
      ],
    ],
    ['three of five: the lot’s own number is told', [2, 3, 5], [['lots', 2, 30, 40]]],
  ])('more blocks picked than loaded in %s', (_what, rows, wanted) => {
    const findings = told(Object.fromEntries(rows.map((row) => [row, { blocks: 40 }])));
    expect(findings.map(({ table, row, value, expected }) => [table, row, value, expected])).toEqual(wanted);
  });

  // The first lot's picks weigh 8 + 9 + 7 + 5 + 4 = 33.
  test.each<[string, Record<number, Partial<PickRecord>>, number | undefined, (number | undefined)[]]>([
    ['one mass that cannot be read', { 4: { mass: 'n' } }, 33, [7]],
    ['one, and no total', { 4: { mass: 'n' } }, undefined, [undefined]],
    ['two', { 4: { mass: 'n' }, 5: { mass: 'n' } }, 33, [undefined, undefined]],
    ['one, and a total below the others', { 4: { mass: 'n' } }, 20, [undefined]],
  ])('a lot’s total says what was expected: %s', (_what, changes, total, wanted) => {
    const findings = told(changes, { total }).filter(({ column }) => column === 'mass');
    expect(findings.map(({ expected }) => expected)).toEqual(wanted);
  });
});

// Half of the last digit, 0.2%, and 0.005 for each row.
test.each([
  ['a whole total', 1000, 1002.4, 5, true], // 0.5 + 2 + 0.025 = 2.525
  ['and a sum farther off', 1000, 1002.6, 5, false],
  ['a total of tenths', 10.5, 10.55, 1, true], // 0.05 + 0.021 + 0.005 = 0.076
  ['and a sum farther off', 10.5, 10.58, 1, false],
  ['of many rows', 10.5, 10.58, 2, true], // 0.081
])('a total agrees with its picks within its rounding: %s', (_what, total, sum, rows, agrees) => {
  expect(agreesWith(total, sum, rows)).toBe(agrees);
  expect(agreesWith(total, 2 * total - sum, rows)).toBe(agrees);
});

describe('yieldAudit of masses that are off together', () => {
  test('a day in kilograms in a book of pounds is told as one, though it is too light', () => {
    const clean = bagFarm(0.25, 4711);
    const days = new Map<number, number>();
    for (const { date } of clean.picks) days.set(date as number, (days.get(date as number) ?? 0) + 1);
    const [day, many] = [...days].sort((a, b) => b[1] - a[1])[0]!;
    expect(many).toBeGreaterThan(8);
    const book: Book = {
      ...clean,
      picks: clean.picks.map((pick) =>
        pick.date === day ? { ...pick, mass: Number((Number(pick.mass) * 0.45359237).toFixed(2)) } : pick,
      ),
    };
    const groups = audited(book).filter(({ cause }) => cause === 'group');
    expect(groups).toMatchObject([{ slip: 'kilograms' }]);
    expect(groups[0]!.rows.length).toBeGreaterThan(0.9 * many);
  });

  test('days that are honestly good and bad are none', () => {
    const clean = shelfFarm(0.25, 4712);
    // Every third day all picks are a third above, the day after a third below.
    const factor = (day: number): number => [1.33, 0.67, 1][day % 3]!;
    const book: Book = {
      ...clean,
      picks: clean.picks.map((pick) => ({
        ...pick,
        mass: Number((Number(pick.mass) * factor(Number(pick.date))).toFixed(2)),
      })),
    };
    expect(audited(book).filter(({ cause }) => cause === 'group')).toEqual([]);
  });

  test('the crate that a picker never takes off is told with the first of the picker’s masses', () => {
    const { book, slips } = plantTare(shelfFarm(0.35, 77), 3);
    const [group] = audited(book).filter(({ cause, slip }) => cause === 'group' && slip === 'crate');
    const row = Math.min(...slips[0]!.rows);
    expect(group).toMatchObject({ row, value: book.picks.find((pick) => pick.row === row)!.mass });
    expect(group!.expected).toBeCloseTo(Number(group!.value) - group!.added!, 9);
  });
});
