import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { Answers, LostMeaning } from './answers';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { doubtfulLosses } from './doubtfulLosses';
import { unaccented } from './otherLanguages';
import type { TableFit } from './fitted';
import type { Question } from './question';
import { DASHES, isDash } from './values';

// Blocks of a lot that were thrown away, counted beside those that were made: neither ready nor picked.

/** The columns that count them, and the one that they are taken off. */
export interface Lost {
  readonly columns: readonly number[];
  /** Their headers, together. */
  readonly header: string;
  readonly blocks: number;
}

const LOST =
  /\b(?:contam\w*|lost|loss|losses|bad|duds?|binned|dead|died|killed|dumped|tossed|toss|thrown|chucked|trashed|scrapped|compost(?:ed)?|ruined|discard(?:s|ed)?|cull(?:s|ed)?|spoil(?:ed|t)|mou?ld(?:y|ed)?|failed|rejects?|rejected|wasted?|tric?h|broken|damaged|torn|verworfen|ausschuss|schwund|verlust\w*|pertes?|perdidas?|mermas?|bajas|verlies|uitval|perdite|scarti|perdas?|straty|svind|verdorben|kontaminiert|entsorgt|perdus?|contamines?|jetes?|perdid[oa]s|contaminad[oa]s|descartad[oa]s|verloren|besmet|weggegooid|pers[ie]|contaminat[ie]|scartat[ie]|zepsute|skazone|wyrzucone|kass|kasseret)\b/i;
/** What is no count of them, or what has them off already. */
const OTHER = /[%?]|\b(?:date|day|when|why|reason|cause|notes?|type|rate|pct|percent)\b/i;
const NET = /\b(?:good|net|healthy|ok|usable|clean|left)\b/i;

/** Whether blocks under a header are gone, as the grower said. */
const saidOf = (answers: Answers, header: string): LostMeaning | undefined =>
  answers.lost?.['lots']?.[header] ?? undefined;

type LostQuestion = Question & { readonly kind: 'lost' };

/** Lots without the blocks that columns count as lost; a lot of which all are lost is no record. And what is asked of it. */
export function lessLost(candidate: Candidate, answers: Answers): readonly [Candidate, LostQuestion[]] {
  const { table, headers, matches, sheet, dataRows, left, takenOff } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks')?.column;
  if (table.name !== 'lots' || blocks === undefined || left !== undefined || takenOff) return [candidate, []];
  const said = [...headers].filter(([, header]) => saidOf(answers, header) !== undefined);
  const gone = said.filter(([, header]) => saidOf(answers, header) === 'gone').map(([column]) => column);
  const isNet = NET.test(plainWords(headers.get(blocks) ?? ''));
  const known = isNet ? [] : lostColumns(candidate, blocks);
  const isSaid = (column: number): boolean => said.some(([own]) => own === column);
  const columns = [...headers.keys()].filter(
    (column) => gone.includes(column) || (known.includes(column) && !isSaid(column)),
  );
  const doubtful = isNet ? [] : [...namedLosses(candidate, blocks), ...doubtfulLosses(candidate, blocks)];
  const questions = [...new Set(doubtful)]
    .filter((column) => !isSaid(column) && !known.includes(column))
    .map((column) => ({ kind: 'lost' as const, table: table.name, header: headers.get(column)! }));
  if (columns.length === 0) return [candidate, questions];
  const header = columns.map((column) => headers.get(column)!).join(' and ');
  const lost: Lost = { columns, header, blocks };
  const records = dataRows.filter((row) => lostAt(candidate, lost, row) !== cellAt(sheet, row, blocks));
  const usedUp = (candidate.usedUp ?? 0) + dataRows.length - records.length;
  return [{ ...candidate, lost, dataRows: records, usedUp }, questions];
}

/** Whether a header is of blocks that were lost. */
export function isOfLosses(header: string): boolean {
  const words = plainWords(header);
  return LOST.test(words) && !OTHER.test(words);
}

const plainWords = (header: string): string => unaccented(header).replaceAll('_', ' ');

