import { describe, expect, test } from '@jest/globals';
import { flushDays } from '../../../src/maths/audit/flushDays';
import { FlushPresence } from '../../../src/maths/audit/flushPresence';
import { FlushStarts } from '../../../src/maths/audit/flushStarts';
import { knownBook, type KnownBook, type KnownLot } from '../../../src/maths/audit/knownBook';
import { LabelSlips } from '../../../src/maths/audit/labelSlips';
import { factorOf, fitEffects } from '../../../src/maths/audit/massEffects';
import { massModel } from '../../../src/maths/audit/massModel';
import { PickingDays } from '../../../src/maths/audit/pickingDays';
import { FigureOrder, LotOrder } from '../../../src/maths/audit/rowOrder';
import { JudgedPick } from '../../../src/maths/audit/judgedPick';
import { massSlipsOf } from '../../../src/maths/audit/massSlips';
import { learntRates } from '../../../src/maths/audit/slipRates';
import type { LotRecord, PickRecord, StrainFacts } from '../../../src/maths/audit/yieldRecords';

// What the audit takes to be usual in a book, each on a book of a few rows. Nothing here was measured.

const strains = new Map<string, StrainFacts>([
  ['dusk', { earliest: undefined, firstPick: 7, pickDays: 3, flushGap: 12, flushes: 2, efficiency: 0.7 }],
]);
type Pick = readonly [lot: string, date: number, mass?: number, flush?: number, grade?: string];

function bookOf(lots: Readonly<Record<string, number>>, picks: readonly Pick[]): KnownBook {
  return knownBook(
    picks.map(([lot, date, mass = 5, flush = 1, grade = ''], i): PickRecord => ({
      row: i + 2,
      lot,
      date,
      mass,
      flush,
      blocks: undefined,
      picker: '',
      scale: '',
      grade,
      crate: '',
    })),
    Object.entries(lots).map(([lot, loaded], i): LotRecord => ({
      row: i + 2,
      lot,
      strain: 'Dusk',
      blocks: 20,
      blockMass: 2.5,
      moisture: 0.6,
      inoculated: undefined,
      loaded,
      total: undefined,
    })),
    strains,
  );
}
const lotOf = (book: KnownBook, label: string): KnownLot => book.lots.get(label.toLowerCase())!;

describe('LabelSlips: labels that one slip of the fingers makes of each other', () => {
  test.each([
    ['one character changed', 'D-104', 'D-174', true],
    ['one left out', 'D-104', 'D-14', true],
    ['one too many', 'D-104', 'D-1044', true],
    ['two neighbours swapped', 'D-104', 'D-140', true],
    ['two characters changed', 'D-104', 'D-193', false],
    ['one changed and one too many', 'D-14', 'D-203', false],
    ['two that are no neighbours swapped', 'D-104', 'D-401', false],
    ['the same', 'D-104', 'd-104', false],
  ])('%s', (_what, known, typed, isOne) => {
    const slips = new LabelSlips([known], (label) => label);
    expect(slips.oneSlipFrom(typed)).toEqual(isOne ? [known] : []);
  });
});

describe('rows in their order', () => {
  test.each([
    ['upwards', [1, 2, 9, 3, 4, 5, 6, 7, 8, 9], [false, false, true, false, false]],
    ['downwards', [9, 8, 1, 7, 6, 5, 4, 3, 2, 1], [false, false, true, false, false]],
  ])('a day that is out of it puts none of its neighbours out: %s', (_what, days, out) => {
    const order = new FigureOrder(days);
    expect(out.map((_one, at) => order.of(at).isOut)).toEqual(out);
  });

  test('two rows of one lot on one day are in the order of lots, and a lot out of it is not', () => {
    const book = bookOf({ A: 46_000, B: 46_000, C: 46_000 }, [
      ['A', 46_010],
      ['A', 46_010],
      ['B', 46_010],
      ['C', 46_010],
      ['A', 46_011],
      ['C', 46_011],
      ['B', 46_011],
      ['B', 46_011],
      ['A', 46_012],
      ['B', 46_012],
      ['C', 46_012],
      ['C', 46_012],
    ]);
    const order = new LotOrder(book);
    const isOut = book.picks.map((pick) => order.of(pick).isOut);
    expect(isOut.slice(0, 4)).toEqual([false, false, false, false]);
    expect(isOut[5]).toBe(true);
  });
});

