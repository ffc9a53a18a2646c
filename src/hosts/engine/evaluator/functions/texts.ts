import type { BuiltIn } from '../builtIn';
import { toText } from '../coercion';
import { Lacking } from '../lacking';
import { isError, VALUE, type Scalar, type Value } from '../values';
import { wildcards } from './criteria';
import { define, type Given } from './define';
import { eachValue } from './numbers';

// Parts of text, joining, searching. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference.

/** A cell holds no longer text. */
export const MOST_LETTERS = 32_767;

export const fitting = (text: string): Value => (text.length > MOST_LETTERS ? VALUE : text);

const count = (given: Given, at: number, otherwise: number): number => {
  const number = given.whole(at, otherwise);
  if (number < 0) throw VALUE;
  return number;
};

const left = (given: Given): Value => given.text(0).slice(0, count(given, 1, 1));

const right = (given: Given): Value => {
  const [text, letters] = [given.text(0), count(given, 1, 1)];
  return letters === 0 ? '' : text.slice(-letters);
};

const middle = (given: Given): Value => {
  const [text, from, letters] = [given.text(0), given.whole(1), count(given, 2, 0)];
  return from < 1 ? VALUE : text.slice(from - 1, from - 1 + letters);
};

/** Where one text is in another, from 1. @throws ErrorValue #VALUE! where it begins outside */
function startOf(given: Given): [sought: string, within: string, from: number] {
  const [sought, within, from] = [given.text(0), given.text(1), given.whole(2, 1)];
  if (from < 1 || from > within.length + 1) throw VALUE;
  return [sought, within, from - 1];
}

const find = (given: Given): Value => {
  const [sought, within, from] = startOf(given);
  const at = within.indexOf(sought, from);
  return at < 0 ? VALUE : at + 1;
};

const search = (given: Given): Value => {
  const [sought, within, from] = startOf(given);
  const at = within.slice(from).search(wildcards(sought));
  return at < 0 ? VALUE : at + from + 1;
};

const substitute = (given: Given): Value => {
  const [text, old, fresh] = [given.text(0), given.text(1), given.text(2)];
  if (given.count < 4) return old === '' ? text : fitting(text.replaceAll(old, () => fresh));
  const which = given.whole(3);
  if (which < 1) return VALUE;
  if (old === '') return text;
  let at = -1;
  for (let n = 0; n < which; n++) {
    at = text.indexOf(old, n === 0 ? 0 : at + old.length);
    if (at < 0) return text;
  }
  return fitting(text.slice(0, at) + fresh + text.slice(at + old.length));
};

const replace = (given: Given): Value => {
  const [text, from, letters, fresh] = [given.text(0), given.whole(1), count(given, 2, 0), given.text(3)];
  return from < 1 ? VALUE : fitting(text.slice(0, from - 1) + fresh + text.slice(from - 1 + letters));
};

const repeat = (given: Given): Value => {
  const [text, times] = [given.text(0), count(given, 1, 0)];
  return text.length * times > MOST_LETTERS ? VALUE : text.repeat(times);
};

const proper = (text: string): string =>
  text.toLowerCase().replace(/\p{L}+/gu, (word) => word.charAt(0).toUpperCase() + word.slice(1));

/** Letters of the character set that files of Windows use, from 128 to 159. */
const WINDOWS = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

const character = (given: Given): Value => {
  const code = given.whole(0);
  if (code < 1 || code > 255) return VALUE;
  return code >= 128 && code <= 159 ? WINDOWS.charAt(code - 128) : String.fromCharCode(code);
};

const codeOf = (given: Given): Value => {
  const text = given.text(0);
  if (text === '') return VALUE;
  const code = text.charCodeAt(0);
  if (code < 128 || (code >= 160 && code < 256)) return code;
  const windows = WINDOWS.indexOf(text.charAt(0));
  if (windows < 0) throw new Lacking('the character set of the computer, for CODE');
  return windows + 128;
};

const unicodeCharacter = (given: Given): Value => {
  const code = given.whole(0);
  const isNone = code < 1 || code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff);
  return isNone ? VALUE : String.fromCodePoint(code);
};

