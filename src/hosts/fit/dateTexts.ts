import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { isDateColumn } from './looks';
import { inMonth } from './monthDays';
import type { Reader } from './readCells';
import { valuesOf, type ColumnReading } from './reading';
import { isTextDate } from './values';
import { withoutWeekWords } from './weekOf';
import { startOf } from './weekRanges';
import { weeksAmong } from './weeks';

// Days as texts, and what else of a sheet says of their year.

/** In a leap year 29 February is a day. */
export const ANY_YEAR = 2024;

/** The days of a column that are texts. */
export const textDatesOf = (
  candidate: Candidate,
  { match, dayRows, lotDay, week, range, months }: ColumnReading,
  reader: Reader,
): string[] => {
  const { sheet, dataRows } = candidate;
  if (months)
    return dataRows
      .map((row) => inMonth(candidate, row, cellAt(sheet, row, match.column), months))
      .filter((value) => typeof value === 'string');
  const values = valuesOf(sheet, dayRows ? [...new Set(dayRows.values())] : dataRows, match.column)
    .map((value) =>
      lotDay ? reader.lotDay(value, lotDay) : week ? withoutWeekWords(value) : range ? startOf(value) : value,
    )
    .filter((value): value is string => typeof value === 'string' && isTextDate(value));
  // Each day of a week has the same cell.
  return week || range ? [...new Set(values)] : values;
};

/** Rows above a table in which the year of its records may stand. */
const ABOVE = 4;

/** Weeks that stand in the place of days in a column of dates. */
export const weekTextsOf = (
  { sheet, dataRows }: Candidate,
  { wanted, conversion, match, week }: ColumnReading,
): string[] =>
  // Weeks that begin on Sunday are numbered in more than one way.
  isDateColumn(wanted) && conversion === 'dates' && week?.isSundayFirst !== true
    ? [...new Set(weeksAmong(valuesOf(sheet, dataRows, match.column)))]
    : [];

/** The only year that some texts have. */
export function yearAmong(texts: readonly string[]): number | undefined {
  const years = new Set(texts.flatMap((text) => text.match(/(?<!\d)20\d\d(?!\d)/g) ?? []));
  return years.size === 1 ? Number([...years][0]) : undefined;
}

/** The only year that the name of a sheet or the cells above its table say. */
export function yearOver(candidate: Candidate): number | undefined {
  const parts = candidate.parts ?? [candidate];
  const texts = parts.flatMap(({ sheet, area }) => [
    sheet.name,
    ...sheet.rows.slice(Math.max(0, area.top - ABOVE), area.top).flatMap((cells) => cells.map(textOf)),
  ]);
  return yearAmong(texts);
}
