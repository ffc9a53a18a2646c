import { describe, expect, test } from '@jest/globals';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { pickDate, type FlushSchedule } from '../../../src/maths/loading/pickDate';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';
import { pattern } from './patterns';

const times = { firstPick: 7, flushGap: 18, flushes: 3 };

describe('pickDate(loadedSerial, times, flush) gives the first pick of a flush', () => {
  test.each([
    // Seven days from opening to the first pick: common practice for shiitake, no source.
    { flush: 1, wanted: 46146 + 7 },
    { flush: 2, wanted: 46146 + 7 + 18 },
    { flush: 3, wanted: 46146 + 7 + 36 },
  ])('flush $flush', ({ flush, wanted }) => {
    expect(pickDate(46146, times, flush)).toBe(wanted);
  });

  // By hand: 7.5 days are 8, 7.5 + 18.25 = 25.75 are 26. A pick calendar puts the picking on the same days.
  test.each([1, 2])('days that are not whole give the day that the pick curve gives, flush %p', (flush) => {
    const strain = { firstPick: 7.5, flushGap: 18.25, flushes: 2 };
    const { shares } = pickCurve(pattern({ ...strain, pickDays: 1, shares: [0.6, 0.4] }));
    const day = shares.indexOf(flush === 1 ? 0.6 : 0.4);
    expect(pickDate(46146.4, strain, flush)).toBe(46146 + day);
    expect(day).toBe(flush === 1 ? 8 : 26);
  });

  test('needs no flush gap for the first flush', () => {
    expect(pickDate(46146, { ...times, flushGap: undefined }, 1)).toBe(46153);
  });

  test.each<[number, FlushSchedule, number, Refusal]>([
    [0, times, 1, ['loaded', 'outside', { above: 0, given: 0 }]],
    [46146, { ...times, firstPick: 0 }, 1, ['first pick', 'outside', { above: 0, given: 0 }]],
    [46146, times, 1.5, ['flush', 'outside', { from: 1, whole: true, given: 1.5 }]],
    [
      46146,
      times,
      4,
      ['flush', 'outside', { to: 3, given: 4, what: 'the flushes the strain is kept for in strains' }],
    ],
    [
      46146,
      { ...times, flushGap: undefined },
      2,
      ['flush', 'blank', { header: 'flush gap', table: 'strains' }],
    ],
    [2958465, times, 1, ['loaded', 'pastCalendar', { given: dateOf(2958465) }]],
  ])('refuses (%p, %p, %p)', (loaded, given, flush, refusal) => {
    expectFault(() => pickDate(loaded, given, flush), refusal);
  });
});
