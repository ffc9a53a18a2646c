import { PREFIX } from '../../worksheet/constants';
import type { Area } from '../xlsx/address';
import type { Reads } from '../xlsx/describe';
import type { Candidate } from './candidate';
import { readRanges } from './columns';
import { ROWS } from './readPlaces';
import { columnOf } from './takenElsewhere';

// What other sheets take off the lots, on the sheet of readings: their labels are put in the spelling of the lots’ own list,
// those of one sheet below the other.

/** A formula of a column, from 0, in a row of the sheet of readings, from 1; a header where it is the first of its column. */
interface LoadsFormula {
  readonly at: number;
  readonly row: number;
  readonly header: string | undefined;
  readonly text: string;
  readonly reads: Reads;
  readonly rows: number;
}

interface LoadsRead {
  readonly title: string;
  readonly formulas: readonly LoadsFormula[];
  readonly width: number;
  /** The lots, which refer to these columns. */
  readonly candidate: Candidate;
}

/** What other sheets take off lots, read in columns from `left` on; undefined where none does. */
export function loadsRead(
  candidate: Candidate,
  left: number,
  own: (area: Area) => string,
): LoadsRead | undefined {
  const { takenElsewhere: taken = [] } = candidate;
  if (taken.length === 0) return undefined;
  const formulas: LoadsFormula[] = [];
  const cells = (at: number, row: number, rows: number): string =>
    own({ top: row - 1, bottom: row + rows - 2, left: left + at, right: left + at });
  /** Puts the parts of a column one below the other; gives the whole of it. */
  const put = (
    at: number,
    header: string,
    reads: Reads,
    parts: readonly { readonly text: (row: number) => string; readonly rows: number }[],
  ): string => {
    let row: number = ROWS.first;
    for (const { text, rows } of parts) {
      const first = row === ROWS.first ? header : undefined;
      formulas.push({ at, row, header: first, text: text(row), reads, rows });
      row += rows;
    }
    return cells(at, ROWS.first, row - ROWS.first);
  };
  const ofLots = readRanges(candidate, true).map(({ first, last, column }) => {
    const names = column(columnOf(candidate, 'lot')!);
    return { names, text: (): string => `=IF(${names}="","",${names})`, rows: last - first + 1 };
  });
  // Lots on several sheets have no list of all.
  const isOne = ofLots.length === 1;
  const list = isOne ? ofLots[0]!.names : put(2, 'all lots', 'text', ofLots);
  const lots = put(
    0,
    'lot',
    'text',
    taken.map(({ lots: labels, height: rows }) => ({
      text: () => `=IFERROR(TRIM(${PREFIX}MATCHLABELS(${labels},${list})),"")`,
      rows,
    })),
  );
  const blocks = put(
    1,
    'blocks',
    'count',
    taken.map(({ blocks: counts, height: rows }) => ({
      text: (row) => `=IF(${cells(0, row, rows)}="","",${counts})`,
      rows,
    })),
  );
  return {
    title: `blocks taken off the lots, from ${taken.map(({ sheet }) => sheet).join(' / ')}`,
    formulas,
    width: isOne ? 2 : 3,
    candidate: { ...candidate, takenElsewhere: [{ ...taken[0]!, lots, blocks }] },
  };
}
