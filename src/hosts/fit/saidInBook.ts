import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, placeText, textOf, type BookSheet, type GrowersBook } from './book';
import type { Candidate } from './candidate';
import type { WantedColumn } from './jobs';
import { NAMED, naming } from './naming';
import { isOurs } from './ours';
import { isMass, isShare, massUnitIn, massUnitShown } from './units';
import { isTextNumber } from './values';

// What a book says beside its tables of all lots or strains: `Block weight` with `2.5 kg` beside it, or a note such as
// `bags are 3 kg at 62 %`. It is proposed, and the grower says whether it holds.

/** A figure that a book says, in the words of the grower. */
export interface Said {
  readonly sheet: string;
  /** `Notes!A2` */
  readonly place: string;
  readonly says: string;
  /** As it is answered: `3 kg`, `62%`. */
  readonly value: string;
}

/** A longer text is a story. */
export const LONGEST = 160;

/** What a book says of a column outside the records of its table. */
export function saidInBook(book: GrowersBook, candidate: Candidate, wanted: WantedColumn): Said[] {
  const records = recordsOn(candidate);
  return book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) =>
      sheet.rows.flatMap((cells, row) =>
        records.get(sheet.name)?.has(row) === true
          ? []
          : cells.flatMap((cell, column): Said[] => {
              if (typeof cell !== 'string' || cell.length > LONGEST || isBlank(cell)) return [];
              const place = placeText(sheet.name, row, column);
              const beside = labelled(sheet, row, column, wanted);
              if (beside !== undefined)
                return [{ sheet: sheet.name, place, says: `${cell.trim()} ${beside}`, value: beside }];
              const value = inSentence(cell, wanted);
              return value === undefined ? [] : [{ sheet: sheet.name, place, says: cell.trim(), value }];
            }),
      ),
    );
}

/** The rows of each sheet that hold records of a table. */
function recordsOn(candidate: Candidate): ReadonlyMap<string, ReadonlySet<number>> {
  const rows = new Map<string, Set<number>>();
  for (const { sheet, dataRows } of candidate.parts ?? [candidate]) {
    const own = rows.get(sheet.name) ?? new Set<number>();
    for (const row of dataRows) own.add(row);
    rows.set(sheet.name, own);
  }
  return candidate.isTurned ? new Map() : rows;
}

/** The figure right of a label that names the column. */
function labelled(sheet: BookSheet, row: number, column: number, wanted: WantedColumn): string | undefined {
  const label = textOf(cellAt(sheet, row, column))
    .trim()
    .replace(/[:=]\s*$/, '');
  const beside = cellAt(sheet, row, column + 1);
  // A label has one figure; a header or a record of a table has more beside it.
  if (!isFigure(beside) || isFigure(cellAt(sheet, row, column + 2))) return undefined;
  const hint = {
    isMass: isMass(wanted),
    isPrice: false,
    isShare: isShare(wanted),
    hasMassUnit: (text: string) => massUnitIn(text) !== undefined,
  };
  if (naming(label, wanted.name, wanted.column.alsoCalled, hint) <= NAMED.alike) return undefined;
  return written(sheet, row, column + 1, label, wanted);
}

const isFigure = (cell: Cell): boolean =>
  typeof cell === 'number' || (typeof cell === 'string' && isTextNumber(cell));

/** A figure with the unit that its cell, its format or its label names. */
function written(
  sheet: BookSheet,
  row: number,
  column: number,
  label: string,
  wanted: WantedColumn,
): string | undefined {
  const cell = cellAt(sheet, row, column);
  if (typeof cell === 'string') return withUnit(cell.trim(), massUnitIn(cell) ?? massUnitIn(label), wanted);
  if (typeof cell !== 'number') return undefined;
  const figure = (value: number): string => String(Number(value.toPrecision(12)));
  if (isShare(wanted)) return `${figure(cell > 1 ? cell : cell * 100)}%`;
  const format = sheet.formatAt(row, column);
  return withUnit(figure(cell), (format && massUnitShown(format)) ?? massUnitIn(label), wanted);
}

const withUnit = (figure: string, unit: string | undefined, wanted: WantedColumn): string =>
  isMass(wanted) && unit !== undefined && massUnitIn(figure) === undefined ? `${figure} ${unit}` : figure;

export const CONTAINER =
  /\b(?:blocks?|bags?|logs?|bricks?|blocke?|beutel|sacs?|sachets?|blocs?|bolsas?|bloques?|blok(?:ken|ke|i)?|zak(?:ken)?|poser?|sacch[io]|blocch[io]|work[ai]|blocos?|sacos?)\b/iu;
const WET =
  /\b(?:moist\w*|water|wet|humid\w*|feucht\w*|wasser|eau|agua|água|vocht\w*|acqua|umid\w*|wod[ay]|wilgot\w*|vand|fugt\w*|mc|h2o)\b/iu;
const MASSES = /(\d+(?:[.,]\d+)?)\s*(kgs?|kilos?|g|grams?|lbs?|pounds?|oz)\b/giu;
const SHARES = /(\d{1,2}(?:[.,]\d+)?)\s*(?:%|per\s?cent|pct\b)/giu;

/** The only mass that a sentence about blocks names, or the only share of water. */
function inSentence(text: string, wanted: WantedColumn): string | undefined {
  const isOfBlocks = CONTAINER.test(text);
  if (wanted.name === 'block mass' && isOfBlocks) {
    const [only, more] = [...text.matchAll(MASSES)];
    return only && !more ? `${only[1]!} ${only[2]!}` : undefined;
  }
  if (wanted.name === 'moisture' && (isOfBlocks || WET.test(text))) {
    const [only, more] = [...text.matchAll(SHARES)];
    return only && !more ? `${only[1]!}%` : undefined;
  }
  return undefined;
}
