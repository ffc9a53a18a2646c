import ExcelJS from 'exceljs';
import { table, workbookOf } from '../xlsx/packages';

// Books as farms keep them, invented. Every slip in them is listed beside its place.

type Held = string | number | null | Date | { readonly formula: string; readonly result: number };

function fill(
  workbook: ExcelJS.Workbook,
  name: string,
  rows: readonly (readonly Held[])[],
): ExcelJS.Worksheet {
  const sheet = workbook.addWorksheet(name);
  rows.forEach((row, r) =>
    row.forEach((value, c) => {
      if (value === null) return;
      const cell = sheet.getCell(r + 1, c + 1);
      cell.value = value;
      if (value instanceof Date) cell.numFmt = 'm/d/yyyy';
    }),
  );
  return sheet;
}

const bytesOf = async (workbook: ExcelJS.Workbook): Promise<Uint8Array> =>
  new Uint8Array(await workbook.xlsx.writeBuffer());

const day = (year: number, month: number, date: number): Date => new Date(Date.UTC(year, month - 1, date));

/**
 * A US hand: titles, month rows, totals, dates as text with the month first, pounds as text, moistures as 62, `63%` and
 * 0.61, strain names spelled two ways, orders by product. Strains and rooms are in nobody's sheet.
 */
export async function usBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  fill(workbook, 'Grow log', [
    ['Grow log – spring run'],
    ['all bags, both rooms'],
    [],
    ['Batch', 'Strain #', 'Qty', 'Date inoc', 'Bag wt', 'Moist %', 'Opened', 'Notes'],
    ['January'],
    ['B-101', 'Fernbank-7', 40, '1/5/26', '10 lb', 62, '3/20/26', null],
    ['B-102', 'Fernbank 7', 36, '1/12/26', '10 lb', '63%', null, 'two bags torn'],
    ['B-103', 'Marsh-2', 60, '1/26/26', '10 lb', 0.61, null, null],
    ['February'],
    ['B-104', 'fernbank-7', 44, '2/2/26', '10 lb', 62, null, null],
    ['B-105', 'Marsh-2', 64, '2/19/26', '10 lb', 62, null, null],
    ['B-106', 'Marsh-2', 50, '3/14/26', '10 lbs', '62%', null, null],
    [null, 'Total', { formula: 'SUM(C6:C11)', result: 294 }],
  ]);
  fill(workbook, 'Orders', [
    ['Standing and one-off orders'],
    [],
    ['Customer', 'Item', 'lbs', 'Needed by', 'Price'],
    ['Cafe on the Green', 'Shiitake', 30, '4/17/26', 12],
    ['Market stall', 'Oyster', 25, '4/10/26', 8],
    ['Corner grocer', 'Shiitake', '20 lb', '4/24/26', 12],
  ]);
  fill(workbook, 'Picks', [
    ['What came off'],
    [],
    ['Date', 'Batch', 'Weight (lb)', 'Flush'],
    ['3/27/26', 'B-101', 20.5, 1],
    ['3/28/26', 'B-101', 24.25, 1],
    ['3/29/26', 'B-101', '18,5', 1],
    ['3/30/26', 'B-101', 210, 1],
    ['3/19/26', 'B-101', 19, 1],
    [null, 'Total', { formula: 'SUM(C4:C8)', result: 273.75 }],
  ]);
  return bytesOf(workbook);
}

/**
 * A European hand: one sheet that holds two tables side by side and a third below, day-first dates with dots, decimal
 * commas, kilograms, figures with their unit; strains and rooms are there under names of the grower's own.
 */
