import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, isFilled, textOf, type BookSheet, type GrowersBook } from './book';
import { overlap, type Candidate, type ColumnMatch, type MatchedBy } from './candidate';
import { headerRuns, isWordsOverFigures, shownNames, type HeaderRun } from './headerRuns';
import type { WantedTable } from './jobs';
import { withFlushYields } from './flushYields';
import { withHolding } from './holding';
import { isFor, looksIn } from './looks';
import { withJoined } from './joinedColumns';
import { chosen, namedPairs, withUnnamed } from './matching';
import { withoutNeighbour } from './neighbours';
import { withOneWait } from './oneWait';
import { onceFor } from './once';
import { isOurs } from './ours';
import { withPackedLots } from './packedLots';
import { hasPackedShelves, looksOfRooms, withPackedShelves } from './packedRooms';
import { withPackedShares } from './packedShares';
import { withPacksInWords } from './packsInWords';
import { rowsBelow, rowsUpTo, withoutDays } from './recordRows';
import { areWeekdays } from './standing';
import { asTurned, turned } from './turned';
import { isOfSpawnRun, withWaitParts } from './waitParts';
import { isLogOf } from './whichRows';

/** The parts of a book that could serve for a table, the likeliest first. */
export const candidates = (book: GrowersBook, table: WantedTable): readonly Candidate[] =>
  candidatesIn(book)(table);

const candidatesIn = onceFor((book: GrowersBook) =>
  onceFor((table: WantedTable) => {
    let parts: readonly Candidate[] | undefined;
    const partsOf = (): readonly Candidate[] => (parts ??= anyParts(book, table));
    const all = found(book, table).map((one) => withJoined(one, partsOf));
    return all.sort((a, b) => b.score - a.score);
  }),
);

function found(book: GrowersBook, table: WantedTable): Candidate[] {
  const all = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => headerRuns(sheet).flatMap((run) => candidateAt(book, sheet, run, table) ?? []));
  const onSide = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => turned(sheet) ?? [])
    .flatMap((view) =>
      headerRuns(view).flatMap((run) => candidateAt({ ...book, tables: [] }, view, run, table) ?? []),
    )
    .flatMap((one) => asTurned(one) ?? []);
  // Of two readings of the same cells the one that lacks less is taken, then the likelier.
  const kept: Candidate[] = [];
  for (const one of [...all, ...onSide].sort(
    (a, b) => a.missing.length - b.missing.length || b.score - a.score,
  )) {
    if (!kept.some((other) => overlap(one, other))) kept.push(one);
  }
  return kept.sort((a, b) => b.score - a.score);
}

/** Parts of a book that look like tables, whatever their headers: what a grower may name for one of the job. */
export function anyParts(book: GrowersBook, table: WantedTable): Candidate[] {
  const found = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) =>
      headerRuns(sheet)
        .filter(({ row, left, right }) => isWordsOverFigures(sheet, row, left, right))
        .flatMap((run) => candidateAt(book, sheet, run, table, true) ?? []),
    );
  const kept: Candidate[] = [];
  for (const one of found.sort(
    (a, b) => a.missing.length - b.missing.length || b.dataRows.length - a.dataRows.length,
  )) {
    if (!kept.some((other) => overlap(one, other))) kept.push(one);
  }
  return kept.sort((a, b) => b.score - a.score);
}

/** Whether a run goes on past a blank column beside a table of the workbook: what lies there is another table. */
const reachesOver = (book: GrowersBook, sheet: BookSheet, { row, left, right, names }: HeaderRun): boolean =>
  book.tables.some(
    ({ sheet: on, area }) =>
      on === sheet.name &&
      area.top === row &&
      area.left <= right &&
      area.right >= left &&
      ((right > area.right && !names.has(area.right + 1)) || (left < area.left && !names.has(area.left - 1))),
  );

/** Whether the row below goes on with the headers: words under some of them, and none under the first. */
function isUpperOfTwo(sheet: BookSheet, { row, left, right }: HeaderRun): boolean {
  // The last group may reach over more than the column that it stands in.
  let end = right;
  while (isFilled(sheet, row + 1, end) && isFilled(sheet, row + 1, end + 1)) end++;
  return !isFilled(sheet, row + 1, left) && isWordsOverFigures(sheet, row + 1, left, end);
}

