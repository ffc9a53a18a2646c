import { serialOf, writtenDate, writtenTime, type DateSystem } from '../calendar';
import { isCellError, type Cell, type Format } from './cell';
import type { Kind } from './kinds';

/** A cell as pages show it: dates written out, shares as percentages, numbers to six significant digits. */
export function shownCell(cell: Cell, format: Format = 'plain', system: DateSystem = 1900): string {
  if (cell === null) return '';
  if (isCellError(cell)) return cell.reason === '' ? cell.code : `${cell.code} ${cell.reason}`;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (typeof cell === 'string') return cell;
  const inCalendar = cell >= (system === 1900 ? 61 : 0) && cell < 2_958_466;
  if (format === 'date' && inCalendar) return writtenDate(cell, system);
  if (format === 'dateTime' && inCalendar) return writtenTime(cell, system);
  if (format === 'percent') return `${Number((100 * cell).toPrecision(4))}%`;
  return String(Number(cell.toPrecision(6)));
}

/** How a cell of a kind is shown and typed. */
export function formatOfKind({ word }: Kind<unknown>): Format {
  if (word === 'date') return 'date';
  return word === 'share' || word === 'efficiency' ? 'percent' : 'plain';
}

/** What a person typed, as a sheet would take it: `62%` is 0.62, `2026-03-01` or `2026-03-01 14:30` a date, empty a blank. */
export function typedCell(text: string, system: DateSystem = 1900): Cell {
  const typed = text.trim();
  if (typed === '') return null;
  const date = /^(\d{4})-(\d{2})-(\d{2})(?: (\d{2}):(\d{2}))?$/.exec(typed);
  if (date) {
    const [year, month, day, hours = 0, minutes = 0] = date.slice(1).map((part) => Number(part ?? 0));
    return serialOf(year!, month!, day!, system) + (60 * hours + minutes) / 1440;
  }
  const number = Number(typed.replace(/%$/, ''));
  if (!Number.isFinite(number)) return typed;
  return typed.endsWith('%') ? number / 100 : number;
}
