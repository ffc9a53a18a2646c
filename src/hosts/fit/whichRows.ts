import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Answers } from './answers';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { goneIn, goneText, isGone, mayBeGone, OF_REMARKS, OF_STATE } from './goneWords';
import type { TableName } from './jobs';

// A column beside the records may say what each row is, or what became of it: a log has made, opened and picked in one
// column, a list of orders delivered and cancelled. Only the grower knows which rows count.

/** Rows that count, by the words that a column holds in them. */
export interface CountedRows {
  readonly column: number;
  readonly header: string;
  /** The words of the rows that count. */
  readonly words: readonly string[];
  /** The cells that say them and those of rows that are none, as they are written. */
  readonly cells?: { readonly counted: readonly string[]; readonly others: readonly string[] };
  /** Words of rows that are none: a row with a word that is new later counts. Undefined where only `words` count. */
  readonly without: readonly string[] | undefined;
  /** Whether a new word leaves its row out where it says that a lot is gone. */
  readonly isFollowed?: boolean;
  /** How many rows are left out. */
  readonly leftOut: number;
}

/** What a column says of rows: its words as they are written, with how many rows have each. */
export interface RowWords {
  readonly column: number;
  readonly header: string;
  readonly words: ReadonlyMap<string, number>;
  /** Words of the rows that count, as far as they say so themselves. */
  readonly proposed: readonly string[];
  /** Whether the sheet is a log, in which only rows of some kinds are records. */
  readonly isLog: boolean;
}

const [TICKED, NOT_TICKED, NO_WORD] = ['ticked', 'not ticked', 'blank'] as const;
/** Cells among words that hold none. */
const A_NUMBER = 'a number or day';
/** What stands for the words that say nothing of it, where there are many. */
const OTHERS = 'anything else';
const MOST_WORDS = 12;

/** What makes a row of a log a record. */
const RECORDS: Partial<Record<TableName, RegExp>> = {
  lots: /^(?:made|make|bagged|inoc|spawn|set up|started|produced|new lot|new bags|new blocks)/i,
  harvests: /^(?:pick|harvest|crop)/i,
};

function wordOf(cell: Cell, hasBoxes: boolean): string {
  if (typeof cell === 'boolean') return cell ? TICKED : NOT_TICKED;
  if (typeof cell === 'number') return A_NUMBER;
  if (isBlank(cell)) return hasBoxes ? NOT_TICKED : NO_WORD;
  return withoutDay(textOf(cell));
}

const DAY = /(?<![\d./-])\d{1,4}[./-]\d{1,2}(?:[./-]\d{2,4})?(?![\d./-])/g;

/** What a cell says beside a day: `Tent 1 2/1` is Tent 1. */
const withoutDay = (text: string): string =>
  text.replace(DAY, ' ').replace(/\s+/g, ' ').trim() || text.trim();

/**
 * The word of each row in a column; undefined where it holds anything but words and boxes to tick. Of lots a number may
 * stand among words of which one says that its lot is gone.
 */
function wordsIn(candidate: Candidate, rows: readonly number[], column: number): string[] | undefined {
  const { sheet, table } = candidate;
  const cells = rows.map((row) => cellAt(sheet, row, column));
  const isWord = (cell: Cell): boolean =>
    isBlank(cell) || typeof cell === 'string' || typeof cell === 'boolean';
  const hasBoxes = cells.some((cell) => typeof cell === 'boolean');
  const mayHaveNumbers = table.name === 'lots' && mayBeGone(candidate) && !cells.some(isCellError);
  const isGoneWord = (cell: Cell): boolean => typeof cell === 'string' && isGone(candidate, withoutDay(cell));
  if (!cells.every(isWord) && !(mayHaveNumbers && cells.some(isGoneWord))) return undefined;
  return cells.map((cell) => wordOf(cell, hasBoxes));
}

/** Words with how many rows have each: of lots that have many, those alone that say that a lot is gone. */
function groupedWords(candidate: Candidate, all: readonly string[]): ReadonlyMap<string, number> {
  const words = countsOf(all);
  const isOfLots = candidate.table.name === 'lots' && mayBeGone(candidate);
  const gone = isOfLots ? [...words].filter(([word]) => isGone(candidate, word)) : [];
  if (words.size <= MOST_WORDS || gone.length === 0 || gone.length >= MOST_WORDS) return words;
  const rows = gone.reduce((sum, [, own]) => sum + own, 0);
  return new Map([...gone, [OTHERS, all.length - rows]]);
}

const isSame = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Whether a cell holds a word, whatever its capitals and outer spaces. */
export const isOfWord = (word: string, held: string): boolean => isSame(word, held.trim());

