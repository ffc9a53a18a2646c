import { expect, test } from '@jest/globals';
import { cellText } from '../../../src/hosts/headless/shown';

// 18 February 2026 is serial 46071 where days are counted from 1900 and 44609 where they are from 1904; 9999-12-31 is
// 2958465 and 2957003; 1 March 1900 is 61, behind the 29 February 1900 that spreadsheet programs count and that never was.
test.each([
  [46071, 'date', 1900, '2026-02-18'],
  [44609, 'date', 1904, '2026-02-18'],
  [46071.9999, 'date', 1900, '2026-02-18'],
  [46070.9999999999, 'date', 1900, '2026-02-18'],
  [46071.25, 'dateTime', 1900, '2026-02-18 06:00'],
  [46071.2499, 'dateTime', 1900, '2026-02-18 06:00'],
  [61, 'date', 1900, '1900-03-01'],
  [60, 'date', 1900, '60'],
  [0.5, 'dateTime', 1900, '0.5'],
  [0, 'date', 1904, '1904-01-01'],
  [-1, 'date', 1900, '-1'],
  [2958465.5, 'date', 1900, '9999-12-31'],
  [2958465.9999, 'dateTime', 1900, '2958465.9999'],
  [2958466, 'date', 1900, '2958466'],
  [2957003, 'date', 1904, '9999-12-31'],
  [2957004, 'date', 1904, '2957004'],
  [0.1 + 0.2, 'plain', 1900, '0.3'],
] as const)('%d as %s, counted from %d, reads %s', (serial, format, system, text) => {
  expect(cellText(serial, format, system)).toBe(text);
});
