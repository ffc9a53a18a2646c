import { describe, expect, test } from '@jest/globals';
import type { Habits } from '../../../src/hosts/engine/typing/habits';
import { csvCells, csvHabits, csvOf, decoded } from '../../../src/hosts/workbench/csv';

// Files as loggers and scales write them in several countries; RFC 4180 for quotes.

const serial = (year: number, month: number, day: number): number =>
  Math.round((Date.UTC(year, month - 1, day) - Date.UTC(1899, 11, 30)) / 86_400_000);

describe('how a file is written', () => {
  test.each([
    ['time,temp\n3/14/2026 06:00,17.5\n', 'en-GB', { separator: ',', decimal: '.', order: 'mdy' }],
    ['Zeit;Temp\n14.03.2026 06:00;17,5\n', 'en-US', { separator: ';', decimal: ',', order: 'dmy' }],
    ['time\ttemp\n4/3/2026\t17.5\n', 'en-US', { separator: '\t', decimal: '.', order: 'mdy' }],
    ['time\ttemp\n4/3/2026\t17.5\n', 'en-GB', { separator: '\t', decimal: '.', order: 'dmy' }],
    ['lot;mass\nL1;12\nL2;13\n', 'en-US', { separator: ';', decimal: ',', order: 'mdy' }],
    ['lot,note\nL1,"late, wet"\nL2,none\n', 'en-GB', { separator: ',', decimal: '.', order: 'dmy' }],
    ['lot|mass\nL1|12.5\n', 'sv-SE', { separator: '|', decimal: '.', order: 'dmy' }],
  ])('%j in a browser of %s', (text, language, habits) => {
    expect(csvHabits(text, language)).toEqual(habits);
  });
});

test('cells are numbers, days, shares and texts; labels keep their zeros', () => {
  const text =
    '\ufefflot;day;mass;share;seen\r\n0012;14.03.2026;1.234,5;62%;TRUE\r\n"Alder; 3";31.02.2026;-;;\r\n';
  expect(csvCells(text, { separator: ';', decimal: ',', order: 'dmy' }, 1900, 2026)).toEqual([
    ['lot', 'day', 'mass', 'share', 'seen'].map((value) => ({ value })),
    [
      { value: '0012' },
      { value: serial(2026, 3, 14), numberFormat: 'd/m/yyyy' },
      { value: 1234.5, numberFormat: '#,##0.00' },
      { value: 0.62, numberFormat: '0%' },
      { value: true },
    ],
    [{ value: 'Alder; 3' }, { value: '31.02.2026' }, { value: '-' }, { value: null }, { value: null }],
  ]);
});

test('bytes of Windows and of UTF-16 are read as text', () => {
  expect(decoded(new Uint8Array([0x4b, 0xfc, 0x68, 0x6c]))).toBe('Kühl');
  expect(decoded(new Uint8Array([0xff, 0xfe, 0x4b, 0x00, 0xfc, 0x00]))).toBe('Kü');
});

test('what is written is read back, in either decimal mark', () => {
  for (const decimal of ['.', ','] as const) {
    const habits: Habits = { order: 'dmy', decimal, orderFrom: 'book', decimalFrom: 'book' };
    const text = csvOf(
      [
        ['lot', 'mass'],
        ['a "b", c;', 12.5],
        [null, { day: '2026-04-03' }],
      ],
      habits,
    );
    const read = csvHabits(text, 'en-GB');
    expect(read).toMatchObject({ separator: decimal === ',' ? ';' : ',', decimal });
    expect(csvCells(text, read, 1900, 2026).map((row) => row.map(({ value }) => value))).toEqual([
      ['lot', 'mass'],
      ['a "b", c;', 12.5],
      [null, serial(2026, 4, 3)],
    ]);
  }
});
