import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { Answer } from './answers';
import { cellAt, placeText, textOf, type BookSheet, type GrowersBook } from './book';
import { unaccented } from './otherLanguages';
import { isOurs } from './ours';
import { saysPicking } from './rows';
import { weekdaysIn } from './standing';
import { KILOGRAMS, massUnitIn, type MassUnit } from './units';
import { WEEKDAYS } from './weeks';

// How much can be picked on each day of the week, where a book lists it: the days down or across, a figure beside each.

/** Such a list, as rows of the calendar. */
export interface WeekLimits {
  /** `Rooms!A7`, its first day. */
  readonly place: string;
  readonly rows: readonly Readonly<Record<string, Answer>>[];
}

/** Fewer days than these are no list of a week. */
const FEWEST = 5;
/** Rows above a list in which its title may be. */
const ABOVE = 3;
const LIMIT = /\b(?:max\w*|most|limit\w*|cap|capacity|can|up to|hochst\w*)\b/;
const NOBODY = /^(?:off|closed|shut|none|no|-|–|—|0+)$/i;

const weekdayAt = (cell: Cell): number | undefined => {
  const [day, ...more] = typeof cell === 'string' ? weekdaysIn(cell) : [];
  return more.length === 0 ? day : undefined;
};

/** The list of limits of a week that a book has; none where it has several. */
export function weekLimits(book: GrowersBook, unit: MassUnit | undefined): WeekLimits | undefined {
  const found = book.sheets.filter((sheet) => !isOurs(sheet)).flatMap((sheet) => limitsOn(sheet, unit));
  return found.length === 1 ? found[0] : undefined;
}

function limitsOn(sheet: BookSheet, unit: MassUnit | undefined): WeekLimits[] {
  return sheet.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column): WeekLimits[] => {
      if (weekdayAt(cell) === undefined) return [];
      return [
        listFrom(sheet, { row, column }, { down: 1, right: 0 }, unit),
        listFrom(sheet, { row, column }, { down: 0, right: 1 }, unit),
      ].flatMap((one) => one ?? []);
    }),
  );
}

/** The list whose first day is at a place, along one way; its figures are beside it, on the other. */
function listFrom(
  sheet: BookSheet,
  { row, column }: { readonly row: number; readonly column: number },
  { down, right }: { readonly down: number; readonly right: number },
  unit: MassUnit | undefined,
): WeekLimits | undefined {
  const dayAt = (i: number): number | undefined =>
    weekdayAt(cellAt(sheet, row + i * down, column + i * right));
  if ((row >= down && column >= right && dayAt(-1) !== undefined) || dayAt(FEWEST - 1) === undefined)
    return undefined;
  const days: number[] = [];
  for (let day = dayAt(0); day !== undefined; day = dayAt(days.length)) days.push(day);
  if (new Set(days).size !== days.length) return undefined;
  const figures = days.map((_, i) => cellAt(sheet, row + i * down + right, column + i * right + down));
  const header = textOf(cellAt(sheet, row - down + right, column - right + down));
  const above = Array.from({ length: ABOVE }, (_, i) => textOf(cellAt(sheet, row - 1 - i, column)));
  const before = textOf(cellAt(sheet, row - down, column - right));
  const words = [header, before, ...above, sheet.name].map((text) => unaccented(text).toLowerCase());
  if (!words.some(saysPicking) || !words.some((text) => LIMIT.test(text))) return undefined;
  const limits = figures.map((cell) => limitIn(cell, header, unit));
  // A list of limits has a figure on most of its days.
  if (limits.some((limit) => limit === undefined)) return undefined;
  if (limits.filter((limit) => typeof limit === 'number').length < 2) return undefined;
  return {
    place: placeText(sheet.name, row, column),
    rows: days.map((day, i) => ({
      day: WEEKDAYS[day - 1]!,
      'pick limit': limits[i]!,
      'load limit': 'none',
    })),
  };
}

/** A limit in the plan's unit, or that nobody picks; undefined where a cell says neither. */
function limitIn(cell: Cell, header: string, unit: MassUnit | undefined): Answer | undefined {
  const text = textOf(cell).trim();
  if (isBlank(cell) || NOBODY.test(text)) return 'off';
  const figure = typeof cell === 'number' ? cell : Number.parseFloat(text.replace(',', '.'));
  if (!(figure > 0) || (typeof cell === 'string' && !/^\s*\d[\d.,]*\s*\p{L}{0,4}\s*$/u.test(cell)))
    return undefined;
  const own = massUnitIn(text) ?? massUnitIn(header);
  const factor = own === undefined || unit === undefined ? 1 : KILOGRAMS[own] / KILOGRAMS[unit];
  return Number((figure * factor).toPrecision(6));
}