/** The words of some rows, with how many have each. */
export const rowWordsAt = (
  candidate: Candidate,
  rows: readonly number[],
  column: number,
): Map<string, number> => countsOf(wordsIn(candidate, rows, column) ?? []);

/** Words of a column as they are first written, with how many rows have each. */
function countsOf(words: readonly string[]): Map<string, number> {
  const first = new Map<string, string>();
  const counts = new Map<string, number>();
  for (const word of words) {
    const key = word.toLowerCase();
    const own = first.get(key) ?? word;
    first.set(key, own);
    counts.set(own, (counts.get(own) ?? 0) + 1);
  }
  return counts;
}

/** The column that says first which rows count; undefined where all rows of each say the same, or nothing of it. */
export function rowWords(candidate: Candidate, besides: readonly number[] = []): RowWords | undefined {
  const { table, headers, matches, dataRows, lies, parts } = candidate;
  if (lies || parts?.some((part) => part.lies)) return undefined;
  const others = [...headers].filter(
    ([column]) =>
      !besides.includes(column) &&
      // Where a lot stands may be one word among others, `done` and `sold`.
      !matches.some(
        (match) => match.column === column && !(match.wanted === 'room' && match.by === 'its data'),
      ),
  );
  // Remarks say it where nothing else does.
  const inTurn = [
    ...others.filter(([, header]) => !OF_REMARKS.test(header)),
    ...others.filter(([, header]) => OF_REMARKS.test(header)),
  ];
  for (const [column, header] of inTurn) {
    const all = wordsIn(candidate, dataRows, column);
    const words = groupedWords(candidate, all ?? []);
    if (!all || words.size < 2 || words.size > MOST_WORDS) continue;
    const own = [...words.keys()];
    const records = own.filter((word) => RECORDS[table.name]?.test(word));
    if (records.length > 0 && records.length < own.length && isOfLog(candidate, all, records))
      return { column, header, words, proposed: records, isLog: true };
    // A remark on a room, `cold end`, says nothing of what it is for.
    if (table.name === 'rooms' && OF_REMARKS.test(header)) continue;
    const gone = goneIn(candidate, header, own);
    if (gone.length > 0 || (table.name === 'orders' && OF_STATE.test(header)))
      return {
        column,
        header,
        words,
        proposed: own.filter((word) => !gone.includes(word)),
        isLog: false,
      };
  }
  return undefined;
}

/** A log names its lots again and again, and most of what is done with them has no mass. */
function isOfLog(
  { table, sheet, dataRows, matches }: Candidate,
  words: readonly string[],
  records: readonly string[],
): boolean {
  const at = matches.find(({ wanted }) => wanted === (table.name === 'lots' ? 'lot' : 'mass'))?.column;
  if (at === undefined) return false;
  const isRecord = (i: number): boolean => records.some((word) => isSame(word, words[i]!));
  const held = dataRows.map((row) =>
    textOf(cellAt(sheet, row, at))
      .trim()
      .toLowerCase(),
  );
  if (table.name === 'harvests') return held.every((mass, i) => isRecord(i) || mass === '');
  const own = new Set(held.filter((lot, i) => isRecord(i) && lot !== ''));
  return held.some((lot, i) => !isRecord(i) && own.has(lot));
}

/** The rows of a candidate that count, by the words that were said or proposed. */
function countedRows(
  candidate: Candidate,
  { column, header, words, isLog }: RowWords,
  said: readonly string[],
): CountedRows {
  const isCounted = (word: string): boolean => said.some((one) => isSame(one, word));
  const own = [...words.keys()];
  const leftOut = [...words].reduce((sum, [word, rows]) => (isCounted(word) ? sum : sum + rows), 0);
  const isFollowed = !isLog && own.some((word) => mayBeGone(candidate) && isGone(candidate, word));
  return {
    column,
    header,
    words: own.filter(isCounted),
    without: isLog ? undefined : own.filter((word) => !isCounted(word)),
    leftOut,
    ...(candidate.table.name === 'lots' && isFollowed && { isFollowed }),
  };
}

