import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import type { Joined } from './fitted';
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
  /** How many of each lot, by its name in small letters. */
  readonly ofLots: ReadonlyMap<string, number>;
  readonly rows: number;
  /** Labels that are read as those of the lots, and cells that say of no lot how many. */
  readonly joined: readonly Joined[];
  readonly unread: readonly UnreadCell[];
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

/** The same as a formula says it. Spaces around a label do not count. */
export const takenElsewhereFormula = (
  candidate: Candidate,
  taken: readonly TakenElsewhere[],
  cells: (at: number) => string,
): string =>
  taken
    .map(({ lots, blocks }) => `-SUMIFS(${blocks},${lots},TRIM(${cells(columnOf(candidate, 'lot')!)}))`)
    .join('');
