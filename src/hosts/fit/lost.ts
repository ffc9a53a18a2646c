import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { unaccented } from './otherLanguages';

// Blocks of a lot that were thrown away, counted beside those that were made: neither ready nor picked.

/** The columns that count them, and the one that they are taken off. */
export interface Lost {
  readonly columns: readonly number[];
  /** Their headers, together. */
  readonly header: string;
  readonly blocks: number;
}

const LOST =
  /\b(?:contam\w*|lost|loss|losses|bad|duds?|binned|dead|died|killed|dumped|tossed|toss|thrown|chucked|trashed|scrapped|composted|ruined|discard(?:s|ed)?|cull(?:s|ed)?|spoil(?:ed|t)|mou?ld(?:y|ed)?|failed|rejects?|rejected|wasted?|tric?h|verworfen|verdorben|kontaminiert|entsorgt|perdus?|contamines?|jetes?|perdid[oa]s|contaminad[oa]s|descartad[oa]s|verloren|besmet|weggegooid|pers[ie]|contaminat[ie]|scartat[ie]|zepsute|skazone|wyrzucone|kass|kasseret)\b/i;
/** What is no count of them, or what has them off already. */
const OTHER = /[%?]|\b(?:date|day|when|why|reason|cause|notes?|type|rate|pct|percent)\b/i;
const NET = /\b(?:good|net|healthy|ok|usable|clean|left)\b/i;

/** Lots without the blocks that columns count as lost; a lot of which all are lost is no record. */
export function lessLost(candidate: Candidate): Candidate {
  const { table, headers, matches, sheet, dataRows, left, takenOff } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks')?.column;
  if (table.name !== 'lots' || blocks === undefined || left !== undefined || takenOff) return candidate;
  if (NET.test(plainWords(headers.get(blocks) ?? ''))) return candidate;
  const columns = lostColumns(candidate, blocks);
  if (columns.length === 0) return candidate;
  const header = columns.map((column) => headers.get(column)!).join(' and ');
  const lost: Lost = { columns, header, blocks };
  const records = dataRows.filter((row) => lostAt(candidate, lost, row) !== cellAt(sheet, row, blocks));
  const usedUp = (candidate.usedUp ?? 0) + dataRows.length - records.length;
  return { ...candidate, lost, dataRows: records, usedUp };
}

const plainWords = (header: string): string => unaccented(header).replaceAll('_', ' ');

/** The columns that count lost blocks, which together are never more than those of another column. */
export function lostColumns(candidate: Candidate, blocks: number): number[] {
  const { headers, matches, sheet, dataRows } = candidate;
  const isCount = (cell: Cell): boolean =>
    isBlank(cell) || (typeof cell === 'number' && Number.isInteger(cell) && cell >= 0);
  const columns = [...headers].flatMap(([column, header]) => {
    const words = plainWords(header);
    const isOfLost = LOST.test(words) && !OTHER.test(words);
    if (!isOfLost || matches.some((one) => one.column === column)) return [];
    const cells = dataRows.map((row) => cellAt(sheet, row, column));
    return cells.every(isCount) && cells.some((cell) => !isBlank(cell)) ? [column] : [];
  });
  const isOfMade = (row: number): boolean => {
    const made = cellAt(sheet, row, blocks);
    const lost = lostAt(candidate, { columns }, row);
    return lost === 0 || (typeof made === 'number' && lost <= made);
  };
  return dataRows.every(isOfMade) ? columns : [];
}

/** The blocks that are lost of the lot of a row. */
export const lostAt = ({ sheet }: Candidate, { columns }: Pick<Lost, 'columns'>, row: number): number =>
  columns.reduce((sum, column) => sum + Number(cellAt(sheet, row, column) ?? 0), 0);

/** The same as a formula says it, to follow the blocks that were made. */
export const lostFormula = ({ columns }: Lost, cells: (at: number) => string): string =>
  columns.map((column) => `-IF(${cells(column)}="",0,${cells(column)})`).join('');
