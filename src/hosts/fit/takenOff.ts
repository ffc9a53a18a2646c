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
  /** Rows of the log, from 0. */
  readonly rows: readonly number[];
}

/** Words of rows that name a lot of a log and a number of its blocks, with how many rows have each. */
export interface TakenWords {
  readonly header: string;
  readonly words: ReadonlyMap<string, number>;
}

const lotOf = ({ sheet }: Candidate, row: number, lot: number): string =>
  textOf(cellAt(sheet, row, lot))
    .trim()
    .toLowerCase();

/** What rows of a log take off the lots that are left; undefined where it is no log of such. */
function found(whole: Candidate, candidate: Candidate): TakenOff | undefined {
  const log = (candidate.counted ?? []).find((one: CountedRows) => one.without === undefined);
  const columnOf = (name: string): number | undefined =>
    candidate.matches.find(({ wanted }) => wanted === name)?.column;
  const [lot, blocks] = [columnOf('lot'), columnOf('blocks')];
  const isOfWhatIsLeft = candidate.table.columns.some((one) => one.isOfWhatIsLeft);
  if (!log || lot === undefined || blocks === undefined || candidate.parts || !isOfWhatIsLeft)
    return undefined;
  const lots = new Set(candidate.dataRows.map((row) => lotOf(candidate, row, lot)));
  const rows = whole.dataRows.filter(
    (row) =>
      !candidate.dataRows.includes(row) &&
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
  const takenOff = { ...all, words };
  const asked = said ? undefined : { header: all.header, words: rowWordsAt(whole, all.rows, all.kind) };
  if (words.length === 0) return [candidate, asked];
  const own = { ...candidate, takenOff };
  const dataRows = candidate.dataRows.filter((row) => {
    const made = cellAt(candidate.sheet, row, all.blocks);
    return typeof made !== 'number' || made !== takenFrom(own, takenOff, row);
  });
  const usedUp = (candidate.usedUp ?? 0) + candidate.dataRows.length - dataRows.length;
  return [{ ...own, dataRows, usedUp }, asked];
}

/** The blocks that are taken off the lot of a row. */
export function takenFrom(
  candidate: Candidate,
  { kind, lot, blocks, words, rows }: TakenOff,
  row: number,
): number {
  const own = lotOf(candidate, row, lot);
  return rows.reduce((sum, at) => {
    const word = textOf(cellAt(candidate.sheet, at, kind));
    const isOwn = lotOf(candidate, at, lot) === own && words.some((one) => isOfWord(one, word));
    return isOwn ? sum + (cellAt(candidate.sheet, at, blocks) as number) : sum;
  }, 0);
}

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
