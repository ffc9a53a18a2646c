import type { DateSystem } from '../../../../worksheet/calendar';
import { compareNumbers, compareTexts } from '../coercion';
import { Lacking } from '../lacking';
import { isError, type Scalar } from '../values';
import { readNumber } from '../writtenNumbers';

/** Whether a cell meets a condition of COUNTIF and its like. */
export interface Criterion {
  (value: Scalar): boolean;
  /** Set where only cells of this key meet it and, where it is a number, texts that may be one. */
  readonly key?: Key;
  /** Set where it cannot tell of some cells whether they meet it, and throws. */
  readonly mayThrow?: true;
}

/** What equal values have in common. */
export type Key = string | number;

const keyOfNumber = (number: number): Key => Number(number.toPrecision(15));
const keyOfText = (text: string): Key => text.toLowerCase();

/** The key of a cell. A number held as text has that of the text, though it is equal to the number too. */
export function keyOf(value: Scalar): Key | undefined {
  if (typeof value === 'number') return keyOfNumber(value);
  return typeof value === 'string' ? keyOfText(value) : undefined;
}

/** Whether a text may read as a number. */
export const mayBeNumber = (value: Scalar): boolean => typeof value === 'string' && /\d/.test(value);

const SPECIAL = /[.*+?^${}()|[\]\\]/g;

/** Wildcards of a sheet as a pattern: `*` any text, `?` one character, `~` before either the character itself. */
function patternSource(text: string): string {
  let source = '';
  for (let at = 0; at < text.length; at++) {
    const letter = text[at]!;
    const next = text[at + 1];
    if (letter === '~' && (next === '*' || next === '?' || next === '~')) {
      source += next.replace(SPECIAL, '\\$&');
      at++;
    } else if (letter === '*') source += '[\\s\\S]*';
    else if (letter === '?') source += '[\\s\\S]';
    else source += letter.replace(SPECIAL, '\\$&');
  }
  return source;
}

/** Whether a text holds signs that stand for other text. */
export const hasWildcards = (text: string): boolean => /[*?~]/.test(text);

/** A pattern that finds `text` with its wildcards anywhere, capitals and small letters alike. */
export const wildcards = (text: string): RegExp => new RegExp(patternSource(text), 'iu');

/** Whether a whole text is like `wanted`, wildcards allowed. */
export function likeness(wanted: string): (text: string) => boolean {
  if (!hasWildcards(wanted)) {
    const folded = wanted.toLowerCase();
    return (text) => text.length === wanted.length && (text === wanted || text.toLowerCase() === folded);
  }
  const pattern = new RegExp(`^${patternSource(wanted)}$`, 'iu');
  return (text) => pattern.test(text);
}

type Sign = '=' | '<>' | '<' | '<=' | '>' | '>=';

const HOLDS: Readonly<Record<Sign, (order: number) => boolean>> = {
  '=': (order) => order === 0,
  '<>': (order) => order !== 0,
  '<': (order) => order < 0,
  '<=': (order) => order <= 0,
  '>': (order) => order > 0,
  '>=': (order) => order >= 0,
};

/** Serials from which on a number in a cell may be a day. */
const FIRST_DAY = 1;

const not =
  (criterion: Criterion): Criterion =>
  (value) =>
    !criterion(value);

function forNumber(sign: Sign, number: number, dateSystem: DateSystem): Criterion {
  // A number held as text is equal to the number, and unlike it too: so Excel counts.
  if (sign === '<>') return (value) => typeof value !== 'number' || compareNumbers(value, number) !== 0;
  const holds = HOLDS[sign];
  if (sign !== '=') return (value) => typeof value === 'number' && holds(compareNumbers(value, number));
  const isEqual: Criterion = (value) => {
    if (typeof value === 'number') return compareNumbers(value, number) === 0;
    if (typeof value !== 'string') return false;
    const read = readNumber(value, dateSystem);
    return typeof read === 'number' && compareNumbers(read, number) === 0;
  };
  return Object.assign(isEqual, { key: keyOfNumber(number) });
}

/** For a text that countries read as different numbers or days: texts are compared, numbers cannot be. */
function forTwoWays(sign: Sign, text: string): Criterion {
  const isLike = likeness(text);
  const meets: Criterion = (value) => {
    if (typeof value === 'number' && value >= FIRST_DAY)
      throw new Lacking(`the country's way of writing numbers and days, to read “${text}”`);
    const isSame = typeof value === 'string' && isLike(value);
    return sign === '=' ? isSame : sign === '<>' && !isSame;
  };
  return Object.assign(meets, { mayThrow: true as const });
}

function forText(sign: Sign, text: string): Criterion {
  if (sign === '<>') return not(forText('=', text));
  if (sign === '=') {
    const isLike = likeness(text);
    const isText: Criterion = (value) => typeof value === 'string' && isLike(value);
    return hasWildcards(text) ? isText : Object.assign(isText, { key: keyOfText(text) });
  }
  const holds = HOLDS[sign];
  return (value) => typeof value === 'string' && holds(compareTexts(value, text));
}

const forBoolean = (sign: Sign, wanted: boolean): Criterion => {
  const holds = HOLDS[sign];
  if (sign === '<>') return (value) => value !== wanted;
  return (value) => typeof value === 'boolean' && holds(Number(value) - Number(wanted));
};

const ERROR = /^#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|SPILL!|CALC!|BUSY!)$/i;

const forError = (sign: Sign, code: string): Criterion => {
  const wanted = code.toUpperCase();
  const isSame: Criterion = (value) => isError(value) && value.code === wanted;
  return sign === '<>' ? not(isSame) : sign === '=' ? isSame : () => false;
};

/** What a condition asks: `"<>oak"`, `">=10"`, `"b*"`, `5`, a blank cell (which asks for 0). */
export function criterionOf(condition: Scalar, dateSystem: DateSystem): Criterion {
  if (condition === null) return forNumber('=', 0, dateSystem);
  if (typeof condition === 'number') return forNumber('=', condition, dateSystem);
  if (typeof condition === 'boolean') return forBoolean('=', condition);
  if (isError(condition)) return forError('=', condition.code);
  const [, sign, text] = /^(<>|<=|>=|=|<|>)?([\s\S]*)$/.exec(condition) as unknown as [
    string,
    Sign | undefined,
    string,
  ];
  if (text === '') {
    if (sign === undefined) return (value) => value === null || value === '';
    if (sign === '=') return (value) => value === null;
    return sign === '<>' ? (value) => value !== null : () => false;
  }
  return written(sign ?? '=', text, dateSystem);
}

function written(sign: Sign, text: string, dateSystem: DateSystem): Criterion {
  const number = readNumber(text, dateSystem);
  if (typeof number === 'number') return forNumber(sign, number, dateSystem);
  if (number !== undefined) {
    if (sign === '=' || sign === '<>') return forTwoWays(sign, text);
    throw new Lacking(`the country's way of writing numbers and days, to read “${text}”`);
  }
  if (/^(true|false)$/i.test(text)) return forBoolean(sign, text.toLowerCase() === 'true');
  return ERROR.test(text) ? forError(sign, text) : forText(sign, text);
}
