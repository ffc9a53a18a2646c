import type { BuiltIn } from '../builtIn';
import { compare, toBoolean } from '../coercion';
import { CALC, isError, VALUE, type Matrix, type Scalar, type Value } from '../values';
import { define, type Given } from './define';
import { transposed } from './rearranging';

// Sorting, filtering and telling apart whole blocks. Definitions: the vendor's reference of worksheet functions.

/** Blank cells come last whichever way is sorted. */
function ordered(left: Scalar, right: Scalar, direction: number): number {
  if (left === null || right === null) return Number(left === null) - Number(right === null);
  if (isError(left) || isError(right)) return direction * (Number(isError(left)) - Number(isError(right)));
  return direction * compare(left, right);
}

const directionOf = (value: Scalar): number => {
  if (value === 1 || value === null) return 1;
  if (value === -1) return -1;
  throw VALUE;
};

interface Key {
  readonly values: readonly Scalar[];
  readonly direction: number;
}

/** Rows by several keys, the first foremost; equal rows keep their order. */
function sortedBy(rows: Matrix, keys: readonly Key[]): Matrix {
  const places = rows.map((_, at) => at);
  places.sort((a, b) => {
    for (const { values, direction } of keys) {
      const order = ordered(values[a]!, values[b]!, direction);
      if (order !== 0) return order;
    }
    return a - b;
  });
  return places.map((at) => rows[at]!);
}

function sort(given: Given): Value {
  const byColumn = given.has(3) && given.boolean(3);
  const rows = byColumn ? transposed(given.matrix(0)) : given.matrix(0);
  const indices = given.has(1) ? given.list(1) : [1];
  const directions = given.has(2) ? given.list(2) : [1];
  const keys = indices.map((index, at): Key => {
    const column = typeof index === 'number' ? Math.trunc(index) - 1 : -1;
    if (!(column >= 0 && column < rows[0]!.length)) throw VALUE;
    const direction = directionOf(directions[directions.length === 1 ? 0 : at] ?? null);
    return { values: rows.map((row) => row[column]!), direction };
  });
  const sorted = sortedBy(rows, keys);
  return byColumn ? transposed(sorted) : sorted;
}

function sortBy(given: Given): Value {
  const matrix = given.matrix(0);
  const keys: Key[] = [];
  let isAcross = false;
  for (let at = 1; at < given.count; at += 2) {
    const by = given.matrix(at);
    const fitsDown = by[0]!.length === 1 && by.length === matrix.length;
    const fitsAcross = by.length === 1 && by[0]!.length === matrix[0]!.length;
    if (!fitsDown && !fitsAcross) return VALUE;
    isAcross = !fitsDown;
    keys.push({ values: by.flat(), direction: given.has(at + 1) ? directionOf(given.scalar(at + 1)) : 1 });
  }
  const sorted = sortedBy(isAcross ? transposed(matrix) : matrix, keys);
  return isAcross ? transposed(sorted) : sorted;
}

function filter(given: Given): Value {
  const matrix = given.matrix(0);
  const include = given.matrix(1);
  const across = include.length === 1 && include[0]!.length === matrix[0]!.length && matrix.length !== 1;
  const down = include[0]!.length === 1 && include.length === matrix.length;
  const single = include.length === 1 && include[0]!.length === matrix[0]!.length;
  if (!down && !across && !single) return VALUE;
  const isKept = include.flat().map(toBoolean);
  const lines = down ? matrix : transposed(matrix);
  const kept = lines.filter((_, at) => isKept[at]);
  if (kept.length === 0) return given.has(2) ? given.all[2]! : CALC;
  return down ? kept : transposed(kept);
}

const keyOf = (value: Scalar): string =>
  typeof value === 'number'
    ? `n${Number(value.toPrecision(15))}`
    : isError(value)
      ? `e${value.code}`
      : `${typeof value}${String(value).toLowerCase()}`;

function unique(given: Given): Value {
  const byColumn = given.has(1) && given.boolean(1);
  const onlyOnce = given.has(2) && given.boolean(2);
  const lines = byColumn ? transposed(given.matrix(0)) : given.matrix(0);
  const counts = new Map<string, number>();
  const keys = lines.map((line) => line.map(keyOf).join('\n'));
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  const seen = new Set<string>();
  const kept = lines.filter((_, at) => {
    const key = keys[at]!;
    if (seen.has(key) || (onlyOnce && counts.get(key)! > 1)) return false;
    seen.add(key);
    return true;
  });
  if (kept.length === 0) return CALC;
  return byColumn ? transposed(kept) : kept;
}

export const sorting: readonly BuiltIn[] = [
  define('SORT', [1, 4], 'block block block value', sort),
  define('SORTBY', [2, 255], 'array array value', sortBy, { repeats: 2 }),
  define('FILTER', [2, 3], 'array array block', filter),
  define('UNIQUE', [1, 3], 'block value value', unique),
];
