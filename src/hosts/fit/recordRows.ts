import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { isPeriodRow, totalOf } from '../../worksheet/cells/totals';
import { cellAt, isFilled, type BookSheet } from './book';
import { isWordsOverFigures, type HeaderRun } from './headerRuns';
import { looseKey } from './labels';
import { rowKind } from './rows';
import { isSumOfAll, RunningSums } from './sums';
import { lookAt } from './values';

const ENDING_BLANKS = 5;

interface RowsFound {
  readonly bottom: number;
  readonly dataRows: number[];
  readonly passedOver: number[];
}

export const rowsUpTo = (last: number, { bottom, dataRows, passedOver }: RowsFound): RowsFound => ({
  bottom: Math.min(bottom, last),
  dataRows: dataRows.filter((row) => row <= last),
  passedOver: passedOver.filter((row) => row <= last),
});

/** Whether a row has words alone, two at least, in the columns in which the records above have figures alone. */
function isWordsUnderFigures(
  sheet: BookSheet,
  row: number,
  records: readonly number[],
  left: number,
  right: number,
): boolean {
  const areFigures = (rows: readonly number[], column: number): boolean =>
    rows.every((one) => ['number', 'text number', 'blank'].includes(lookAt(sheet, one, column)));
  const columns = Array.from({ length: right - left + 1 }, (_, i) => left + i).filter(
    (column) =>
      isFilled(sheet, row, column) &&
      records.some((one) => isFilled(sheet, one, column)) &&
      areFigures(records, column),
  );
  return columns.length >= 2 && columns.every((column) => lookAt(sheet, row, column) === 'text');
}

/** The rows below headers, of which the last is no record where it sums up all others. */
export function rowsBelow(sheet: BookSheet, run: HeaderRun, headers: ReadonlyMap<number, string>): RowsFound {
  const found = withSumOfAll(sheet, run, headers);
  const { dataRows, passedOver } = found;
  const columns = Array.from({ length: run.right - run.left + 1 }, (_, i) => run.left + i);
  const [last, above] = [dataRows.at(-1), dataRows.slice(0, -1)];
  if (last === undefined || !isSumOfAll(sheet, last, above, columns)) return found;
  return { ...found, dataRows: above, passedOver: [...passedOver, last].sort((a, b) => a - b) };
}

function withSumOfAll(
  sheet: BookSheet,
  { row: top, left, right }: HeaderRun,
  headers: ReadonlyMap<number, string>,
): RowsFound {
  const written = Array.from({ length: right - left + 1 }, (_, i) => headers.get(left + i) ?? '');
  const dataRows: number[] = [];
  const passedOver: number[] = [];
  /** Texts of the records and headings so far: `Total Oyster` sums up those of Oyster. */
  const labels = new Set<string>();
  /** One word under this table, in a row of headers that goes on beside it. */
  const isHeadingOfOthers = (row: number): boolean =>
    (sheet.rows[row] ?? []).some((cell, column) => !isBlank(cell) && (column < left || column > right)) &&
    isWordsOverFigures(sheet, row);
  /** A word after a gap that is no month, over rows that fill little of what the records do: another table's title. */
  const isTitleOfOthers = (row: number, cells: readonly Cell[]): boolean => {
    const filled = (at: number): number => written.filter((_, i) => isFilled(sheet, at, left + i)).length;
    const below = filled(row + 1);
    return !isPeriodRow(cells) && below > 0 && dataRows.every((one) => below * 2 <= filled(one));
  };
  const sums = new RunningSums();
  let bottom = top;
  let blanks = 0;
  /** The last row before a gap that no record has followed yet. */
  let beforeGap: number | undefined;
  for (let row = top + 1; row < sheet.rows.length && blanks < ENDING_BLANKS; row++) {
    const cells = written.map((_, i) => cellAt(sheet, row, left + i));
    const own = rowKind(cells, written);
    const isOfGroup = cells.some((cell) => {
      const of = typeof cell === 'string' ? totalOf(cell) : undefined;
      return of !== undefined && labels.has(looseKey(of));
    });
    const isSum = (): boolean => sums.areIn(cells, (i) => sheet.isFormula(row, left + i));
    const kind = own === 'data' && (isOfGroup || isSum()) ? 'totals' : own;
    if (kind === 'data') sums.add(cells);
    else if (kind !== 'blank') sums.endGroup();
    if (kind === 'data' || kind === 'heading')
      for (const cell of cells) if (typeof cell === 'string') labels.add(looseKey(cell));
    if (kind === 'blank') {
      blanks++;
      beforeGap ??= bottom;
      continue;
    }
    // After a gap, a row of words over rows of figures begins another table; the title between is not of this one.
    const isOthers =
      kind === 'data'
        ? isWordsOverFigures(sheet, row, left, right) ||
          isWordsUnderFigures(sheet, row, dataRows, left, right)
        : isHeadingOfOthers(row);
    if (beforeGap !== undefined && (isOthers || (kind === 'heading' && isTitleOfOthers(row, cells)))) {
      return rowsUpTo(beforeGap, { bottom, dataRows, passedOver });
    }
    blanks = 0;
    bottom = row;
    if (kind === 'data') {
      dataRows.push(row);
      beforeGap = undefined;
    } else {
      passedOver.push(row);
    }
  }
  return { bottom, dataRows, passedOver };
}

/** Rows that hold one day and nothing more, in a column where others hold none, are headings: what follows is of that day. */
export function withoutDays(sheet: BookSheet, { left, right }: HeaderRun, found: RowsFound): RowsFound {
  const isDay = (row: number, column: number): boolean =>
    ['date', 'text date'].includes(lookAt(sheet, row, column));
  const loneDay = (row: number): number | undefined => {
    const columns = Array.from({ length: right - left + 1 }, (_, i) => left + i);
    const filled = columns.filter((column) => isFilled(sheet, row, column));
    return filled.length === 1 && isDay(row, filled[0]!) ? filled[0] : undefined;
  };
  const days = new Map(
    [...found.dataRows, ...found.passedOver].flatMap((row) => {
      const column = loneDay(row);
      return column === undefined ? [] : [[row, column] as const];
    }),
  );
  const records = found.dataRows.filter((row) => !days.has(row));
  const columns = new Set(days.values());
  const [column] = columns;
  if (columns.size !== 1 || records.length === 0 || records.some((row) => isDay(row, column!))) return found;
  const passedOver = [...new Set([...found.passedOver, ...days.keys()])].sort((a, b) => a - b);
  return { ...found, dataRows: records, passedOver };
}
