import { format, isDateFormat, isTextFormat } from 'numfmt';
import { Lacking } from '../lacking';
import { isError, VALUE, type Scalar, type Value } from '../values';
import { numberInText, readNumber } from '../writtenNumbers';

// Values shown by a format code: ISO/IEC 29500-1:2016, 18.8.30 and 18.8.31.

const LAST_DAY = 2_958_466;
/** Days from the first of 1900 to the first of 1904, as their serials differ. */
const DAYS_TO_1904 = 1462;
const DAY_SECONDS = 86_400;

/** Quoted text, signs behind a backslash, and those that only take room. */
const QUOTED = /"[^"]*"|\\.|[_*]./gs;
const BRACKETS = /\[[^\]]*\]/g;
const ELAPSED = /\[(?:h+|m+|s+)\]/i;
/** Letters that mean an era or a calendar in some countries and nothing in others; an e of an exponent does not. */
const BY_COUNTRY = /[bgn]|e(?![+-])/i;
/** A number of that size has no digit behind its point. */
const LONG = 1e15;
const TOO_LONG = 1e21;

/** A value as TEXT shows it. @throws Lacking for codes that countries read differently */
export function asFormatted(value: Scalar, code: string, dateSystem: 1900 | 1904): Value {
  if (isError(value)) return value;
  if (code === '') return '';
  const bare = code.replace(QUOTED, '');
  const signs = bare.replace(BRACKETS, '');
  if (BY_COUNTRY.test(signs.replace(/general/gi, '')) || /%[^;]*%/.test(signs))
    throw new Lacking(`the format “${code}”`);
  const shown = typeof value === 'boolean' ? String(value).toUpperCase() : (value ?? 0);
  const number =
    typeof shown === 'string' && typeof value === 'string' ? numberFor(shown, code, dateSystem) : shown;
  try {
    if (typeof number === 'string') return format(code, number);
    return isDateFormat(code)
      ? asMoment(number, code, bare, dateSystem)
      : asNumber(number, code, /[0#?]e[+-]/.test(signs));
  } catch (fault) {
    if (fault instanceof Lacking) throw fault;
    return VALUE;
  }
}

/** The number that a text is, unless the format is one of text. */
function numberFor(text: string, code: string, dateSystem: 1900 | 1904): number | string {
  const read = isTextFormat(code) ? undefined : readNumber(text, dateSystem);
  return read === 'two-ways' ? numberInText(text, dateSystem)! : (read ?? text);
}

function asNumber(number: number, code: string, hasSmallExponent: boolean): string {
  if (hasSmallExponent) return format(code.replaceAll('e', 'E'), nudged(number)).replaceAll('E', 'e');
  if (Math.abs(number) < LONG) return format(code, nudged(number));
  if (Math.abs(number) >= TOO_LONG && !/E[+-]|general|@/i.test(code))
    throw new Lacking('a number of more than 21 digits, for TEXT');
  return format(code, Number(number.toPrecision(15)));
}

/**
 * A number as the format library should round it: it rounds the binary number, a sheet its fifteen digits, so that
 * 1.005 to two places is 1.01.
 */
function nudged(number: number): number {
  const digits = number.toPrecision(15).replace(/0+(?=e|$)/, '');
  const isTie = /5(?:e|$)/.test(digits);
  return isTie ? number * (1 + 2 ** -52) : number;
}

/** Days and times, rounded to the second or the part of one that is shown, so that 23:59:59.9 may be the next day. */
function asMoment(serial: number, code: string, bare: string, dateSystem: 1900 | 1904): Value {
  // How long something took counts from no first day.
  const isElapsed = ELAPSED.test(bare) && !/[yd]/i.test(bare.replace(BRACKETS, ''));
  if (isElapsed && dateSystem === 1904 && serial < 0) {
    const size = asMoment(-serial, code, bare, dateSystem);
    return typeof size === 'string' ? `-${size}` : size;
  }
  const counted = dateSystem === 1904 && !isElapsed ? serial + DAYS_TO_1904 : serial;
  if (counted < 0 || counted >= LAST_DAY) return VALUE;
  const small = /a\/p/.test(bare);
  const text = format(small ? code.replaceAll('a/p', `"${MARK}"A/P`) : code, toShownPart(counted, bare));
  return small ? text.replace(new RegExp(`${MARK}.`, 'g'), (half) => half.charAt(1).toLowerCase()) : text;
}

/** A sign that no format has. */
const MARK = '\u0001';

function toShownPart(serial: number, bare: string): number {
  if (!/[hs]/i.test(bare)) return serial;
  const [, zeros = ''] = /s\]?\.(0{1,3})/i.exec(bare) ?? [];
  const parts = DAY_SECONDS * 10 ** zeros.length;
  return Math.round(serial * parts) / parts;
}
