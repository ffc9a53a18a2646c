import { describe, expect, test } from '@jest/globals';
import { weekdayOf, writtenDate, writtenTime } from '../../src/worksheet/calendar';
import { shownCell } from '../../src/worksheet/cells/shown';
import type { Cell } from '../../src/worksheet/cells/cell';
import { weekdayOrDate } from '../../src/worksheet/loading/kinds';

test.each([
  // A Monday by the proleptic Gregorian calendar; 1904-01-01 was a Friday.
  { serial: 46055, system: 1900, weekday: 'Monday' },
  { serial: 61, system: 1900, weekday: 'Thursday' },
  { serial: 2958465, system: 1900, weekday: 'Friday' },
  { serial: 0, system: 1904, weekday: 'Friday' },
] as const)('day $serial of $system is a $weekday', ({ serial, system, weekday }) => {
  expect(weekdayOf(serial, system)).toBe(weekday);
});

test('the six days after a Monday have their names in turn', () => {
  const after = [1, 2, 3, 4, 5, 6].map((days) => weekdayOf(46055 + days, 1900));
  expect(after).toEqual(['Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']);
});

test.each([
  [46000.5, '2025-12-09 12:00'],
  // Half a second before midnight is the next day wherever it is written.
  [46000.999995, '2025-12-10 00:00'],
  [46000 + 1 / 1440, '2025-12-09 00:01'],
])('the time %p is written %s, in messages and on pages alike', (serial, written) => {
  expect(writtenTime(serial, 1900)).toBe(written);
  expect(shownCell(serial, 'dateTime')).toBe(written);
  expect(writtenDate(Math.floor(serial), 1900)).toBe('2025-12-09');
});

test('no day is shown where a sheet has none: up to 1900’s 29 February, which never was, and behind 9999', () => {
  expect([60, 61, 2_958_465, 2_958_466].map((serial) => shownCell(serial, 'date'))).toEqual([
    '60',
    '1900-03-01',
    '9999-12-31',
    '2958470',
  ]);
  expect([0, 60].map((serial) => shownCell(serial, 'date', 1904))).toEqual(['1904-01-01', '1904-03-01']);
});

describe('a day of a farm’s calendar', () => {
  const read = (word: Cell): unknown => weekdayOrDate().accept(word);

  test('is a weekday, by three letters or more in any case', () => {
    const days = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
    expect(days.map(read)).toEqual(days);
    expect(days.map((day) => read(` ${day.slice(0, 3).toUpperCase()}`))).toEqual(days);
    expect(['Mo', 'T', '', 'Tueday', 'Sonntag', null].map(read)).toEqual(new Array(6).fill(undefined));
  });

  test.each([
    ['weekend', ['Weekend', 'weekends']],
    ['work days', ['work days', 'Workdays', 'weekdays', 'work  day', 'workday', 'weekday']],
    ['every day', ['every day', 'everyday', 'Daily', 'all days']],
  ])('is %s in each of its ways', (days, ways) => {
    expect(ways.map(read)).toEqual(ways.map(() => days));
  });
});
