import { isBlank, isCellError } from '../../worksheet/cells/cell';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import type { Joined } from './fitted';
import type { StandingLoad, StandingWay } from './loadsStanding';
import type { Reader } from './readCells';
import type { UnreadCell } from './unreadCells';

// Another sheet may list how many blocks of each lot were loaded or thrown away: what is left of a lot is what was made
// less those.

/** Blocks that rows of another sheet take off the lots. */
export interface TakenElsewhere {
  /** The sheet’s name. */
  readonly sheet: string;
  /** Its lots and their blocks, as a formula says them; the lots in the spelling of their list once that is laid out. */
  readonly lots: string;
  readonly blocks: string;
  readonly height: number;
  /** Its blocks that stand in rooms, as a formula says them once they are laid out. */
  readonly onShelves?: string | undefined;
  /** How many of each lot that stand nowhere any more, by its name in small letters. */
  readonly ofLots: ReadonlyMap<string, number>;
  /** What of it stands in rooms: a plan takes that off its lots itself. In words why nothing does. */
  readonly standing: Standing | string | undefined;
  readonly rows: number;
  /** Labels that are read as those of the lots, and cells that say of no lot how many. */
  readonly joined: readonly Joined[];
  readonly unread: readonly UnreadCell[];
}

/** Blocks of a sheet of loads that stand in rooms. */
export interface Standing {
  readonly way: StandingWay;
  /** Its columns of days, rooms and what is cleared, as a formula says them; a room that the sheet is named after in quotes. */
  readonly day: string;
  readonly room: string;
  readonly cleared: string;
  /** How many of each lot, by its name in small letters. */
  readonly ofLots: ReadonlyMap<string, number>;
  /** The load in each row below the headers, where it stands. */
  readonly loads: ReadonlyMap<number, StandingLoad & { readonly lot: string; readonly blocks: number }>;
}

/** The name of a lot in small letters. */
export const nameAt = ({ sheet }: Pick<Candidate, 'sheet'>, row: number, column: number): string =>
  textOf(cellAt(sheet, row, column))
    .trim()
    .toLowerCase();

export const columnOf = ({ matches }: Candidate, name: string): number | undefined =>
  matches.find(({ wanted }) => wanted === name)?.column;

/** The blocks that other sheets take off the lot of a row. */
export function takenElsewhereAt(
  candidate: Candidate,
  taken: readonly TakenElsewhere[],
  row: number,
): number {
  const name = nameAt(candidate, row, columnOf(candidate, 'lot')!);
  return taken.reduce((sum, { ofLots }) => sum + (ofLots.get(name) ?? 0), 0);
}

/** The blocks of the lot of a row that stand in rooms. */
export const standingOfLot = (candidate: Candidate, row: number): number => {
  const name = nameAt(candidate, row, columnOf(candidate, 'lot')!);
  return (candidate.takenElsewhere ?? []).reduce(
    (sum, { standing }) => sum + (typeof standing === 'object' ? (standing.ofLots.get(name) ?? 0) : 0),
    0,
  );
};

/** The same as a formula says it. Spaces around a label do not count. */
export const takenElsewhereFormula = (
  candidate: Candidate,
  taken: readonly TakenElsewhere[],
  cells: (at: number) => string,
): string =>
  taken
    .map(({ lots, blocks }) => `-SUMIFS(${blocks},${lots},TRIM(${cells(columnOf(candidate, 'lot')!)}))`)
    .join('');

/** The names of lots as their list writes them, old ones and those that are used up among them. */
export function namesOfLots(candidate: Candidate, lot: number): string[] {
  const { sheet, area } = candidate;
  const rows = Array.from({ length: area.bottom - area.top }, (_, i) => area.top + 1 + i);
  return rows.map((row) => textOf(cellAt(sheet, row, lot)).trim()).filter((name) => name !== '');
}

/** Nearly all. */
const NEARLY = 0.8;

/** The lots of a sheet of loads: under their header, or in the only column that nearly all name lots in, as `Block no.` */
export function lotsOf(part: Candidate, names: readonly string[], reader: Reader): number | undefined {
  const { sheet, headers, dataRows, matches } = part;
  const named = columnOf(part, 'lot');
  if (named !== undefined) return named;
  const found = [...headers.keys()].filter((column) => {
    if (matches.some((match) => match.column === column)) return false;
    const labels = dataRows.map((row) => cellAt(sheet, row, column)).filter((cell) => !isBlank(cell));
    if (labels.length * 2 < dataRows.length) return false;
    return reader.labels(labels, names).filter((cell) => !isCellError(cell)).length >= NEARLY * labels.length;
  });
  return found.length === 1 ? found[0] : undefined;
}
