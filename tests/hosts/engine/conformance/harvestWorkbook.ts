import type { CellContent, SheetContent, WorkbookContent } from '../../../../src/hosts/engine/workbook';
import type { TableShape } from '../../../../src/hosts/xlsx/formula';
import type { Cell } from '../../../../src/worksheet/cells/cell';
import { addressOf } from '../addressOf';

// An invented farm's lots and picks, enough of them that months, rooms and grades mix. 46027 is 5 January 2026.

const STRAINS = ['Alder-3', 'Birch-1', 'Cedar-2', 'Oak'];
const ROOMS = ['North', 'South', 'East', "Grower's"];
const STATES = ['Fruiting', 'Spent', 'Incubating', ''];
const GRADES = ['A', 'B', 'A', 'C', 'A', 'B'];
const PICKERS = ['Ann', 'Bob', 'Cy'];

const rounded = (number: number, places: number): number => Number(number.toFixed(places));
const lotOf = (n: number): string => `L-${String(n + 1).padStart(3, '0')}`;
const from = (count: number, row: (n: number) => Cell[]): Cell[][] =>
  Array.from({ length: count }, (_, n) => row(n));

const LOT_TITLES = [
  ...['Lot', 'Strain', 'Inoculated', 'Blocks', 'Block mass (kg)'],
  ...['Room', 'Loaded', 'Status', 'Price'],
];
const LOTS = from(24, (n) => {
  const day = 46027 + n * 9;
  return [
    ...[lotOf(n), STRAINS[n % 4]!, day, n === 7 ? null : 20 + ((n * 7) % 45), n % 3 ? 2.27 : 4.5],
    ...[ROOMS[n % 4]!, n % 6 ? day + 40 + (n % 5) : null, STATES[n % 4]!, rounded(6 + n * 0.35, 2)],
  ];
});

const PICK_TITLES = ['Date', 'Lot', 'Flush', 'Fresh kg', 'Grade', 'Picker', 'Spent hours'];
const ODD_PICKS: Readonly<Record<number, Cell>> = { 10: 'n/a', 19: null, 30: 0 };
const PICKS = from(60, (n) => [
  ...[46073 + n * 3, lotOf((n * 5) % 24), 1 + (n % 3)],
  n in ODD_PICKS ? ODD_PICKS[n]! : rounded(3.1 + ((n * 37) % 53) / 7, 3),
  ...[GRADES[n % 6]!, PICKERS[n % 3]!, rounded((35 + (n % 40)) / 1440, 10)],
]);

/** Numbers, texts that read as numbers and texts that do not, as they gather in a book. */
const GATHERED: readonly Cell[] = [
  ...[46082, 46082.75, 0.1, 1234.567, -1234.567, 'Oak & Co', ' two  words ', '12', '1,234.5', '15%'],
  ...[true, false, null, '', 'L-003', 0, 1e-7, 123456789012, 0.005, '3/4'],
  ...['2026-03-01', '1 Mar 2026', '18:30', '#N/A!', 'abc*def', 'what?', '~tilde', 'Ünïcode', "it's", 'A"q"'],
];

const column = (title: string, values: readonly Cell[]): Cell[][] => [[title], ...values.map((one) => [one])];

const SHEETS: Readonly<Record<string, readonly (readonly Cell[])[]>> = {
  Lots: [LOT_TITLES, ...LOTS],
  Picks: [PICK_TITLES, ...PICKS],
  Jan: column('Jan', [10, 20, 30, null, 'x']),
  Feb: column('Feb', [1.5, 2.5, null, 4, 5]),
  Mar: column('Mar', [100, 0, -3, 7, true]),
  "Grower's book": GATHERED.map((value, n) => [value, n + 1, (n * n) % 7]),
  Hidden: [['v', 'k'], ...from(12, (n) => [n * 2 + 1, 'ab'.charAt(n % 2)])],
};

/** Rows 4, 5 and 10 of that sheet are hidden by hand. */
const HIDDEN = new Map([3, 4, 9].map((row) => [row, 'hand'] as const));

export const HARVEST_NAMES: Readonly<Record<string, string>> = {
  FARMNAME: '"Test farm"',
  RATE: '0.075',
  FRESH: 'Picks!$D$2:$D$61',
  STRAIN_LIST: 'Lots!$B$2:$B$25',
  DYN: 'OFFSET(Lots!$D$1,1,0,COUNTA(Lots!$A$2:$A$25),1)',
};

const table = (name: string, columns: readonly string[], rows: number): TableShape => ({
  name,
  sheet: name,
  area: { top: 0, left: 0, bottom: rows, right: columns.length - 1 },
  headerRows: 1,
  totalsRows: 0,
  columns,
});

export const HARVEST_TABLES = [
  table('Lots', LOT_TITLES, LOTS.length),
  table('Picks', PICK_TITLES, PICKS.length),
];

const cellsOf = (rows: readonly (readonly Cell[])[]): CellContent[] =>
  rows.flatMap((row, r) =>
    row.flatMap((value, c) => (value === null ? [] : [{ address: addressOf(c, r), value }])),
  );

/** The book of harvests with further cells on its sheets; sheets it has not are added. */
export function harvestWorkbook(further: ReadonlyMap<string, readonly CellContent[]>): WorkbookContent {
  const names = [...new Set([...Object.keys(SHEETS), ...further.keys()])];
  return {
    dateSystem: 1900,
    vocabulary: {
      name: (name) => HARVEST_NAMES[name.toUpperCase()],
      table: (name) => HARVEST_TABLES.find((one) => one.name.toLowerCase() === name.toLowerCase()),
      tableAt: () => undefined,
    },
    sheets: names.map((name): SheetContent => ({
      name,
      cells: [...cellsOf(SHEETS[name] ?? []), ...(further.get(name) ?? [])],
      ...(name === 'Hidden' && { hiddenRows: HIDDEN }),
    })),
  };
}
