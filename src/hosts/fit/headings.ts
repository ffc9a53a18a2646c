import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { cellAt, isFilled, textOf } from './book';
import { beginnings } from './byLabels';
import { partAt } from './columns';
import { isDateColumn } from './looks';
import type { Candidate } from './candidate';
import { lookAt, provenOrder } from './values';
import type { ColumnReading } from './reading';
import type { Reader } from './readCells';

/**
 * The strain of each record where it is the heading that the records lie under. A heading is one that names a strain of
 * the list; where none does the records have no strain, and the grower is asked for the column.
 */
export function headedStrains(
  candidate: Candidate,
  strains: readonly string[],
  reader: Reader,
): ColumnReading | undefined {
  const { sheet, area, passedOver, dataRows, table } = candidate;
  if (strains.length === 0) return undefined;
  const wanted = table.columns.find(({ name }) => name === 'strain');
  const titles = passedOver.flatMap((row) => {
    const filled: [number, Cell][] = [];
    for (let column = area.left; column <= area.right; column++) {
      const cell = cellAt(sheet, row, column);
      if (!isBlank(cell)) filled.push([column, cell]);
    }
    return filled.length === 1 ? [{ row, column: filled[0]![0], cell: filled[0]![1] }] : [];
  });
  const read = reader.labels(
    titles.map(({ cell }) => cell),
    strains,
  );
  const named = titles.filter((_, i) => !isCellError(read[i]!));
  const [first] = named;
  if (!wanted || !first || named.some(({ column }) => column !== first.column)) return undefined;
  const strainAt = new Map(titles.map(({ row }, i) => [row, read[i]!]));
  const headings = new Map<number, string>();
  for (const row of dataRows) {
    const above = named.filter((one) => one.row < row).at(-1);
    if (above) headings.set(row, textOf(strainAt.get(above.row)!));
  }
  return {
    wanted,
    name: 'strain',
    match: { wanted: 'strain', header: HEADINGS, column: first.column, by: 'its data' },
    conversion: 'headings',
    proven: undefined,
    unit: 'number',
    decimalMark: undefined,
    headings,
  };
}

/** The day of each record where it is the heading that the records lie under. */
export function headedDays(candidate: Candidate): ColumnReading | undefined {
  const { sheet, area, passedOver, dataRows, table, missing } = candidate;
  const wanted = table.columns.find((one) => isDateColumn(one) && missing.includes(one.name));
  if (!wanted) return undefined;
  const columns = Array.from({ length: area.right - area.left + 1 }, (_, i) => area.left + i);
  const days = passedOver.flatMap((row) => {
    const filled = columns.filter((column) => isFilled(sheet, row, column));
    const isDay = ['date', 'text date'].includes(lookAt(sheet, row, filled[0] ?? area.left));
    return filled.length === 1 && isDay ? [{ row, column: filled[0]! }] : [];
  });
  const [first] = days;
  if (!first || days.some(({ column }) => column !== first.column)) return undefined;
  const texts = days.flatMap(({ row, column }) => {
    const cell = cellAt(sheet, row, column);
    return typeof cell === 'string' ? [cell] : [];
  });
  return {
    wanted,
    name: wanted.name,
    match: { wanted: wanted.name, header: HEADINGS, column: first.column, by: 'its data' },
    conversion: 'day headings',
    proven: provenOrder(texts),
    unit: 'number',
    decimalMark: undefined,
    dayRows: new Map(
      dataRows.flatMap((row) => {
        const above = days.filter((one) => one.row < row).at(-1);
        return above ? [[row, above.row] as const] : [];
      }),
    ),
  };
}

/** The strain of each lot where every lot's name begins with it. */
export function strainsInNames(candidate: Candidate, strains: readonly string[]): ColumnReading | undefined {
  const { sheet, dataRows, table, matches } = candidate;
  const wanted = table.columns.find(({ name }) => name === 'strain');
  const lot = matches.find((match) => match.wanted === 'lot');
  if (!wanted || !lot || table.name !== 'lots') return undefined;
  const names = dataRows.map((row) => textOf(cellAt(sheet, row, lot.column)).trim());
  const own = beginnings(names, strains);
  if (!own) return undefined;
  return {
    wanted,
    name: 'strain',
    match: { wanted: 'strain', header: BEGINNINGS, column: lot.column, by: 'its data' },
    conversion: 'beginnings',
    proven: undefined,
    unit: 'number',
    decimalMark: undefined,
    headings: new Map(dataRows.map((row, i) => [row, own[i]!])),
  };
}

/** The strain of each record where every sheet that they are on is named after one. */
export function strainsOfSheets(
  candidate: Candidate,
  strains: readonly string[],
  reader: Reader,
): ColumnReading | undefined {
  const { dataRows, table, matches, parts = [candidate] } = candidate;
  const wanted = table.columns.find(({ name }) => name === 'strain');
  const [key] = matches;
  if (!wanted || !key || strains.length === 0) return undefined;
  const names = parts.map(({ sheet }) => sheet.name);
  const read = reader.labels(names, strains);
  if (read.some(isCellError)) return undefined;
  const strainOn = new Map(names.map((name, i) => [name, textOf(read[i]!)]));
  return {
    wanted,
    name: 'strain',
    match: { wanted: 'strain', header: SHEETS, column: key.column, by: 'its data' },
    conversion: 'sheets',
    proven: undefined,
    unit: 'number',
    decimalMark: undefined,
    headings: new Map(dataRows.map((row) => [row, strainOn.get(partAt(candidate, row).sheet.name)!])),
    strainOn,
  };
}

/** What stands for a header where the names of sheets do. */
export const SHEETS = 'name of the sheet';

/** What stands for a header where headings between the records do. */
export const HEADINGS = 'headings between the rows';

/** The same where the names of lots begin with their strain. */
export const BEGINNINGS = 'beginning of the lot’s name';
