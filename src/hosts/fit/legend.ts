import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { fixedRangeOf } from '../xlsx/address';
import { cellAt, sheetText, textOf, type BookSheet, type GrowersBook } from './book';
import { isOurs } from './ours';
import { looseKey } from './labels';

/** Two columns side by side that say what short names stand for: `Shii`, `Shiitake`. */
export interface Legend {
  /** The cells, as a formula says them: short names left, what they stand for right. */
  readonly range: string;
  /** What stands for a short name, its case aside. */
  readonly full: ReadonlyMap<string, string>;
}

const shortKey = (cell: Cell): string => textOf(cell).trim().toLowerCase();

/** What a label stands for by a legend; itself where it is none of its short names. */
export const inFull = ({ full }: Legend, cell: Cell): Cell =>
  isBlank(cell) ? cell : (full.get(shortKey(cell)) ?? cell);

/**
 * The only legend of a book that says of every label that a list lacks which of the list it is; undefined where there is
 * none, or two that differ.
 */
export function legendFor(
  book: GrowersBook,
  labels: readonly Cell[],
  list: readonly string[],
): Legend | undefined {
  const known = new Set(list.map(looseKey));
  const short = new Set(labels.filter((cell) => !isBlank(cell) && !known.has(looseKey(cell))).map(shortKey));
  if (short.size === 0 || list.length === 0) return undefined;
  const found = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => legendsOn(sheet, short, known));
  const [first] = found;
  const saysTheSame = (other: Legend): boolean =>
    [...short].every((label) => looseKey(other.full.get(label)!) === looseKey(first!.full.get(label)!));
  return found.every(saysTheSame) ? first : undefined;
}

function legendsOn(sheet: BookSheet, short: ReadonlySet<string>, known: ReadonlySet<string>): Legend[] {
  const width = Math.max(0, ...sheet.rows.map((row) => row.length));
  return Array.from({ length: Math.max(0, width - 1) }, (_, left) => left).flatMap((left) => {
    const full = new Map<string, string>();
    const rows: number[] = [];
    for (let row = 0; row < sheet.rows.length; row++) {
      const [own, stands] = [cellAt(sheet, row, left), cellAt(sheet, row, left + 1)];
      const key = shortKey(own);
      if (isBlank(own) || !short.has(key) || !known.has(looseKey(stands))) continue;
      // A list of lots says it again and again; of two words for one label none counts.
      if (full.has(key)) return [];
      full.set(key, textOf(stands).trim());
      rows.push(row);
    }
    if ([...short].some((label) => !full.has(label))) return [];
    const area = { top: rows[0]!, bottom: rows.at(-1)!, left, right: left + 1 };
    return [{ range: `${sheetText(sheet.name)}!${fixedRangeOf(area)}`, full }];
  });
}
