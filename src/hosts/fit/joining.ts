import { isBlank, isCellError, type Cell, type CellError } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf } from './book';
import { isMissing } from './filledIn';
import type { Joined, TableFit } from './fitted';
import type { TableName } from './jobs';
import { productKey } from './labels';
import type { Reader } from './readCells';
import { reasonOf, type UnreadCell } from './unreadCells';

/** Why a label is none of a list; one that is near to two of them says so itself. */
export function notAmong(cell: CellError, among: TableName): string {
  const [whole, near = ''] = / is not in list(; did you mean .*)?$/.exec(reasonOf(cell)) ?? [];
  return whole === undefined ? reasonOf(cell) : `is not among your ${among}${near.replace(/"(.+)"/, '“$1”')}`;
}

/** Puts labels of one table in the spelling of the table they refer to. */
function joinTo(
  fit: TableFit,
  column: string,
  list: readonly string[],
  among: TableName,
  reader: Reader,
  unread: UnreadCell[],
): Joined[] {
  const reading = fit.readings.find(({ name }) => name === column);
  const values = fit.values.get(column);
  if (!reading || !values || list.length === 0) return [];
  const table = fit.candidate.table.name;
  const read = reader.labels(values, list);
  const joined = new Map<string, Joined>();
  read.forEach((cell, i) => {
    const before = values[i]!;
    if (isBlank(before)) return;
    if (isCellError(cell)) {
      unread.push({
        ...fit.candidate.origin(fit.candidate.dataRows[i]!, reading.match.column),
        about: `${fit.candidate.table.name}, ${column}`,
        held: before,
        why: notAmong(cell, among),
      });
    } else if (textOf(cell) !== textOf(before)) {
      const key = `${textOf(before)}\n${textOf(cell)}`;
      const one = joined.get(key) ?? { table, label: textOf(before), as: textOf(cell), cells: 0 };
      joined.set(key, { ...one, cells: one.cells + 1 });
    }
  });
  if (joined.size > 0) {
    // A pick of no lot stays as it was written: the audit says what lot it may be. So does what only an answer explains.
    const kept =
      table === 'harvests' || table === 'orders'
        ? read.map((cell, i) => (isCellError(cell) ? values[i]! : cell))
        : read;
    (fit.values as Map<string, readonly Cell[]>).set(column, kept);
  }
  return [...joined.values()];
}

export const labelsIn = (fit: TableFit | undefined, column: string): string[] => [
  ...new Set(
    (fit?.values.get(column) ?? []).flatMap((cell) =>
      isBlank(cell) || isCellError(cell) ? [] : [String(cell).trim()],
    ),
  ),
];

export function joinLabels(tables: Map<TableName, TableFit>, reader: Reader, unread: UnreadCell[]): Joined[] {
  const [lots, strains, harvests] = [tables.get('lots'), tables.get('strains'), tables.get('harvests')];
  return [
    ...(lots && strains
      ? joinTo(lots, 'strain', labelsIn(strains, 'strain'), 'strains', reader, unread)
      : []),
    ...(lots?.candidate.takenElsewhere ?? []).flatMap((one) => one.joined),
    ...(lots && harvests ? joinTo(harvests, 'lot', labelsIn(lots, 'lot'), 'lots', reader, unread) : []),
  ];
}

export const joinStrains = (
  tables: Map<TableName, TableFit>,
  rows: readonly Readonly<Record<string, Answer>>[],
  reader: Reader,
  unread: UnreadCell[],
): Joined[] => {
  const lots = tables.get('lots');
  const list = rows.flatMap(({ strain }) => (isMissing(strain) ? [] : [String(strain)]));
  return lots ? joinTo(lots, 'strain', list, 'strains', reader, unread) : [];
};

/** Products of orders in the spelling of the strains, or of what these are sold as, where that leaves none over. */
export function joinProducts(
  tables: Map<TableName, TableFit>,
  filled: ReadonlyMap<TableName, readonly Readonly<Record<string, Answer>>[]>,
  answers: Answers,
  reader: Reader,
): Joined[] {
  const orders = tables.get('orders');
  const products = orders?.values.get('product');
  if (!orders || !products) return [];
  const given = filled.get('strains') ?? [];
  const strains = tables.get('strains');
  const sold = labelsIn(strains, 'product');
  const list =
    sold.length > 0
      ? sold
      : strains
        ? labelsIn(strains, 'strain')
        : given.flatMap(({ strain }) => (isMissing(strain) ? [] : [String(strain)]));
  if (list.length === 0) return [];
  const said = new Set(Object.keys(answers.products ?? {}).map(productKey));
  const isOther = reader
    .labels(products, list)
    .some((cell, i) => !isBlank(products[i]) && isCellError(cell) && !said.has(productKey(products[i]!)));
  return isOther ? [] : joinTo(orders, 'product', list, 'strains', reader, []);
}
