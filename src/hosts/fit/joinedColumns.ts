import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import type { DateOrder } from '../../worksheet/writtenDates';
import { fixedRangeOf, type Area } from '../xlsx/address';
import { cellAt, sheetText, textOf, type BookSheet } from './book';
import { overlap, partText, type Candidate, type ColumnMatch, type Place } from './candidate';
import { saysOfOrders } from './goneWords';
import { isOfNames } from './idHeaders';
import { inOrder } from './inOrder';
import type { TableName } from './jobs';

// Tables of a database name the records of others: lines of orders the order, whose day and state are in a table of orders;
// a recipe its ingredients, whose moisture is in a table of these. What a record lacks is looked up there, where exactly one
// table has it for each of its keys.

/** A column that is looked up in another table, by the key of each record. */
export interface JoinedColumn {
  readonly key: number;
  readonly header: string;
  /** The other table’s keys and what it says, as a formula says them. */
  readonly keys: string;
  readonly values: string;
  /** Where it is, in words. */
  readonly from: string;
  /** Where loads of the lots are listed: the first day of each counts. */
  readonly loads?: readonly FirstLoads[];
  /** Where each is on the grower’s sheet, as a formula says it once it is laid out. */
  readonly places?: string;
}

/** A sheet that lists when lots were loaded: its columns as a formula says them. */
export interface FirstLoads {
  readonly sheet: string;
  readonly lots: string;
  readonly days: string;
  readonly order: DateOrder;
  readonly height: number;
  /** The letter of its column of days. */
  readonly letter: string;
}

/** What may be looked up. */
const JOINED: Partial<Record<TableName, readonly string[]>> = {
  orders: ['due'],
  recipe: ['moisture'],
  lots: ['block mass', 'moisture'],
};
/** Rows below the other table that are read as well. */
const GROWTH = 100;
/** How many of the keys have to be known, as one may be a slip. */
const KNOWN = 0.8;

/** Numbers and texts are different keys to a formula; capitals are not. */
const keyOf = (cell: Cell): string => `${typeof cell} ${textOf(cell).toLowerCase()}`;

/** Another table with the key of a candidate’s records. */
interface Keyed {
  readonly list: Candidate;
  readonly key: number;
  readonly own: number;
  readonly value: ColumnMatch;
  readonly rowOf: ReadonlyMap<string, number>;
}

/** A candidate with the columns that it lacks and another table has; `partsOf` are the parts of the book for its table. */
export function withJoined(candidate: Candidate, partsOf: () => readonly Candidate[]): Candidate {
  const { table, matches, parts, lies, isTurned } = candidate;
  const lacking = (JOINED[table.name] ?? []).filter(
    (name) =>
      table.columns.some((one) => one.name === name) && !matches.some(({ wanted }) => wanted === name),
  );
  if (lacking.length === 0 || parts || lies || isTurned) return candidate;
  return lacking.reduce((own, name) => {
    const found = partsOf()
      .filter((list) => !list.isTurned && !list.parts && !overlap(list, candidate))
      .flatMap((list) => keyedBy(own, list, name));
    const [only, ...more] = found;
    return only && more.length === 0 ? joined(own, only) : own;
  }, candidate);
}

/** Columns that name something. */
const NAMES = new Set(['lot', 'strain', 'product', 'room', 'ingredient']);

/** Headers of keys in their own table. */
const IDS = new Set(['id', 'no', 'nr', 'number', 'code']);

/** The table that an id is of: `order_id` of orders. */
const idOf = (header: string): string =>
  headerKey(header.replace(/_/g, ' '))
    .replace(/\s*(?:id|code|no|nr|number)$/, '')
    .trim();

function keyedBy(candidate: Candidate, list: Candidate, wanted: string): Keyed[] {
  const value = list.matches.find((match) => match.wanted === wanted && match.by !== 'its data');
  if (!value || (wanted === 'block mass' && value.by === 'a name like it')) return [];
  const first = candidate.table.columns[0]!.name;
  const nameOf = ({ matches }: Candidate, column: number): string | undefined =>
    matches.find((match) => match.column === column)?.wanted;
  return [...candidate.headers].flatMap(([own, header]) =>
    [...list.headers].flatMap(([key, other]): Keyed[] => {
      const isSame = headerKey(header) === headerKey(other);
      const isOfTable =
        isOfNames(header.replaceAll('_', ' ')) &&
        IDS.has(headerKey(other)) &&
        isNamedAfter(list, idOf(header));
      // What lots say by their strain is looked up in any spelling of it.
      const isStrain = candidate.table.name === 'lots' && nameOf(candidate, own) === 'strain';
      const isOwnName = nameOf(candidate, own) === first || isStrain;
      const isLabel = isOwnName && nameOf(list, key) === first;
      // Ingredients are known by their names; what else has the name of a lot or a product says something else of it.
      const isKey =
        candidate.table.name === 'recipe' ? isSame || isLabel : !isOwnName && (isSame || isOfTable);
      // A mass, a day or a figure is the key of nothing, though another table may have the same.
      const isFigure = !NAMES.has(nameOf(candidate, own) ?? first);
      if (!isKey || isFigure || key === value.column) return [];
      const rowOf = uniqueRows(list, key);
      return rowOf && areKnown(candidate, own, rowOf) ? [{ list, key, own, value, rowOf }] : [];
    }),
  );
}

