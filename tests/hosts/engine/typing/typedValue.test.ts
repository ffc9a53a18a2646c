import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { editText } from '../../../../src/hosts/engine/typing/editText';
import type { DateOrder, Habits } from '../../../../src/hosts/engine/typing/habits';
import { readTyped, type Target } from '../../../../src/hosts/engine/typing/typedValue';

// Serials: 45 747 is 31 March 2025 and 46 115 is 3 April 2026 in the 1900 system, counted on a calendar. Two-digit
// years and percent entry: Microsoft, "Change the date system, format, or two-digit year interpretation" and "Format
// numbers as percentages".

const habits = (order: DateOrder, decimal: '.' | ',' = '.'): Habits => ({
  order,
  decimal,
  orderFrom: 'book',
  decimalFrom: 'book',
});
const AT: Target = { dateSystem: 1900, thisYear: 2026 };
const serial = (year: number, month: number, day: number): number =>
  Math.round((Date.UTC(year, month - 1, day) - Date.UTC(1899, 11, 30)) / 86_400_000);

const DAYS: readonly (readonly [
  text: string,
  order: DateOrder,
  format: string | undefined,
  wanted: number,
])[] = [
  ['3/4/2026', 'mdy', undefined, serial(2026, 3, 4)],
  ['3/4/2026', 'dmy', undefined, serial(2026, 4, 3)],
  ['3/4/26', 'mdy', undefined, serial(2026, 3, 4)],
  ['3/4/26', 'dmy', undefined, serial(2026, 4, 3)],
  ['26/3/4', 'ymd', undefined, serial(2026, 3, 4)],
  ['4/5/26', 'mdy', 'm/d/yy', serial(2026, 4, 5)],
  ['4/5/26', 'dmy', 'dd/mm/yy', serial(2026, 5, 4)],
  ['4/5/26', 'mdy', 'yyyy-mm-dd', serial(2026, 4, 5)],
  ['13/4/2026', 'mdy', undefined, serial(2026, 4, 13)],
  ['4/4/2026', 'mdy', 'd/m/yyyy', serial(2026, 4, 4)],
  ['2026-04-03', 'mdy', 'm/d/yy', serial(2026, 4, 3)],
  ['2026/4/3', 'dmy', undefined, serial(2026, 4, 3)],
  ['3.4.2026', 'dmy', undefined, serial(2026, 4, 3)],
  ['3.4.26', 'dmy', undefined, serial(2026, 4, 3)],
  ['3-4-2026', 'mdy', undefined, serial(2026, 3, 4)],
  ['3/4', 'mdy', undefined, serial(2026, 3, 4)],
  ['1/1/29', 'mdy', undefined, serial(2029, 1, 1)],
  ['1/1/30', 'mdy', undefined, serial(1930, 1, 1)],
  ['1/1/00', 'mdy', undefined, serial(2000, 1, 1)],
  ['2/29/2024', 'mdy', undefined, serial(2024, 2, 29)],
  ['3 Apr 2026', 'mdy', undefined, serial(2026, 4, 3)],
  ['Apr 3, 2026', 'dmy', undefined, serial(2026, 4, 3)],
  ['3-Apr-26', 'mdy', undefined, serial(2026, 4, 3)],
  ['April 3rd', 'mdy', undefined, serial(2026, 4, 3)],
  ['3/4/2026 6:30 PM', 'mdy', undefined, serial(2026, 3, 4) + 18.5 / 24],
  ['2026-04-03T06:00', 'mdy', undefined, serial(2026, 4, 3) + 0.25],
];