const UNPRINTED = /[\u0000-\u001f]/g;

/** All texts among arguments, row by row. */
function textsIn({ context, all }: Given, from: number): string[] {
  const texts: string[] = [];
  for (const one of all.slice(from)) {
    if (one === undefined) texts.push('');
    else for (const value of context.matrixOf(one).flat()) texts.push(toText(value));
  }
  return texts;
}

const joined = (given: Given): Value => {
  const between = given.list(0).map(toText);
  const skips = given.boolean(1, true);
  const texts = textsIn(given, 2).filter((text) => text !== '' || !skips);
  return fitting(
    texts.map((text, at) => (at === 0 ? text : between[(at - 1) % between.length]! + text)).join(''),
  );
};

const ofText = (name: string, make: (text: string) => Value): BuiltIn =>
  define(name, [1, 1], 'value', (given) => make(given.text(0)));

/** A value as a formula would write it. */
const written = (value: Scalar): string =>
  typeof value === 'string' ? `"${value.replaceAll('"', '""')}"` : plainly(value);
const plainly = (value: Scalar): string => (isError(value) ? value.code : toText(value));

const asText = (given: Given): Value => {
  const form = given.whole(1);
  if (form !== 0 && form !== 1) return VALUE;
  return (form === 1 ? written : plainly)(given.scalar(0));
};

const arrayAsText = (given: Given): Value => {
  const form = given.whole(1);
  const block = given.matrix(0);
  if (form === 0) return fitting(block.flat().map(plainly).join(', '));
  if (form !== 1) return VALUE;
  return fitting(`{${block.map((row) => row.map(written).join(',')).join(';')}}`);
};

export const texts: readonly BuiltIn[] = [
  define('LEFT', [1, 2], 'value', left),
  define('RIGHT', [1, 2], 'value', right),
  define('MID', [3, 3], 'value', middle),
  ofText('LEN', (text) => text.length),
  define('FIND', [2, 3], 'value', find),
  define('SEARCH', [2, 3], 'value', search),
  define('SUBSTITUTE', [3, 4], 'value', substitute),
  define('REPLACE', [4, 4], 'value', replace),
  define('REPT', [2, 2], 'value', repeat),
  define('EXACT', [2, 2], 'value', (given) => given.text(0) === given.text(1)),
  ofText('TRIM', (text) => text.replace(/^ +| +$/g, '').replace(/ {2,}/g, ' ')),
  ofText('UPPER', (text) => text.toUpperCase()),
  ofText('LOWER', (text) => text.toLowerCase()),
  ofText('PROPER', proper),
  ofText('CLEAN', (text) => text.replace(UNPRINTED, '')),
  define('CHAR', [1, 1], 'value', character),
  define('CODE', [1, 1], 'value', codeOf),
  define('UNICHAR', [1, 1], 'value', unicodeCharacter),
  ofText('UNICODE', (text) => text.codePointAt(0) ?? VALUE),
  define('CONCATENATE', [1, 255], 'value', (given) =>
    fitting(given.all.map((_, at) => given.text(at)).join('')),
  ),
  define('CONCAT', [1, 254], 'block', (given) => fitting(textsIn(given, 0).join(''))),
  define('TEXTJOIN', [3, 254], 'block value block', joined),
  define('VALUETOTEXT', [1, 2], 'value', asText, { takesErrors: true }),
  define('ARRAYTOTEXT', [1, 2], 'block value', arrayAsText),
  define(
    'T',
    [1, 1],
    'range',
    (given) => {
      const value = given.scalar(0);
      return isError(value) || typeof value === 'string' ? value : '';
    },
    { takesEachReference: true },
  ),
  define(
    'COUNTA',
    [1, Infinity],
    'range',
    ({ context, all }) => {
      let held = 0;
      eachValue(
        context,
        all,
        (value) => {
          if (value !== null) held++;
        },
        () => held++,
      );
      return held;
    },
    { takesErrors: true },
  ),
];
