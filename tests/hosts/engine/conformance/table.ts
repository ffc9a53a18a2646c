import type { CellContent, WorkbookContent } from '../../../../src/hosts/engine/workbook';
import { type Cell, isCellError } from '../../../../src/worksheet/cells/cell';
import { arrays } from './arrays';
import { conditions } from './conditions';
import { dates } from './dates';
import { farmWorkbook } from './farmWorkbook';
import { formats } from './formats';
import { furtherHarvest } from './furtherHarvest';
import { harvest } from './harvest';
import { harvestWorkbook } from './harvestWorkbook';
import { logic } from './logic';
import { lookups } from './lookups';
import { moneyAndUnits } from './moneyAndUnits';
import { numbers } from './numbers';
import { rarely } from './rarely';
import { references } from './references';
import type { Chapter, Row } from './row';
import { statistics } from './statistics';
import { stored } from './stored';
import { texts } from './texts';

export const CHAPTERS: readonly Chapter[] = [
  ...conditions,
  ...lookups,
  ...references,
  ...dates,
  ...formats,
  ...texts,
  ...numbers,
  ...statistics,
  ...arrays,
  ...logic,
  ...moneyAndUnits,
  ...rarely,
  ...harvest,
  ...furtherHarvest,
  ...stored,
];

const BOOKS = { farm: farmWorkbook, harvest: harvestWorkbook } as const;
export type BookName = keyof typeof BOOKS;

const OWN_SHEET = 'Figures';
/** Rows between two formulas: room for what spills. */
const APART = 20;

export interface Placed {
  readonly chapter: string;
  readonly book: BookName;
  readonly row: Row;
  readonly sheet: string;
  readonly cell: CellContent;
}

export const placed: readonly Placed[] = CHAPTERS.flatMap(
  ({ title, rows, entered, book = 'farm' as const }) => rows.map((row) => ({ title, row, entered, book })),
).map(({ title, row, entered, book }, at) => {
  const [text, gives, place] = row;
  const [sheet, address] = (place?.at ?? `${OWN_SHEET}!A${1000 + at * APART}`).split('!') as [string, string];
  const isArray = text.startsWith('{');
  const spills = isArray || entered === 'spilling' || Array.isArray(gives);
  const cell: CellContent = {
    address,
    value: 'as stored',
    formula: isArray ? text.slice(1, -1) : text,
    ...(spills && { spill: place?.fills ?? address }),
    ...(isArray && { isFixedArray: true as const }),
  };
  return { chapter: title, book, row, sheet, cell };
});

export function contentOf(book: BookName): WorkbookContent {
  const further = new Map<string, CellContent[]>();
  for (const { sheet, cell } of placed.filter((one) => one.book === book)) {
    const cells = further.get(sheet);
    if (cells) cells.push(cell);
    else further.set(sheet, [cell]);
  }
  return BOOKS[book](further);
}

export const plain = (value: Cell): unknown => {
  if (isCellError(value)) return value.code;
  // Fifteen digits are what a sheet keeps; three are left to the last steps of a calculation.
  return typeof value === 'number' ? Number(value.toPrecision(12)) : value;
};
export const wanted = ([, gives]: Row): unknown =>
  Array.isArray(gives) ? (gives as Cell[][]).map((row) => row.map(plain)) : plain(gives as Cell);
