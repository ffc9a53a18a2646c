import { ABOVE, type Block } from './block';
import { cellAt, textOf, type BookSheet } from './book';
import { monthNamed } from './monthNames';
import { unaccented } from './otherLanguages';

// A sheet a month, on which the days across are numbers alone: 1 to 31.

/** A month of a year, from 1. */
interface Month {
  readonly year: number;
  readonly month: number;
}

/** The month and year that a text is of: `March 2026`, `Mar 26`, `2026-03`; nothing where it says a day as well. */
function monthIn(text: string): Month | undefined {
  const words = unaccented(text)
    .toLowerCase()
    .split(/[\s_/,'’-]+/)
    .filter((word) => word !== '' && word !== 'de' && word !== 'picks' && word !== 'harvest');
  if (words.length !== 2) return undefined;
  const yearOf = (word: string): number | undefined =>
    /^20\d\d$/.test(word) ? Number(word) : /^\d\d$/.test(word) ? 2000 + Number(word) : undefined;
  for (const [one, other] of [words, [...words].reverse()] as [string, string][]) {
    const year = yearOf(other);
    const named = monthNamed(one);
    if (year !== undefined && named !== undefined) return { year, month: named };
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
