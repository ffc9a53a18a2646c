import type { DateSystem } from '../../worksheet/calendar';
import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { typedCell } from '../../worksheet/cells/shown';
import type { Area } from '../xlsx/address';
import { column as tableColumn, type Reads } from '../xlsx/describe';
import { answered, headersIn, readsOf } from './answered';
import type { Answer } from './answers';
import type { WantedTable } from './jobs';
import { ROWS } from './readPlaces';
import type { FirstDay, Referred } from './referred';
import { dayFrom, dayText, isDayText, weekdayNumber, weekdaysIn } from './standing';

// Tables that the grower filled in. Orders with days of the week are due every week of the plan.

/** Such a table as it is to be written, with what its cells are. */
export function filledIn(
  wanted: WantedTable,
  table: string,
  rows: readonly Readonly<Record<string, Answer>>[],
  dateSystem: DateSystem,
) {
  const headers = headersIn(wanted, rows);
  const answers = rows.map((row) => headers.map((header) => answered(wanted, header, row[header] ?? null)));
  const cells = answers.map((row) =>
    row.map((cell) => (typeof cell === 'string' ? typedCell(cell, dateSystem) : cell)),
  );
  const referred: Referred = {
    whole: `${table}[#All]`,
    grid: [headers, ...cells],
    column: (header) => `${table}[${header}]`,
    place: undefined,
  };
  // Days of the week are words.
  const hasDays = wanted.name === 'orders' && rows.some(({ due }) => daysOf(due ?? null).length > 0);
  const columns = headers.map((header) =>
    tableColumn(header, hasDays && header === 'due' ? 'text' : readsOf(wanted, header)),
  );
  return { wanted, headers, columns, answers, cells, referred };
}

/** Orders that may be added to those that were filled in. */
const GROWTH = 20;

/** A formula that reads a column of the orders for a week, so many rows below the first one. */
interface WeekFormula {
  readonly header: string;
  readonly at: number;
  readonly row: number;
  readonly text: string;
  readonly reads: Reads;
}

/** Orders that were filled in, as those of every week; undefined where none names a day of the week. */
export function everyWeekOf(
  { wanted, headers, cells, referred }: ReturnType<typeof filledIn>,
  first: FirstDay,
  weeks: number,
  dateSystem: DateSystem,
) {
  const dueOf = (row: readonly Cell[]): Cell => row[headers.indexOf('due')] ?? null;
  const held = cells.map(dueOf);
  const slots = slotsOf(held, weeks);
  if (slots.length === 0) return undefined;
  const step = cells.length + GROWTH;
  const formulas = headers.flatMap((header, at) =>
    slots.map((slot, i): WeekFormula => {
      const text = slotText(header, referred.column, slot, first, held);
      return { header, at, row: i * step, text, reads: readsOf(wanted, header) };
    }),
  );
  const none = Array.from({ length: GROWTH }, () => headers.map(() => null));
  const grid = slots.flatMap((slot) => [
    ...cells.map((row) =>
      headers.map((header, at) => slotCell(header, row[at] ?? null, dueOf(row), slot, first, dateSystem)),
    ),
    ...none,
  ]);
  const [top, bottom] = [ROWS.head - 1, ROWS.head - 1 + slots.length * step];
  const referredAt = (left: number, own: (area: Area) => string): Referred => ({
    whole: own({ top, bottom, left, right: left + headers.length - 1 }),
    grid: [headers, ...grid],
    column: (header) => {
      const at = left + headers.indexOf(header);
      return own({ top: top + 1, bottom, left: at, right: at });
    },
    place: undefined,
  });
  return { step, formulas, referredAt };
}

/** Which of its weeks, and of the days that its cell names, an order is read for. */
interface Slot {
  readonly week: number;
  readonly day: number;
}

const daysOf = (cell: Cell): readonly number[] => (typeof cell === 'string' ? weekdaysIn(cell) : []);

/** What filled in orders are read for: once, or every week for each day that they name. */
function slotsOf(due: readonly Cell[], weeks: number): Slot[] {
  const most = Math.max(0, ...due.map((cell) => daysOf(cell).length));
  if (most === 0) return [];
  return Array.from({ length: weeks * most }, (_, i) => ({ week: Math.floor(i / most), day: i % most }));
}

/** A column of the orders for one slot, as a formula says it of the columns that were filled in. */
function slotText(
  header: string,
  column: (header: string) => string,
  { week, day }: Slot,
  first: FirstDay,
  held: readonly Cell[],
): string {
  const due = column('due');
  const standing = header === 'due' ? dayText(due, first.text, { week, which: day, held }) : column(header);
  // A date is one order.
  const own = column(header);
  const plain = header === 'due' ? `IFERROR(IF(ISNUMBER(${own}),${own},DATEVALUE(${own})),${own})` : own;
  const other = week === 0 && day === 0 ? `IF(${own}="","",${plain})` : '""';
  return `=IF(${isDayText(due, day, held)},${standing},${other})`;
}

/** What the formula gives. */
function slotCell(
  header: string,
  cell: Cell,
  due: Cell,
  { week, day }: Slot,
  first: FirstDay,
  dateSystem: DateSystem,
): Cell {
  const weekday = daysOf(due)[day];
  if (weekday === undefined) return week === 0 && day === 0 && daysOf(due).length === 0 ? cell : null;
  if (header !== 'due') return isBlank(cell) ? null : cell;
  const { serial } = first;
  return dayFrom(weekday, serial, weekdayNumber(serial, dateSystem), week);
}
