import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Answer } from './answers';
import { placeText, textOf, type BookSheet, type GrowersBook } from './book';
import { isOfWhatCameOff } from './flushHeaders';
import type { TableFit } from './fitted';
import { JOB, type TableName } from './jobs';
import { labelsIn } from './joining';
import { isOurs } from './ours';
import type { Reader } from './readCells';
import { weekdaysIn } from './standing';
import { isMassUnit, KILOGRAMS, massUnitOf, type MassUnit } from './units';

// Orders that stand in sentences: `Every Friday: Harbour Deli 5 kg king oyster and 2 kg pioppino`. They are proposed, and
// the grower says whether they are right.

/** What the strains are sold as. */
export function soldIn(tables: ReadonlyMap<TableName, TableFit>): readonly string[] {
  const products = labelsIn(tables.get('strains'), 'product');
  return products.length > 0 ? products : labelsIn(tables.get('strains'), 'strain');
}

/** The unit of the lots’ own masses, in which orders that are typed are too. */
export function lotsUnit(tables: ReadonlyMap<TableName, TableFit>): MassUnit | undefined {
  const unit = tables.get('lots')?.readings.find(({ name }) => name === 'block mass')?.unit;
  return unit !== undefined && isMassUnit(unit) ? unit : undefined;
}

interface SaidOrders {
  readonly rows: readonly Readonly<Record<string, Answer>>[];
  /** The texts that say so. */
  readonly told: readonly string[];
}

const ORDERS = JOB.plan.tables.find(({ name }) => name === 'orders')!;
const STANDING = /\b(?:every|each|weekly|standing)\b/i;
const QUANTITY =
  /(?<!\d|\d[.,])(\d+(?:[.,]\d+)?)\s*(kgs?|kilos?|grams?|gr?|lbs?|pounds?|oz|ounces?)(?!\p{L})\.?(?:\s+of\b)?/giu;
/** What parts one product from the next; the point of `P. djamor` does not. */
const PARTS = /[,;|:&+()\n]|(?<!(?<!\p{L})\p{L})\.(?:\s|$)|\b(?:and|und|et|y|en|e|i|og|to|for|plus)\b/u;
const BETWEEN_DAYS = new Set(['and', 'und', 'et', 'y', 'en', 'e', 'i', 'og']);
const BEFORE_DAYS = new Set(['every', 'each', 'on']);
/** Shorter names of days may be other words. */
const PLAIN_DAY = 5;
const LONGEST = 240;

/** The orders that sentences of a book say, their masses in a unit, their products in the spelling of a list. */
export function ordersInWords(
  book: GrowersBook,
  list: readonly string[],
  unit: MassUnit | undefined,
  reader: Reader,
): SaidOrders | undefined {
  const found = book.sheets.filter((sheet) => !isOurs(sheet)).flatMap(linesOn);
  if (found.length === 0) return undefined;
  const inUnit = ({ mass, unit: own }: SaidMass): number | null =>
    mass === null || unit === undefined
      ? mass
      : Number(((mass * KILOGRAMS[own]) / KILOGRAMS[unit]).toPrecision(6));
  const named = (product: string): string => {
    const [read] = list.length === 0 ? [] : reader.labels([product], list);
    return read === undefined || isBlank(read) || isCellError(read) ? product : textOf(read);
  };
  return {
    rows: found.flatMap(({ due, masses }) =>
      masses.map((one) => ({ product: named(one.product), mass: inUnit(one), due })),
    ),
    told: found.map(({ told }) => told),
  };
}

interface SaidMass {
  readonly product: string;
  /** None where it is said as a range. */
  readonly mass: number | null;
  readonly unit: MassUnit;
}

interface SaidLine {
  readonly due: string;
  readonly masses: readonly SaidMass[];
  readonly told: string;
}

function linesOn(sheet: BookSheet): SaidLine[] {
  let isOfOrders = ORDERS.sheetWords.test(sheet.name);
  return sheet.rows.flatMap((cells, row): SaidLine[] => {
    const wasOfOrders = isOfOrders;
    isOfOrders ||= cells.some((cell) => typeof cell === 'string' && ORDERS.sheetWords.test(cell));
    return runsIn(cells).flatMap(({ column, text }) => {
      if (text.length > LONGEST || !(wasOfOrders || STANDING.test(text)) || isOfWhatCameOff(text)) return [];
      const masses = massesIn(text);
      const due = daysIn(text.slice(0, text.search(QUANTITY)));
      if (masses.length === 0 || due === '') return [];
      const told = `${placeText(sheet.name, row, column)} says “${text.replaceAll(' | ', ', ')}”`;
      return [{ due, masses, told }];
    });
  });
}

/** Texts side by side with nothing but blanks around them: words beside figures are those of a table. */
function runsIn(cells: readonly Cell[]): { readonly column: number; readonly text: string }[] {
  const runs: { column: number; texts: string[]; isOfTable: boolean }[] = [];
  let open: (typeof runs)[number] | undefined;
  cells.forEach((cell, column) => {
    if (isBlank(cell)) {
      open = undefined;
      return;
    }
    if (!open) runs.push((open = { column, texts: [], isOfTable: false }));
    if (typeof cell === 'string') open.texts.push(cell.trim());
    else open.isOfTable = true;
  });
  return runs.flatMap(({ column, texts, isOfTable }) =>
    isOfTable ? [] : [{ column, text: texts.join(' | ') }],
  );
}

/** The masses that a sentence says, each with its product behind it or, where nothing is, before it. */
function massesIn(text: string): SaidMass[] {
  const found = [...text.matchAll(QUANTITY)];
  return found.flatMap(({ 0: whole, 1: figure, 2: word, index }, i): SaidMass[] => {
    const end = index + whole.length;
    const behind = text
      .slice(end, found[i + 1]?.index)
      .split(PARTS)[0]!
      .trim();
    const before = text.slice(i === 0 ? 0 : found[i - 1]!.index + found[i - 1]![0].length, index);
    const product = behind === '' ? before.split(PARTS).at(-1)!.trim() : behind;
    const isRange = /\d\s*[-–]\s*$/.test(text.slice(0, index));
    const mass = isRange ? null : Number(figure!.replace(',', '.'));
    return /\p{L}/u.test(product) ? [{ product, mass, unit: massUnitOf(word!) ?? 'kg' }] : [];
  });
}

/** The days of the week that words begin with, or say in full or after `every`. */
function daysIn(text: string): string {
  const words = text.match(/\p{L}+/gu) ?? [];
  const days: string[] = [];
  let isExpected = true;
  for (const word of words) {
    const isDay = weekdaysIn(word).length === 1;
    if (isDay && (isExpected || word.length >= PLAIN_DAY)) days.push(word);
    const isBetween: boolean = BETWEEN_DAYS.has(word.toLowerCase()) && days.length > 0 && isExpected;
    isExpected = (isDay && isExpected) || isBetween || BEFORE_DAYS.has(word.toLowerCase());
  }
  const different = new Set(days.map((word) => weekdaysIn(word)[0]));
  return different.size === days.length ? days.join(', ') : '';
}
