import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { unaccented } from './otherLanguages';

// Blocks of a lot that were thrown away, counted beside those that were made: neither ready nor picked.

/** The column that counts them, and the one that they are taken off. */
export interface Lost {
  readonly column: number;
  readonly header: string;
  readonly blocks: number;
}

const LOST =
  /\b(?:contam\w*|lost|losses|binned|duds?|bad|dead|thrown (?:out|away)|chucked|tossed|scrapped|composted|trashed|died|dumped|discarded|cull(?:s|ed)?|spoil(?:ed|t)|mou?ld(?:y|ed)?|failed|rejects?|rejected|wasted?|trich|verworfen|verdorben|kontaminiert|entsorgt|perdus?|contamines?|jetes?|perdid[oa]s|contaminad[oa]s|descartad[oa]s|verloren|besmet|weggegooid|pers[ie]|contaminat[ie]|scartat[ie]|zepsute|skazone|wyrzucone|kasseret)\b/i;
/** What is no count of them, or what has them off already. */
const OTHER = /[%?]|\b(?:date|day|when|why|reason|cause|notes?|type|rate|pct|percent)\b/i;
const NET = /\b(?:good|net|healthy|ok|usable|clean|left)\b/i;

/** Lots without the blocks that a column counts as lost; a lot of which all are lost is no record. */
export function lessLost(candidate: Candidate): Candidate {
  const { table, headers, matches, sheet, dataRows, left, takenOff } = candidate;
  const blocks = matches.find(({ wanted }) => wanted === 'blocks');
  if (table.name !== 'lots' || !blocks || left !== undefined || takenOff || NET.test(blocks.header))
    return candidate;
  const found = [...headers].filter(([column, header]) => {
    if (matches.some((one) => one.column === column)) return false;
    if (!LOST.test(unaccented(header)) || OTHER.test(header)) return false;
    const pairs = dataRows.map(
      (row) => [cellAt(sheet, row, column), cellAt(sheet, row, blocks.column)] as const,
    );
    const isCount = ([lost, made]: readonly [Cell, Cell]): boolean =>
      isBlank(lost) ||
      (typeof lost === 'number' &&
        typeof made === 'number' &&
        Number.isInteger(lost) &&
        lost >= 0 &&
        lost <= made);
    return pairs.every(isCount) && pairs.some(([lost]) => !isBlank(lost));
  });
  const [only, more] = found;
  if (!only || more) return candidate;
  const lost: Lost = { column: only[0], header: only[1], blocks: blocks.column };
  const records = dataRows.filter(
    (row) => lostAt(candidate, lost, row) !== cellAt(sheet, row, blocks.column),
  );
  const usedUp = (candidate.usedUp ?? 0) + dataRows.length - records.length;
  return { ...candidate, lost, dataRows: records, usedUp };
}

/** The blocks that are lost of the lot of a row. */
export const lostAt = ({ sheet }: Candidate, { column }: Lost, row: number): number =>
  Number(cellAt(sheet, row, column) ?? 0);

/** The same as a formula says it, to follow the blocks that were made. */
export const lostFormula = ({ column }: Lost, cells: (at: number) => string): string =>
  `-IF(${cells(column)}="",0,${cells(column)})`;
