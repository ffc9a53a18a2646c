import type { BuiltIn } from '../builtIn';
import { toText } from '../coercion';
import { CALC, NOT_AVAILABLE, VALUE, type Matrix, type Scalar, type Value } from '../values';
import { define, type Given } from './define';

// TEXTBEFORE, TEXTAFTER, TEXTSPLIT. Definitions: the vendor's reference.

interface Found {
  readonly at: number;
  readonly length: number;
}

/** Every place where one of the separators is, the longer first where two begin together. */
function placesOf(text: string, separators: readonly string[], ignoresCase: boolean): Found[] {
  const fold = (one: string): string => (ignoresCase ? one.toLowerCase() : one);
  const within = fold(text);
  const sought = separators.map(fold).sort((a, b) => b.length - a.length);
  const places: Found[] = [];
  for (let at = 0; at < within.length;) {
    const found = sought.find((one) => one !== '' && within.startsWith(one, at));
    if (found === undefined) at++;
    else {
      places.push({ at, length: found.length });
      at += found.length;
    }
  }
  return places;
}

const beside =
  (side: 'before' | 'after') =>
  (given: Given): Value => {
    const text = given.text(0);
    const separators = given.list(1).map(toText);
    const which = given.has(2) ? Math.floor(given.number(2)) : 1;
    const ignoresCase = given.whole(3) === 1;
    const endCounts = given.whole(4) === 1;
    if (which === 0 || Math.abs(which) > text.length + 1)
      return which === 0 || text !== '' ? VALUE : NOT_AVAILABLE;
    const places = placesOf(text, separators, ignoresCase);
    if (separators.includes('')) {
      const whole = side === 'before' ? '' : text;
      return which > 0 ? whole : side === 'before' ? text : '';
    }
    if (endCounts) {
      if (which > 0) places.push({ at: text.length, length: 0 });
      else places.unshift({ at: 0, length: 0 });
    }
    const found = which > 0 ? places[which - 1] : places[places.length + which];
    if (!found) return given.has(5) ? given.scalar(5) : NOT_AVAILABLE;
    return side === 'before' ? text.slice(0, found.at) : text.slice(found.at + found.length);
  };

function cut(text: string, separators: readonly string[], ignoresCase: boolean, skips: boolean): string[] {
  const pieces: string[] = [];
  let from = 0;
  for (const { at, length } of placesOf(text, separators, ignoresCase)) {
    pieces.push(text.slice(from, at));
    from = at + length;
  }
  pieces.push(text.slice(from));
  return skips ? pieces.filter((piece) => piece !== '') : pieces;
}

const split = (given: Given): Matrix | Scalar => {
  const text = given.text(0);
  const columns = given.has(1) ? given.list(1).map(toText) : [];
  const rows = given.has(2) ? given.list(2).map(toText) : [];
  if (columns.length + rows.length === 0 || [...columns, ...rows].includes('')) return VALUE;
  const skips = given.has(3) && given.boolean(3);
  const ignoresCase = given.whole(4) === 1;
  const padding = given.has(5) ? given.scalar(5) : NOT_AVAILABLE;
  const lines = (rows.length ? cut(text, rows, ignoresCase, skips) : [text]).map((line) =>
    columns.length ? cut(line, columns, ignoresCase, skips) : [line],
  );
  const width = Math.max(0, ...lines.map((line) => line.length));
  if (lines.length === 0 || width === 0) return CALC;
  return lines.map((line) => Array.from({ length: width }, (_, at): Scalar => line[at] ?? padding));
};

export const textParts: readonly BuiltIn[] = [
  define('TEXTBEFORE', [2, 6], 'value block value value value block', beside('before')),
  define('TEXTAFTER', [2, 6], 'value block value value value block', beside('after')),
  define('TEXTSPLIT', [2, 6], 'value block block value value block', split),
];
