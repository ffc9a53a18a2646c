import { cellAt, type BookSheet } from './book';
import type { Candidate } from './candidate';
import { namedPairs } from './matching';
import { onceFor } from './once';
import { lookOf } from './values';

// A table on its side, headers down and records across, is read through a view of its sheet in which it stands upright.

/** More records than these lie below each other, not side by side. */
const MOST_SIDEWAYS = 200;

/** A sheet with its rows as columns; undefined where it is too large to have a table on its side. */
export const turned = onceFor((sheet: BookSheet): BookSheet | undefined => {
  // The rows first: a call cannot take as many arguments as a sheet may have rows.
  if (sheet.rows.length > MOST_SIDEWAYS) return undefined;
  const width = Math.max(0, ...sheet.rows.map((cells) => cells.length));
  if (width > MOST_SIDEWAYS) return undefined;
  return {
    name: sheet.name,
    rows: Array.from({ length: width }, (_, column) =>
      sheet.rows.map((__, row) => cellAt(sheet, row, column)),
    ),
    formatAt: (row, column) => sheet.formatAt(column, row),
    isFormula: (row, column) => sheet.isFormula(column, row),
  };
});

/** What speaks against a reading on its side: a table that also reads upright does. */
const ON_SIDE = 1;
const FEWEST_RECORDS = 2;
const FEWEST_OF_CARD = 4;
const MOST_LACKING = 3;
/** Headers are different words, and no fewer of them than these name what is wanted: the cells of a log do neither. */
const FEWEST_NAMED = 0.3;

/** A part of a view as what it is: a table on its side; undefined where it has too little of one. */
export function asTurned(found: Candidate): Candidate | undefined {
  const { table, area, headers, matches, missing, dataRows, origin } = found;
  const isNamed = matches.some(({ wanted }) => wanted === table.columns[0]!.name);
  // A card of the only strain has one record.
  const isCard = dataRows.length === 1 && missing.length === 0 && matches.length >= FEWEST_OF_CARD;
  // Of strains several figures may be typed, once enough is there to know them by.
  const mayLack =
    table.name === 'strains' && matches.filter(({ by }) => by !== 'its data').length >= FEWEST_OF_CARD;
  if (
    !isNamed ||
    missing.length > (mayLack ? MOST_LACKING : 1) ||
    (dataRows.length < FEWEST_RECORDS && !isCard)
  )
    return undefined;
  // What other jobs want of it speaks for it as well.
  const whole = { ...table, columns: [...table.columns, ...table.known] };
  const written = new Map([...headers].map(([column, header]) => [column, [header]]));
  const named = new Set([
    ...matches.filter(({ by }) => by !== 'its data').map(({ column }) => column),
    ...namedPairs(written, whole).map(({ column }) => column),
  ]).size;
  // A column of units beside the headers is part of them.
  const areWords = [...headers.values()].every((header) => lookOf(header, false) === 'text');
  const areDifferent = new Set(headers.values()).size === headers.size;
  if (!areWords || !areDifferent || named < Math.max(2, FEWEST_NAMED * headers.size)) return undefined;
  return {
    ...found,
    isTurned: true,
    block: { top: area.left, left: area.top, bottom: area.right, right: area.bottom },
    origin: (row, column) => ({ ...origin(row, column), row: column, column: row }),
    score: found.score - ON_SIDE,
  };
}