/** A candidate with the rows that count, and the columns of which the grower has not said it: there the words propose it. */
export function counting(candidate: Candidate, answers: Answers): readonly [Candidate, RowWords[]] {
  const asked: RowWords[] = [];
  const seen: number[] = [];
  let own = candidate;
  for (let one = rowWords(own); one; one = rowWords(own, seen)) {
    seen.push(one.column);
    const { words } = one;
    const said = (answers.rows?.[own.table.name]?.[one.header] ?? []).filter((word) =>
      [...words.keys()].some((known) => isSame(known, word)),
    );
    // Where most words are not told one by one, those cannot be left out.
    const isAsked = said.length === 0 || (words.has(OTHERS) && !said.includes(OTHERS));
    if (isAsked) asked.push(one);
    // A new remark leaves nothing out by being new.
    const isNew = (word: string): boolean => OF_REMARKS.test(one.header) && one.proposed.includes(word);
    const counting = isAsked ? one.proposed : [...said, ...[...words.keys()].filter(isNew)];
    const counted = countedRows(own, one, counting);
    if (counted.words.length > 0) own = withCounted(own, counted);
  }
  // What was answered of a column that asks nothing of itself.
  for (const [header, said] of Object.entries(answers.rows?.[own.table.name] ?? {})) {
    const [column] = [...own.headers].find(([at, one]) => one === header && !seen.includes(at)) ?? [];
    const all = column === undefined ? undefined : wordsIn(own, own.dataRows, column);
    if (column === undefined || !all) continue;
    const counted = countedRows(
      own,
      { column, header, words: countsOf(all), proposed: [], isLog: false },
      said,
    );
    if (counted.words.length > 0) own = withCounted(own, counted);
  }
  const isOfLog = own.counted?.some(({ without }) => without === undefined) === true;
  return [isOfLog ? withoutBlankColumns(own) : own, asked];
}

/** Of a log, the columns that rows of another kind fill say nothing of these. */
function withoutBlankColumns(candidate: Candidate): Candidate {
  const { table, sheet, dataRows } = candidate;
  const matches = candidate.matches.filter(({ column }) =>
    dataRows.some((row) => !isBlank(cellAt(sheet, row, column))),
  );
  const missing = table.columns
    .filter(({ name, isNeeded }) => isNeeded && !matches.some(({ wanted }) => wanted === name))
    .map(({ name }) => name);
  return { ...candidate, matches, missing };
}

/** Whether a part of a book is a log, in which rows of one kind are the records of a table. */
export const isLogOf = (candidate: Candidate): boolean => rowWords(candidate)?.isLog === true;

/** A candidate with the rows that count alone. */
function withCounted(candidate: Candidate, counted: CountedRows): Candidate {
  const words = wordsIn(candidate, candidate.dataRows, counted.column)!;
  const isCounted = (word: string): boolean =>
    counted.without
      ? !counted.without.some((one) => isSame(one, word))
      : counted.words.some((one) => isSame(one, word));
  const written = candidate.dataRows.map((row) =>
    textOf(cellAt(candidate.sheet, row, counted.column)).trim(),
  );
  const textsOf = (wanted: boolean): string[] => [
    ...new Set(written.filter((text, i) => text !== '' && isCounted(words[i]!) === wanted)),
  ];
  const isWritten = words.every((word, i) => written[i] === '' || isSame(word, written[i]!));
  const cells = { counted: textsOf(true), others: textsOf(false) };
  const withCells = isWritten ? counted : { ...counted, cells };
  const of = (part: Candidate): Candidate => ({ ...part, counted: [...(part.counted ?? []), withCells] });
  return {
    ...of(candidate),
    dataRows: candidate.dataRows.filter((_, i) => isCounted(words[i]!)),
    ...(candidate.parts && { parts: candidate.parts.map(of) }),
  };
}

const listOf = (words: readonly string[]): string =>
  `{${words.map((word) => `"${word.replaceAll('"', '""').replace(/[~*?]/g, '~$&')}"`).join(',')}}`;

/** What holds of a row that counts, as a formula says it. */
export function countedTest(
  { words, without, cells: written, isFollowed }: CountedRows,
  cells: string,
): string {
  const among = (some: readonly string[]): string => {
    const said = some.filter(
      (word) => ![TICKED, NOT_TICKED, NO_WORD, OTHERS].includes(word as typeof TICKED),
    );
    const texts = written ? (some === without ? written.others : written.counted) : said;
    const tests = [
      ...(texts.length > 0 ? [`ISNUMBER(MATCH(TRIM(${cells}),${listOf(texts)},0))`] : []),
      ...(some.includes(NO_WORD) ? [`(${cells}="")`] : []),
      ...(some.includes(TICKED) ? [`(${cells}=TRUE)`] : []),
      ...(some.includes(NOT_TICKED) ? [`(${cells}<>TRUE)`] : []),
    ];
    return tests.length === 1 ? tests[0]! : `(${tests.join('+') || '0'}>0)`;
  };
  if (without === undefined) return among(words);
  const isKept = without.length === 0 ? '1' : `(1-${among(without)})`;
  if (!isFollowed) return isKept;
  const known = among(words);
  return `${isKept}*(1-${goneText(cells)}*(1-${known}))`;
}