describe('what a book shows of its days', () => {
  test('a pick of a year later does not make every lot one that is over', () => {
    const lots = { old: 46_000, young: 46_060 };
    const picks: Pick[] = [
      ['old', 46_007],
      ['old', 46_019, 5, 2],
      ['young', 46_067],
    ];
    // Two flushes end about day 7 + 12 + 3 after the load; 15 days later a lot is over.
    const isOver = (more: readonly Pick[], lot: string): boolean => {
      const book = bookOf(lots, [...picks, ...more]);
      return new FlushPresence(book).isOver(lotOf(book, lot));
    };
    expect(isOver([], 'old')).toBe(true);
    expect(isOver([], 'young')).toBe(false);
    expect(isOver([['young', 46_067 + 365]], 'young')).toBe(false);
    expect(isOver([['old', 46_007 + 365]], 'young')).toBe(false);
  });

  test('flushes begin where the strain’s lots show it, the table counting as two of them', () => {
    const lots = Object.fromEntries(Array.from({ length: 6 }, (_, i) => [`L${i}`, 46_000 + 5 * i]));
    const book = bookOf(
      lots,
      Object.entries(lots).map(([lot, loaded]) => [lot, loaded + 10] as const),
    );
    const starts = new FlushStarts(new PickingDays(book), [...book.lots.values()], ({ picks }) =>
      flushDays(picks),
    );
    // (2 × 7 + 6 × 10) / 8; of the second flush only the table speaks.
    expect(starts.fromLoad(lotOf(book, 'L0'), 1)).toBeCloseTo(9.25, 9);
    expect(starts.fromLoad(lotOf(book, 'L0'), 2)).toBeCloseTo(19, 9);
  });
});

describe('what a book shows of its masses', () => {
  test('fitEffects asks every one of up to 600 in a group', () => {
    // In the second group every third value is 10: its median is 0.
    const values = Float64Array.from({ length: 1200 }, (_, i) => (i < 600 ? 1 : i % 3 === 0 ? 10 : 0));
    const [effects] = fitEffects(values, [factorOf(1200, (i) => (i < 600 ? 'a' : 'b'), 0)]);
    expect([...effects!]).toEqual([1, 0]);
  });

  test.each([
    ['are large and small together', [0, 1, 2, 3, 4, 5], 0.4, 1],
    ['have nothing to do with each other', [3, 0, 5, 1, 4, 2], -1, 0.2],
  ])('two grades of a lot and day that %s', (_what, second, least, most) => {
    const size = (step: number): number => 5 * 1.25 ** (step - 2.5);
    const lots = Object.fromEntries(Array.from({ length: 12 }, (_, i) => [`L${i}`, 46_000 + 3 * i]));
    const picks = Object.entries(lots).flatMap(([lot, loaded], n) =>
      [0, 1, 2, 3, 4, 5].flatMap((day): Pick[] => [
        [lot, loaded + 7 + day, size((day * 5 + n) % 6), 1, 'A'],
        [lot, loaded + 7 + day, size(second[(day * 5 + n) % 6]!) / 3, 1, 'B'],
      ]),
    );
    const { day } = massModel(bookOf(lots, picks)).spreads;
    expect(day).toBeGreaterThanOrEqual(Math.max(0, least));
    expect(day).toBeLessThanOrEqual(most);
  });

  test('a book of masses that lie anywhere has many odd ones, and one of slips has many of these', () => {
    const slips = massSlipsOf('kg');
    const book = bookOf({ A: 46_000 }, [['A', 46_010]]);
    const one = new JudgedPick(book.picks[0]!, 0);
    one.spread = 0.3;
    const ratesOf = (odd: number, slipped: number) =>
      learntRates(
        Array.from({ length: 30 }, () => ({
          one,
          right: 0,
          others: [
            { weight: Math.log(odd), of: 'odd' as const },
            { weight: Math.log(slipped), of: slips[0]! },
          ],
        })),
        Array.from({ length: 300 }, () => one),
        slips,
      );
    const [odd, slipped] = [ratesOf(1000, 0.001), ratesOf(0.001, 1000)];
    expect(odd.odd).toBeGreaterThan(2);
    expect(slipped.odd).toBeLessThan(0);
    expect(odd.slips).toBeLessThan(slipped.slips - 1);
  });
});