export async function europeanBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  fill(workbook, 'Incubation', [
    ['Incubation, all batches'],
    [],
    ['Batch no.', 'Variety', 'Bags', 'Spawned on', 'Bag weight', 'Moisture content', 'To fruiting'],
    ['2026-01', 'Hazel-9', 80, '03.02.2026', '2,5 kg', '62%', null],
    ['2026-02', 'Hazel-9', 80, '10.02.2026', '2,5 kg', '61,5%', null],
    ['2026-03', 'Birch-1', 120, '14.03.2026', '2,5 kg', '63%', null],
    ['March'],
    ['2026-04', 'Birch-1', 100, '21.03.2026', '2.5', '63%', null],
    ['2026-05', 'Hazel-9', 90, 'next week', '2,5 kg', '62%', null],
    ['2026-06', 'Hazel-9', 75, day(2026, 2, 17), '2,5 kg', '62%', null],
    ['Total', null, { formula: 'SUM(C4:C10)', result: 545 }],
  ]);
  fill(workbook, 'What we know', [
    ['Days of our strains', null, null, null, null, null, null, null, null, null, null, 'Rooms'],
    [],
    [
      'Variety',
      'Min days',
      'Best days',
      'Max days',
      'Days to first pick',
      'Picking days',
      'Flush gap',
      'Flushes',
      'Flush 1',
      'Flush 2',
      'BE',
      null,
      'Room',
      'Shelf count',
      'Bags per shelf',
    ],
    ['Hazel-9', 50, 60, 80, 8, 4, 16, 2, '65%', '35%', '80%', null, 'North', 10, 12],
    ['Birch-1', 12, 16, 26, 6, 3, 12, 2, '70%', '30%', '95%', null, 'South', 8, 12],
  ]);
  fill(workbook, 'Deliveries', [
    ['Product', 'Quantity', 'Due date', 'Price per kg'],
    ['Hazel-9', '24,1 kg', '24.04.2026', '14,50'],
    ['Birch-1', '30 kg', '10.04.2026', '9,00'],
  ]);
  fill(workbook, 'Mix', [
    ['Our block'],
    ['Material', 'Dry share', 'MC', 'Pack size'],
    ['oak sawdust', '78%', '20%', null],
    ['wheat bran', '20%', '10%', '20 kg'],
    ['gypsum', '2%', 'none', '25 kg'],
    ['Total', '100%'],
  ]);
  return bytesOf(workbook);
}

const signs: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };
const inlineRow = (cells: readonly (string | number | null)[], row: number): string =>
  `<row r="${row}">${cells
    .map((cell, c) => {
      const at = `${String.fromCharCode(65 + c)}${row}`;
      if (cell === null) return '';
      return typeof cell === 'number'
        ? `<c r="${at}"><v>${cell}</v></c>`
        : `<c r="${at}" t="inlineStr"><is><t>${cell.replace(/[&<>]/g, (sign) => signs[sign]!)}</t></is></c>`;
    })
    .join('')}</row>`;

/**
 * As a script writes it: text in the cells themselves, no styles, a table of the workbook's own, dates that prove no
 * order, headers repeated on each page, and a second list of batches on a sheet of last year.
 */
export function scriptedBook(): Uint8Array {
  const lots = [
    ['Lot ID', 'Culture', 'Qty', 'Inoculation date', 'Status'],
    ['K1', 'Elm-4', 30, '02/03/2026', 'ok'],
    ['K2', 'Elm-4', 28, '04/03/2026', 'ok'],
    ['K2', 'Elm-4', 20, '05/03/2026', 'ok'],
    ['K3', 'Elm4', 32, '06/03/2026', null],
  ];
  const strains = [
    ['Culture', 'earliest', 'best', 'latest'],
    ['Elm-4', 20, 30, 45],
  ];
  const data = (rows: readonly (readonly (string | number | null)[])[]): string =>
    `<sheetData>${rows.map((row, r) => inlineRow(row, r + 1)).join('')}</sheetData>`;
  return workbookOf({
    sheets: [
      {
        name: 'Batches',
        data: data(lots),
        tables: [table('Batches', 'A1:E5', lots[0]!.map(String))],
      },
      { name: 'Cultures', data: data(strains) },
    ],
  });
}

