import { beforeAll, describe, expect, test } from '@jest/globals';
import { cellOf, isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { isTotalsRow } from '../../src/worksheet/cells/totals';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { CROPTABLE } from '../../src/worksheet/harvest/cropTable';
import { MATCHCOLUMNS } from '../../src/worksheet/records/matchColumns';
import { MATCHLABELS } from '../../src/worksheet/records/matchLabels';
import { TODATES } from '../../src/worksheet/records/toDates';
import { TONUMBERS } from '../../src/worksheet/records/toNumbers';
import { READYLOTS } from '../../src/worksheet/ripening/readyLots';
import { RIPECALENDAR } from '../../src/worksheet/ripening/ripeCalendar';
import { evaluate, prepared } from './prepared';

beforeAll(() => Promise.all([prepared(TODATES), prepared(READYLOTS)]));

// A book as growers keep them, invented: titles, months between the rows, headers of its own, a totals row labelled in
// another column.

const cells = (f: WorksheetFunction, ...given: (Cell | Grid)[]): Cell[][] =>
  plainValues(
    evaluate(
      f,
      given.map((one) => (Array.isArray(one) ? (one as Grid) : [[one as Cell]])),
    ),
  );
const reason = (cell: Cell | undefined): string => (isCellError(cell) ? cell.reason : String(cell));
const first = (rows: Cell[][]): string => reason(rows[0]![0]);

const STRAINS: Grid = [
  ['Strain #', 'Min days', 'Days to ready', 'Max days'],
  ['Fernbank-7', 63, 77, 98],
  ['Birch-1', 12, 16, 24],
];
const ROWS: Grid = [
  ['February', null, null, null, null, null, null],
  ['B-1', 'Fernbank-7', 40, 46055, 5.5, 0.62, null],
  ['B-2', 'Birch-1', 60, 46062, 5.5, 0.63, 'wet'],
  ['— MARCH 2026 —', null, null, null, null, null, null],
  ['B-3', 'Birch-1', 50, 46085, 5.5, 0.6, null],
  [null, null, null, null, null, null, null],
  [null, 'TOTAL', 150, null, null, null, null],
];
const book = (...headers: string[]): Grid => [
  ['MUSHROOM LOG', null, null, null, null, null, null],
  [null, null, null, null, null, null, null],
  headers,
  ...ROWS,
];
const HEADERS = ['Batch', 'Strain #', 'Qty', 'Date inoc', 'Bag wt', 'Moist %', 'Notes'];
const BOOK = book(...HEADERS);
const [FROM, TO] = [46070, 46098];
const READY = [
  ['B-2', 60],
  ['B-3', 50],
];
const readyIn = (lots: Grid): Cell[][] =>
  cells(READYLOTS, lots, STRAINS, FROM, TO)
    .slice(1)
    .map((row) => [row[0]!, row[2]!]);

describe('a book with titles, months and totals is read as it is', () => {
  test('its ready lots are listed', () => {
    expect(readyIn(BOOK)).toEqual(READY);
  });

  test('its blocks are counted once', () => {
    const rows = cells(RIPECALENDAR, BOOK, STRAINS, FROM, TO).slice(1);
    expect(rows.reduce((sum, row) => sum + Number(row[2]), 0)).toBe(110);
  });

  test.each([
    [0, ['Batch no.', 'Lot #', 'LOT', 'Lot No', 'Batch ID', 'Lot number:']],
    [1, ['strain', 'Strain no.', 'STRAIN_ID', 'Variety', 'Strain?']],
    [2, ['# of bags', 'No. of blocks', 'Bag count', 'blocks (made)', 'Qty.', 'Block qty']],
    [3, ['Inoc. date', 'Date of inoculation', 'Inoculated on', 'Date spawned', 'Inoculated']],
  ])('column %d may be headed in many ways', (column, headers) => {
    for (const header of headers) {
      const written = HEADERS.map((own, at) => (at === column ? header : own));
      expect([header, readyIn(book(...written))]).toEqual([header, READY]);
    }
  });

  test('the exact name wins; two other names are a fault that gives both', () => {
    const exact = book('Batch', 'Strain #', 'Qty', 'Date inoc', 'Bag wt', 'Moist %', 'Lot');
    expect(readyIn(exact).map(([lot]) => lot)).toContain('wet');
    const two = book('Batch', 'Strain #', 'Qty', 'Date inoc', 'Bag wt', 'Moist %', 'Lot ID');
    expect(first(cells(READYLOTS, two, STRAINS, FROM, TO))).toBe(
      'lots must have one column for lot; it has "Batch" and "Lot ID"',
    );
  });

  test('all missing headers are named at once, each with the nearest', () => {
    expect(
      first(cells(READYLOTS, book('Bach', 'Strian', 'x', 'y', 'z', 'a', 'b'), STRAINS, FROM, TO)),
    ).toMatch(
      /^lots needs columns headed lot \(is it "Bach"\?\), strain.* and blocks; its headers are Bach, Strian/,
    );
  });

  test('a header that is a unit sets it, in front of "per" too, and two units are refused', () => {
    const lots = (weight: string): Grid => [
      ['lot', 'strain', 'blocks', weight, 'moisture', 'loaded'],
      ['B-2', 'Birch-1', 60, 5.5, 0.63, 46075],
    ];
    const picks: Grid = [
      ['Batch', 'Date', 'lbs'],
      ['B-2', 46085, 12],
    ];
    expect(cells(CROPTABLE, picks, lots('lb per bag'))[1]![0]).toBe('B-2');
    expect(first(cells(CROPTABLE, picks, lots('kg/bag')))).toMatch(
      /is in lb, but .* is in kg|is in kg, but .* is in lb/,
    );
  });

  test('a lot with nothing but its name is told, not taken for a title', () => {
    const lots: Grid = [...BOOK, ['B-9', null, null, null, null, null, null]];
    expect(readyIn(lots).at(-1)![0]).toMatch(/^1 lot left out, B-9: strain in lots must be a label/);
  });
});

describe('the functions for what is in the way work inside one another', () => {
  const NAMES: Grid = [
    ['header', 'means'],
    ['Bin', 'lot'],
    ['Kind', 'strain'],
    ['How many', 'blocks'],
    ['Made', 'inoculated'],
  ];
  const OWN = book('Bin', 'Kind', 'How many', 'Made', 'Bag wt', 'Moist %', 'Notes');

  test('MATCHCOLUMNS stands for a table in another call', () => {
    expect(readyIn(cells(MATCHCOLUMNS, OWN, NAMES))).toEqual(READY);
  });

  test('it leaves out titles, months, totals and the header row again, and nothing with figures', () => {
    const again: Grid = [...OWN.slice(0, 6), OWN[2]!, ...OWN.slice(6)];
    expect(cells(MATCHCOLUMNS, again, NAMES).map((row) => row[0])).toEqual(['lot', 'B-1', 'B-2', 'B-3']);
  });

  test('a lot with nothing but its name is kept, and told by the call around', () => {
    const bare: Grid = [...OWN, ['B-9', null, null, null, null, null, null]];
    expect(cells(MATCHCOLUMNS, bare, NAMES).map((row) => row[0])).toEqual([
      'lot',
      'B-1',
      'B-2',
      'B-3',
      'B-9',
    ]);
    expect(readyIn(cells(MATCHCOLUMNS, bare, NAMES)).at(-1)![0]).toMatch(
      /^1 lot left out, B-9: strain in lots/,
    );
  });

  test('a number that could be a day is shown as one where its header is that of a day, and nowhere else', () => {
    const table: Grid = [
      ['Bin', 'Made', 'Weight'],
      ['B-1', 46000, 46000],
    ];
    const names: Grid = [
      ['header', 'means'],
      ['Bin', 'lot'],
      ['Made', 'inoculated'],
      ['Weight', 'mass'],
    ];
    const { rows } = evaluate(MATCHCOLUMNS, [table, names]);
    expect(rows[1]).toEqual(['B-1', { value: 46000, format: 'date' }, 46000]);
  });

  test('columns without a header and headers that come twice are kept apart', () => {
    const odd: Grid = [
      ['Bin', null, 'Note', 'Note', null],
      ['B-1', 7, 'a', 'b', null],
    ];
    const names: Grid = [
      ['header', 'means'],
      ['Bin', 'lot'],
    ];
    expect(cells(MATCHCOLUMNS, odd, names)).toEqual([
      ['lot', 'column 2', 'Note', 'Note 2'],
      ['B-1', 7, 'a', 'b'],
    ]);
  });

  test('a header that the list names twice is refused: its first name would be lost', () => {
    const table: Grid = [
      ['Bin', 'Count'],
      ['B-1', 7],
    ];
    const names: Grid = [
      ['header', 'means'],
      ['Bin', 'lot'],
      ['bin.', 'product'],
    ];
    expect(reason(cells(MATCHCOLUMNS, table, names)[0]![0])).toBe(
      'header in names: "bin." must be in one row of names; it is in rows 2 and 3 (row 3 of names)',
    );
  });

  test('an error cell, a blank and a good cell beside one another keep their rows', () => {
    const ref = { code: '#REF!', reason: '' } as const;
    const column: Grid = [[ref], [null], ['14/3/26'], ['x'], [46095]];
    const dates = cells(TODATES, column, 'day first').flat();
    expect(dates.slice(0, 3)).toEqual([ref, '', 46095]);
    expect(reason(dates[3])).toBe('dates must be a date; "x" is none (row 4 of the column)');
    expect(dates[4]).toBe(46095);
    // The column shows days; a time shows itself.
    const shown = evaluate(TODATES, [[['14/3/26'], [46095.25]], [['day first']]]);
    expect([cellOf(shown, 0, 0), cellOf(shown, 1, 0)]).toEqual([
      [46095, 'date'],
      [46095.25, 'dateTime'],
    ]);
    const numbers = cells(TONUMBERS, [[ref], [null], ['1 kg'], ['none'], ['x']], 'g').flat();
    expect(numbers.slice(0, 4)).toEqual([ref, '', 1000, 'none']);
    expect(reason(numbers[4])).toMatch(/\(row 5 of the column\)$/);
    expect(reason(cells(TONUMBERS, [['1 kg'], [true]], 'g')[1]![0])).toMatch(
      /it is TRUE.* \(row 2 of the column\)$/,
    );
    const labels = cells(MATCHLABELS, [[ref], [null], ['birch 1']], [['Birch-1']]).flat();
    expect(labels).toEqual([ref, '', 'Birch-1']);
  });
});

describe('READYLOTS leaves nothing out in silence', () => {
  const lots = (...rows: Cell[][]): Grid => [['lot', 'strain', 'blocks', 'inoculated', 'loaded'], ...rows];
  const lines = (...rows: Cell[][]): string[] =>
    cells(READYLOTS, lots(...rows), STRAINS, FROM, FROM + 6)
      .slice(1)
      .map((row) => reason(row[0]));

  test('each cause has a line with the number of lots', () => {
    expect(
      lines(
        ['late', 'Birch-1', 10, FROM - 40, null],
        ['opened', 'Birch-1', 10, FROM - 15, FROM - 1],
        ['undated', 'Birch-1', 10, null, null],
        ['unknown', 'Hazel', 10, FROM - 15, null],
        ['unknown too', 'Hazel', 10, FROM - 15, null],
        ['unread', 'Birch-1', 10, '3/4/26', null],
      ),
    ).toEqual([
      'no lot is ready in these days',
      '1 lot is past the latest day: late',
      '1 lot is loaded already',
      '1 lot without dates left out: undated',
      '2 lots left out, unknown, unknown too; the first: strain in lots: "Hazel" is not in strains (row 5 of lots)',
      '1 lot left out, unread: inoculated in lots must be a date; it is "3/4/26" – it is text: type it again so that the sheet takes it as a date (row 7 of lots)',
    ]);
  });

  test('what goes over age first comes first, whatever the order of rows', () => {
    const rows: Cell[][] = [
      ['younger', 'Birch-1', 10, FROM - 13, null],
      ['older', 'Birch-1', 10, FROM - 20, null],
      ['longer', 'Fernbank-7', 10, FROM - 70, null],
    ];
    expect(lines(...rows)).toEqual(['older', 'younger', 'longer']);
    expect(lines(...rows.reverse())).toEqual(['older', 'younger', 'longer']);
  });

  test('the first and the last day count', () => {
    // Birch-1 may be opened from day 12 to day 24.
    expect(lines(['a', 'Birch-1', 10, FROM - 24, null])).toEqual(['a']);
    expect(lines(['a', 'Birch-1', 10, FROM - 25, null])[0]).toBe('no lot is ready in these days');
    expect(lines(['a', 'Birch-1', 10, FROM + 6 - 12, null])).toEqual(['a']);
    expect(lines(['a', 'Birch-1', 10, FROM + 6 - 11, null])).toEqual(['no lot is ready in these days']);
  });
});

describe('a totals row is known by its word, and no name is taken for one', () => {
  test.each([
    ...[
      'Total',
      'TOTALS',
      'Total:',
      '*** TOTAL ***',
      '= Total',
      'Sum',
      'Σ',
      'Grand total',
      'Sub-total',
      'Running total',
    ],
    ...[
      'Subtotal March',
      'March total',
      'Total for March',
      'Total – May 2026',
      'Total 2026',
      '2026 total',
      'Week 12 total',
    ],
    ...['Total (kg)', 'Totals:', 'Sub total', 'Week total', 'weekly totals', 'Daily total', 'Day total'],
  ])('%s', (word) => {
    expect(isTotalsRow([word, null, 40])).toBe(true);
    expect(isTotalsRow([null, 46055, 40, word])).toBe(true);
    expect(isTotalsRow([`${word}-7`, 'Alder-3', 40])).toBe(false);
  });

  test.each([
    ...[
      'Total-1',
      'Total 1',
      '1 total',
      'Total eclipse',
      'Average Joe',
      'Sum-7',
      'Summit',
      'Totally',
      'Subtotal-2',
    ],
    ...['Mean Green', 'T-total', 'total loss', 'Total B-1', 'A total'],
  ])('%s is a name', (name) => {
    expect(isTotalsRow([name, null, 40])).toBe(false);
  });

  test.each(['Average', 'AVG', 'avg.', 'Mean'])(
    '%s, which may be a grade, only in front and as the only text',
    (word) => {
      expect(isTotalsRow([null, word, 40])).toBe(true);
      expect(isTotalsRow(['B-1', word, 40])).toBe(false);
      expect(isTotalsRow([101, 40, word])).toBe(false);
      expect(isTotalsRow([word])).toBe(false);
    },
  );
});
