import { LEAST_LOADED_DATE } from '../../worksheet/calendar';
import type { Cell } from '../../worksheet/cells/cell';
import type { Reads } from '../xlsx/describe';
import type { Answer } from './answers';
import type { WantedTable } from './jobs';
import { isDateColumn } from './looks';
import { isShare, slipFrom } from './units';

/** Headers of a table that was filled in: what is needed, and what any row has besides. */
export function headersIn(wanted: WantedTable, rows: readonly Readonly<Record<string, Answer>>[]): string[] {
  const given = new Set(
    rows.flatMap((row) =>
      Object.entries(row).flatMap(([name, value]) => (value === null || value === '' ? [] : [name])),
    ),
  );
  return wanted.columns.flatMap(({ name, column, isNeeded }) => {
    if (column.role !== 'numbered') return isNeeded || given.has(name) ? [name] : [];
    return [...given].filter((one) => new RegExp(`^${name} \\d+$`).test(one)).sort();
  });
}

const columnOf = (wanted: WantedTable, header: string) =>
  wanted.columns.find(
    ({ name, column }) => name === header || (column.role === 'numbered' && header.startsWith(`${name} `)),
  );

export function readsOf(wanted: WantedTable, header: string): Reads {
  const column = columnOf(wanted, header);
  if (!column) return 'text';
  // A day of the week, or every day.
  if (wanted.name === 'calendar' && header === 'day') return 'text';
  if (isDateColumn(column)) return 'date';
  if (isShare(column) || column.column.kind.word === 'share') return 'percent';
  if (column.column.kind.word === 'label') return 'text';
  return column.column.kind.word === 'count' || column.name === 'blocks' ? 'count' : 'number';
}

/** How a column of these cells is shown: blocks loaded so far, where a day may stand, are no days. */
export function readsAs(wanted: WantedTable, header: string, cells: readonly Cell[]): Reads {
  const figures = cells.filter((cell) => typeof cell === 'number');
  const areBlocks = header === 'loaded' && figures.every((figure) => figure < LEAST_LOADED_DATE);
  return areBlocks && figures.length > 0 ? 'count' : readsOf(wanted, header);
}

/** An answer as the sheet holds it: `62%` and 62 are shares where a share is asked. */
export function answered(wanted: WantedTable, header: string, answer: Answer): Answer {
  const column = columnOf(wanted, header);
  if (answer === null || !column || column.column.kind.word === 'label') return answer;
  const ofShare = isShare(column) || column.column.kind.word === 'share';
  const figure = figureOf(answer, ofShare);
  // 60 for 60%, as in a column of the grower's own.
  return ofShare && typeof figure === 'number' && figure > slipFrom(column) ? figure / 100 : figure;
}

/** A figure that was typed as an answer; text that is none stays text, and the call says what is wrong with it. */
export function figureOf(answer: Answer, asShare: boolean): Answer {
  if (typeof answer !== 'string') return answer;
  const match = /^\s*([-+]?\d*[.,]?\d+)\s*(%?)\s*$/.exec(answer);
  if (!match) return answer.trim() === '' ? null : answer;
  const figure = Number(match[1]!.replace(',', '.'));
  return asShare && match[2] === '%' ? figure / 100 : figure;
}
