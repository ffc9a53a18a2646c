import { describe, expect, test } from '@jest/globals';
import { habitsOf, orderOfFormat } from '../../../../src/hosts/engine/typing/habits';
import type { CellContent } from '../../../../src/hosts/engine/workbook';

const book = (...cells: Omit<CellContent, 'address'>[]) => ({
  dateSystem: 1900 as const,
  sheets: [{ name: 'Lots', cells: cells.map((cell, row) => ({ ...cell, address: `A${row + 1}` })) }],
});

describe('the order of day and month', () => {
  test.each([
    ['m/d/yy', 'mdy'],
    ['mm/dd/yyyy;@', 'mdy'],
    ['dd/mm/yyyy', 'dmy'],
    ['[$-809]d.m.yy', 'dmy'],
    ['ddd dd.mm.yyyy', undefined],
    ['yyyy-mm-dd', 'ymd'],
    ['yyyy-mm-dd hh:mm', 'ymd'],
    ['d-mmm-yy', undefined],
    ['h:mm', undefined],
    ['mm:ss', undefined],
    ['#,##0.00', undefined],
    ['"d/m" 0', undefined],
  ])('of %s is %s', (code, order) => {
    expect(orderOfFormat(code)).toBe(order);
  });

  test.each([
    ['the formats of most cells', [{ value: 1, numberFormat: 'm/d/yy' }], 'en-GB', 'mdy', 'book'],
    [
      'the language that a format names',
      [{ value: 1, numberFormat: '[$-407]d. mmmm yyyy' }],
      'en-US',
      'dmy',
      'book',
    ],
    ['texts that are days in one order only', [{ value: '13/4/2026' }], 'en-US', 'dmy', 'book'],
    [
      'the browser where formats begin with the year',
      [{ value: 1, numberFormat: 'yyyy-mm-dd' }],
      'en-US',
      'mdy',
      'browser',
    ],
    [
      'the browser where a format follows the reader',
      [{ value: 1, numberFormat: 'm/d/yyyy', followsReader: true }],
      'en-GB',
      'dmy',
      'browser',
    ],
    [
      'the browser where orders speak against each other',
      [
        { value: 1, numberFormat: 'm/d/yy' },
        { value: 1, numberFormat: 'd/m/yy' },
      ],
      'en-GB',
      'dmy',
      'browser',
    ],
  ] as const)('comes from %s', (_, cells, language, order, orderFrom) => {
    expect(habitsOf(book(...cells), language)).toMatchObject({ order, orderFrom });
  });
});

test.each([
  ['de-DE', [], ',', 'browser'],
  ['en-US', [], '.', 'browser'],
  ['en-US', [{ value: '12,5' }], ',', 'book'],
  ['de-DE', [{ value: '12.50' }], '.', 'book'],
  ['de-DE', [{ value: '1,250' }], ',', 'browser'],
  ['en-US', [{ value: 3, numberFormat: '#,##0.00 [$€-407]' }], ',', 'book'],
] as const)(
  'the decimal mark for %s and a book with %j is %s, from the %s',
  (language, cells, decimal, decimalFrom) => {
    expect(habitsOf(book(...cells), language)).toMatchObject({ decimal, decimalFrom });
  },
);
