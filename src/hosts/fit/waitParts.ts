import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import { cellAt } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import { unaccented } from './otherLanguages';
import { pieceOf, piecesOf, pieceText, signsIn, type Piece } from './pieces';
import type { OfRange } from './conversion';
import { isOfWeeks } from './units';
import { DASHES, isDash } from './values';
import { isRange } from './wordsInCells';

// Strains whose wait is written in parts: so many days to colonise, so many to brown, so many to ripen. Blocks may be opened
// once all are over, and are then at their best.

/** A part of the wait: a column, or one of the figures in its cells. */
export interface WaitPart {
  readonly column: number;
  readonly header: string;
  readonly unit: 'days' | 'weeks';
  readonly piece?: Piece;
}

/** The parts of the wait, in their order, by what a header says of each. */
const STAGES = [
  /\b(?:spawn|run|col|kol|inc|coloni\w*|koloni\w*|incub\w*|inkub\w*|myc\w*|dark|grow(?:s|ing|n)?[ -](?:through|in|out)|durchwachs\w*|doorgroei\w*)\b/,
  /\b(?:brown\w*|brn|brun|popcorn\w*|bump\w*|consolidat\w*|braun\w*|bruin\w*|brunissement|pardeamiento|imbrunimento|brazowieni\w*)\b/,
  /\b(?:ripen\w*|rip|mod|matur\w*|condition\w*|harden\w*|reif\w*|rijp\w*|madur\w*|dojrzewani\w*|modning)\b/,
];
const REST = /\brest(?:ing)?\b/;
/** Beside a part of the wait: what comes after it. */
const NEXT = /^(?:and )?then\b/;
/** What is no part of it: what is counted, measured or done besides. */
export const OTHER =
  /[%°#]|\b(?:temp\w*|humid\w*|rh|co2|light|lux|date|min|max|minimum|maximum|earliest|latest|total|flush\w*|between|rate|where|room|notes?)\b/;

const stageOf = (words: string): number => STAGES.findIndex((stage) => stage.test(words));

/** The part of the wait in which the mycelium grows through a block, and the parts after it. */
export const isOfSpawnRun = (header: string): boolean => stageOf(plain(header)) === 0;
export const isOfRest = (header: string): boolean => REST.test(plain(header)) && !OTHER.test(plain(header));
export const isOfRipening = (header: string): boolean =>
  piecesOf(plain(header), signsIn([header])).some((words) => stageOf(words) > 0);

export const plain = (header: string): string => unaccented(header).toLowerCase().replaceAll('_', ' ');

/** The figures and texts of days that a column may hold; a blank or a dash is a part that a strain has not. */
const FIGURE = /^\d+(?:[.,]\d+)?(?:\s*(?:[-–]|to|bis|à|a)\s*\d+(?:[.,]\d+)?)?\s*[\p{L}.]*$/u;

/** The parts of the wait among the headers of strains, where each stands once and there are two or more. */
export function waitPartsIn(
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): WaitPart[] {
  const parts: (WaitPart & { stage: number })[] = [];
  for (const [column, header] of headers) {
    const words = plain(header);
    if (OTHER.test(words)) continue;
    const cells = cellsIn(column).filter((cell) => !isBlank(cell) && !isDash(cell));
    const unit = isOfWeeks(header) ? 'weeks' : 'days';
    const signs = signsIn([header]);
    const names = piecesOf(words, signs);
    const ofNames = names.map(stageOf);
    const isShared = cells.some(
      (cell) => typeof cell === 'string' && piecesOf(cell, signsOf(cells)).length > 1,
    );
    if (isShared && names.length > 1 && new Set(ofNames.filter((stage) => stage >= 0)).size >= 2) {
      const isPacked = cells.every(
        (cell) => typeof cell === 'number' || isPackedText(cell, signsOf(cells), names.length),
      );
      if (cells.length === 0 || !isPacked) return [];
      const its = signsOf(cells);
      for (const at of names.keys())
        parts.push({ column, header, unit, piece: { at, signs: its }, stage: at });
      continue;
    }
    const previous = parts.at(-1);
    const isRest = (REST.test(words) || NEXT.test(words)) && previous?.column === column - 1;
    const stage = isRest ? STAGES.length : stageOf(words);
    const areFigures = cells.every(
      (cell) => typeof cell === 'number' || (typeof cell === 'string' && FIGURE.test(cell.trim())),
    );
    if (stage < 0 || cells.length === 0) continue;
    if (!areFigures) return [];
    parts.push({ column, header, unit, stage });
  }
  const isOnce = new Set(parts.map(({ stage }) => stage)).size === parts.length;
  return parts.length >= 2 && isOnce ? parts.map(({ stage: _, ...part }) => part) : [];
}

const signsOf = (cells: readonly Cell[]): string[] =>
  signsIn(cells.filter((cell) => typeof cell === 'string'));

const isPackedText = (cell: Cell, signs: readonly string[], most: number): boolean => {
  const pieces = typeof cell === 'string' ? piecesOf(cell, signs) : [];
  return pieces.length <= most && pieces.every((piece) => isDash(piece) || FIGURE.test(piece));
};

const OF_PICKING = /^(?:first pick|pick days|flushes|flush \d+|efficiency)$/;

/** Strains that say the wait in parts alone: its sum is the earliest and the best day. */
export function withWaitParts(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): ColumnMatch[] {
  const isOpen = (name: string): boolean =>
    table.columns.some((one) => one.name === name) && !matches.some(({ wanted }) => wanted === name);
  if (table.name !== 'strains' || !isOpen('earliest') || !isOpen('best')) return matches;
  const parts = waitPartsIn(headers, cellsIn);
  const [first] = parts;
  // Where nothing is said of flushes, a rest is none between them.
  const isOfParts = ({ wanted, column }: ColumnMatch): boolean =>
    wanted === 'flush gap' && parts.some((part) => part.column === column);
  const own = matches.some(({ wanted }) => OF_PICKING.test(wanted))
    ? matches
    : matches.filter((match) => !isOfParts(match));
  // What may as well be something else is asked about.
  if (!first || parts.some(({ column }) => own.some((match) => match.column === column))) return matches;
  const sum = { column: first.column, header: first.header, by: 'the parts of its wait' as const };
  return inOrder(table, [...own, { wanted: 'earliest', ...sum }, { wanted: 'best', ...sum }]);
}

export const HELD = /\b(?:held|hold|holds|holding|haltbar|lagerfahig)\b/;

const KEPT =
  /\b(?:keeps?|kept|stays? (?:ok|good|ready|fine)|(?:ok(?:ay)?|good|fine|usable|ready) (?:for|within)|(?:use|open|fruit) within|window|halt|gardent?|se conserva|aguanta\w*)\b/;
/** What is counted from another day, or of what is picked. */
const NOT_KEPT =
  /\b(?:until|till?|bis|age|inoc\w*|spawn\w*|fridge|cold|cooler|chilled|packed|fresh|picked|picks?|fruits|harvest\w*|mushrooms?|shelf|shop|store|stored)\b/;

/** Whether a header says how long a block keeps once it is ready, if it is said of blocks at all. */
export function isOfKeeping(header: string): boolean {
  const words = plain(header);
  return (HELD.test(words) || KEPT.test(words)) && !OTHER.test(words) && !NOT_KEPT.test(words);
}

export const partOf = (headers: ReadonlyMap<number, string>, column: number): WaitPart => ({
  column,
  header: headers.get(column)!,
  unit: isOfWeeks(headers.get(column)!) ? 'weeks' : 'days',
});

/** `Colonise + Brown + Rest` */
export const partWords = (parts: readonly WaitPart[]): string =>
  [...new Set(parts.map(({ header }) => header))].join(' + ');

/** What a strain has of each part, as it is written. */
export const partsWritten = (parts: readonly WaitPart[], writtenAt: (column: number) => string): string =>
  [...new Set(parts.map(({ column }) => column))]
    .map(writtenAt)
    .filter((text) => text !== '' && !isDash(text))
    .join(' + ');

/** The parts that a match adds up. */
export function partsOfWait(
  candidate: Candidate,
  { by, parts, wanted, column }: ColumnMatch,
): WaitPart[] | undefined {
  const { headers, sheet, dataRows, table, matches } = candidate;
  const cellsIn = (at: number): Cell[] => dataRows.map((row) => cellAt(sheet, row, at));
  const ownPart = (at: number): WaitPart => partOf(headers, at);
  if (parts) return parts.map(ownPart);
  if (table.name === 'strains' && wanted === 'latest') {
    const best = matches.find((match) => match.wanted === 'best');
    const wait = best && (partsOfWait(candidate, best) ?? [ownPart(best.column)]);
    const isLast = (isSo: (own: number, whole: number) => boolean): boolean =>
      wait !== undefined && isEach(candidate, ownPart(column), wait, isSo);
    // Counted from inoculation it would be before a block is ready; where all are longer than the wait, it may be so.
    const isHeld =
      by === 'the parts of its wait' ||
      isLast((own, whole) => own < whole) ||
      (isOfKeeping(headers.get(column)!) && !isLast((own, whole) => own > whole));
    return wait && isHeld ? [...wait, ownPart(column)] : undefined;
  }
  if (by === 'the parts of its wait') return waitPartsIn(headers, cellsIn);
  const most = table.name === 'strains' && WAITS.has(wanted) ? plusIn(cellsIn(column)) : 0;
  const header = headers.get(column)!;
  const unit = isOfWeeks(header) ? ('weeks' as const) : ('days' as const);
  return most < 2
    ? undefined
    : Array.from({ length: most }, (_, at) => ({ column, header, unit, piece: { at, signs: [PLUS] } }));
}

/** The longest that a cell says, in days; NaN where it says nothing. */
export function daysIn(cell: Cell, unit: WaitPart['unit']): number {
  const [, figure, word = ''] =
    [...String(isCellError(cell) ? '' : (cell ?? '')).matchAll(/(\d+(?:[.,]\d+)?)\s*(\p{L}*)/gu)].at(-1) ??
    [];
  const inWeeks = word === '' ? unit === 'weeks' : word.toLowerCase().startsWith('w');
  return Number(figure?.replace(',', '.') ?? Number.NaN) * (inWeeks ? 7 : 1);
}

/** How long a strain's wait is, in days. */
export const daysOfWait = (wait: readonly WaitPart[], cellIn: (column: number) => Cell): number =>
  wait.reduce((sum, { column, unit, piece }) => {
    const own = piece ? pieceOf(cellIn(column), piece) : cellIn(column);
    return sum + (isNone(own) ? 0 : daysIn(own, unit));
  }, 0);

/** Whether the last day of every strain is so beside its wait, where both are known. */
function isEach(
  { sheet, dataRows }: Candidate,
  last: WaitPart,
  wait: readonly WaitPart[],
  isSo: (own: number, whole: number) => boolean,
): boolean {
  const pairs = dataRows.map((row) => {
    const cellIn = (column: number): Cell => cellAt(sheet, row, column);
    return [daysIn(cellIn(last.column), last.unit), daysOfWait(wait, cellIn)] as const;
  });
  const known = pairs.filter(([own, whole]) => own > 0 && whole > 0);
  return known.length > 0 && known.every(([own, whole]) => isSo(own, whole));
}

const WAITS = new Set(['earliest', 'best']);
const PLUS = '+';

/** How many figures the cells of a column add up at most, `32 + 6`, where they hold nothing else; 0 where none does. */
export function plusIn(cells: readonly Cell[]): number {
  const filled = cells.filter((cell) => !isBlank(cell) && !isDash(cell));
  const areSums = filled.every(
    (cell) =>
      typeof cell === 'number' ||
      (typeof cell === 'string' && piecesOf(cell, [PLUS]).every((piece) => FIGURE.test(piece))),
  );
  const most = Math.max(
    0,
    ...filled.map((cell) => (typeof cell === 'string' ? piecesOf(cell, [PLUS]).length : 1)),
  );
  return areSums && most >= 2 ? most : 0;
}

/** Whether any part is written as a range: `45-50`. */
export const areRanges = ({ sheet, dataRows }: Candidate, parts: readonly WaitPart[]): boolean =>
  parts.some(({ column, piece }) =>
    dataRows.some((row) => {
      const cell = cellAt(sheet, row, column);
      const own = piece ? pieceOf(cell, piece) : cell;
      return typeof own === 'string' && isRange(own);
    }),
  );

/** A part that a strain does not have: a blank, a dash, a 0. */
const isNone = (cell: Cell): boolean => isBlank(cell) || isDash(cell) || cell === 0 || cell === '0';

/** The wait of a strain. */
export function sumOfWait(
  { sheet }: Candidate,
  parts: readonly WaitPart[],
  row: number,
  figures: (cells: readonly Cell[], unit: WaitPart['unit'], ofRange?: OfRange) => readonly Cell[],
  ofRange: OfRange | undefined,
): Cell {
  let sum: number | null = null;
  for (const { column, unit, piece, header } of parts) {
    const cell = cellAt(sheet, row, column);
    const own = piece ? pieceOf(cell, piece) : cell;
    if (isNone(own)) continue;
    const [days = null] = figures([own], unit, ofRange);
    if (isCellError(days)) return days;
    if (typeof days !== 'number') return cellError('#N/A', `has no figure under ${header}`);
    sum = (sum ?? 0) + days * (unit === 'weeks' ? 7 : 1);
  }
  return sum;
}

/** The same as a formula says it. */
export function waitText(
  parts: readonly WaitPart[],
  ofRange: OfRange | undefined,
  cellsOf: (column: number) => string,
): string {
  const end = ofRange === undefined ? '' : `,,"${ofRange}"`;
  const dashes = `{${[...DASHES, '0'].map((dash) => `"${dash}"`).join(',')}}`;
  return parts
    .map(({ column, unit, piece }) => {
      const cells = piece ? pieceText(cellsOf(column), piece) : cellsOf(column);
      const isNone = `(${cells}="")+(${cells}=0)+ISNUMBER(MATCH(TRIM(${cells}),${dashes},0))`;
      return `IF(${isNone},0,${PREFIX}TONUMBERS(${cells},"${unit}"${end})${unit === 'weeks' ? '*7' : ''})`;
    })
    .join('+');
}
