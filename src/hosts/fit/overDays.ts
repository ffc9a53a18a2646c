import type { Cell } from '../../worksheet/cells/cell';
import { cellAt, textOf } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { dayCount, weekdaysIn } from './standing';

// What goes out in a week, beside several of its days: an equal part on each of them.

/** The column of the days over which the figure of a week is spread. */
export interface OverDays {
  readonly column: number;
  readonly header: string;
}

const OF_A_WEEK =
  /(?:\b(?:per|a|each|every|pro|je|par|por|pr)\b\.?|\/)\s*(?:week|wk|woche|semaine|sem|semana|settimana|uge)\b|\bweekly\b|\bwöchentlich|\bp\.?\/?w\b/iu;

const daysIn = (cell: Cell): number => weekdaysIn(textOf(cell)).length;

/** Where orders say what is due in a week, and some of them on several days. */
export function overDaysOf(
  { table, matches, sheet, dataRows }: Candidate,
  { wanted, header }: ColumnMatch,
): { readonly overDays?: OverDays } {
  if (table.name !== 'orders' || wanted !== 'mass' || !OF_A_WEEK.test(header)) return {};
  const due = matches.find((match) => match.wanted === 'due');
  const haveSeveral = due && dataRows.some((row) => daysIn(cellAt(sheet, row, due.column)) > 1);
  return haveSeveral ? { overDays: { column: due.column, header: due.header } } : {};
}

/** How many days a record is spread over. */
export const daysBeside = ({ sheet }: Candidate, { column }: OverDays, row: number): number =>
  Math.max(1, daysIn(cellAt(sheet, row, column)));

/** The part of each day. */
export const partOfDay = (candidate: Candidate, overDays: OverDays, row: number, mass: Cell): Cell =>
  typeof mass === 'number' ? mass / daysBeside(candidate, overDays, row) : mass;

/** The same as a formula says it. */
export function partOfDayText(
  { sheet, dataRows }: Candidate,
  overDays: OverDays | undefined,
  column: (at: number) => string,
): string {
  if (!overDays) return '';
  const held = dataRows.map((row) => cellAt(sheet, row, overDays.column));
  return `/${dayCount(column(overDays.column), held)}`;
}
