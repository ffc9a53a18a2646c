import type { DateSystem } from '../../../worksheet/calendar';
import { isError, VALUE, type Scalar } from './values';
import { numberInText } from './writtenNumbers';

/** A value as a number. @throws ErrorValue the error itself, #VALUE! for text that is no number. @throws Lacking for text that countries read differently */
export function toNumber(value: Scalar, dateSystem: DateSystem): number {
  if (typeof value === 'number') return value;
  if (value === null) return 0;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (isError(value)) throw value;
  const number = numberInText(value, dateSystem);
  if (number === undefined) throw VALUE;
  return number;
}

/** A number cut to a whole one, towards zero. @throws ErrorValue */
export const toWhole = (value: Scalar, dateSystem: DateSystem): number =>
  Math.trunc(toNumber(value, dateSystem));

/** A number is written out in full where that takes no more characters. */
const MOST_CHARACTERS = 20;

/**
 * A number as text, to the fifteen digits that a sheet keeps; 14 where its exponent has three digits. Written out in
 * full where 20 characters hold it, with an exponent otherwise.
 */
export function numberAsText(number: number): string {
  if (number === 0) return '0';
  let [digits, exponent] = parts(number, 15);
  if (Math.abs(exponent) > 98) [digits, exponent] = parts(number, 14);
  const sign = number < 0 ? '-' : '';
  if (exponent >= MOST_CHARACTERS || (exponent < 0 && 1 - exponent + digits.length > MOST_CHARACTERS)) {
    const rest = digits.length > 1 ? `.${digits.slice(1)}` : '';
    const power = String(Math.abs(exponent)).padStart(2, '0');
    return `${sign}${digits[0]}${rest}E${exponent < 0 ? '-' : '+'}${power}`;
  }
  if (exponent < 0) return `${sign}0.${'0'.repeat(-exponent - 1)}${digits}`;
  const whole = digits.slice(0, exponent + 1).padEnd(exponent + 1, '0');
  return digits.length > whole.length ? `${sign}${whole}.${digits.slice(whole.length)}` : sign + whole;
}

/** The digits of a number without zeros at their end, and the power of ten of the first. */
function parts(number: number, places: number): [digits: string, exponent: number] {
  const [, digits, exponent] = /^([\d.]+)e(.+)$/.exec(Math.abs(number).toExponential(places - 1))!;
  return [digits!.replace('.', '').replace(/0+$/, ''), Number(exponent)];
}

/** A value as text. @throws ErrorValue the error itself */
export function toText(value: Scalar): string {
  if (typeof value === 'string') return value;
  if (value === null) return '';
  if (typeof value === 'number') return numberAsText(value);
  if (isError(value)) throw value;
  return value ? 'TRUE' : 'FALSE';
}

/** A value as TRUE or FALSE. @throws ErrorValue the error itself, #VALUE! for other text */
export function toBoolean(value: Scalar): boolean {
  if (typeof value === 'boolean') return value;
  if (typeof value === 'number') return value !== 0;
  if (value === null) return false;
  if (isError(value)) throw value;
  const text = value.toUpperCase();
  if (text === 'TRUE') return true;
  if (text === 'FALSE') return false;
  throw VALUE;
}

const rankOf = (value: Scalar): number =>
  typeof value === 'number' ? 0 : typeof value === 'string' ? 1 : typeof value === 'boolean' ? 2 : 3;

const collator = new Intl.Collator('en', { sensitivity: 'accent' });

/** Texts in the order of a sheet, capitals and small letters alike. */
export function compareTexts(left: string, right: string): number {
  if (left === right) return 0;
  const [a, b] = [left.toLowerCase(), right.toLowerCase()];
  if (a === b) return 0;
  return collator.compare(a, b) || (a < b ? -1 : 1);
}

/**
 * The order of a sheet: numbers, then text, then FALSE and TRUE; a blank equals 0, empty text and FALSE. Negative
 * where `left` comes first. Numbers that agree in fifteen digits are equal. @throws ErrorValue an error among them
 */
export function compare(left: Scalar, right: Scalar): number {
  if (typeof left === 'number' && typeof right === 'number') return compareNumbers(left, right);
  if (isError(left)) throw left;
  if (isError(right)) throw right;
  const [a, b] = [left ?? blankAs(right), right ?? blankAs(left)];
  const ranks = rankOf(a) - rankOf(b);
  if (ranks !== 0) return ranks;
  if (typeof a === 'string') return compareTexts(a, b as string);
  return Number(a) - Number(b);
}

/** Whether `compare` finds no order between two values. @throws ErrorValue an error among them */
export const areEqual = (left: Scalar, right: Scalar): boolean =>
  typeof left === 'string' && typeof right === 'string'
    ? left === right || left.toLowerCase() === right.toLowerCase()
    : compare(left, right) === 0;

const blankAs = (other: Scalar): Scalar =>
  typeof other === 'string' ? '' : typeof other === 'boolean' ? false : 0;

export function compareNumbers(left: number, right: number): number {
  if (left === right) return 0;
  const difference = left - right;
  // A sheet keeps fifteen digits.
  if (Math.abs(difference) < Math.abs(left) * 2e-15) {
    if (Number(left.toPrecision(15)) === Number(right.toPrecision(15))) return 0;
  }
  return difference;
}
