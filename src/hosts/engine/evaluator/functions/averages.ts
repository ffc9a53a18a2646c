import type { BuiltIn, NumberTotals } from '../builtIn';
import { DIVIDED_BY_ZERO, isError, NOT_AVAILABLE, NUM, type Scalar, type Value } from '../values';
import { numberInText } from '../writtenNumbers';
import { define, named, type Given } from './define';
import {
  ascending,
  eachValue,
  meanOf,
  numbersAndTexts,
  numbersIn,
  numbersOf,
  squaresOf,
  sumOf,
  totalsIn,
} from './numbers';

// Middles, spreads and ranks of numbers. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference.

/** A function of all numbers among its arguments. */
const ofNumbers = (name: string, calculate: (numbers: readonly number[]) => Value): BuiltIn =>
  define(name, [1, Infinity], 'range', ({ context, all }) => calculate(numbersIn(context, all)));

const ofTotals = (name: string, calculate: (totals: NumberTotals) => Value): BuiltIn =>
  define(name, [1, Infinity], 'range', ({ context, all }) => calculate(totalsIn(context, all)));

/** As `ofNumbers`, text held in cells 0 and TRUE 1. */
const ofAll = (name: string, calculate: (numbers: readonly number[]) => Value): BuiltIn =>
  define(name, [1, Infinity], 'range', ({ context, all }) => calculate(numbersAndTexts(context, all)));

/** Where too few numbers are there, #DIV/0!. */
const atLeast =
  (count: number, calculate: (numbers: readonly number[]) => number) =>
  (numbers: readonly number[]): Value =>
    numbers.length < count ? DIVIDED_BY_ZERO : calculate(numbers);

const least = (numbers: readonly number[]): number => {
  let found = Infinity;
  for (const number of numbers) if (number < found) found = number;
  return numbers.length === 0 ? 0 : found;
};
const most = (numbers: readonly number[]): number => {
  let found = -Infinity;
  for (const number of numbers) if (number > found) found = number;
  return numbers.length === 0 ? 0 : found;
};

export const median = (numbers: readonly number[]): Value => {
  if (numbers.length === 0) return NUM;
  const sorted = ascending(numbers);
  const half = sorted.length >> 1;
  return sorted.length % 2 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};

/** The numbers met most often, in the order in which they are met first; none where all are met once. */
function modes(numbers: readonly number[]): number[] {
  const times = new Map<number, number>();
  for (const number of numbers) times.set(number, (times.get(number) ?? 0) + 1);
  const top = Math.max(0, ...times.values());
  return top < 2 ? [] : [...times].filter(([, count]) => count === top).map(([number]) => number);
}

const mode = (numbers: readonly number[]): Value => modes(numbers)[0] ?? NOT_AVAILABLE;

const onlyAbove0 =
  (calculate: (numbers: readonly number[]) => number) =>
  (numbers: readonly number[]): Value =>
    numbers.length === 0 || numbers.some((one) => one <= 0) ? NUM : calculate(numbers);

export const variance = atLeast(2, (numbers) => squaresOf(numbers) / (numbers.length - 1));
export const wholeVariance = atLeast(1, (numbers) => squaresOf(numbers) / numbers.length);
const root = (value: Value): Value => (typeof value === 'number' ? Math.sqrt(value) : value);
export const deviation = (numbers: readonly number[]): Value => root(variance(numbers));
export const wholeDeviation = (numbers: readonly number[]): Value => root(wholeVariance(numbers));

const skew = (numbers: readonly number[], spread: Value, factor: number): Value => {
  if (typeof spread !== 'number' || spread === 0) return DIVIDED_BY_ZERO;
  const mean = meanOf(numbers);
  return factor * sumOf(numbers.map((one) => ((one - mean) / spread) ** 3));
};

const kurtosis = (numbers: readonly number[]): Value => {
  const n = numbers.length;
  const spread = deviation(numbers);
  if (n < 4 || typeof spread !== 'number' || spread === 0) return DIVIDED_BY_ZERO;
  const mean = meanOf(numbers);
  const fourth = sumOf(numbers.map((one) => ((one - mean) / spread) ** 4));
  return ((n * (n + 1)) / ((n - 1) * (n - 2) * (n - 3))) * fourth - (3 * (n - 1) ** 2) / ((n - 2) * (n - 3));
};

