import type { BuiltIn } from '../builtIn';
import { toWhole } from '../coercion';
import { NUM, VALUE, type Scalar } from '../values';
import { define, numeric } from './define';
import { numbersIn } from './numbers';

// Counting, divisors, numerals and bits. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference.

const factorial = (number: number, step = 1): Scalar => {
  const whole = Math.trunc(number);
  if (whole < 0 || whole > (step === 1 ? 170 : 300)) return NUM;
  let product = 1;
  for (let factor = whole; factor > 1; factor -= step) product *= factor;
  return product;
};

/** How many ways there are to choose `k` of `n`. */
export function choices(n: number, k: number): number {
  let product = 1;
  for (let at = 1; at <= Math.min(k, n - k); at++) product = (product * (n - at + 1)) / at;
  return product > 2 ** 53 ? product : Math.round(product);
}

const combinations = (count: number, chosen: number): Scalar => {
  const [n, k] = [Math.trunc(count), Math.trunc(chosen)];
  return n < 0 || k < 0 || k > n ? NUM : choices(n, k);
};

const permutations = (count: number, chosen: number): Scalar => {
  const [n, k] = [Math.trunc(count), Math.trunc(chosen)];
  if (n <= 0 || k < 0 || k > n) return NUM;
  let product = 1;
  for (let at = 0; at < k; at++) product *= n - at;
  return product;
};

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

const LARGEST = 2 ** 53;
/** Joins whole numbers from 0 upwards, those held as text too. */
const joining = (name: string, join: (a: number, b: number) => number): BuiltIn =>
  define(name, [1, Infinity], 'range', ({ context, all }) => {
    let result: number | undefined;
    for (const value of all.flatMap((one) => context.matrixOf(one).flat())) {
      if (value === null) continue;
      if (typeof value === 'boolean') return VALUE;
      const whole = toWhole(value, context.dateSystem);
      if (whole < 0 || whole >= LARGEST) return NUM;
      result = result === undefined ? whole : join(result, whole);
      if (result >= LARGEST) return NUM;
    }
    return result ?? 0;
  });

const multinomial = (numbers: readonly number[]): Scalar => {
  let sum = 0;
  let result = 1;
  for (const number of numbers) {
    const whole = Math.trunc(number);
    if (whole < 0) return NUM;
    sum += whole;
    result *= choices(sum, whole);
  }
  return result;
};

/** Roman numerals in the classic form, and what each is worth. */
const NUMERALS: readonly (readonly [number, string])[] = [
  ...([
    [1000, 'M'],
    [900, 'CM'],
    [500, 'D'],
    [400, 'CD'],
    [100, 'C'],
    [90, 'XC'],
    [50, 'L'],
  ] as const),
  ...([
    [40, 'XL'],
    [10, 'X'],
    [9, 'IX'],
    [5, 'V'],
    [4, 'IV'],
    [1, 'I'],
  ] as const),
];

const roman = (number: number): Scalar => {
  if (number < 0 || number > 3999) return VALUE;
  let text = '';
  let left = number;
  for (const [worth, numeral] of NUMERALS) {
    for (; left >= worth; left -= worth) text += numeral;
  }
  return text;
};

const arabic = (text: string): Scalar => {
  const [, minus, letters] = /^(-?)([MDCLXVI]*)$/.exec(text.trim().toUpperCase()) ?? [];
  if (letters === undefined) return VALUE;
  const worths = [...letters].map((letter) => NUMERALS.find(([, numeral]) => numeral === letter)![0]);
  // A smaller one before a larger is taken away.
  const sum = worths.reduce((before, one, at) => before + (one < (worths[at + 1] ?? 0) ? -one : one), 0);
  return minus && sum > 0 ? -sum : sum;
};

const BITS = 2 ** 48;
const bits = (name: string, join: (a: bigint, b: bigint) => bigint): BuiltIn =>
  numeric(name, [2, 2], (a, b) => {
    const [one, other] = [a, b] as [number, number];
    if ([one, other].some((each) => each < 0 || each >= BITS || !Number.isInteger(each))) return NUM;
    return Number(join(BigInt(one), BigInt(other)));
  });

const shift = (number: number, by: number): Scalar => {
  if (number < 0 || number >= BITS || !Number.isInteger(number) || Math.abs(by) > 53) return NUM;
  const result = Math.floor(number * 2 ** Math.trunc(by));
  return result >= BITS ? NUM : result;
};

