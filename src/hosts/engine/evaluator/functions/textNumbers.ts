import type { BuiltIn } from '../builtIn';
import { numberAsText } from '../coercion';
import { isError, VALUE, type Value } from '../values';
import { numberInText, readNumber } from '../writtenNumbers';
import { rounded } from './decimals';
import { define, type Given } from './define';
import { asFormatted } from './formatted';
import { fitting } from './texts';

// Numbers as text and text as numbers. Definitions: ISO/IEC 29500-1:2016, 18.17.7.

const valueOf = (given: Given): Value => {
  const value = given.scalar(0);
  if (typeof value !== 'string') return typeof value === 'boolean' ? VALUE : (value ?? 0);
  return numberInText(value, given.context.dateSystem) ?? VALUE;
};

/** The day a text says; its time of day left out. */
const dayIn = (given: Given): Value => {
  const value = given.scalar(0);
  if (typeof value !== 'string' || !/[-/. ]/.test(value.trim())) return isError(value) ? value : VALUE;
  const number = isDayText(value) ? numberInText(value, given.context.dateSystem) : undefined;
  return number === undefined ? VALUE : Math.floor(number);
};

/** Texts such as `1 1/2`, `$5` and `-3` are numbers, but no days. */
const isDayText = (text: string): boolean => /^\s*(\d{1,4}[-/.]|\d{1,2} ?[a-z]|[a-z])/i.test(text);

const timeIn = (given: Given): Value => {
  const value = given.scalar(0);
  if (typeof value !== 'string') return isError(value) ? value : VALUE;
  if (!/:/.test(value) && !isDayText(value)) return VALUE;
  const whole = numberInText(value, given.context.dateSystem);
  if (whole === undefined) return VALUE;
  // The time is read alone: behind a day it would lose digits.
  const alone = readNumber(/\d+:.*$/.exec(value)?.[0] ?? '', given.context.dateSystem);
  const time = typeof alone === 'number' ? alone : whole;
  return time - Math.floor(time);
};

const grouped = (digits: string): string => digits.replace(/\B(?=(\d{3})+(?!\d))/g, ',');

/** A number with so many decimal places, rounded as on a sheet. */
function withPlaces(number: number, places: number, hasCommas: boolean): string {
  const size = Math.abs(rounded(number, places));
  const [whole = '0', part = ''] = plainDigits(size).split('.');
  const decimals = places > 0 ? `.${part.padEnd(places, '0').slice(0, places)}` : '';
  return (hasCommas ? grouped(whole) : whole) + decimals;
}

const plainDigits = (size: number): string => {
  const text = numberAsText(size);
  return text.includes('E')
    ? Number(text).toLocaleString('en', { useGrouping: false, maximumFractionDigits: 20 })
    : text;
};

const fixed = (given: Given): Value => {
  const [number, places] = [given.number(0), given.whole(1, 2)];
  if (Math.abs(places) > 127) return VALUE;
  const text = withPlaces(number, places, !given.boolean(2, false));
  return number < 0 && /[1-9]/.test(text) ? `-${text}` : text;
};

const dollars = (given: Given): Value => {
  const [number, places] = [given.number(0), given.whole(1, 2)];
  if (Math.abs(places) > 127) return VALUE;
  const text = withPlaces(number, places, true);
  return number < 0 && /[1-9]/.test(text) ? `($${text})` : `$${text}`;
};

/** A number whose signs for decimals and thousands are given. */
const numberValue = (given: Given): Value => {
  const text = given.text(0).replace(/\s/g, '');
  const decimal = given.text(1, '.').charAt(0);
  const group = given.text(2, decimal === ',' ? '.' : ',').charAt(0);
  if (decimal === '' || decimal === group) return VALUE;
  if (text === '') return 0;
  const [, body = '', percents = ''] = /^(.*?)(%*)$/.exec(text)!;
  const [whole = '', part, ...more] = body.split(decimal);
  if (more.length > 0 || (part !== undefined && group !== '' && part.includes(group))) return VALUE;
  const plain = (group === '' ? whole : whole.replaceAll(group, '')) + (part === undefined ? '' : `.${part}`);
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain)) return VALUE;
  return Number(plain) / 100 ** percents.length;
};

export const textNumbers: readonly BuiltIn[] = [
  define('TEXT', [2, 2], 'value', (given, { dateSystem }) =>
    fittingText(asFormatted(given.scalar(0), given.text(1), dateSystem)),
  ),
  define('VALUE', [1, 1], 'value', valueOf),
  define('DATEVALUE', [1, 1], 'value', dayIn),
  define('TIMEVALUE', [1, 1], 'value', timeIn),
  define('NUMBERVALUE', [1, 3], 'value', numberValue),
  define('FIXED', [1, 3], 'value', fixed),
  define('DOLLAR', [1, 2], 'value', dollars),
];

function fittingText(value: Value): Value {
  return typeof value === 'string' ? fitting(value) : value;
}
