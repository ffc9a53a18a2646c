import { afterEach, beforeEach, describe, expect, jest, test } from '@jest/globals';
import { openWorkbook } from '../../src/hosts/engine/openWorkbook';
import { todayIn } from '../../src/hosts/fit/book';

// Where a host reads the clock, it reads the grower's own day: the last minute of a year is not yet the next, and a leap
// year has its 29th of February. Serials by hand from 46082, 1 March 2026: 730 days on is 29 February 2028, 305 days on
// 31 December 2026, 306 days behind a 29 February 31 December 2028.

beforeEach(() => {
  jest.useFakeTimers({
    doNotFake: ['nextTick', 'setImmediate', 'setTimeout', 'queueMicrotask', 'performance'],
  });
});
afterEach(() => {
  jest.useRealTimers();
});

describe.each([
  ['29 February 2028, 00:00', new Date(2028, 1, 29), 46812],
  ['29 February 2028, 23:59', new Date(2028, 1, 29, 23, 59), 46812 + 1439 / 1440],
  ['31 December 2026, 23:59', new Date(2026, 11, 31, 23, 59), 46387 + 1439 / 1440],
  ['31 December 2028, 23:59', new Date(2028, 11, 31, 23, 59), 47118 + 1439 / 1440],
])('on %s', (_when, now, moment) => {
  test.each([
    [1900, 0],
    [1904, 1462],
  ] as const)('a workbook that counts from %d has its day and its minute', async (dateSystem, less) => {
    jest.setSystemTime(now);
    expect(todayIn(dateSystem)).toBe(Math.floor(moment) - less);
    const cells = ['=TODAY()', '=NOW()', '=DAY(TODAY())', '=MONTH(NOW())', '=MINUTE(NOW())'];
    const workbook = await openWorkbook({
      dateSystem,
      sheets: [
        {
          name: 'Sheet',
          cells: cells.map((formula, row) => ({ address: `A${row + 1}`, value: null, formula })),
        },
      ],
    });
    const [today, time, ...parts] = cells.map((_, row) => workbook.result('Sheet', `A${row + 1}`).value);
    expect(today).toBe(Math.floor(moment) - less);
    expect(time).toBeCloseTo(moment - less, 6);
    expect(parts).toEqual([now.getDate(), now.getMonth() + 1, now.getMinutes()]);
  });
});
