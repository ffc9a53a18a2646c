import type { Cell } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import type { Area } from '../xlsx/address';
import type { Reads } from '../xlsx/describe';
import { sheetText, textOf } from './book';
import type { Candidate } from './candidate';
import { readRanges } from './columns';
import type { FirstLoads } from './joinedColumns';
import type { OnShelves } from './onShelves';
import { ROWS } from './readPlaces';
import type { Referred } from './referred';
import { columnOf, type TakenElsewhere } from './takenElsewhere';
import { DASHES } from './values';

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
  /** Where the loads that stand are; undefined where none is said to. */
  readonly loads: LoadsPlace | undefined;
}

/** The names of lots as their own sheets list them. */
const listsOf = (candidate: Candidate) =>
  readRanges(candidate, true).map(({ first, last, column }) => {
    const names = column(columnOf(candidate, 'lot')!);
    return { names, text: (): string => `=IF(${names}="","",${names})`, rows: last - first + 1 };
  });

/** Columns from `left` on, each of parts one below the other. */
function columnsFrom(left: number, own: (area: Area) => string) {
  const formulas: LoadsFormula[] = [];
  const cells = (at: number, row: number, rows: number): string =>
    own({ top: row - 1, bottom: row + rows - 2, left: left + at, right: left + at });
  /** Puts the parts of a column; gives the whole of it. */
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
  return { formulas, cells, put };
}

/** The first load of each lot of an audit, by sheets that list their loads. */
function firstLoadsRead(
  candidate: Candidate,
  left: number,
  own: (area: Area) => string,
): LoadsRead | undefined {
  const [at, joined] = [...(candidate.joined ?? [])].find(([, one]) => one.loads) ?? [];
  if (at === undefined || !joined?.loads) return undefined;
  const { formulas, cells, put } = columnsFrom(left, own);
  const [list] = listsOf(candidate);
  type Part = (one: FirstLoads, row: number) => string;
  const putEach = (to: number, header: string, reads: Reads, text: Part): string => {
    const parts = joined.loads!.map((one) => ({ text: (row: number) => text(one, row), rows: one.height }));
    return put(to, header, reads, parts);
  };
  const keys = putEach(
    0,
    'lot',
    'text',
    ({ lots }) => `=IFERROR(TRIM(${PREFIX}MATCHLABELS(${lots},${list!.names})),"")`,
  );
  const values = putEach(1, 'loaded', 'date', ({ days, order, height }, row) => {
    const isNone = `(${cells(0, row, height)}="")+(${days}="")`;
    return `=IF(${isNone},"",IFERROR(${PREFIX}TODATES(${days},"${order}"),""))`;
  });
  const places = putEach(2, 'cell', 'text', ({ sheet, letter, days, height }, row) => {
    const place = `${sheetText(sheet)}!${letter}`.replaceAll('"', '""');
    return `=IF(${cells(1, row, height)}="","","${place}"&ROW(${days}))`;
  });
  const read = new Map([...candidate.joined!, [at, { ...joined, keys, values, places }]]);
  return {
    title: `days on which lots were loaded, from ${joined.from}`,
    formulas,
    width: 3,
    candidate: { ...candidate, joined: read },
    loads: undefined,
  };
}

/** Whether a cell of what is cleared says nothing. */
const isOpenText = (cell: string): string =>
  `(${cell}="")+ISNUMBER(MATCH(LOWER(TRIM(${cell})),{${DASHES.map((dash) => `"${dash}"`).join(',')}},0))>0`;

/**
 * What other sheets take off lots, read in columns from `left` on; undefined where none does.
 *
 * @param rooms the rooms’ names as a formula says them; undefined where no plan reads them
 */
