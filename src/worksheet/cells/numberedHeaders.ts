import type { TableColumn } from './columns';
import { BRACKETS, FILLERS } from './headerWords';

// Headers with a number: `flush 2`, `2nd flush %`, `F2`.

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** Words beside the number of a numbered header that say nothing else of its column. */
const BESIDE_NUMBERS = new Set([
  'st',
  'nd',
  'rd',
  'th',
  'share',
  'percent',
  'pct',
  'percentage',
  'split',
  ...FILLERS,
]);

/**
 * The number that a header gives a column of a numbered family: 2 of `Flush 2`, `2nd flush %`, `Flush #2` and `F2`. Undefined
 * where the header has a word of its own besides, or does not name the family and need not be of it.
 */
function numberIn(header: string, names: ReadonlySet<string>, isBare: boolean): number | undefined {
  const words =
    header
      .replace(BRACKETS, '')
      .toLowerCase()
      .match(/\d+|\p{L}+/gu) ?? [];
  const ordinal = (word: string): number => ORDINALS.indexOf(word) + 1;
  const [number, second] = words.flatMap((word) =>
    /^[1-9]\d?$/.test(word) ? Number(word) : ordinal(word) || [],
  );
  const rest = words.filter((word) => !/^\d+$/.test(word) && !ordinal(word) && !BESIDE_NUMBERS.has(word));
  const isNamed = rest.length === 1 && names.has(rest[0]!);
  // A bare figure names nothing; `1st` and `first` do where they count.
  const isOrdinal =
    isBare && rest.length === 0 && words.some((word) => ordinal(word) || /^(st|nd|rd|th)$/.test(word));
  return second === undefined && (isNamed || isOrdinal) ? number : undefined;
}

/**
 * The columns of a numbered family among headers, of which a column may have several: those that name the family, or else bare
 * ordinals that count from the first on.
 */
export function numberedHeaders(
  headers: readonly (readonly string[])[],
  property: string,
  { alsoCalled }: TableColumn<unknown>,
): readonly (readonly [at: number, number: number])[] {
  const names = new Set([property, ...alsoCalled]);
  const found = (isBare: boolean): (readonly [number, number])[] =>
    headers
      .flatMap((own, at) => {
        const number = own.map((header) => numberIn(header, names, isBare)).find((one) => one !== undefined);
        return number === undefined ? [] : [[at, number] as const];
      })
      .sort(([, a], [, b]) => a - b);
  const named = found(false);
  if (named.length > 0) return named;
  const counting = found(true);
  return counting.length > 1 && counting.every(([, number], i) => number === i + 1) ? counting : [];
}
