import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { addressOf } from '../xlsx/address';
import { cellAt, isFilled, type BookSheet } from './book';
import { lookAt } from './values';
import { onceFor } from './once';

/** Rows of a sheet in which headers are looked for, and blank rows that end a table. */
const MOST_ROWS = 2000;

/** Filled cells side by side: what a header row may be, of one row or of two with groups above. */
export interface HeaderRun {
  /** The row over the records. */
  readonly row: number;
  readonly left: number;
  readonly right: number;
  /** The names that each column may go by, the one to show first. */
  readonly names: ReadonlyMap<number, readonly string[]>;
  readonly isGrouped: boolean;
  /** How much less likely it is than the plain reading of the same cells. */
  readonly doubt: number;
}

/** Pieces of a header row that a blank column parts and that may still be one. */
const MOST_PIECES = 3;

export const headerRuns = onceFor((sheet: BookSheet): readonly HeaderRun[] => {
  const runs: HeaderRun[] = [];
  for (let row = 0; row < Math.min(sheet.rows.length, MOST_ROWS); row++) {
    if (!isUnitsRow(sheet, row))
      runs.push(...runsIn(sheet, row, (column) => cellAt(sheet, row, column), false));
    const above = (column: number): Cell => (row === 0 ? null : cellAt(sheet, row - 1, column));
    if (isUnitsRow(sheet, row)) {
      runs.push(...runsIn(sheet, row, (column) => withUnit(above(column), cellAt(sheet, row, column)), true));
      continue;
    }
    if (row === 0 || !isWordsOverFigures(sheet, row)) continue;
    const under = (column: number): Cell => cellAt(sheet, row, column);
    runs.push(
      ...runsIn(sheet, row, (column) => (isBlank(under(column)) ? above(column) : under(column)), true),
    );
  }
  return runs;
});

const UNIT = /^(?:[[(].*[\])]|kgs?|g|lbs?|oz|%|days?|d|pcs|date|-|[$€£]\/?(?:kg|lb)?)$/i;

