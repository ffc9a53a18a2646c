import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import { partAt } from './columns';
import type { Fit, TableFit } from './fitted';
import { isShownAsWritten } from './howRead';
import { inJobUnit } from './jobUnit';
import type { ColumnReading } from './reading';
import type { FirstDay } from './referred';
import { dayFrom, isWeekday, weekdayNumber } from './standing';

/** What the columns give for each row below the headers; nothing where there is no record, or one that is left out. */
export function recordsOf(
  fit: Fit,
  first: FirstDay,
  given: TableFit,
  columns: readonly ColumnReading[],
  leavesOut: boolean,
): (readonly Cell[] | undefined)[] {
  const { candidate, values } = given;
  const { area, dataRows } = candidate;
  const at = new Map(dataRows.map((row, i) => [row, i]));
  const weekAt = (r: number): number => partAt(candidate, area.top + 1 + r).week ?? 0;
  return Array.from({ length: area.bottom - area.top }, (_, r) => {
    const i = at.get(area.top + 1 + r);
    if (i === undefined) return undefined;
    const read = columns.map((reading) => {
      const held = inJobUnit(fit, values.get(reading.name)![i]!, reading.unit);
      const cell = reading.conversion === 'weekdays' ? dayOf(fit, first, held, weekAt(r)) : held;
      const isShown = isCellError(cell) && isShownAsWritten(reading);
      return isShown ? cellAt(candidate.sheet, area.top + 1 + r, reading.match.column) : cell;
    });
    const isLeftOut = columns.some(
      ({ wanted }, c) => (wanted.isNeeded && isBlank(read[c])) || isCellError(read[c]),
    );
    return leavesOut && isLeftOut ? undefined : read;
  });
}

function dayOf(fit: Fit, first: FirstDay, weekday: Cell, week: number): Cell {
  const { serial } = first;
  const { dateSystem } = fit.book;
  return isWeekday(weekday) ? dayFrom(weekday, serial, weekdayNumber(serial, dateSystem), week) : weekday;
}