/**
 * Eight lots of two strains and their picks, in order of days, with five slips: 4.7 kg typed as 47 (Picks!C9), lot
 * M-4 as M-44 (B16), 12 March 2026 as 3 December (A32), a mass as text (C41), the dry share for a moisture (Lots!E8).
 */
export async function auditBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const strains = {
    'Marsh-2': { days: [6, 7, 8, 18, 19], masses: [3.1, 5.2, 2.4, 1.9, 2.2], flushes: [1, 1, 1, 2, 2] },
    'Fernbank-7': { days: [8, 9, 10, 25, 26], masses: [2.2, 4.1, 3.6, 2.1, 1.7], flushes: [1, 1, 1, 2, 2] },
  };
  const lots = [1, 1.1, 0.9, 1.2, 0.85, 1.05, 1.15, 0.95].map((good, i) => ({
    lot: `M-${i + 1}`,
    strain: i % 2 === 0 ? ('Marsh-2' as const) : ('Fernbank-7' as const),
    good,
    loaded: day(2026, 2, 9 + 3 * i),
  }));
  const picks = lots
    .flatMap(({ lot, strain, good, loaded }) =>
      strains[strain].days.map((after, i) => ({
        date: new Date(loaded.getTime() + 86_400_000 * after),
        lot,
        mass: Number((strains[strain].masses[i]! * good).toFixed(1)),
        flush: strains[strain].flushes[i]!,
      })),
    )
    .sort((a, b) => a.date.getTime() - b.date.getTime());
  const pickRows: Held[][] = picks.map(({ date, lot, mass, flush }) => [date, lot, mass, flush]);
  const type = (row: number, column: number, typed: Held): Held => (pickRows[row - 2]![column] = typed);
  type(9, 2, 47);
  type(16, 1, 'M-44');
  type(32, 0, day(2026, 12, 3));
  type(41, 2, '1,6 kg');
  fill(workbook, 'Picks', [['Date', 'Lot', 'Weight (kg)', 'Flush'], ...pickRows]);
  fill(workbook, 'Lots', [
    ['Lot', 'Strain', 'Bags', 'Bag weight (kg)', 'Moisture', 'To fruiting'],
    ...lots.map(({ lot, strain, loaded }) => [lot, strain, 16, 2.5, lot === 'M-7' ? 0.38 : 0.62, loaded]),
  ]);
  fill(workbook, 'Strains', [
    ['Strain', 'First pick', 'Pick days', 'Flush gap', 'Flushes', 'Efficiency'],
    ['Marsh-2', 6, 3, 12, 2, 0.95],
    ['Fernbank-7', 8, 3, 17, 2, 0.85],
  ]);
  return bytesOf(workbook);
}

/**
 * A second European hand: headers in two rows with merged groups, strains as headings over their blocks, times beside
 * dates, decimal commas that could part thousands, per cent as whole numbers, subtotals, notes, a hidden row, a filter.
 */