export function loadsRead(
  candidate: Candidate,
  left: number,
  own: (area: Area) => string,
  rooms: string | undefined,
): LoadsRead | undefined {
  const { takenElsewhere: taken = [] } = candidate;
  if (taken.length === 0) return firstLoadsRead(candidate, left, own);
  const { formulas, cells, put } = columnsFrom(left, own);
  const ofLots = listsOf(candidate);
  // Lots on several sheets have no list of all.
  const isOne = ofLots.length === 1;
  const list = isOne ? ofLots[0]!.names : put(2, 'all lots', 'text', ofLots);
  type Part = (one: TakenElsewhere, row: number) => string;
  const putEach = (at: number, header: string, reads: Reads, text: Part): string =>
    put(
      at,
      header,
      reads,
      taken.map((one) => ({ text: (row) => text(one, row), rows: one.height })),
    );
  const besides = isOne ? 2 : 3;
  const [dayAt, roomAt, standsAt] = [besides, besides + 1, besides + 2];
  const isStanding = taken.some(({ standing }) => typeof standing === 'object');
  const lots = putEach(
    0,
    'lot',
    'text',
    ({ lots: labels }) => `=IFERROR(TRIM(${PREFIX}MATCHLABELS(${labels},${list})),"")`,
  );
  const blocks = putEach(1, 'blocks', 'count', ({ blocks: counts, height }, row) => {
    const stands = isStanding ? `+(${cells(dayAt, row, height)}<>"")` : '';
    return `=IF((${cells(0, row, height)}="")${stands},"",${counts})`;
  });
  if (isStanding) {
    putEach(dayAt, 'loaded', 'date', ({ standing, blocks: counts, height }, row) => {
      const lot = cells(0, row, height);
      if (typeof standing !== 'object') return `=IF(${lot}="","","")`;
      const { day, room, cleared, way } = standing;
      const isIn = typeof way.room === 'string' ? [] : [`(${roomText(room, rooms!)}<>"")`];
      const tests = [`(${lot}<>"")`, `ISNUMBER(${counts})`, `(${isOpenText(cleared)})`, ...isIn];
      const read = `IFERROR(${PREFIX}TODATES(${day},"${way.order}"),"")`;
      return `=IF(${tests.join('*')},${read},"")`;
    });
    putEach(roomAt, 'room', 'text', ({ standing, height }, row) => {
      const loaded = cells(dayAt, row, height);
      if (typeof standing !== 'object') return `=IF(${loaded}="","","")`;
      const { room, way } = standing;
      return `=IF(${loaded}="","",${typeof way.room === 'string' ? room : roomText(room, rooms!)})`;
    });
  }
  const onShelves = isStanding
    ? putEach(
        standsAt,
        'on shelves',
        'count',
        ({ blocks: counts, height }, row) => `=IF(${cells(dayAt, row, height)}="","",${counts})`,
      )
    : undefined;
  const height = taken.reduce((sum, one) => sum + one.height, 0);
  const whole = (at: number): string => cells(at, ROWS.first, height);
  // The names of all sheets are kept in what is said of the blocks.
  const sheet = taken.map((one) => one.sheet).join(' / ');
  return {
    title: `blocks taken off the lots, from ${sheet}`,
    formulas,
    width: besides + (isStanding ? 3 : 0),
    candidate: { ...candidate, takenElsewhere: [{ ...taken[0]!, sheet, lots, blocks, onShelves }] },
    loads: isStanding
      ? { height, loaded: whole(dayAt), room: whole(roomAt), blocks: whole(standsAt), lot: lots }
      : undefined,
  };
}

const roomText = (room: string, rooms: string): string =>
  `IF(${room}="","",IFERROR(${PREFIX}MATCHLABELS(${room},${rooms}),""))`;

/** Where the loads that stand are on the sheet of readings. */
export type LoadsPlace = Readonly<Record<'loaded' | 'room' | 'blocks' | 'lot', string>> & {
  readonly height: number;
};

const STANDING = ['loaded', 'room', 'blocks', 'lot'] as const;

/** Loads that stand in rooms, of the lots that are read: formulas over them, and what they give. */
export function loadsInRooms(taken: readonly TakenElsewhere[], place: LoadsPlace, lots: Referred): OnShelves {
  const isNone = `(${place.loaded}="")+(COUNTIF(${lots.column('lot')},${place.lot})=0)`;
  const [all = [], ...records] = lots.grid;
  const at = all.indexOf('lot');
  const known = new Set(
    records.map((record) =>
      textOf(record[at] ?? null)
        .trim()
        .toLowerCase(),
    ),
  );
  const grid = taken.flatMap(({ standing, height }) =>
    Array.from({ length: height }, (_, row): readonly Cell[] => {
      const load = typeof standing === 'object' ? standing.loads.get(row) : undefined;
      const isOf = load !== undefined && known.has(load.lot.trim().toLowerCase());
      return STANDING.map((header) => (isOf ? load[header] : null));
    }),
  );
  return {
    title: `blocks on the shelves, from ${taken.map(({ sheet }) => sheet).join(' / ')}`,
    rows: place.height,
    columns: STANDING.map((header) => ({
      header,
      reads: header === 'loaded' ? 'date' : header === 'blocks' ? 'count' : 'text',
      text: `=IF(${isNone},"",${place[header]})`,
    })),
    grid: [STANDING, ...grid],
  };
}
