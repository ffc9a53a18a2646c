import { serialOf, writtenDate, type DateSystem } from '../../maths/shared/serial';
import { CellError, type Cell, type Format } from './cell';
import type { Kind } from './kinds';

/** A cell as pages show it: dates written out, shares as percentages, numbers to six significant digits. */
export function shownCell(cell: Cell, format: Format = 'plain', system: DateSystem = 1900): string {
  if (cell === null) return '';
  if (cell instanceof CellError) return cell.reason === '' ? cell.code : `${cell.code} ${cell.reason}`;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (typeof cell === 'string') return cell;
  const inCalendar = cell >= (system === 1900 ? 61 : 0) && cell < 2_958_466;
  if (format === 'date' && inCalendar) return writtenDate(cell, system);
  if (format === 'dateTime' && inCalendar) return `${writtenDate(cell, system)} ${clock(cell)}`;
  if (format === 'percent') return `${Number((100 * cell).toPrecision(4))}%`;
  return String(Number(cell.toPrecision(6)));
}

/** `14:30` */
function clock(serial: number): string {
  const minutes = Math.floor((serial - Math.floor(serial)) * 1440 + 1e-6);
  return [Math.floor(minutes / 60), minutes % 60].map((part) => String(part).padStart(2, '0')).join(':');
}

/** How a cell of a kind is shown and typed. */
export function formatOfKind({ word }: Kind<unknown>): Format {
  if (word === 'date') return 'date';
  return word === 'share' || word === 'efficiency' ? 'percent' : 'plain';
}

/** What a person typed, as a sheet would take it: `62%` is 0.62, `2026-03-01` a date, empty a blank. */
export function typedCell(text: string, system: DateSystem = 1900): Cell {
  const typed = text.trim();
  if (typed === '') return null;
  const date = /^(\d{4})-(\d{2})-(\d{2})$/.exec(typed);
  if (date) return serialOf(Number(date[1]), Number(date[2]), Number(date[3]), system);
  const number = Number(typed.replace(/%$/, ''));
  if (!Number.isFinite(number)) return typed;
  return typed.endsWith('%') ? number / 100 : number;
}
