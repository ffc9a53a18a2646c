import { CalcError } from '../maths/shared/fault';
import { LAST_SERIAL } from '../maths/shared/serial';
import {
  cellError,
  formatted,
  isCellError,
  type Block,
  type CellError,
  type Format,
  type Formatted,
  type Value,
} from './cells/cell';
import type { Answer, Faulty, Result, ResultColumn, ResultColumns, RowsLike } from './cells/results';

/** Puts a fault into words and place. */
export type ErrorOf = (fault: CalcError) => CellError;

const finite = (number: number): boolean => number - number === 0;
const isDate = (format: Format): boolean => format === 'date' || format === 'dateTime';
const isShown = (serial: number): boolean => serial >= 0 && serial < LAST_SERIAL + 1;

const noFiniteAnswer = (): CellError =>
  cellError('#NUM!', 'the numbers given are too large or too small to calculate with');
const noShownDate = (): CellError =>
  cellError('#NUM!', 'the date lies outside the years that a sheet can show, 1900 to 9999');

/** Letters that a cell of a spreadsheet holds: Excel shows an error without a reason where an answer has more. */
const LONGEST_TEXT = 32_767;

const cutShort = (text: string): string =>
  `${text.slice(0, LONGEST_TEXT - 1).replace(/[\ud800-\udbff]$/, '')}…`;

/** An answer as a result's cell: a fault becomes its error, and no number goes out that a sheet would show as 0. */
export function toValue(answer: Answer, errorOf: ErrorOf): Value {
  if (typeof answer === 'number') return finite(answer) ? answer + 0 : noFiniteAnswer();
  if (typeof answer === 'string' && answer.length > LONGEST_TEXT) return cutShort(answer);
  if (typeof answer !== 'object') return answer;
  if (answer instanceof CalcError) return errorOf(answer);
  if (isCellError(answer)) return answer;
  if (!finite(answer.value)) return noFiniteAnswer();
  return isDate(answer.format) && !isShown(answer.value) ? noShownDate() : answer;
}

/** The cells of a row of answers, in the order of its headers. */
export function rowValues(headers: readonly string[], answer: unknown, errorOf: ErrorOf): Value[] {
  const cells = answer as Readonly<Record<string, Answer>>;
  const values = new Array<Value>(headers.length);
  for (let c = 0; c < headers.length; c++) values[c] = toValue(cells[headers[c]!]!, errorOf);
  return values;
}

type Row = Readonly<Record<string, unknown>>;
type Rows = readonly Row[];

/** A column of a result as it comes out: its header, and the cell of a row under it. */
interface Spread {
  readonly header: string | Formatted;
  readonly format: Format;
  readonly cellOf: (row: Row) => Answer;
}

function spreadOf(header: string, { format, spread }: ResultColumn<unknown>, rows: Rows): Spread[] {
  const cellAt = (row: Row): Answer => row[header] as Answer;
  const listAt = (row: Row): readonly Answer[] | Faulty => row[header] as readonly Answer[] | Faulty;
  const mapAt = (row: Row): ReadonlyMap<string | number, Answer> | Faulty =>
    row[header] as ReadonlyMap<string | number, Answer> | Faulty;
  switch (spread) {
    case 'one':
      return [{ header, format, cellOf: cellAt }];
    case 'sometimes':
      return rows.some((row) => row[header] !== undefined)
        ? [{ header, format, cellOf: (row) => cellAt(row) ?? '' }]
        : [];
    case 'numbered': {
      const lengths = rows.map(listAt).map((list) => (isFault(list) ? 0 : list.length));
      const most = lengths.reduce((a, b) => Math.max(a, b), 0);
      return Array.from({ length: most }, (_, i) => ({
        header: `${header} ${i + 1}`,
        format,
        cellOf: (row) => {
          const list = listAt(row);
          return isFault(list) ? list : (list[i] ?? '');
        },
      }));
    }
    case 'named':
    case 'dated': {
      const first = rows.map(mapAt).find((map) => !isFault(map)) as
        | ReadonlyMap<string | number, Answer>
        | undefined;
      return [...(first?.keys() ?? [])].map((name) => ({
        header: typeof name === 'number' ? formatted(name, 'date') : name,
        format,
        cellOf: (row) => {
          const map = mapAt(row);
          return isFault(map) ? map : (map.get(name) ?? '');
        },
      }));
    }
  }
}

/** A fault in place of a whole list spoils each of its cells. */
const isFault = (cell: unknown): cell is Faulty => cell instanceof CalcError || isCellError(cell);

function tableBlock(columns: ResultColumns, answer: Rows | RowsLike<Row>, errorOf: ErrorOf): Block {
  const [rows, telling] = 'like' in answer ? [answer.rows, [...answer.rows, answer.like]] : [answer, answer];
  const spread = Object.entries(columns).flatMap(([header, column]) => spreadOf(header, column, telling));
  return {
    rows: [
      spread.map(({ header }) => header),
      ...rows.map((row) => spread.map(({ cellOf }) => toValue(cellOf(row), errorOf))),
    ],
    formats: spread.map(({ format }) => format),
  };
}

export const formatsOf = (columns: ResultColumns): Format[] =>
  Object.values(columns).map(({ format }) => format);

/** The block of one result for the whole call. */
export function wholeBlock(
  { shape, columns, views }: Result<unknown>,
  answer: unknown,
  errorOf: ErrorOf,
): Block {
  switch (shape) {
    case 'value':
      return { rows: [[toValue(answer as Answer, errorOf)]], formats: formatsOf(columns) };
    case 'row':
      return { rows: [rowValues(Object.keys(columns), answer, errorOf)], formats: formatsOf(columns) };
    case 'table':
      return tableBlock(columns, answer as Rows | RowsLike<Row>, errorOf);
    case 'views': {
      const { view, rows } = answer as { readonly view: string; readonly rows: Rows };
      return tableBlock(views![view]!, rows, errorOf);
    }
  }
}

/** A date that a sheet cannot show, but as a row of #, becomes a fault. */
export function withShownDates(block: Block): Block {
  const dates = block.formats.flatMap((format, column) => (isDate(format) ? [column] : []));
  if (dates.length === 0) return block;
  const isFaulty = (cell: Value | undefined): boolean => typeof cell === 'number' && !isShown(cell);
  // Nearly always there is none, and a long column should not be copied to find that out.
  if (!dates.some((column) => block.rows.some((cells) => isFaulty(cells[column])))) return block;
  const rows = block.rows.map((cells) =>
    cells.map((cell, column) => (dates.includes(column) && isFaulty(cell) ? noShownDate() : cell)),
  );
  return { ...block, rows };
}