const isNamedAfter = ({ sheet }: Candidate, word: string): boolean =>
  word.length >= 3 && headerKey(sheet.name).startsWith(word.replace(/s$/, ''));

/** The row of each key; undefined where a row has none, or two have the same. */
function uniqueRows({ sheet, dataRows }: Candidate, key: number): ReadonlyMap<string, number> | undefined {
  const cells = dataRows.map((row) => cellAt(sheet, row, key));
  const rows = new Map(cells.map((cell, i) => [keyOf(cell), dataRows[i]!] as const));
  return cells.some(isBlank) || rows.size < cells.length ? undefined : rows;
}

function areKnown({ sheet, dataRows }: Candidate, own: number, rowOf: ReadonlyMap<string, number>): boolean {
  const known = dataRows.filter((row) => rowOf.has(keyOf(cellAt(sheet, row, own))));
  return known.length > 0 && known.length >= KNOWN * dataRows.length;
}

/** A candidate with a column of another table, and with what that says of the state of orders. */
function joined(candidate: Candidate, { list, key, own, value, rowOf }: Keyed): Candidate {
  const { table, sheet, area, dataRows } = candidate;
  const states = [...list.headers].filter(
    ([column, header]) =>
      table.name === 'orders' && column !== key && column !== value.column && saysOfOrders(header),
  );
  const columns = [[value.column, value.header] as const, ...states];
  const left = Math.max(area.right + 1, ...sheet.rows.map((row) => row.length));
  const range = (column: number): string => rangeIn(list, column);
  const added = columns.map(([from, header], i) => ({ from, header, at: left + i }));
  const rowAt = (row: number): number | undefined => rowOf.get(keyOf(cellAt(sheet, row, own)));
  const headers = new Map([...candidate.headers, ...added.map(({ at, header }) => [at, header] as const)]);
  const one = { wanted: value.wanted, column: left, header: value.header, by: value.by };
  return {
    ...candidate,
    sheet: viewWith(
      sheet,
      list.sheet,
      new Set(dataRows),
      left,
      added.map(({ from }) => from),
      rowAt,
    ),
    headers,
    matches: inOrder(table, [...candidate.matches, one]),
    missing: candidate.missing.filter((name) => name !== value.wanted),
    joined: new Map([
      ...(candidate.joined ?? []),
      ...added.map(({ at, from, header }): [number, JoinedColumn] => [
        at,
        { key: own, header, keys: range(key), values: range(from), from: partText(list) },
      ]),
    ]),
    origin: (row, column): Place => {
      const from = added.find(({ at }) => at === column)?.from;
      const there = rowAt(row);
      if (from === undefined) return candidate.origin(row, column);
      return there === undefined ? candidate.origin(row, own) : list.origin(there, from);
    },
    score: candidate.score + (candidate.missing.includes(value.wanted) ? FOUND : 0),
  };
}

/** What a needed column that is found is worth, beside being matched. */
const FOUND = 6;

function rangeIn({ sheet, area }: Candidate, column: number): string {
  const whole: Area = { top: area.top + 1, bottom: area.bottom + GROWTH, left: column, right: column };
  return `${sheetText(sheet.name)}!${fixedRangeOf(whole)}`;
}

/** A sheet with columns of another to its right. */
function viewWith(
  sheet: BookSheet,
  other: BookSheet,
  records: ReadonlySet<number>,
  left: number,
  columns: readonly number[],
  rowAt: (row: number) => number | undefined,
): BookSheet {
  const rows = sheet.rows.map((cells, row) => {
    const there = records.has(row) ? rowAt(row) : undefined;
    if (there === undefined) return cells;
    const padded = [...cells, ...Array.from({ length: left - cells.length }, (): Cell => null)];
    return [...padded, ...columns.map((column) => cellAt(other, there, column))];
  });
  return {
    ...sheet,
    rows,
    formatAt: (row, column) => {
      const there = column < left ? undefined : rowAt(row);
      if (column < left) return sheet.formatAt(row, column);
      return there === undefined ? undefined : other.formatAt(there, columns[column - left]!);
    },
    isFormula: (row, column) => (column < left ? sheet.isFormula(row, column) : true),
  };
}

/** What another table says of each record, as a formula says it: nothing where it does not have it. */
export const joinedText = ({ keys, values, loads }: JoinedColumn, own: string): string => {
  if (loads) return `IF(COUNTIF(${keys},TRIM(${own}))=0,"",MINIFS(${values},${keys},TRIM(${own})))`;
  const found = `INDEX(${values},MATCH(${own},${keys},0))`;
  return `IFERROR(IF(${found}="","",${found}),"")`;
};

/** `due_date and status of Orders!A1:D9, by order_id` */
export function joinedWords({ joined: all, headers }: Candidate): string[] {
  const byList = new Map<string, string[]>();
  for (const { key, header, from } of all?.values() ?? []) {
    const where = `of ${from}, by ${headers.get(key)!}`;
    byList.set(where, [...(byList.get(where) ?? []), header]);
  }
  return [...byList].map(([where, own]) => `${own.join(' and ')} ${where}`);
}
