import { describe, expect, test } from '@jest/globals';
import {
  daysSinceLoading,
  orderOfDays,
  setPointColumns,
  type ProgrammeRow,
  type SetPoint,
} from '../../../src/maths/climate/programme';
import { dateOf, timeOf } from '../../../src/maths/shared/fault';
import { expectFault } from '../expectFault';

const row = (at: number, day: number, points: Record<string, SetPoint | undefined>): ProgrammeRow => ({
  at,
  day,
  points: new Map(Object.entries(points)),
});

describe('setPointColumns(rows) gives the set points by name', () => {
  test('in the order of the rows, blanks kept', () => {
    const rows = [row(2, 4, { warmth: 16, light: 'on' }), row(3, 0, { warmth: 18, light: undefined })];
    expect([...setPointColumns(rows)]).toEqual([
      ['warmth', [16, 18]],
      ['light', ['on', undefined]],
    ]);
  });

  test('refuses a word among numbers, and a number among words, and names the row', () => {
    const warmth = [row(2, 0, { warmth: 18 }), row(5, 4, { warmth: '16' })];
    const light = [row(2, 0, { light: undefined }), row(3, 4, { light: 'on' }), row(4, 8, { light: 1 })];
    expectFault(
      () => setPointColumns(warmth),
      ['programme, warmth', 'mixedSetPoints', { given: '16' }, { at: 5 }],
    );
    expectFault(
      () => setPointColumns(light),
      ['programme, light', 'mixedSetPoints', { given: 1 }, { at: 4 }],
    );
  });

  test('never takes a blank among numbers for 0: it is refused, and the word none says 0', () => {
    const fog = [row(2, 0, { fog: undefined }), row(3, 4, { fog: 5 })];
    expectFault(() => setPointColumns(fog), ['programme, fog', 'blankSetPoint', {}, { at: 2 }]);
    const none = [row(2, 0, { fog: ' None' }), row(3, 4, { fog: 5 })];
    expect([...setPointColumns(none)]).toEqual([['fog', [0, 5]]]);
    const words = [row(2, 0, { fog: 'none' }), row(3, 4, { fog: 'on' })];
    expect([...setPointColumns(words)]).toEqual([['fog', ['none', 'on']]]);
  });

  test('refuses a programme without a row', () => {
    expectFault(() => setPointColumns([]), ['programme', 'noProgrammeDay']);
  });
});

describe('orderOfDays(rows) gives the rows by day', () => {
  test('as places in the list', () => {
    expect(orderOfDays([{ day: 12 }, { day: 0 }, { day: 4 }])).toEqual([1, 2, 0]);
  });

  test('refuses a day that is in two rows, and names the second', () => {
    const rows = [
      { at: 2, day: 4 },
      { at: 3, day: 0 },
      { at: 4, day: 4 },
    ];
    expectFault(() => orderOfDays(rows), ['programme, day', 'dayTwice', { day: 4 }, { at: 4 }]);
  });
});

describe('daysSinceLoading(onSerial, loadedSerial) counts the days', () => {
  test('with the time of day in the fraction', () => {
    expect(daysSinceLoading(46_008.5, 46_000.25)).toBe(8.25);
    expect(daysSinceLoading(46_000, 46_000)).toBe(0);
  });

  test('refuses a date before the loading, and tells the time of day where that decides', () => {
    expectFault(
      () => daysSinceLoading(46_000, 46_008, 3),
      ['on', 'notBefore', { other: 'loaded', date: dateOf(46_008), given: dateOf(46_000) }, { index: 3 }],
    );
    expectFault(
      () => daysSinceLoading(46_000.25, 46_000.5),
      ['on', 'notBefore', { other: 'loaded', date: timeOf(46_000.5), given: timeOf(46_000.25) }],
    );
  });
});