const DIGITS: Readonly<Record<string, number>> = { BIN: 2, OCT: 8, HEX: 16 };

/** A number of ten digits of a base, the upper half negative. */
function fromDigits(text: string, base: number): number | undefined {
  if (text.length > 10) return undefined;
  const number = text === '' ? 0 : parseInt(text, base);
  const allowed = '0123456789ABCDEF'.slice(0, base);
  if ([...text.toUpperCase()].some((digit) => !allowed.includes(digit))) return undefined;
  return number >= base ** 10 / 2 ? number - base ** 10 : number;
}

function toDigits(number: number, base: number, length: number | undefined): Scalar {
  const whole = Math.trunc(number);
  const half = base ** 10 / 2;
  if (whole < -half || whole >= half) return NUM;
  const text = (whole < 0 ? whole + base ** 10 : whole).toString(base).toUpperCase();
  if (length === undefined || whole < 0) return text;
  const width = Math.trunc(length);
  return width < text.length || width > 10 ? NUM : text.padStart(width, '0');
}

const bases: readonly BuiltIn[] = Object.entries(DIGITS).flatMap(([name, base]) => [
  define(`${name}2DEC`, [1, 1], 'value', (given) => fromDigits(given.text(0), base) ?? NUM),
  define(`DEC2${name}`, [1, 2], 'value', (given) =>
    toDigits(given.number(0), base, given.count > 1 ? given.number(1) : undefined),
  ),
  ...Object.entries(DIGITS)
    .filter(([other]) => other !== name)
    .map(([other, into]) =>
      define(`${name}2${other}`, [1, 2], 'value', (given) => {
        const number = fromDigits(given.text(0), base);
        return number === undefined
          ? NUM
          : toDigits(number, into, given.count > 1 ? given.number(1) : undefined);
      }),
    ),
]);

export const wholeNumbers: readonly BuiltIn[] = [
  numeric('FACT', [1, 1], (number) => factorial(number)),
  numeric('FACTDOUBLE', [1, 1], (number) => (Math.trunc(number) === -1 ? 1 : factorial(number, 2))),
  numeric('COMBIN', [2, 2], combinations),
  numeric('COMBINA', [2, 2], (count, chosen) => {
    const [n, k] = [Math.trunc(count), Math.trunc(chosen)];
    return n < 0 || k < 0 || (n === 0 && k > 0) ? NUM : n === 0 ? 1 : combinations(n + k - 1, k);
  }),
  numeric('PERMUT', [2, 2], permutations),
  numeric('PERMUTATIONA', [2, 2], (n, k) => (n < 0 || k < 0 ? NUM : Math.trunc(n) ** Math.trunc(k))),
  define('MULTINOMIAL', [1, Infinity], 'range', ({ context, all }) => multinomial(numbersIn(context, all))),
  joining('GCD', divisor),
  joining('LCM', (a, b) => (a === 0 || b === 0 ? 0 : (a / divisor(a, b)) * b)),
  define('ROMAN', [1, 1], 'value', (given) => roman(given.whole(0))),
  define('ARABIC', [1, 1], 'value', (given) => arabic(given.text(0))),
  define('BASE', [2, 3], 'value', (given) => {
    const [number, base, length] = [given.whole(0), given.whole(1), given.whole(2)];
    if (number < 0 || number >= LARGEST || base < 2 || base > 36 || length < 0 || length > 255) return NUM;
    return number.toString(base).toUpperCase().padStart(length, '0');
  }),
  define('DECIMAL', [2, 2], 'value', (given) => {
    const [text, base] = [given.text(0).trim().toLowerCase(), given.whole(1)];
    if (base < 2 || base > 36) return NUM;
    const allowed = '0123456789abcdefghijklmnopqrstuvwxyz'.slice(0, base);
    if ([...text].some((digit) => !allowed.includes(digit))) return NUM;
    return text === '' ? 0 : parseInt(text, base);
  }),
  ...bases,
  bits('BITAND', (a, b) => a & b),
  bits('BITOR', (a, b) => a | b),
  bits('BITXOR', (a, b) => a ^ b),
  numeric('BITLSHIFT', [2, 2], shift),
  numeric('BITRSHIFT', [2, 2], (number, by) => shift(number, -by)),
  numeric('DELTA', [1, 2], (a, b = 0) => Number(a === b)),
  numeric('GESTEP', [1, 2], (number, step = 0) => Number(number >= step)),
];
