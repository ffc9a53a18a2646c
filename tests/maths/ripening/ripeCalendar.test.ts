import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  ripeCalendar,
  type BlocksLoaded,
  type CalendarSpan,
  type RipeningLot,
  type RipeStep,
} from '../../../src/maths/ripening/ripeCalendar';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

const lot = (
  name: string,
  blocks: number,
  earliest: number,
  latest?: number,
  loaded?: number,
): RipeningLot => ({
  lot: name,
  strain: 'Alder-3',
  blocks,
  earliestSerial: 46000 + earliest,
  latestSerial: latest === undefined ? undefined : 46000 + latest,
  loadedSerial: loaded === undefined ? undefined : 46000 + loaded,
});
const load = (day: number, blocks: number, of: { lot?: string; strain?: string }): BlocksLoaded => ({
  loadedSerial: 46000 + day,
  blocks,
  lot: of.lot,
  strain: of.strain,
});
const days = (from: number, to: number, stepDays: 1 | 7 = 1): Parameters<typeof ripeCalendar>[2] => ({
  fromSerial: 46000 + from,
  toSerial: 46000 + to,
  stepDays,
});
const told = (steps: readonly RipeStep[]): number[][] =>
  steps.map(({ fromSerial, comingReady, loaded, goingOverAge, inHand }) => [
    fromSerial - 46000,
    comingReady,
    loaded,
    goingOverAge,
    inHand,
  ]);

