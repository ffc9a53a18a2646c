import { describe, expect, test } from '@jest/globals';
import { serialOf, writtenDate } from '../../../src/maths/shared/serial';

describe('serials and calendar days', () => {
  test.each([
    // ISO/IEC 29500-1, 18.17.4 (from memory, unverified): in the 1900 date system serial 1 is 1900-01-01 and 2958465 is
    // 9999-12-31; in the 1904 system 0 is 1904-01-01 and 2957003 is 9999-12-31. From serial 61 on the 1900 system agrees
    // with the calendar.
    { serial: 61, system: 1900, written: '1900-03-01' },
    { serial: 2958465, system: 1900, written: '9999-12-31' },
    { serial: 0, system: 1904, written: '1904-01-01' },
    { serial: 2957003, system: 1904, written: '9999-12-31' },
    { serial: 46055.75, system: 1900, written: '2026-02-02' },
  ] as const)('$serial in the $system system is $written', ({ serial, system, written }) => {
    expect(writtenDate(serial, system)).toBe(written);
  });

  test('the same day in both systems is 1462 apart', () => {
    expect(serialOf(2026, 2, 2, 1900) - serialOf(2026, 2, 2, 1904)).toBe(1462);
  });
});