function candidateAt(
  book: GrowersBook,
  sheet: BookSheet,
  run: HeaderRun,
  table: WantedTable,
  isSaid = false,
): Candidate | undefined {
  if (reachesOver(book, sheet, run) || isUpperOfTwo(sheet, run)) return undefined;
  const headers = shownNames(run.names);
  const whole = { ...table, columns: [...table.columns, ...table.known] };
  const named = namedPairs(run.names, whole);
  // One header alone may be any row's word, but of tables whose cells may say more than one thing.
  const ofJob = named.filter(({ wanted }) => table.columns.includes(wanted));
  const areEnough = new Set(ofJob.map(({ column }) => column)).size >= 2;
  const hasStages = table.name === 'strains' && [...headers.values()].some(isOfSpawnRun);
  const mayShareCells = hasStages || (table.name === 'rooms' && ofJob.length > 0);
  if (!isSaid && !areEnough && !mayShareCells) return undefined;
  const own = book.tables.find(
    (one) =>
      one.sheet === sheet.name &&
      one.area.top === run.row &&
      one.area.left <= run.left &&
      one.area.right >= run.right,
  );
  const found = rowsBelow(sheet, run, headers);
  // A table ends where the workbook says, whatever is written below it; but no record that touches it is lost.
  const isWhole = own !== undefined && !found.dataRows.includes(own.area.bottom + 1);
  const { bottom, dataRows, passedOver } = withoutDays(
    sheet,
    run,
    isWhole ? rowsUpTo(own.area.bottom, found) : found,
  );
  if (dataRows.length === 0) return undefined;
  const cellsIn = (column: number): Cell[] => dataRows.map((row) => cellAt(sheet, row, column));
  if (!isSaid && !areEnough && !hasStages && !hasPackedShelves(table, headers, cellsIn)) return undefined;
  const looks = new Map(
    [...headers.keys()].map((column) => {
      const own = looksIn(sheet, dataRows, column);
      return [column, table.name === 'rooms' ? looksOfRooms(own, cellsIn(column)) : own] as const;
    }),
  );
  const weekdays = new Set(
    [...headers.keys()].filter((column) => areWeekdays(dataRows.map((row) => cellAt(sheet, row, column)))),
  );
  const textsIn = (column: number): string[] =>
    dataRows.map((row) =>
      textOf(cellAt(sheet, row, column))
        .trim()
        .toLowerCase(),
    );
  const byHeaders = withUnnamed(chosen(named, whole, run.names, looks, weekdays), whole, run, looks, textsIn);
  const ofLots = withPackedLots(
    withPackedShares(byHeaders, whole, headers, cellsIn),
    whole,
    headers,
    cellsIn,
  );
  const inOneColumn = withPackedShelves(
    withFlushYields(ofLots, whole, headers, cellsIn),
    whole,
    headers,
    cellsIn,
  );
  const withPacks = withPacksInWords(inOneColumn, whole, headers, cellsIn);
  const withWait = withWaitParts(withPacks, whole, headers, cellsIn);
  const allMatches = withHolding(withWait, whole, headers, cellsIn);
  const isOfJob = ({ wanted }: ColumnMatch): boolean => table.columns.some((one) => isFor(one, wanted));
  const ownMatches = allMatches.filter(isOfJob);
  const alone = own === undefined ? withoutNeighbour(run, table, ownMatches) : undefined;
  if (alone) return candidateAt(book, sheet, alone, table, isSaid);
  // Without the names of its records a table is taken for one only where two other headers say so, one of them needed.
  const key = table.columns[0]!;
  const isNamed = ownMatches.some(({ wanted }) => wanted === key.name);
  const told = ownMatches.filter(({ by }) => by !== 'its data');
  const isTold =
    told.length >= 2 &&
    told.some(({ wanted }) => table.columns.some((one) => one.isNeeded && one.name === wanted));
  if (!isSaid && !isNamed && !isTold) return undefined;
  const missingOf = (found: readonly ColumnMatch[]): string[] =>
    table.columns
      .filter(({ name, isNeeded }) => isNeeded && !found.some(({ wanted }) => wanted === name))
      .map(({ name }) => name);
  const isOwn = (name: string): boolean => !(table.name === 'lots' && OF_BLOCKS.has(name));
  const needed = table.columns.filter(({ name, isNeeded }) => isNeeded && isOwn(name)).length;
  const lacksMost = missingOf(ownMatches).filter(isOwn).length > needed / 2;
  if (!isSaid && lacksMost && !areWaits(table, ownMatches, textsIn)) return undefined;
  const matches = withOneWait(allMatches, table, headers, looks).filter(isOfJob);
  const missing = missingOf(matches);
  const area = { top: run.row, left: run.left, bottom, right: run.right };
  const candidate: Candidate = {
    table,
    sheet,
    area,
    tableName: isWhole ? own.name : undefined,
    headers,
    isGrouped: run.isGrouped,
    matches,
    missing,
    dataRows,
    passedOver,
    origin: (row, column) => ({ sheet: sheet.name, row, column }),
    score:
      scoreOf(matches, table, missing.length, [sheet.name, ...titlesOver(sheet, run)], dataRows.length) -
      run.doubt,
  };
  const isRepeated = table.name === 'lots' && isLog(sheet, dataRows, matches) && !isLogOf(candidate);
  return isRepeated ? { ...candidate, score: candidate.score - REPEATED } : candidate;
}

