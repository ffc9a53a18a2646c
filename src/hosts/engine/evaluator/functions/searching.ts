import { compare, compareTexts } from '../coercion';
import { Lacking } from '../lacking';
import { isError, type Matrix, type Scalar } from '../values';
import { hasWildcards, likeness } from './criteria';

// How lookups find a value. Numbers, texts and truths are never equal to one another, and blanks to nothing.

const isSameKind = (a: Scalar, b: Scalar): boolean =>
  a !== null && b !== null && !isError(a) && !isError(b) && typeof a === typeof b;

/** Whether a cell is what is sought, exactly; with `wildcards` a text may be a pattern. */
export function matcher(sought: Scalar, wildcards: boolean): (value: Scalar) => boolean {
  if (typeof sought === 'string') {
    if (wildcards) {
      const isLike = likeness(sought);
      return (value) => typeof value === 'string' && isLike(value);
    }
    return (value) => typeof value === 'string' && compareTexts(value, sought) === 0;
  }
  if (typeof sought === 'number') return (value) => typeof value === 'number' && compare(value, sought) === 0;
  return (value) => value === sought;
}

/** The first place that matches, from the front or from the back; -1 where none does. */
export function positionOf(
  values: readonly Scalar[],
  isMatch: (value: Scalar) => boolean,
  fromBack = false,
): number {
  if (!fromBack) return values.findIndex(isMatch);
  for (let at = values.length - 1; at >= 0; at--) if (isMatch(values[at]!)) return at;
  return -1;
}

/**
 * The last value not past `sought` in a list sorted upwards (`direction` 1) or downwards (-1), halving as a sheet
 * does: values of another kind, blanks and errors are stepped over. -1 where all are past it.
 */
export function sortedPositionOf(values: readonly Scalar[], sought: Scalar, direction: 1 | -1): number {
  let low = 0;
  let high = values.length - 1;
  let best = -1;
  // In a list that is not sorted, an equal value once met is not given up for others behind it.
  let isMet = false;
  while (low <= high) {
    const middle = (low + high) >> 1;
    let at = middle;
    while (at <= high && !isSameKind(values[at]!, sought)) at++;
    if (at > high) {
      high = middle - 1;
      continue;
    }
    const order = compare(values[at]!, sought) * direction;
    isMet ||= order === 0;
    if (isMet ? order === 0 : order < 0) {
      best = at;
      low = at + 1;
    } else high = middle - 1;
  }
  return best;
}

/** What a nearest value is sought among: numbers come before texts, and texts before truths. */
const isHeld = (value: Scalar): boolean => value !== null && !isError(value);

/**
 * The place of an equal value, otherwise of the next smaller (`direction` -1) or next larger one (1), in any order;
 * -1 where there is none.
 */
export function nearestPosition(
  values: readonly Scalar[],
  sought: Scalar,
  direction: 1 | -1,
  fromBack: boolean,
): number {
  let best = -1;
  for (let n = 0; n < values.length; n++) {
    const at = fromBack ? values.length - 1 - n : n;
    const value = values[at]!;
    if (!isHeld(value)) continue;
    const order = compare(value, sought);
    if (order === 0) return at;
    if (order * direction > 0 && (best < 0 || compare(value, values[best]!) * direction < 0)) best = at;
  }
  return best;
}

/**
 * As `nearestPosition` in a list sorted upwards (`order` 1) or downwards (-1), as halving finds it: of equal values
 * the first in an upward list and the last in a downward one. With `direction` 0 only an equal value counts.
 */
export function halvedPosition(
  values: readonly Scalar[],
  sought: Scalar,
  direction: 1 | 0 | -1,
  order: 1 | -1,
): number {
  let [before, behind] = [-1, -1];
  for (let at = 0; at < values.length && behind < 0; at++) {
    if (!isHeld(values[at]!)) continue;
    const distance = compare(values[at]!, sought) * order;
    if (order === 1 ? distance < 0 : distance <= 0) before = at;
    else behind = at;
  }
  const equal = order === 1 ? behind : before;
  if (equal >= 0 && compare(values[equal]!, sought) === 0) return equal;
  return direction === 0 ? -1 : direction === order ? behind : before;
}

/** Throws where a list that should be sorted is not: what halving then finds is chance. */
export function needSorted(values: readonly Scalar[], direction: 1 | -1, name: string): void {
  let before: Scalar = null;
  for (const value of values) {
    if (!isSameKind(value, value)) continue;
    if (isSameKind(before, value) && compare(before, value) * direction > 0)
      throw new Lacking(`${name} that halves a list which is not sorted`);
    before = value;
  }
}

const keyOf = (value: Scalar): string | number | undefined => {
  if (typeof value === 'number') return Number(value.toPrecision(15));
  return typeof value === 'string' ? value.toLowerCase() : undefined;
};

/** Below so many values looking along them is as quick. */
const WORTH_AN_INDEX = 64;
const indexes = new WeakMap<readonly Scalar[], Map<string | number, number>>();

/** As `positionOf` with `matcher` from the front; a long list that is looked through again is indexed once. */
export function exactPositionOf(values: readonly Scalar[], sought: Scalar, wildcards: boolean): number {
  const key = typeof sought === 'string' && wildcards && hasWildcards(sought) ? undefined : keyOf(sought);
  if (key === undefined || values.length < WORTH_AN_INDEX)
    return positionOf(values, matcher(sought, wildcards));
  let index = indexes.get(values);
  if (!index) {
    index = new Map();
    for (let at = values.length - 1; at >= 0; at--) {
      const own = keyOf(values[at]!);
      if (own !== undefined) index.set(own, at);
    }
    indexes.set(values, index);
  }
  return index.get(key) ?? -1;
}

const lines = new WeakMap<Matrix, readonly Scalar[]>();

/** The first column of a block, the same list each time that the same block is given. */
export function firstColumn(block: Matrix): readonly Scalar[] {
  let line = lines.get(block);
  if (!line) lines.set(block, (line = block.map((row) => row[0]!)));
  return line;
}