/** The value at a place between sorted numbers, counted from 0. */
function between(sorted: readonly number[], place: number): number {
  const below = Math.floor(place + 1e-12);
  const part = Math.max(0, place - below);
  const low = sorted[below]!;
  return part < 1e-12 ? low : low + part * (sorted[below + 1]! - low);
}

export function percentile(numbers: readonly number[], part: number): Value {
  if (numbers.length === 0 || part < 0 || part > 1) return NUM;
  return between(ascending(numbers), part * (numbers.length - 1));
}

export function percentileExclusive(numbers: readonly number[], part: number): Value {
  const place = part * (numbers.length + 1) - 1;
  if (numbers.length === 0 || part <= 0 || part >= 1 || place < -1e-12 || place > numbers.length - 1 + 1e-12)
    return NUM;
  return between(ascending(numbers), Math.max(0, place));
}

export function nth(numbers: readonly number[], place: number, isLargest: boolean): Value {
  const at = Math.ceil(place);
  if (at < 1 || at > numbers.length) return NUM;
  return ascending(numbers).at(isLargest ? -at : at - 1)!;
}

const listOf = (given: Given, at: number): number[] => numbersIn(given.context, [given.all[at]]);

const quartile =
  (calculate: typeof percentile) =>
  (given: Given): Value => {
    const part = given.whole(1);
    return part < 0 || part > 4 ? NUM : calculate(listOf(given, 0), part / 4);
  };

/** Cut to a number of significant digits, as PERCENTRANK says of itself. */
const cut = (number: number, digits: number): number => {
  const places = 10 ** digits;
  return Math.floor(Number((number * places).toPrecision(15))) / places;
};

const rankPart =
  (isInclusive: boolean) =>
  (given: Given): Value => {
    const sorted = ascending(listOf(given, 0));
    const [sought, digits] = [given.number(1), given.whole(2, 3)];
    if (sorted.length === 0 || digits < 1) return NUM;
    if (sought < sorted[0]! || sought > sorted.at(-1)!) return NOT_AVAILABLE;
    const below = sorted.filter((one) => one < sought).length;
    const next = sorted[below]!;
    const place =
      next === sought ? below : below - 1 + (sought - sorted[below - 1]!) / (next - sorted[below - 1]!);
    if (isInclusive) return sorted.length === 1 ? 1 : cut(place / (sorted.length - 1), digits);
    return cut((place + 1) / (sorted.length + 1), digits);
  };

const rank =
  (isMean: boolean) =>
  (given: Given): Value => {
    const [sought, isUpwards] = [given.number(0), given.number(2) !== 0];
    const numbers = listOf(given, 1);
    const same = numbers.filter((one) => one === sought).length;
    if (same === 0) return NOT_AVAILABLE;
    const before = numbers.filter((one) => (isUpwards ? one < sought : one > sought)).length;
    return before + 1 + (isMean ? (same - 1) / 2 : 0);
  };

const trimmed = (given: Given): Value => {
  const numbers = ascending(listOf(given, 0));
  const part = given.number(1);
  if (part < 0 || part >= 1 || numbers.length === 0) return NUM;
  const each = Math.floor(Number((part * numbers.length).toPrecision(15)) / 2);
  return meanOf(numbers.slice(each, numbers.length - each));
};

const frequency = (given: Given): Value => {
  const [numbers, bounds] = [numbersOf(given.list(0)), numbersOf(given.list(1))];
  const order = ascending(bounds);
  const counts = new Map<number, number>();
  let beyond = 0;
  for (const number of numbers) {
    const bound = order.find((one) => number <= one);
    if (bound === undefined) beyond++;
    else counts.set(bound, (counts.get(bound) ?? 0) + 1);
  }
  const rows = bounds.map((bound, at) => [bounds.indexOf(bound) === at ? (counts.get(bound) ?? 0) : 0]);
  return [...rows, [beyond]];
};

/** COUNT: what is no number counts for nothing, errors too. */
const countNumbers = ({ context, all }: Given): number => {
  let count = 0;
  eachValue(
    context,
    all,
    (value) => {
      if (typeof value === 'number') count++;
    },
    (value) => {
      if (typeof value === 'string') count += numberInText(value, context.dateSystem) === undefined ? 0 : 1;
      else if (!isError(value)) count++;
    },
  );
  return count;
};

const standardized = (given: Given): Scalar => {
  const spread = given.number(2);
  return spread <= 0 ? NUM : (given.number(0) - given.number(1)) / spread;
};

export const countOf = countNumbers;
export { least, most, mode };

