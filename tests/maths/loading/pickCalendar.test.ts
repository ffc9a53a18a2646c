import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { pickCalendar, picksByDay, type Load } from '../../../src/maths/loading/pickCalendar';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault } from '../expectFault';
import { pattern, patterns } from './patterns';

const loads = fc.array(
  fc.record({
    loaded: fc.integer({ min: 46000, max: 46040 }),
    blocks: fc.integer({ min: 1, max: 90 }),
    yieldPerBlock: fc.double({ min: 0.1, max: 2, noNaN: true }),
    curve: patterns.map(pickCurve),
    label: fc.constantFrom('a', 'b', 'c'),
  }),
  { minLength: 1, maxLength: 8 },
);

/** What is picked on a day, load by load: a second way to the same figure. */
const pickedOn = (all: readonly Load[], day: number): number =>
  all.reduce((sum, { loaded, blocks, yieldPerBlock, curve }) => {
    return sum + blocks * yieldPerBlock * (curve.shares[day - loaded] ?? 0);
  }, 0);

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('pickCalendar(loads, groupOf, from, to) gives the expected mass on each day', () => {
  // By hand: 50 blocks × 0.8 kg, 60% on days 7 to 10 and 40% on days 21 to 24; a second load two weeks later puts
  // its first flush on the first one's second.
  test('a second flush and a first one on the same days add up', () => {
    const curve = pickCurve(pattern({ flushGap: 14, flushes: 2, shares: [0.6, 0.4] }));
    const load = { blocks: 50, yieldPerBlock: 0.8, curve };
    const { from, total } = pickCalendar(
      [
        { ...load, loaded: 100 },
        { ...load, loaded: 114 },
      ],
      () => '',
    );
    expect(from).toBe(107);
    expect(total[0]).toBeCloseTo(6, 12);
    expect(total[14]).toBeCloseTo(4 + 6, 12);
    expect(total[28]).toBeCloseTo(4, 12);
    expect(sum(total)).toBeCloseTo(80, 10);
  });

  test('labels that differ only in letter case are one group, headed as first written', () => {
    const load = { loaded: 100, blocks: 1, yieldPerBlock: 4, curve: pickCurve(pattern()) };
    const given = ['Box', 'box', 'Crate', ' BOX '].map((label) => ({ ...load, label }));
    const { byGroup } = pickCalendar(given, ({ label }) => label);
    expect([...byGroup].map(([label, masses]) => [label, sum(masses)])).toEqual([
      ['Box', 12],
      ['Crate', 4],
    ]);
  });

  test('every day is the sum over loads, groups add up to the total, and the whole yield is there', () => {
    fc.assert(
      fc.property(loads, (given) => {
        const { from, total, byGroup } = pickCalendar(given, ({ label }) => label);
        total.forEach((mass, day) => {
          expect(mass).toBeCloseTo(pickedOn(given, from + day), 9);
          expect(sum([...byGroup.values()].map((group) => group[day]!))).toBeCloseTo(mass, 9);
        });
        const whole = sum(given.map(({ blocks, yieldPerBlock }) => blocks * yieldPerBlock));
        expect(sum(total)).toBeCloseTo(whole, 8);
        expect(total[0]).toBeGreaterThan(0);
        expect(total[total.length - 1]).toBeGreaterThan(0);
      }),
    );
  });

  test('a window shows the same days as the whole, and the order of loads does not matter', () => {
    fc.assert(
      fc.property(loads, fc.integer({ min: 45990, max: 46060 }), fc.nat(30), (given, from, length) => {
        const { total } = pickCalendar([...given].reverse(), () => '', from, from + length);
        expect(total).toHaveLength(length + 1);
        total.forEach((mass, day) => expect(mass).toBeCloseTo(pickedOn(given, from + day), 9));
      }),
    );
  });

  test('picksByDay(loads, groupOf, first, days) is the same table for days that are known, and takes no loads', () => {
    fc.assert(
      fc.property(loads, (given) => {
        const { from, total, byGroup } = pickCalendar(given, ({ label }) => label);
        expect(picksByDay(given, ({ label }) => label, from, total.length)).toEqual({ total, byGroup });
      }),
    );
    expect(picksByDay([], () => '', 100, 3)).toEqual({ total: [0, 0, 0], byGroup: new Map() });
  });

  test('a time of day does not move a load to another day', () => {
    const load = { loaded: 100.75, blocks: 1, yieldPerBlock: 1, curve: pickCurve(pattern()) };
    expect(pickCalendar([load], () => '').from).toBe(107);
  });

  test('refuses no loads, a window turned round and one of over ten years', () => {
    const load = { loaded: 100, blocks: 1, yieldPerBlock: 1, curve: pickCurve(pattern()) };
    expectFault(() => pickCalendar([], () => ''), ['loads', 'noLoads']);
    expectFault(
      () => pickCalendar([load], () => '', 46160, 46150),
      ['to', 'notBefore', { other: 'from', date: dateOf(46160), given: dateOf(46150) }],
    );
    expectFault(
      () => pickCalendar([load], () => '', 1, 3661),
      ['to', 'tooManyDays', { most: 3660, days: 3661 }],
    );
  });
});
