import type { BuiltIn } from '../builtIn';
import { compareNumbers, compareTexts, toWhole } from '../coercion';
import { CALC, heightOf, isError, VALUE, widthOf, type Matrix, type Scalar, type Value } from '../values';
import { define, type Given } from './define';

// Sorting and telling apart. Definitions: the vendor's reference of worksheet functions.

const rankOf = (value: Scalar): number => {
  if (value === null) return 4;
  if (isError(value)) return 3;
  return typeof value === 'number' ? 0 : typeof value === 'string' ? 1 : 2;
};

/** Numbers, texts, FALSE and TRUE, errors; blanks last whichever way is sorted. */
function order(left: Scalar, right: Scalar, direction: number): number {
  if (left === null || right === null) return Number(left === null) - Number(right === null);
  const ranks = rankOf(left) - rankOf(right);
  if (ranks !== 0) return ranks * direction;
  if (typeof left === 'number') return compareNumbers(left, right as number) * direction;
  if (typeof left === 'string') return compareTexts(left, right as string) * direction;
  return isError(left) ? 0 : (Number(left) - Number(right)) * direction;
}

const transposed = (block: Matrix): Matrix => block[0]!.map((_, at) => block.map((row) => row[at]!));

interface Key {
  readonly values: readonly Scalar[];
  readonly direction: number;
}

function sortedBy(rows: Matrix, keys: readonly Key[]): Matrix {
  const places = rows.map((_, at) => at);
  places.sort((a, b) => {
    for (const { values, direction } of keys) {
      const found = order(values[a]!, values[b]!, direction);
      if (found !== 0) return found;
    }
    return a - b;
  });
  return places.map((at) => rows[at]!);
}

/** @throws ErrorValue #VALUE! for what is neither 1 nor -1 */
function directionOf({ context }: Given, value: Scalar): number {
  const direction = toWhole(value, context.dateSystem);
  if (direction !== 1 && direction !== -1) throw VALUE;
  return direction;
}

const sort = (given: Given): Value => {
  const isAcross = given.boolean(3);
  const rows = isAcross ? transposed(given.matrix(0)) : given.matrix(0);
  const columns = given.has(1) ? given.list(1) : [1];
  const directions = given.has(2) ? given.list(2) : [1];
  if (directions.length !== 1 && directions.length !== columns.length) return VALUE;
  const keys = columns.map((value, at): Key => {
    const column = toWhole(value, given.context.dateSystem);
    if (column < 1 || column > widthOf(rows)) throw VALUE;
    const direction = directionOf(given, directions.length === 1 ? directions[0]! : directions[at]!);
    return { values: rows.map((row) => row[column - 1]!), direction };
  });
  const sorted = sortedBy(rows, keys);
  return isAcross ? transposed(sorted) : sorted;
};

const sortBy = (given: Given): Value => {
  const block = given.matrix(0);
  const first = given.matrix(1);
  const isAcross = heightOf(first) === 1 && widthOf(first) === widthOf(block) && widthOf(block) > 1;
  const rows = isAcross ? transposed(block) : block;
  const keys: Key[] = [];
  for (let at = 1; at < given.count; at += 2) {
    const by = given.matrix(at);
    if ((isAcross ? heightOf(by) : widthOf(by)) !== 1) return VALUE;
    const values = by.flat();
    if (values.length !== heightOf(rows)) return VALUE;
    keys.push({ values, direction: given.has(at + 1) ? directionOf(given, given.scalar(at + 1)) : 1 });
  }
  const sorted = sortedBy(rows, keys);
  return isAcross ? transposed(sorted) : sorted;
};

/** What makes two values the same: capitals and small letters are. */
const signOf = (value: Scalar): string => {
  if (isError(value)) return `error ${value.code}`;
  return `${typeof value} ${typeof value === 'string' ? value.toLowerCase() : String(value)}`;
};

const unique = (given: Given): Value => {
  const isAcross = given.boolean(1);
  const rows = isAcross ? transposed(given.matrix(0)) : given.matrix(0);
  const times = new Map<string, number>();
  const signs = rows.map((row) => row.map(signOf).join('\u0000'));
  for (const sign of signs) times.set(sign, (times.get(sign) ?? 0) + 1);
  const first = new Map(signs.map((sign, at) => [sign, at] as const).reverse());
  const onlyOnce = given.boolean(2);
  const kept = rows.filter((_, at) =>
    onlyOnce ? times.get(signs[at]!) === 1 : first.get(signs[at]!) === at,
  );
  if (kept.length === 0) return CALC;
  return isAcross ? transposed(kept) : kept;
};

export const sorting: readonly BuiltIn[] = [
  define('SORT', [1, 4], 'array array array value', sort),
  define('SORTBY', [2, 255], 'array array array', sortBy, { repeats: 2 }),
  define('UNIQUE', [1, 3], 'array value value', unique),
];