/** What is often said of blocks elsewhere, once for each strain or mix or for all: lots are known without it. */
const OF_BLOCKS: ReadonlySet<string> = new Set(['block mass', 'moisture']);
/** Whether each row has a strain of its own and how long it takes: what else a plan needs of strains may be typed. */
function areWaits(
  table: WantedTable,
  matches: readonly ColumnMatch[],
  textsIn: (column: number) => readonly string[],
): boolean {
  const named = (...names: string[]): ColumnMatch | undefined =>
    matches.find(({ wanted, by }) => names.includes(wanted) && by !== 'its data');
  const strain = named('strain');
  if (table.name !== 'strains' || !strain || !named('earliest', 'best')) return false;
  const texts = textsIn(strain.column);
  return texts.every((text) => text !== '') && new Set(texts).size === texts.length;
}

/** What speaks against lots that are named again and again: that is a log of what was done with them. */
const REPEATED = 3;

function isLog(sheet: BookSheet, rows: readonly number[], matches: readonly ColumnMatch[]): boolean {
  const lot = matches.find(({ wanted }) => wanted === 'lot')?.column;
  if (lot === undefined) return false;
  const names = rows.map((row) =>
    textOf(cellAt(sheet, row, lot))
      .trim()
      .toLowerCase(),
  );
  return new Set(names).size <= names.length / 2;
}

/** Rows above headers in which the title of their table may stand. */
const ABOVE = 2;

/** The title over a header row: a text that is alone over its columns. */
function titlesOver(sheet: BookSheet, { row, left, right }: HeaderRun): string[] {
  for (let above = row - 1; above >= Math.max(0, row - ABOVE); above--) {
    const filled = (sheet.rows[above] ?? []).slice(left, right + 1).filter((cell) => !isBlank(cell));
    if (filled.length > 0) return filled.length === 1 && typeof filled[0] === 'string' ? [filled[0]] : [];
  }
  return [];
}

const POINTS: Record<MatchedBy, number> = {
  you: 4,
  'its name': 4,
  'another name': 3,
  'a name that means the same': 2.5,
  'a name like it': 2,
  'its data': 0.5,
  'its only wait': 0.5,
  'the parts of its wait': 2,
  'what each flush gives': 2,
};

function scoreOf(
  matches: readonly ColumnMatch[],
  table: WantedTable,
  missing: number,
  titles: readonly string[],
  rows: number,
): number {
  const points = matches.reduce((sum, { wanted, by }) => {
    const { isNeeded } = table.columns.find((one) => isFor(one, wanted))!;
    return sum + POINTS[by] * (isNeeded ? 1 : 0.3);
  }, 0);
  return (
    points -
    4 * missing +
    (titles.some((title) => table.sheetWords.test(title)) ? 2 : 0) +
    Math.min(1, rows / 50)
  );
}
