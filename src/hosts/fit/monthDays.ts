import { cellError, isBlank, type Cell } from '../../worksheet/cells/cell';
import { serialOf, type DateSystem } from '../../worksheet/calendar';
import { ABOVE, type Block } from './block';
import { cellAt, sheetText, textOf, type BookSheet } from './book';
import type { Candidate } from './candidate';
import { partAt } from './columns';
import { isDateColumn } from './looks';
import { unaccented } from './otherLanguages';
import type { ColumnReading } from './reading';

// A sheet a month, on which days are numbers alone: 1 to 31 down a column or across.

/** A month of a year, from 1. */
export interface Month {
  readonly year: number;
  readonly month: number;
}

/** Beginnings of the months' names, without accents. */
const NAMES = [
  'jan|ene|gen|sty',
  'feb|fev|lut',
  'mar|mrt|maer|mrz',
  'apr|avr|abr|kwi',
  'may|mai|mei|maj|mag',
  'jun|juin|giu|cze',
  'jul|juil|lug|lip',
  'aug|aou|ago|sie',
  'sep|set|wrz',
  'oct|okt|ott|out|paz',
  'nov|lis',
  'dec|dez|dic|dis|gru',
].map((names) => new RegExp(`^(?:${names})[a-z]*\\.?$`));

/** The month and year that a text is of: `March 2026`, `Mar 26`, `2026-03`; nothing where it says a day as well. */
export function monthIn(text: string): Month | undefined {
  const words = unaccented(text)
    .toLowerCase()
    .split(/[\s_/,'’-]+/)
    .filter((word) => word !== '' && word !== 'de' && word !== 'picks' && word !== 'harvest');
  if (words.length !== 2) return undefined;
  const yearOf = (word: string): number | undefined =>
    /^20\d\d$/.test(word) ? Number(word) : /^\d\d$/.test(word) ? 2000 + Number(word) : undefined;
  for (const [one, other] of [words, [...words].reverse()] as [string, string][]) {
    const year = yearOf(other);
    const named = NAMES.findIndex((name) => name.test(one)) + 1;
    if (year !== undefined && named > 0) return { year, month: named };
    const figure = Number(one);
    if (/^20\d\d$/.test(other) && /^\d\d?$/.test(one) && figure >= 1 && figure <= 12)
      return { year: Number(other), month: figure };
  }
  return undefined;
}

/** The month of what lies below a row: the only one in the rows over it, or that of the sheet’s name. */
function monthOver(sheet: BookSheet, row: number): Month | undefined {
  const titles = sheet.rows.slice(Math.max(0, row - ABOVE), row).flat();
  const found = titles.flatMap((cell) => (typeof cell === 'string' ? (monthIn(cell) ?? []) : []));
  return found.length > 0 ? (found.length === 1 ? found[0] : undefined) : monthIn(sheet.name);
}

const isDayNumber = (cell: Cell): boolean =>
  typeof cell === 'number' && Number.isInteger(cell) && cell >= 1 && cell <= 31;

/** Whether a header may be a day of a month. */
export const mayBeDayNumber = (text: string): boolean => /^(?:[1-9]|[12]\d|3[01])$/.test(text);

const lastDay = ({ year, month }: Month): number => new Date(Date.UTC(year, month, 0)).getUTCDate();

/** The day over each column of a block whose month is said, written out; none where the numbers are no days of it. */
export function daysAcross({ sheet, row, across }: Block): ReadonlyMap<number, string> | undefined {
  const month = monthOver(sheet, row);
  if (!month) return undefined;
  const days = across.map((column) => Number(textOf(cellAt(sheet, row, column))));
  const areInTurn = days.every((day, i) => i === 0 || day > days[i - 1]!);
  if (!areInTurn || days.at(-1)! > lastDay(month)) return undefined;
  const two = (figure: number): string => String(figure).padStart(2, '0');
  return new Map(across.map((column, i) => [column, `${month.year}-${two(month.month)}-${two(days[i]!)}`]));
}

const OF_DAYS = /^(?:day|date|tag|datum|jour|date du jour|dia|fecha|dag|giorno|data|dzien)\b/i;

/** The day of each record whose column has the day of the month, and whose sheets say which month. */
export function monthDays(candidate: Candidate): ColumnReading | undefined {
  const { table, missing, headers, matches, sheet, dataRows, lies, parts = [candidate] } = candidate;
  const wanted = table.columns.find((one) => isDateColumn(one) && missing.includes(one.name));
  if (!wanted || lies || candidate.isTurned) return undefined;
  const found = [...headers].filter(
    ([column, header]) =>
      OF_DAYS.test(unaccented(header)) &&
      !matches.some((match) => match.column === column) &&
      dataRows.every((row) => isBlank(cellAt(sheet, row, column)) || isDayNumber(cellAt(sheet, row, column))),
  );
  const [only, more] = found;
  // Months on one sheet are told apart by nothing that a formula reads.
  const months = parts.map((part) => [part.sheet.name, monthOver(part.sheet, part.area.top)] as const);
  const areTold = months.every(([, month]) => month !== undefined);
  if (!only || more || !areTold || new Set(months.map(([name]) => name)).size < months.length)
    return undefined;
  return {
    wanted,
    name: wanted.name,
    match: { wanted: wanted.name, header: only[1], column: only[0], by: 'its data' },
    conversion: 'month days',
    proven: undefined,
    unit: 'number',
    decimalMark: undefined,
    monthOn: new Map(months.map(([name, month]) => [name, month!])),
  };
}

/** The day of a record by its number in the month of its sheet. */
export function dayOfMonth(
  candidate: Candidate,
  monthOn: ReadonlyMap<string, Month>,
  row: number,
  day: Cell,
  system: DateSystem,
): Cell {
  if (typeof day !== 'number') return day;
  const { year, month } = monthOn.get(partAt(candidate, row).sheet.name)!;
  if (day > lastDay({ year, month }))
    return cellError('#N/A', `the month has ${lastDay({ year, month })} days`);
  return serialOf(year, month, day, system);
}

/** The same as a formula says it, of one sheet. */
export function dayOfMonthText(monthOn: ReadonlyMap<string, Month>, sheet: string, days: string): string {
  const [, own] = [...monthOn].find(([name]) => sheetText(name) === sheet)!;
  return `IF(${days}>${lastDay(own)},NA(),DATE(${own.year},${own.month},${days}))`;
}
