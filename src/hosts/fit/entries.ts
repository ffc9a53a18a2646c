import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';

// Cells that say how much of what: `3 tawny`, `2 kg blue + 1 kg grey`.

/** How the entries of some cells are written. */
export interface EntryForm {
  /** What parts two entries. */
  readonly signs: readonly string[];
  /** Units between figures and words. */
  readonly units: readonly string[];
  /** Whether the words come first and are one: `B12 4.2 kg`. */
  readonly isWordFirst?: boolean;
}

/** Which entry of a cell is meant, from 0, and which part of it. */
export interface EntryPart extends EntryForm {
  readonly which: number;
  readonly part: 'figure' | 'words';
}

interface Entry {
  readonly figure: string;
  readonly words: string;
}

/** A comma alone may begin decimals. */
const SIGNS = ['\n', ', ', ';', '+', '&', ' and '];
const UNITS = ['kg', 'kgs', 'g', 'lb', 'lbs', 'oz'];
const FIGURE = new RegExp(`^\\d+(?:[.,]\\d+)?\\s*(?:${UNITS.join('|')})?$`, 'i');

/** A cell as figures and words, whatever they are. */
function entriesOf(cell: Cell, { signs, units, isWordFirst }: EntryForm): Entry[] {
  if (isBlank(cell) || isCellError(cell)) return [];
  const pieces = signs.reduce((rest, sign) => rest.replaceAll(sign, '|'), textOf(cell)).split('|');
  return pieces.map((written) => {
    const piece = (isWordFirst ? written.replaceAll(':', ' ') : written).trim().replace(/ +/g, ' ');
    const at = `${piece} `.indexOf(' ');
    const rest = piece.slice(at + 1);
    if (isWordFirst) return { figure: rest, words: piece.slice(0, at) };
    const unit = units.find((one) => rest.toLowerCase().startsWith(`${one} `));
    const words = unit === undefined ? rest : rest.slice(unit.length + 1);
    return { figure: piece.slice(0, piece.length - words.length).trim(), words };
  });
}

/** How many entries a cell has; 0 where any of it says anything else. */
export function countEntries(cell: Cell, isKnown: (words: string) => boolean): number {
  const entries = typeof cell === 'string' ? entriesOf(cell, { signs: SIGNS, units: UNITS }) : [];
  return entries.every(({ figure, words }) => FIGURE.test(figure) && isKnown(words)) ? entries.length : 0;
}

/** How many picks a cell has, each a lot and its mass; 0 where any of it says anything else. */
export function countPicks(cell: Cell, isKnown: (label: string) => boolean): number {
  const form = { signs: SIGNS, units: [], isWordFirst: true };
  const entries = typeof cell === 'string' ? entriesOf(cell, form) : [];
  return entries.every(({ figure, words }) => FIGURE.test(figure) && isKnown(words)) ? entries.length : 0;
}

/** The form of picks that cells hold. */
export const formOfPicks = (cells: readonly Cell[]): EntryForm => ({
  ...formOf(cells),
  units: [],
  isWordFirst: true,
});

/** The signs and units that cells use. */
export function formOf(cells: readonly Cell[]): EntryForm {
  const texts = cells.filter((cell) => typeof cell === 'string').map((text) => text.toLowerCase());
  return {
    signs: SIGNS.filter((sign) => texts.some((text) => text.includes(sign))),
    units: UNITS.filter((unit) => texts.some((text) => text.includes(` ${unit} `))),
  };
}

export function entryPart(cell: Cell, { which, part, ...form }: EntryPart): Cell {
  const entry = entriesOf(cell, form)[which];
  return entry === undefined || entry[part] === '' ? null : entry[part];
}

/** Longer than any entry. */
const WIDTH = 80;

/** The same as a formula says it: nothing where a cell has no such entry. */
export function entryText(cells: string, { which, part, signs, units, isWordFirst }: EntryPart): string {
  const texts = signs.map((sign) => (sign === '\n' ? 'CHAR(10)' : `"${sign}"`));
  const own = isWordFirst ? `SUBSTITUTE(${cells},":"," ")` : cells;
  const parted = texts.reduce((rest, sign) => `SUBSTITUTE(${rest},${sign},"|")`, own);
  const spread = `SUBSTITUTE(${parted},"|",REPT(" ",${WIDTH}))`;
  const piece =
    signs.length === 0 && which === 0 ? `TRIM(${own})` : `TRIM(MID(${spread},${which * WIDTH + 1},${WIDTH}))`;
  const rest = `MID(${piece},FIND(" ",${piece}&" ")+1,${WIDTH})`;
  if (isWordFirst) return part === 'words' ? `LEFT(${piece},FIND(" ",${piece}&" ")-1)` : rest;
  const words = units.reduceRight(
    (otherwise, unit) =>
      `IF(LEFT(LOWER(${rest}),${unit.length + 1})="${unit} ",MID(${rest},${unit.length + 2},${WIDTH}),${otherwise})`,
    rest,
  );
  return part === 'words' ? words : `TRIM(LEFT(${piece},LEN(${piece})-LEN(${words})))`;
}