export async function groupedBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const blocks = fill(workbook, 'Fruiting blocks', [
    ['Blocks in incubation'],
    ['second shed included'],
    [],
    ['Batch', 'Blocks', null, null, 'Dates', null, 'Remarks'],
    [null, 'Count', 'Weight (kg)', 'Moisture', 'Inoculated', 'Moved to fruiting'],
    ['Hazel-9'],
    ['H-01', 80, '2,5', 62, '03.02.2026 08:30'],
    ['H-02', 80, '2,5', '61,5', '10.02.2026', null, 'one crate damp'],
    ['H-03', '?', '2,5', 62, '17.02.2026', null, 'count again'],
    ['H-04', 60, '2,45', 62, day(2026, 2, 24)],
    ['Subtotal', 220],
    ['Birch-1'],
    ['B-01', 120, '3,0', 63, '07.03.2026 14:00', '20.03.2026'],
    ['B-02', 100, '3,0', 63, 'n/a', null, 'label lost'],
    ['B-03', 90, '3,0', '63 %', '14.03.2026'],
    ['note: B-04 is not spawned yet'],
    ['B-05', 70, '3,0', '-', '21.03.2026'],
    ['Subtotal', 380],
    ['Total', 600],
  ]);
  for (const merged of ['A4:A5', 'B4:D4', 'E4:F4', 'G4:G5']) blocks.mergeCells(merged);
  blocks.getRow(8).hidden = true;
  blocks.autoFilter = 'A5:G19';
  fill(workbook, 'Data', [
    [
      'Strain',
      'Min days',
      'Best days',
      'Max days',
      'Days to first pick',
      'Picking days',
      'BE',
      null,
      'Room',
      'Shelves',
      'Blocks per shelf',
    ],
    ['Hazel-9', 45, 55, 75, 8, 4, 80, null, 'Old barn', 10, 12],
    ['Birch-1', 12, 16, 26, 6, 3, 95, null, 'Cellar', 8, 12],
    ['* from our own notes'],
  ]);
  fill(workbook, 'Deliveries', [
    ['Product', 'Amount (kg)', 'Due', 'Price per kg', 'Customer'],
    ['Hazel-9', '12,500', '24.04.2026', '14,50', 'Inn'],
    ['Birch-1', '25,000', '10.04.2026', '9,00', 'Market'],
    ['Hazel-9', '18,250', '2026-05-01', '14,50', 'Inn'],
  ]);
  return bytesOf(workbook);
}

/** A second US hand: a sheet a month, counted from 1904, lots as numbers, pounds and ounces, notes between the rows. */
export async function monthlyBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  workbook.properties.date1904 = true;
  const headers = ['Lot #', 'Strain', '# bags', 'Date made', 'Bag weight', 'Moist %', 'Opened', 'Memo'];
  const months: Readonly<Record<string, readonly (readonly Held[])[]>> = {
    'Jan 2026': [
      [2601, 'Cedar-4', 50, '1/6/26', '5 lb 8 oz', 62, '3/18/26'],
      [2602, 'Cedar 4', 44, '1/13/26', '5 lb 8 oz', 62],
    ],
    'Feb 2026': [
      [2604, 'Cedar-4', 48, '2/3/26', '5 lb 8 oz', 62],
      ['** moved to the back room **'],
      [2605, 'Moss-1', 64, '2/17/26', '6 lb', '63%'],
    ],
    'Mar 2026': [
      [2607, 'Moss-1', 70, '3/3/26', '6 lb', 62],
      [2608, 'Moss-1', 66, '3/16/26', '6 lb', 'tbd'],
    ],
  };
  for (const [month, rows] of Object.entries(months)) {
    fill(workbook, month, [[`${month} bags`], headers, ...rows, [], ['Total', null, 999]]);
  }
  fill(workbook, 'Picked', [
    ['Date picked', 'Lot #', 'Weight', 'Flush'],
    ['3/25/26', 2601, '22 lb 8 oz', 1],
    ['3/26/26', 2601, '24 lb', 1],
    ['3/27/26', '2601', '23 lb 4 oz', 1],
    ['3/28/26', 2601, '231 lb', 1],
    ['3/29/26', 2611, '21 lb', 1],
    [null, 'TOTAL', '322 lb'],
  ]);
  fill(workbook, 'Orders', [
    ['Customer', 'Item', 'Lbs', 'Needed by', '$/lb'],
    ['Diner', 'Cedar-4', 40, '4/17/26', 11],
    ['Stand', 'Moss-1', '35 lb', '4/10/26', 7],
  ]);
  return bytesOf(workbook);
}

