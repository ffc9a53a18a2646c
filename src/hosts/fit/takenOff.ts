import type { Answers } from './answers';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { isOfWord, rowWordsAt, type CountedRows } from './whichRows';

// A log of what was done says in rows of their own how many blocks of a lot were opened or thrown away: what is left of a
// lot is what was made less those.

/** Blocks that other rows of a log take off their lot. */
export interface TakenOff {
  /** The column that says what each row is. */
  readonly kind: number;
  readonly header: string;
  readonly lot: number;
  readonly blocks: number;
  /** Words of the rows that take blocks off. */
  readonly words: readonly string[];
  /** How many of each lot, by its name in small letters. */
  readonly ofLots: ReadonlyMap<string, number>;
}

/** Rows of a log, from 0, that may take blocks off. */
type Found = Omit<TakenOff, 'ofLots'> & { readonly rows: readonly number[] };

/** Words of rows that name a lot of a log and a number of its blocks, with how many rows have each. */
export interface TakenWords {
  readonly header: string;
  readonly words: ReadonlyMap<string, number>;
  /** Whether they are sheets, and not words of rows. */
  readonly isElsewhere?: boolean;
}

const lotOf = ({ sheet }: Candidate, row: number, lot: number): string =>
  textOf(cellAt(sheet, row, lot))
    .trim()
    .toLowerCase();

/** What rows of a log take off the lots that are left; undefined where it is no log of such. */
function found(whole: Candidate, candidate: Candidate): Found | undefined {
  const log = (candidate.counted ?? []).find((one: CountedRows) => one.without === undefined);
  const columnOf = (name: string): number | undefined =>
    candidate.matches.find(({ wanted }) => wanted === name)?.column;
  const [lot, blocks] = [columnOf('lot'), columnOf('blocks')];
  const isOfWhatIsLeft = candidate.table.columns.some((one) => one.isOfWhatIsLeft);
  if (!log || lot === undefined || blocks === undefined || candidate.parts || !isOfWhatIsLeft)
    return undefined;
  const lots = new Set(candidate.dataRows.map((row) => lotOf(candidate, row, lot)));
  const records = new Set(candidate.dataRows);
  const rows = whole.dataRows.filter(
    (row) =>
      !records.has(row) &&
      lots.has(lotOf(whole, row, lot)) &&
      typeof cellAt(whole.sheet, row, blocks) === 'number',
  );
  const words = [...rowWordsAt(whole, rows, log.column).keys()];
  return words.length === 0 ? undefined : { kind: log.column, header: log.header, lot, blocks, words, rows };
}

/** Lots of a log with what other rows take off them, without those of which nothing is left; and what is asked of it. */
export function lessTakenOff(
  whole: Candidate,
  candidate: Candidate,
  answers: Answers,
): readonly [Candidate, TakenWords | undefined] {
  const all = found(whole, candidate);
  if (!all) return [candidate, undefined];
  const said = answers.taken?.[candidate.table.name];
  const words = said ? all.words.filter((word) => said.some((one) => isOfWord(one, word))) : all.words;
  const { rows, ...log } = all;
  const takenOff = { ...log, words, ofLots: ofLots(whole, all, words) };
  const asked = said ? undefined : { header: all.header, words: rowWordsAt(whole, rows, all.kind) };
  if (words.length === 0) return [candidate, asked];
  const own = { ...candidate, takenOff };
  const dataRows = candidate.dataRows.filter((row) => {
    const made = cellAt(candidate.sheet, row, all.blocks);
    return typeof made !== 'number' || made !== takenFrom(own, takenOff, row);
  });
  const usedUp = (candidate.usedUp ?? 0) + candidate.dataRows.length - dataRows.length;
  return [{ ...own, dataRows, usedUp }, asked];
}

function ofLots(whole: Candidate, { kind, lot, blocks, rows }: Found, words: readonly string[]) {
  const taken = new Map<string, number>();
  for (const row of rows) {
    const word = textOf(cellAt(whole.sheet, row, kind));
    if (!words.some((one) => isOfWord(one, word))) continue;
    const own = lotOf(whole, row, lot);
    taken.set(own, (taken.get(own) ?? 0) + (cellAt(whole.sheet, row, blocks) as number));
  }
  return taken;
}

/** The blocks that are taken off the lot of a row. */
export const takenFrom = (candidate: Candidate, { lot, ofLots }: TakenOff, row: number): number =>
  ofLots.get(lotOf(candidate, row, lot)) ?? 0;

/** The same as a formula says it, to follow the blocks that were made. */
export const takenFormula = (
  { kind, lot, blocks, words }: TakenOff,
  column: (at: number) => string,
): string =>
  words
    .map(
      (word) =>
        `-SUMIFS(${column(blocks)},${column(lot)},${column(lot)},${column(kind)},"${word.replaceAll('"', '""').replace(/[~*?]/g, '~$&')}")`,
    )
    .join('');
