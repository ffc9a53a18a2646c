import { invalid } from '../maths/shared/fault';
import { isBlankOrZero, type Cell, type CellError, type Grid, type Place } from './cells/cell';
import type { TableColumns } from './cells/columns';
import { tableHead, type Located } from './cells/headers';
import { Table } from './cells/table';
import { isPeriodRow, isTextOnly, isTotalsRow } from './cells/totals';
import { errorOf } from './errorOf';
import { isRefusal, readCell } from './readCell';
import type { Telling } from './voice';

type ReadRow = Readonly<Record<string, unknown>>;

/** The values of numbered columns, each in the place that its number says: a number that is missing leaves a gap. */
function byNumber(numbers: readonly number[], values: readonly unknown[]): unknown[] {
  const placed: unknown[] = Array.from({ length: Math.max(0, ...numbers) }, () => undefined);
  numbers.forEach((number, i) => (placed[number - 1] = values[i]));
  return placed;
}

/**
 * Reads a grid by its header row. A row that is blank in every column read does not count, nor does a totals row or one
 * that only names a month or the like. One that has figures but no key is an entry that cannot be read, so that nothing
 * drops out in silence.
 *
 * @throws CalcError where a needed header is missing, or two could serve
 */
export function readTable(name: string, columns: TableColumns, grid: Grid, telling: Telling): Table<ReadRow> {
  const { row: headerRow, located, ignored, lookAlikes } = tableHead(name, columns, grid);
  const keyColumn = located.find(({ column }) => column.role === 'key');
  const read = located.flatMap(({ at }) => at);
  const needed = located.flatMap(({ at, column }) => (column.role === 'required' ? at : []));
  const headers = new Map(located.flatMap(({ at, headers: own }) => at.map((one, i) => [one, own[i]!])));
  const entries: (ReadRow | CellError)[] = [];
  const rowNumbers: number[] = [];
  const keyLabels: string[] = [];
  for (let at = headerRow + 1; at < grid.length; at++) {
    const cells = grid[at]!;
    if (!read.some((position) => !isBlankOrZero(cells[position])) || isTotalsRow(cells) || isPeriodRow(cells))
      continue;
    const key = keyColumn && cells[keyColumn.at[0]!];
    const isKeyless = keyColumn !== undefined && isBlankOrZero(key);
    if (isKeyless) {
      // A remark between the rows: one text, in no column that a row must have.
      if (isTextOnly(cells) && !needed.some((position) => !isBlankOrZero(cells[position]))) continue;
      const filled = read.find((position) => !isBlankOrZero(cells[position]))!;
      const header = headers.get(filled)!;
      const fault = invalid(name, 'noKey', { key: keyColumn.property, header }, { at: at + 1 });
      entries.push(errorOf(fault, telling));
    } else {
      entries.push(readRow(name, located, cells, at + 1, telling));
    }
    rowNumbers.push(at + 1);
    const isLabel = !isKeyless && (typeof key === 'string' || typeof key === 'number');
    if (keyColumn) keyLabels.push(isLabel ? String(key) : '');
  }
  const units = new Map(located.flatMap(({ property, unit }) => (unit ? [[property, unit] as const] : [])));
  return new Table(name, entries, rowNumbers, keyLabels, ignored, units, lookAlikes);
}

function readRow(
  name: string,
  located: readonly Located[],
  cells: readonly Cell[],
  rowNumber: number,
  telling: Telling,
): ReadRow | CellError {
  const row: Record<string, unknown> = { at: rowNumber };
  const placeOf = (header: string): Place => ({ argument: `${name}, ${header}`, row: rowNumber });
  for (const { property, column, at, headers, numbers = [] } of located) {
    if (column.role === 'numbered' || column.role === 'others') {
      const values: unknown[] = [];
      for (let i = 0; i < at.length; i++) {
        const cell = cells[at[i]!]!;
        const value = isBlankOrZero(cell)
          ? undefined
          : readCell(column.kind, cell, placeOf(headers[i]!), telling);
        if (isRefusal(value)) return value.error;
        values.push(value);
      }
      row[property] =
        column.role === 'numbered'
          ? byNumber(numbers, values)
          : new Map(headers.map((header, i) => [header, values[i]]));
      continue;
    }
    const cell = at.length ? cells[at[0]!]! : null;
    // A column that is not there has its default; a blank in one that is there has none, but where 0 is an answer.
    const isAbsent = column.role === 'optional' && (at.length === 0 || column.fallback === undefined);
    if (isAbsent && isBlankOrZero(cell)) {
      row[property] = column.fallback;
      continue;
    }
    const value = readCell(column.kind, cell, placeOf(property), telling);
    if (isRefusal(value)) return value.error;
    row[property] = value;
  }
  return row;
}