const sampleDeviation = ofNumbers('STDEV.S', deviation);
const populationDeviation = ofNumbers('STDEV.P', wholeDeviation);
const sampleVariance = ofNumbers('VAR.S', variance);
const populationVariance = ofNumbers('VAR.P', wholeVariance);
const inclusive = define('PERCENTILE.INC', [2, 2], 'range value', (given) =>
  percentile(listOf(given, 0), given.number(1)),
);
const quarters = define('QUARTILE.INC', [2, 2], 'range value', quartile(percentile));
const rankEqual = define('RANK.EQ', [2, 3], 'value range value', rank(false));
const percentRank = define('PERCENTRANK.INC', [2, 3], 'range value value', rankPart(true));

export const averages: readonly BuiltIn[] = [
  ofTotals('AVERAGE', ({ sum, count }) => (count === 0 ? DIVIDED_BY_ZERO : sum / count)),
  ofAll('AVERAGEA', atLeast(1, meanOf)),
  define('COUNT', [1, Infinity], 'range', countNumbers, { takesErrors: true }),
  ofTotals('MIN', ({ count, least: found }) => (count === 0 ? 0 : found)),
  ofTotals('MAX', ({ count, most: found }) => (count === 0 ? 0 : found)),
  ofAll('MINA', least),
  ofAll('MAXA', most),
  ofNumbers('MEDIAN', median),
  ...named(ofNumbers('MODE.SNGL', mode), 'MODE.SNGL', 'MODE'),
  ofNumbers('MODE.MULT', (numbers) => {
    const found = modes(numbers);
    return found.length === 0 ? NOT_AVAILABLE : found.map((one) => [one]);
  }),
  ofNumbers(
    'GEOMEAN',
    onlyAbove0((numbers) => Math.exp(meanOf(numbers.map(Math.log)))),
  ),
  ofNumbers(
    'HARMEAN',
    onlyAbove0((numbers) => numbers.length / sumOf(numbers.map((one) => 1 / one))),
  ),
  ofNumbers('AVEDEV', (numbers) => {
    if (numbers.length === 0) return NUM;
    const mean = meanOf(numbers);
    return meanOf(numbers.map((one) => Math.abs(one - mean)));
  }),
  ofNumbers('DEVSQ', (numbers) => (numbers.length === 0 ? NUM : squaresOf(numbers))),
  ...named(sampleDeviation, 'STDEV.S', 'STDEV'),
  ...named(populationDeviation, 'STDEV.P', 'STDEVP'),
  ...named(sampleVariance, 'VAR.S', 'VAR'),
  ...named(populationVariance, 'VAR.P', 'VARP'),
  ofAll('STDEVA', deviation),
  ofAll('STDEVPA', wholeDeviation),
  ofAll('VARA', variance),
  ofAll('VARPA', wholeVariance),
  ofNumbers('SKEW', (numbers) => {
    const n = numbers.length;
    return n < 3 ? DIVIDED_BY_ZERO : skew(numbers, deviation(numbers), n / ((n - 1) * (n - 2)));
  }),
  ofNumbers('SKEW.P', (numbers) =>
    numbers.length < 3 ? DIVIDED_BY_ZERO : skew(numbers, wholeDeviation(numbers), 1 / numbers.length),
  ),
  ofNumbers('KURT', kurtosis),
  ...named(inclusive, 'PERCENTILE.INC', 'PERCENTILE'),
  define('PERCENTILE.EXC', [2, 2], 'range value', (given) =>
    percentileExclusive(listOf(given, 0), given.number(1)),
  ),
  ...named(quarters, 'QUARTILE.INC', 'QUARTILE'),
  define('QUARTILE.EXC', [2, 2], 'range value', quartile(percentileExclusive)),
  define('LARGE', [2, 2], 'range value', (given) => nth(listOf(given, 0), given.number(1), true)),
  define('SMALL', [2, 2], 'range value', (given) => nth(listOf(given, 0), given.number(1), false)),
  ...named(rankEqual, 'RANK.EQ', 'RANK'),
  define('RANK.AVG', [2, 3], 'value range value', rank(true)),
  ...named(percentRank, 'PERCENTRANK.INC', 'PERCENTRANK'),
  define('PERCENTRANK.EXC', [2, 3], 'range value value', rankPart(false)),
  define('TRIMMEAN', [2, 2], 'range value', trimmed),
  define('FREQUENCY', [2, 2], 'array', frequency),
  define('STANDARDIZE', [3, 3], 'value', standardized),
];