/** A third hand: everything on one page, tables side by side and below each other, a blank column inside one of them. */
export async function onePageBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Everything');
  const put = (row: number, column: number, rows: readonly (readonly Held[])[]): void =>
    rows.forEach((cells, r) =>
      cells.forEach((value, c) => {
        if (value !== null) sheet.getCell(row + r, column + c).value = value;
      }),
    );
  put(1, 1, [['THE FARM ON ONE PAGE']]);
  put(3, 1, [
    ['Bag lots'],
    ['id', null, 'Species', 'How many', 'Spawn day', 'Wet kg each', 'Water', 'In room since'],
    ['a', null, 'Larch-2', 40, '2026-01-10', 2.4, 60],
    ['b', null, 'Larch-2', 42, '2026-01-24', 2.4, 60],
    ['c', null, 'Fen-8', 80, '2026-03-10', 2.6, 64],
    ['d', null, 'Fen 8', 20, '26.03.2026', 2.6, '64%'],
    ['sum', null, null, 182],
  ]);
  put(3, 11, [
    ['Strain book'],
    ['species', 'from day', 'best day', 'to day', 'first pick', 'pick days', 'efficiency'],
    ['Larch-2', 60, 75, 100, 7, 4, 0.8],
    ['Fen-8', 12, 16, 28, 6, 3, 0.9],
    [],
    ['Rooms'],
    ['name', 'shelves', 'per shelf'],
    ['Long room', 12, 10],
  ]);
  put(14, 1, [
    ['Who wants what'],
    ['who', 'what', 'kg', 'when', '€/kg'],
    ['A', 'Fen-8', 30, '2026-04-11', 8],
    ['B', 'Larch-2', 25, '2026-04-18', 13],
  ]);
  return bytesOf(workbook);
}

/** A fourth hand: tables of the workbook's own with an error cell beside them, grams, times, dashes, a mix in per cent. */
export async function ledgerBook(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const lots = [
    ['R-101', 'Rowan-5', 100, day(2026, 1, 12), day(2026, 3, 2), 2500, 62],
    ['R-102', 'Rowan-5', 90, day(2026, 1, 19), day(2026, 3, 9), 2500, 62],
    ['E-202', 'Elder-3', 110, day(2026, 3, 2), null, 2800, 64],
    ['R-103', 'Rowan-5', 80, day(2026, 2, 2), null, 2500, 62],
  ];
  const book = workbook.addWorksheet('Lots');
  const names = ['Lot', 'Culture', 'Blocks', 'Inoculated', 'Into fruiting', 'Block mass (g)', 'Moisture (%)'];
  book.addTable({
    name: 'LotBook',
    ref: 'A1',
    headerRow: true,
    columns: names.map((name) => ({ name, filterButton: true })),
    rows: lots,
  });
  for (const column of [4, 5]) book.getColumn(column).numFmt = 'yyyy-mm-dd';
  book.getCell('I1').value = { formula: '1/0', result: { error: '#DIV/0!' } };
  fill(workbook, 'Pick log', [
    ['When', 'Lot', 'Flush', 'Grams'],
    [day(2026, 3, 10), 'R-101', 1, 10890],
    [day(2026, 3, 11), 'R-101', 1, 10590],
    [day(2026, 3, 12), 'R-101', 1, 112600],
    [day(2026, 3, 13), 'R-101', 1, 10710],
    [day(2026, 3, 14), 'R-101', 1, '-'],
    [day(2026, 3, 17), 'R-102', 1, 10360],
    [day(2026, 3, 18), 'R-12', 1, 10150],
  ]);
  fill(workbook, 'Recipe', [
    ['Our block, dry basis'],
    [],
    ['Ingredient', '% of dry', '% water', 'Bag (kg)'],
    ['oak sawdust', 78, 22],
    ['wheat bran', 20, 12, 20],
    ['gypsum', 2, 'none', 25],
    ['sum', 100],
  ]);
  fill(workbook, 'Strains', [
    ['culture', 'days to first pick', 'picking days', 'BE', 'earliest', 'best', 'latest'],
    ['Rowan-5', 7, 4, '75%', 45, 55, 75],
    ['Elder-3', 6, 3, '90%', 12, 16, 30],
  ]);
  return bytesOf(workbook);
}