describe('a day that is typed', () => {
  test.each(DAYS)('%s by people who write %s, into a cell of format %s', (text, order, format, wanted) => {
    const typed = readTyped(text, habits(order), { ...AT, format });
    expect(typed).toMatchObject({ kind: 'number' });
    expect((typed as { value: number }).value).toBeCloseTo(wanted, 9);
  });

  test.each([
    ['3/4/2026', 'mdy', 'd/m/yyyy'],
    ['3/4/26', 'dmy', 'm/d/yy'],
    ['3/4/26', 'dmy', 'm/d/yy h:mm'],
    ['3.4.2026', 'mdy', undefined],
    ['3/4/2026', 'ymd', undefined],
  ] as const)(
    '%s by people who write %s, into a cell of format %s, is asked about',
    (text, order, format) => {
      expect(readTyped(text, habits(order), { ...AT, format })).toMatchObject({
        kind: 'either',
        days: [
          { order: 'mdy', value: serial(2026, 3, 4), says: '4 March 2026' },
          { order: 'dmy', value: serial(2026, 4, 3), says: '3 April 2026' },
        ],
      });
    },
  );

  test('is read in the order that was chosen for its column before', () => {
    const target: Target = { ...AT, format: 'd/m/yyyy', order: 'mdy' };
    expect(readTyped('3/4/2026', habits('mdy'), target)).toMatchObject({ value: serial(2026, 3, 4) });
  });

  test.each(['31/4/2026', '2/30/2026', '2026-13-01', '0/4/2026'])('%s is text and says why', (text) => {
    expect(readTyped(text, habits('mdy'), AT)).toEqual({
      kind: 'text',
      text,
      because: `${text} is no day of the calendar`,
    });
  });

  test.each(['A-3', '3-4', '1.2.3.4', 'Alder-3', 'May be', '12 blocks', '3/4/5/6', '25:00'])(
    '%s is text',
    (text) => {
      expect(readTyped(text, habits('mdy'), AT)).toEqual({ kind: 'text', text });
    },
  );

  test('written by an order is read back by it, whatever the day', () => {
    const orders = fc.constantFrom<DateOrder>('mdy', 'dmy');
    fc.assert(
      fc.property(orders, fc.integer({ min: 61, max: 2_958_465 }), (order, day) => {
        const text = editText(day, 'yyyy-mmm-dd', habits(order), 1900);
        expect(readTyped(text, habits(order), AT)).toMatchObject({ kind: 'number', value: day });
      }),
    );
  });
});

const NUMBERS: readonly (readonly [string, '.' | ',', string | undefined, number, string | undefined])[] = [
  ['70%', '.', '0%', 0.7, '0%'],
  ['70%%', '.', '0%', 0.7, '0%'],
  ['70%', '.', undefined, 0.7, '0%'],
  ['7.5%', '.', undefined, 0.075, '0.00%'],
  ['7,5 %', ',', undefined, 0.075, '0.00%'],
  ['70', '.', '0.0%', 0.7, undefined],
  ['0.7', '.', '0.0%', 0.7, undefined],
  ['7', '.', '0%', 0.07, undefined],
  ['12.5', '.', undefined, 12.5, undefined],
  ['12,5', ',', undefined, 12.5, undefined],
  ['1,234', '.', undefined, 1234, '#,##0'],
  ['1,234.50', '.', undefined, 1234.5, '#,##0.00'],
  ['1.234,5', ',', undefined, 1234.5, '#,##0.00'],
  ['1,234', ',', undefined, 1.234, undefined],
  ['-3', '.', undefined, -3, undefined],
  ['(3)', '.', undefined, -3, undefined],
  ['$1,200', '.', undefined, 1200, '"$"#,##0'],
  ['1 200,50 €', ',', undefined, 1200.5, '#,##0.00 "€"'],
  ['1.2E3', '.', undefined, 1200, '0.00E+00'],
  ['6:30', '.', undefined, 6.5 / 24, 'hh:mm'],
];

describe('a number that is typed', () => {
  test.each(NUMBERS)(
    '%s with the decimal mark %s into a cell of format %s',
    (text, decimal, cell, value, format) => {
      const typed = readTyped(text, habits('mdy', decimal), { ...AT, format: cell });
      expect(typed).toEqual({ kind: 'number', value, ...(format !== undefined && { format }) });
    },
  );

  test.each([
    ['12,5', '.', 'numbers are written with a decimal point here, 12.5'],
    ['12.5', ',', 'numbers are written with a decimal comma here, 12,5'],
  ] as const)('%s where the decimal mark is %s is text and says why', (text, decimal, because) => {
    expect(readTyped(text, habits('dmy', decimal), AT)).toEqual({ kind: 'text', text, because });
  });

  test.each([
    ["'0012", undefined, '0012'],
    ['0012', '@', '0012'],
  ])('%s in a cell of format %s is the text %s', (typed, format, text) => {
    expect(readTyped(typed, habits('mdy'), { ...AT, format })).toEqual({ kind: 'text', text });
  });

  test('is edited as what reads back as the same number', () => {
    const formats = fc.constantFrom(undefined, '0%', '0.0%', '#,##0.00');
    const marks = fc.constantFrom<'.' | ','>('.', ',');
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e9, noNaN: true }), formats, marks, (value, format, mark) => {
        const text = editText(value, format, habits('mdy', mark), 1900);
        const typed = readTyped(text, habits('mdy', mark), { ...AT, format });
        expect(typed).toMatchObject({ kind: 'number', value });
      }),
    );
  });
});
