import type { Cell } from '../../worksheet/cells/cell';
import type { Answers } from './answers';
import type { Candidate } from './candidate';
import type { TableName } from './jobs';
import { isFigureColumn } from './looks';
import type { ColumnReading } from './reading';
import type { Reader } from './readCells';
import { isShare, massUnitIn } from './units';

// What a grower's records may all have alike, and which no column says: the mass of a block, the only strain.

const ALIKE: Partial<Record<TableName, readonly string[]>> = {
  lots: ['strain', 'blocks', 'block mass', 'moisture'],
  strains: ['earliest', 'best', 'latest', 'first pick', 'pick days', 'flush gap', 'flushes', 'efficiency'],
  rooms: ['shelves', 'blocks per shelf'],
  orders: ['product'],
};

/** What stands for a header where one figure is said of all records. */
const ofAllWords = (table: TableName): string => `the same for all ${table}`;

/** Whether a column of a table may be answered by one figure or word for all. */
export const mayBeAlike = ({ table }: Candidate, column: string): boolean =>
  ALIKE[table.name]?.includes(column) === true;

/** The answer of such a figure: `lots, block mass`. */
export const alikeAnswer = (table: TableName, column: string): string => `${table}, ${column}`;

/** All answers of this kind. */
export const ALIKE_ANSWERS: readonly string[] = Object.entries(ALIKE).flatMap(([table, columns]) =>
  columns.map((column) => alikeAnswer(table as TableName, column)),
);

/** What the grower said of all records of a table in place of a column; undefined where that is nothing. */
export function saidText(table: TableName, column: string, answers: Answers): string | undefined {
  const text = String(answers.figures?.[alikeAnswer(table, column)] ?? '').trim();
  return text === '' ? undefined : text;
}

/**
 * Whether the grower typed a figure of some strain: what was said of all is then for the others. What was typed is kept in
 * the book, and answers the next time too.
 */
export const isTypedOf = (table: TableName, column: string, answers: Answers): boolean =>
  table === 'strains' && (answers.fill?.['shares'] ?? []).some((row) => (row[column] ?? '') !== '');

/** The columns that the grower said one figure or word of. */
export function saidOfAll(candidate: Candidate, answers: Answers, reader: Reader): ColumnReading[] {
  const { table, matches } = candidate;
  const [key] = matches;
  if (!key) return [];
  return table.columns.flatMap((wanted): ColumnReading[] => {
    const { name } = wanted;
    const text = mayBeAlike(candidate, name) ? saidText(table.name, name, answers) : undefined;
    if (text === undefined || matches.some((one) => one.wanted === name)) return [];
    if (isTypedOf(table.name, name, answers)) return [];
    const isFigure = isFigureColumn(wanted);
    // 0.6 of all records alike is no 0.6%.
    const share = Number(text.replace(',', '.')) <= 1 ? 'share' : 'percent';
    const unit = isShare(wanted) ? share : ((isFigure ? massUnitIn(text) : undefined) ?? 'number');
    const value: Cell = isFigure ? (reader.figures([text], unit, undefined)[0] ?? null) : text;
    return [
      {
        wanted,
        name,
        match: { wanted: name, header: ofAllWords(table.name), column: key.column, by: 'you' },
        conversion: 'said',
        proven: undefined,
        unit,
        decimalMark: undefined,
        said: { text, value },
      },
    ];
  });
}