/** Whether a row holds nothing but units, two at least, each under a header. */
function isUnitsRow(sheet: BookSheet, row: number): boolean {
  if (row === 0) return false;
  const units = sheet.rows[row]!.flatMap((cell, column) => (isBlank(cell) ? [] : [[cell, column] as const]));
  return (
    (units.length >= 2 || (units.length === 1 && /^\[/.test(headerText(units[0]![0])))) &&
    units.every(
      ([cell, column]) =>
        typeof cell === 'string' &&
        UNIT.test(cell.trim()) &&
        headerText(cellAt(sheet, row - 1, column)) !== '',
    )
  );
}

/** A header with the unit below it in brackets, as if both were in one cell. */
function withUnit(header: Cell, unit: Cell): Cell {
  const [name, under] = [headerText(header), headerText(unit)];
  return name === '' || under === '' ? header : `${name} ${/^[[(]/.test(under) ? under : `(${under})`}`;
}

/** What a column without a header is called: nothing is named so by chance. */
export const unnamed = (column: number): string =>
  `column ${addressOf({ row: 0, column }).replace(/\d+/, '')}`;

export const isUnnamed = (header: string): boolean => /^column [A-Z]{1,3}$/.test(header);

/** `2nd` beside `lb a block 1st` is a header. */
const isOrdinal = (cell: Cell): boolean =>
  typeof cell === 'string' && /^[1-9](?:st|nd|rd|th)$/i.test(cell.trim());

/** Whether a column goes on with texts or days beside the records of a header row, and has no header itself. */
function isWithoutHeader(sheet: BookSheet, row: number, column: number): boolean {
  // Above a row of headers it has one there.
  if (column < 0 || isWordsOverFigures(sheet, row + 1)) return false;
  const looks = [1, 2, 3].map((down) => lookAt(sheet, row + down, column));
  return looks.filter((look) => look === 'text' || look === 'date' || look === 'text date').length >= 2;
}

function runsIn(
  sheet: BookSheet,
  row: number,
  at: (column: number) => Cell,
  isGrouped: boolean,
): HeaderRun[] {
  const width = Math.max(sheet.rows[row]!.length, isGrouped ? sheet.rows[row - 1]!.length : 0);
  const pieces: { left: number; right: number }[] = [];
  for (let left = 0; left < width; left++) {
    if (isBlank(at(left))) continue;
    let right = left;
    // A column without a header in the middle of a table does not part it.
    while (
      right + 1 < width &&
      (!isBlank(at(right + 1)) || (isFilled(sheet, row + 1, right + 1) && !isBlank(at(right + 2))))
    ) {
      right++;
    }
    pieces.push({ left, right });
    left = right;
  }
  return pieces.flatMap(({ left: headed }, first) =>
    pieces.slice(first, first + MOST_PIECES).flatMap(({ right }, more): HeaderRun[] => {
      // The first column of a table often has no header: what its records are called needs none on a wall.
      const isFree = first === 0 || pieces[first - 1]!.right < headed - 2;
      const left =
        isFree && isWithoutHeader(sheet, row, headed - 1) && !isFilled(sheet, row + 1, headed - 2)
          ? headed - 1
          : headed;
      const isOne = pieces
        .slice(first + 1, first + more + 1)
        .every((piece, i) => piece.left === pieces[first + i]!.right + 2);
      if (!isOne) return [];
      const names = new Map<number, readonly string[]>();
      for (let column = left; column <= right; column++) {
        const text = headerText(at(column));
        if (text === '') {
          if (isBlank(at(column)) && isWithoutHeader(sheet, row, column))
            names.set(column, [unnamed(column)]);
          continue;
        }
        const group = isGrouped && !isUnitsRow(sheet, row) ? groupOver(sheet, row, column, left) : '';
        names.set(column, group === '' || group === text ? [text] : [text, `${group} ${text}`]);
      }
      const doubt = (isGrouped ? GROUPED : 0) + more * PARTED;
      const count = [...names.values()].filter(([name]) => !isUnnamed(name!)).length;
      return count >= 2 ? [{ row, left, right, names, isGrouped, doubt }] : [];
    }),
  );
}

/**
 * The words of the group over a header: the nearest to its left in the row above. A lone text over the first header is the
 * title of the table.
 */
function groupOver(sheet: BookSheet, row: number, column: number, left: number): string {
  const above = sheet.rows[row - 1]!.flatMap((cell, at) => (headerText(cell) === '' ? [] : [at]));
  if (above.length === 1 && above[0] === left) return '';
  for (let at = column; at >= left; at--) {
    const text = headerText(cellAt(sheet, row - 1, at));
    if (text !== '') return text;
  }
  return '';
}

const headerText = (cell: Cell): string =>
  isBlank(cell) || isCellError(cell) || typeof cell !== 'string' ? '' : cell.trim();

/** A header that says little without its group: `d7` under `Contam.` */
const isTerse = (header: string): boolean => /\d/.test(header) && !/\p{L}{2}/u.test(header);

/** The name to show of each column: with its group where it says little alone, or two under different groups are called the same. */
export function shownNames(names: HeaderRun['names']): ReadonlyMap<number, string> {
  const times = new Map<string, number>();
  for (const [, [text]] of names) times.set(text!, (times.get(text!) ?? 0) + 1);
  return new Map(
    [...names].map(([column, own]) => [
      column,
      isTerse(own[0]!) || times.get(own[0]!)! > 1 ? own.at(-1)! : own[0]!,
    ]),
  );
}

/** Two header rows, and columns on both sides of a blank one, are read as such only where that finds more. */
const GROUPED = 0.6;

const PARTED = 0.4;

/** Rows below words in which a first figure may lie: a title or a blank row may come between. */
const SOON = 3;

/** Whether a row holds words only, two at least, and figures come soon below them. */
export function isWordsOverFigures(
  sheet: BookSheet,
  row: number,
  left = 0,
  right = (sheet.rows[row]?.length ?? 0) - 1,
): boolean {
  let words = 0;
  for (let column = left; column <= right; column++) {
    const look = lookAt(sheet, row, column);
    if (look === 'text' || isOrdinal(cellAt(sheet, row, column))) words++;
    else if (look !== 'blank') return false;
  }
  if (words < 2) return false;
  for (let below = row + 1; below <= row + SOON; below++) {
    for (let column = left; column <= right; column++) {
      const look = lookAt(sheet, below, column);
      if (look !== 'text' && look !== 'blank') return true;
    }
  }
  return false;
}