const ALL_WORDS = ['all', 'alle', 'tous', 'toutes', 'todos', 'todas', 'tutti', 'tutte', 'wszystkie'];
const COUNT = /^(\d+)(?:\s|$)/;

/** How many blocks a cell says are lost, of so many; NaN where it is something else. */
function countIn(cell: Cell, made: Cell): number {
  if (isBlank(cell) || isDash(cell)) return 0;
  if (typeof cell === 'number') return Number.isInteger(cell) && cell >= 0 ? cell : Number.NaN;
  const text = typeof cell === 'string' ? cell.trim() : '';
  if (ALL_WORDS.includes(text.toLowerCase())) return typeof made === 'number' ? made : 0;
  return Number(COUNT.exec(text)?.[1] ?? Number.NaN);
}

/** Of the cells that say anything, so many at least must be counts. */
const MOST = 0.5;

/** The columns that count lost blocks, as their headers say and most of their cells, or other columns of figures prove. */
function namedLosses(candidate: Candidate, blocks: number): number[] {
  const { headers, matches, sheet, dataRows, provenLost = [] } = candidate;
  return [...headers].flatMap(([column, header]) => {
    const isOfLost = provenLost.includes(column) || isOfLosses(header);
    if (!isOfLost || matches.some((one) => one.column === column)) return [];
    const said = dataRows.filter((row) => !isBlank(cellAt(sheet, row, column)));
    const counts = said.filter(
      (row) => !Number.isNaN(countIn(cellAt(sheet, row, column), cellAt(sheet, row, blocks))),
    );
    return counts.length > 0 && counts.length >= MOST * said.length ? [column] : [];
  });
}

/** The columns that count lost blocks, which together are seldom more than those that were made. */
export function lostColumns(candidate: Candidate, blocks: number): number[] {
  const { dataRows } = candidate;
  const columns = namedLosses(candidate, blocks);
  // More than were made is a slip in its own lot; where it is so in most, something else is counted.
  const losing = dataRows.filter((row) => lostAt(candidate, { columns, blocks }, row) > 0);
  const within = losing.filter((row) => !isTooMany(candidate, { columns, blocks }, row));
  return within.length >= MOST * losing.length ? columns : [];
}

/** Whether more blocks of the lot of a row are lost than were made. */
function isTooMany(candidate: Candidate, lost: Pick<Lost, 'columns' | 'blocks'>, row: number): boolean {
  const made = cellAt(candidate.sheet, row, lost.blocks);
  return typeof made === 'number' && lostAt(candidate, lost, row) > made;
}

/** The blocks that are lost of the lot of a row; NaN where its cell says something else. */
export const lostAt = (
  { sheet }: Candidate,
  { columns, blocks }: Pick<Lost, 'columns' | 'blocks'>,
  row: number,
): number =>
  columns.reduce((sum, column) => sum + countIn(cellAt(sheet, row, column), cellAt(sheet, row, blocks)), 0);

/** The same as a formula says it, to follow the blocks that were made. */
export const lostFormula = ({ columns, blocks }: Lost, cells: (at: number) => string): string =>
  columns
    .map((column) => {
      const cell = cells(column);
      const isNone = `ISNUMBER(MATCH(LOWER(TRIM(${cell})),{${DASHES.map((dash) => `"${dash}"`).join(',')}},0))`;
      const first = `VALUE(LEFT(TRIM(${cell}),FIND(" ",TRIM(${cell})&" ")-1))`;
      const isAll = `ISNUMBER(MATCH(LOWER(TRIM(${cell})),{${ALL_WORDS.map((word) => `"${word}"`).join(',')}},0))`;
      return `-IF(ISNUMBER(${cell}),${cell},IF(${cell}="",0,IF(${isNone},0,IF(${isAll},${cells(blocks)},${first}))))`;
    })
    .join('');

/** Columns that the grower said count something else, as the sheet of readings keeps it. */
export function notGoneWords({ candidate }: TableFit, answers: Answers): string {
  const not = [...candidate.headers.values()].filter((header) => saidOf(answers, header) === 'not gone');
  return candidate.table.name !== 'lots' || not.length === 0 ? '' : `, not gone: ${not.join(' / ')}`;
}
