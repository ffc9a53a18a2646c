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