describe('ripeCalendar(lots, loads, span) counts blocks coming ready, loaded, going over age and in hand', () => {
  test('by hand: two lots, one loaded in part, its rest over age', () => {
    const lots = [lot('L1', 40, 2, 5), lot('L2', 30, 4)];
    expect(told(ripeCalendar(lots, [load(3, 25, { lot: 'l1 ' })], days(1, 6)))).toEqual([
      [1, 0, 0, 0, 0],
      [2, 40, 0, 0, 40],
      [3, 0, 25, 0, 15],
      [4, 30, 0, 0, 45],
      [5, 0, 0, 15, 30],
      [6, 0, 0, 0, 30],
    ]);
  });

  test('what happened before the first day is in hand as it begins', () => {
    const lots = [lot('L1', 40, 2, 5), lot('L2', 30, 4)];
    const loads = [load(3, 25, { lot: 'L1' })];
    expect(told(ripeCalendar(lots, loads, days(5, 6)))).toEqual(
      told(ripeCalendar(lots, loads, days(1, 6))).slice(4),
    );
  });

  test('a load of a strain takes what goes over age first', () => {
    const lots = [lot('L1', 40, 1, 9), lot('L2', 30, 1, 4)];
    expect(told(ripeCalendar(lots, [load(2, 35, { strain: 'alder-3' })], days(1, 9))).at(-1)).toEqual([
      9, 0, 0, 35, 0,
    ]);
  });

  test('a lot loaded by its own row goes as a whole, less what loads took', () => {
    const lots = [lot('L1', 40, 1, 9, 3)];
    expect(told(ripeCalendar(lots, [load(2, 10, { lot: 'L1' })], days(1, 4)))).toEqual([
      [1, 40, 0, 0, 40],
      [2, 0, 10, 0, 30],
      [3, 0, 30, 0, 0],
      [4, 0, 0, 0, 0],
    ]);
  });

  test('blocks loaded before they are due count as coming ready that day; after their last day they had gone', () => {
    expect(told(ripeCalendar([lot('L1', 40, 3)], [load(2, 10, { lot: 'L1' })], days(2, 3)))).toEqual([
      [2, 10, 10, 0, 0],
      [3, 30, 0, 0, 30],
    ]);
    expect(told(ripeCalendar([lot('L1', 40, 1, 2)], [load(3, 10, { lot: 'L1' })], days(1, 3)))).toEqual([
      [1, 40, 0, 0, 40],
      [2, 0, 0, 40, 0],
      [3, 0, 0, 0, 0],
    ]);
  });

  test('tells the blocks that were loaded after their latest day, which are in no other figure', () => {
    const rows = ripeCalendar([lot('L1', 40, 1, 2)], [load(3, 15, { lot: 'L1' })], days(1, 4));
    expect(told(rows)).toEqual([
      [1, 40, 0, 0, 40],
      [2, 0, 0, 40, 0],
      [3, 0, 0, 0, 0],
      [4, 0, 0, 0, 0],
    ]);
    expect(rows.map(({ loadedOverAge }) => loadedOverAge)).toEqual([0, 0, 15, 0]);
  });

  test('lists strains by name under each date', () => {
    const lots = [{ ...lot('L1', 5, 1), strain: 'Birch-1' }, lot('L2', 7, 1)];
    const rows = ripeCalendar(lots, [], days(1, 2));
    expect(rows.map(({ strain, inHand }) => [strain, inHand])).toEqual([
      ['Alder-3', 7],
      ['Birch-1', 5],
      ['Alder-3', 7],
      ['Birch-1', 5],
    ]);
  });

  test('a strain written in several ways is headed by the first of them in the alphabet, in any order', () => {
    const lots = [
      { ...lot('L1', 5, 1), strain: 'Alder-3' },
      { ...lot('L2', 7, 1), strain: 'alder-3 ' },
    ];
    const told = (given: RipeningLot[]) =>
      ripeCalendar(given, [], days(1, 1)).map(({ strain, inHand }) => [strain, inHand]);
    expect(told(lots)).toEqual([['Alder-3', 12]]);
    expect(told([...lots].reverse())).toEqual([['Alder-3', 12]]);
  });

  const farms = fc.record({
    lots: fc.array(
      fc.tuple(
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: -20, max: 40 }),
        fc.nat({ max: 20 }),
        fc.boolean(),
      ),
      { minLength: 1, maxLength: 12 },
    ),
    takes: fc.array(fc.tuple(fc.nat(), fc.integer({ min: -20, max: 50 }), fc.integer({ min: 1, max: 9 })), {
      maxLength: 20,
    }),
  });
  /** Lots and loads of them that never take more than there is. */
  function farmOf({ lots, takes }: typeof farms extends fc.Arbitrary<infer T> ? T : never): {
    lots: RipeningLot[];
    loads: BlocksLoaded[];
  } {
    const left = lots.map(([blocks]) => blocks);
    const loads = takes.flatMap(([pick, day, some]) => {
      const i = pick % lots.length;
      const blocks = Math.min(some, left[i]!);
      left[i]! -= blocks;
      return blocks > 0 ? [load(day, blocks, { lot: `L${i}` })] : [];
    });
    return {
      lots: lots.map(([blocks, first, stays, ages], i) =>
        lot(`L${i}`, blocks, first, ages ? first + stays : undefined),
      ),
      loads,
    };
  }

  test('in hand is what was in hand, plus coming, less loaded, less over age, and never below 0', () => {
    fc.assert(
      fc.property(farms, (farm) => {
        const { lots, loads } = farmOf(farm);
        const rows = ripeCalendar(lots, loads, days(-30, 60));
        let before = 0;
        for (const { comingReady, loaded, goingOverAge, inHand } of rows) {
          expect(inHand).toBe(before + comingReady - loaded - goingOverAge);
          expect(Math.min(comingReady, loaded, goingOverAge, inHand)).toBeGreaterThanOrEqual(0);
          before = inHand;
        }
        // Over the whole span every block comes ready once.
        const sum = (of: (row: RipeStep) => number): number =>
          rows.reduce((total, row) => total + of(row), 0);
        expect(sum((row) => row.comingReady)).toBe(lots.reduce((total, { blocks }) => total + blocks, 0));
      }),
    );
  });

  // An independent method: each day, each block by itself.
  test('agrees with following every lot through every day', () => {
    fc.assert(
      fc.property(farms, (farm) => {
        const { lots, loads } = farmOf(farm);
        const rows = ripeCalendar(lots, loads, days(-30, 60));
        const inHand = rows.map(({ fromSerial }) =>
          lots.reduce((sum, { lot: name, blocks, earliestSerial, latestSerial }) => {
            if (earliestSerial > fromSerial || (latestSerial ?? Infinity) <= fromSerial) return sum;
            const gone = loads
              .filter((one) => one.lot === name && one.loadedSerial <= fromSerial)
              .reduce((total, one) => total + one.blocks, 0);
            return sum + blocks - gone;
          }, 0),
        );
        expect(rows.map((row) => row.inHand)).toEqual(inHand);
      }),
    );
  });

  test('weeks add up their days, and the order of the rows does not matter', () => {
    fc.assert(
      fc.property(farms, (farm) => {
        const { lots, loads } = farmOf(farm);
        const byDay = ripeCalendar(lots, loads, days(0, 27));
        const byWeek = ripeCalendar([...lots].reverse(), [...loads].reverse(), days(0, 27, 7));
        expect(byWeek).toHaveLength(4);
        byWeek.forEach((week, i) => {
          const seven = byDay.slice(7 * i, 7 * i + 7);
          expect(week.comingReady).toBe(seven.reduce((sum, day) => sum + day.comingReady, 0));
          expect(week.goingOverAge).toBe(seven.reduce((sum, day) => sum + day.goingOverAge, 0));
          expect(week.inHand).toBe(seven.at(-1)!.inHand);
        });
      }),
    );
  });

  test.each<[string, RipeningLot[], BlocksLoaded[], CalendarSpan, Refusal]>([
    [
      'to before from',
      [],
      [],
      days(5, 4),
      ['to', 'notBefore', { other: 'from', date: dateOf(46005), given: dateOf(46004) }],
    ],
    [
      'eleven years',
      [],
      [],
      days(0, 4000),
      ['to', 'outside', { to: dateOf(46000 + 3659), given: dateOf(50000) }],
    ],
    ['no date', [], [], { ...days(0, 4), fromSerial: NaN }, ['from', 'outside', { above: 0, given: NaN }]],
    [
      'half a block',
      [{ ...lot('L1', 1.5, 1), at: 7 }],
      [],
      days(0, 4),
      ['lots, blocks', 'outside', { from: 0, whole: true, given: 1.5 }, { at: 7 }],
    ],
    [
      'a lot ready after the calendar',
      [lot('L1', 1, 1e7)],
      [],
      days(0, 4),
      ['lots, earliest', 'pastCalendar', { given: dateOf(10046000) }],
    ],
    [
      'latest before earliest',
      [lot('L0', 1, 5), { ...lot('L1', 1, 5, 3), at: 3 }],
      [],
      days(0, 4),
      [
        'lots, latest',
        'notBefore',
        { other: 'earliest', date: dateOf(46005), given: dateOf(46003) },
        { at: 3 },
      ],
    ],
    [
      'an unknown lot',
      [lot('L1', 5, 1)],
      [load(1, 2, { lot: 'L9' })],
      days(0, 4),
      ['loads, lot', 'noDatedLot', { label: 'L9' }, { at: 2 }],
    ],
    [
      'a lot that is written in another way',
      [lot('L-10', 5, 1)],
      [load(1, 2, { lot: 'L 10' })],
      days(0, 4),
      ['loads, lot', 'noDatedLot', { label: 'L 10', nearest: 'L-10' }, { at: 2 }],
    ],
    [
      'a strain of no lot',
      [lot('L1', 5, 1)],
      [load(1, 2, { strain: 'Alder 3' })],
      days(0, 4),
      ['loads, strain', 'notIn', { label: 'Alder 3', table: 'lots', nearest: 'Alder-3' }, { at: 2 }],
    ],
    [
      'a load whose strain is not that of its lot',
      [lot('L1', 5, 1)],
      [load(1, 2, { lot: 'L1', strain: 'Birch-1' })],
      days(0, 4),
      ['loads, strain', 'otherStrain', { lot: 'L1', strain: 'Alder-3', given: 'Birch-1' }, { at: 2 }],
    ],
    [
      'two strains that look like one',
      [lot('L1', 5, 1), { ...lot('L2', 5, 1), strain: 'Alder 3', at: 3 }],
      [],
      days(0, 4),
      ['lots, strain', 'strainsAlike', { strains: ['Alder-3', 'Alder 3'] }, { at: 3 }],
    ],
    [
      'a lot in two rows',
      [lot('L1', 5, 1), lot('l1', 5, 1)],
      [load(1, 2, { lot: 'L1' })],
      days(0, 4),
      ['loads, lot', 'severalLots', { label: 'L1' }, { at: 2 }],
    ],
    [
      'more than a lot has',
      [lot('L1', 5, 1)],
      [load(1, 6, { lot: 'L1' })],
      days(0, 4),
      [
        'loads, blocks',
        'moreThanLeft',
        { left: 5, of: 'L1', isStrain: false, date: dateOf(46001), given: 6 },
        { at: 2 },
      ],
    ],
    [
      'more than a strain has ready',
      [lot('L1', 5, 3)],
      [load(1, 2, { strain: 'Alder-3' })],
      days(0, 4),
      [
        'loads, blocks',
        'moreThanLeft',
        { left: 0, of: 'Alder-3', isStrain: true, date: dateOf(46001), given: 2 },
        { at: 2 },
      ],
    ],
    [
      'neither lot nor strain',
      [lot('L1', 5, 3)],
      [load(1, 2, {})],
      days(0, 4),
      ['loads', 'loadOfNothing', {}, { at: 2 }],
    ],
  ])('refuses %s', (_what, lots, loads, span, refusal) => {
    const placed = loads.map((each) => ({ ...each, at: 2 }));
    expectFault(() => ripeCalendar(lots, placed, span), refusal);
  });
});
