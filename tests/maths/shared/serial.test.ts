import { describe, expect, test } from '@jest/globals';
import { isoWeekOf, serialOf, weekdayOf, writtenDate } from '../../../src/maths/shared/serial';

describe('serials and calendar words', () => {
  test.each([
    // ISO/IEC 29500-1, 18.17.4 (from memory, unverified): in the 1900 date system serial 1 is 1900-01-01 and 2958465 is 9999-12-31; in the 1904
    // system 0 is 1904-01-01 and 2957003 is 9999-12-31. From serial 61 on the 1900 system agrees with the calendar.
    { serial: 61, system: 1900, written: '1900-03-01', weekday: 'Thursday' },
    { serial: 2958465, system: 1900, written: '9999-12-31', weekday: 'Friday' },
    { serial: 0, system: 1904, written: '1904-01-01', weekday: 'Friday' },
    { serial: 2957003, system: 1904, written: '9999-12-31', weekday: 'Friday' },
    { serial: 46055.75, system: 1900, written: '2026-02-02', weekday: 'Monday' },
  ] as const)(
    '$serial in the $system system is $weekday $written',
    ({ serial, system, written, weekday }) => {
      expect([writtenDate(serial, system), weekdayOf(serial, system)]).toEqual([written, weekday]);
    },
  );

  test.each([
    // ISO 8601:2004, 3.2.2 and its well-known year ends: 2005-01-01 is in 2004-W53, 2008-12-29 in 2009-W01.
    { date: [2005, 1, 1], week: '2004-W53' },
    { date: [2008, 12, 29], week: '2009-W01' },
    { date: [2010, 1, 3], week: '2009-W53' },
    { date: [2026, 2, 2], week: '2026-W06' },
  ])('$date is in week $week', ({ date: [year, month, day], week }) => {
    expect(isoWeekOf(serialOf(year!, month!, day!), 1900)).toBe(week);
  });

  test('the same day in both systems is 1462 apart', () => {
    expect(serialOf(2026, 2, 2, 1900) - serialOf(2026, 2, 2, 1904)).toBe(1462);
  });
});
