import type { BlankEffect, BlankPlace } from '../cells/blanks';

// What the guide says of blanks and zeros, made from the declarations.

const EFFECTS: Record<BlankEffect, string> = {
  refused: 'an error that names it',
  zero: 'counts as 0',
  nothing: 'as if it were not there',
  default: 'as if left out',
  blankRow: 'the row reads blank',
  noRow: 'the row does not count; with anything beside it, an error',
  noCell: 'the cell does not count',
};

/** The rules behind the table, a sentence or two each. */
export const BLANK_RULES = [
  'Excel hands a blank cell over as 0, so a blank and a 0 do the same.',
  'A figure that the answer needs is never assumed: a blank or a 0 in it gives an error that names the argument and the row.',
  'Where 0 is an answer, a word says it: none for a crop that failed, free for a price of nothing, 0.01 for 0 degrees.',
  'An argument that may be left out has its usual value where it is left out, a setting also where its cell is blank. A blank in a column that you give is not the usual value, nor is one blank cell given for the column.',
  'A table may lack a column marked “may be left out”. A row that has figures but no key is told, never dropped.',
] as const;

/** What a blank or a 0 does in a place: `an error that names it`. */
export const blankWords = ({ effect, means }: BlankPlace): string =>
  effect === 'nothing' ? (means ?? EFFECTS.nothing) : EFFECTS[effect];

/** What to write for a true 0: `none`; undefined where the place has no 0. */
export const zeroWords = ({ zero, kind }: BlankPlace): string | undefined =>
  zero !== undefined && kind.word === 'temperature' ? `${zero} for 0 degrees` : zero;

/** A place by its name: an argument, or a column as its header is written. */
export function placeName({ argument, column, role }: BlankPlace): string {
  if (column === undefined) return argument;
  return role === 'numbered'
    ? `${column} 1, ${column} 2, …`
    : role === 'others'
      ? 'any other columns'
      : column;
}
