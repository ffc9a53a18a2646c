import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { numberedHeaders } from '../../worksheet/cells/numberedHeaders';
import type { KindWord } from '../../worksheet/cells/kinds';
import { totalOf } from '../../worksheet/cells/totals';
import { addressOf, type Area } from '../xlsx/address';
import { cellAt, isFilled, READ_TITLE, textOf, type BookSheet, type GrowersBook } from './book';
import { JOB, type WantedColumn, type WantedTable } from './jobs';
import { looseKey } from './labels';
import { isOfLeft, NAMED, naming } from './naming';
import { foreignNames, unaccented } from './otherLanguages';
import { rowKind } from './rows';
import { areWeekdays } from './standing';
import { isShare, massUnitIn } from './units';
import { lookAt, mayBeDay, type Look } from './values';

/** How a column of the grower's was matched. */
export type MatchedBy =
  | 'its name'
  | 'another name'
  | 'a name in another language'
  | 'a name like it'
  | 'its data'
  | 'you';

/** A column of the grower's book that serves for a wanted one. */
export interface ColumnMatch {
  readonly wanted: string;
  readonly header: string;
  /** Column of the sheet, from 0. */
  readonly column: number;
  readonly by: MatchedBy;
}

/** A cell of the grower's book. */
export interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A cell of the sheet that says the same of every record: a product over a column of figures. */
export interface FixedCell {
  readonly cell: { readonly row: number; readonly column: number };
}

/** A part of a sheet that could serve for a wanted table. */
export interface Candidate {
  readonly table: WantedTable;
  readonly sheet: BookSheet;
  /** Header row and all rows below that belong to it. */
  readonly area: Area;
  /** The workbook's own name for it, where it is a table. */
  readonly tableName: string | undefined;
  /** Headers as written, by their columns. */
  readonly headers: ReadonlyMap<number, string>;
  /** Whether a group stands over some headers, in a row of its own: no function reads that as it is. */
  readonly isGrouped: boolean;
  /** Parts that lie one below the other here: the same table on several sheets. */
  readonly parts?: readonly Candidate[];
  /** Whether it is one of several parts. */
  readonly isPart?: boolean;
  /** The columns of the sheet that its own are, where it is put together from some; what is the same for all its records. */
  readonly lies?: readonly (number | { readonly figure: number } | FixedCell)[];
  /** The block that it is one column of. */
  readonly block?: Area;
  /** Rows below the last record that are read as well, where that is settled. */
  readonly growth?: number;
  /** Which week it is read for, where it holds for every week. */
  readonly week?: number;
  /** Which of the days of the week that a cell names it is read for, from 0. */
  readonly day?: number;
  /** Headers of a block that nothing reads. */
  readonly ignored?: readonly string[];
  /** The column of the blocks that are left: a lot of which it says 0 is no record. */
  readonly left?: number;
  /** How its cells write 0. */
  readonly noneLeft?: readonly string[];
  /** Rows of the sheet that are struck out and no record, as the grower said; and how many there are. */
  readonly struck?: readonly number[];
  readonly struckOut?: number;
  /** How many lots have none left. */
  readonly usedUp?: number;
  /** What holds of a row that is a record, as a formula says it of columns of the sheet. */
  readonly record?: (cells: (column: number) => string) => string;
  /** The grower's own cell of a place in it. */
  readonly origin: (row: number, column: number) => Place;
  readonly matches: readonly ColumnMatch[];
  /** Needed columns that no header names. */
  readonly missing: readonly string[];
  /** Rows of the sheet, from 0, that hold a record. */
  readonly dataRows: readonly number[];
  /** Rows between them that hold a month, a total or the headers again. */
  readonly passedOver: readonly number[];
  readonly score: number;
}

/** Rows of a sheet in which headers are looked for, and blank rows that end a table. */
const MOST_ROWS = 2000;
const ENDING_BLANKS = 5;

/** The parts of a book that could serve for a table, the likeliest first. */
export function candidates(book: GrowersBook, table: WantedTable): Candidate[] {
  const found = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => headerRuns(sheet).flatMap((run) => candidateAt(book, sheet, run, table) ?? []));
  // Of two readings of the same cells the one that lacks less is taken, then the likelier.
  const kept: Candidate[] = [];
  for (const one of found.sort((a, b) => a.missing.length - b.missing.length || b.score - a.score)) {
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

/** Whether two parts of a book share cells. */
export const overlap = (one: Candidate, other: Candidate): boolean =>
  placesOf(one).some((own) => placesOf(other).some((its) => own.on === its.on && doMeet(own.area, its.area)));

/** Where a part lies; a block is on its sheet as a whole, a list of one flush beside its lots is not. */
const placesOf = (candidate: Candidate): { readonly on: BookSheet | string; readonly area: Area }[] =>
  (candidate.parts?.some(({ block }) => block) ? candidate.parts : [candidate]).map(
    ({ sheet, area, block, lies }) => ({ on: lies && !block ? sheet : sheet.name, area: block ?? area }),
  );

const doMeet = (one: Area, other: Area): boolean =>
  one.top <= other.bottom && one.bottom >= other.top && one.left <= other.right && one.right >= other.left;

const OUR_TITLES: ReadonlySet<string> = new Set(Object.values(JOB).map(({ title }) => title));

/** Whether a sheet was written by a fit: it is no source of another. */
export function isOurs(sheet: BookSheet): boolean {
  const title = textOf(cellAt(sheet, 0, 0));
  return title.startsWith(READ_TITLE) || OUR_TITLES.has(title);
}

/** Filled cells side by side: what a header row may be, of one row or of two with groups above. */
export interface HeaderRun {
  /** The row over the records. */
  readonly row: number;
  readonly left: number;
  readonly right: number;
  /** The names that each column may go by, the one to show first. */
  readonly names: ReadonlyMap<number, readonly string[]>;
  readonly isGrouped: boolean;
  /** How much less likely it is than the plain reading of the same cells. */
  readonly doubt: number;
}

/** Pieces of a header row that a blank column parts and that may still be one. */
const MOST_PIECES = 3;

export function headerRuns(sheet: BookSheet): HeaderRun[] {
  const runs: HeaderRun[] = [];
  for (let row = 0; row < Math.min(sheet.rows.length, MOST_ROWS); row++) {
    if (!isUnitsRow(sheet, row))
      runs.push(...runsIn(sheet, row, (column) => cellAt(sheet, row, column), false));
    const above = (column: number): Cell => (row === 0 ? null : cellAt(sheet, row - 1, column));
    if (isUnitsRow(sheet, row)) {
      runs.push(...runsIn(sheet, row, (column) => withUnit(above(column), cellAt(sheet, row, column)), true));
      continue;
    }
    if (row === 0 || !isWordsOverFigures(sheet, row)) continue;
    const under = (column: number): Cell => cellAt(sheet, row, column);
    runs.push(
      ...runsIn(sheet, row, (column) => (isBlank(under(column)) ? above(column) : under(column)), true),
    );
  }
  return runs;
}

const UNIT = /^(?:[[(].*[\])]|kgs?|g|lbs?|oz|%|days?|d|pcs|date|-|[$€£]\/?(?:kg|lb)?)$/i;

/** Whether a row holds nothing but units, two at least, each under a header. */
function isUnitsRow(sheet: BookSheet, row: number): boolean {
  if (row === 0) return false;
  const units = sheet.rows[row]!.flatMap((cell, column) => (isBlank(cell) ? [] : [[cell, column] as const]));
  return (
    (units.length >= 2 || (units.length === 1 && /^\[/.test(headerText(units[0]![0])))) &&
    units.every(
      ([cell, column]) =>
        typeof cell === 'string' &&
        UNIT.test(cell.trim()) &&
        headerText(cellAt(sheet, row - 1, column)) !== '',
    )
  );
}

/** A header with the unit below it in brackets, as if both were in one cell. */
function withUnit(header: Cell, unit: Cell): Cell {
  const [name, under] = [headerText(header), headerText(unit)];
  return name === '' || under === '' ? header : `${name} ${/^[[(]/.test(under) ? under : `(${under})`}`;
}

/** What a column without a header is called: nothing is named so by chance. */
const unnamed = (column: number): string => `column ${addressOf({ row: 0, column }).replace(/\d+/, '')}`;
export const isUnnamed = (header: string): boolean => /^column [A-Z]{1,3}$/.test(header);

/** Whether a column goes on with texts or days beside the records of a header row, and has no header itself. */
function isWithoutHeader(sheet: BookSheet, row: number, column: number): boolean {
  // Above a row of headers it has one there.
  if (column < 0 || isWordsOverFigures(sheet, row + 1)) return false;
  const looks = [1, 2, 3].map((down) => lookAt(sheet, row + down, column));
  return looks.filter((look) => look === 'text' || look === 'date' || look === 'text date').length >= 2;
}

function runsIn(
  sheet: BookSheet,
  row: number,
  at: (column: number) => Cell,
  isGrouped: boolean,
): HeaderRun[] {
  const width = Math.max(sheet.rows[row]!.length, isGrouped ? sheet.rows[row - 1]!.length : 0);
  const pieces: { left: number; right: number }[] = [];
  for (let left = 0; left < width; left++) {
    if (isBlank(at(left))) continue;
    let right = left;
    // A column without a header in the middle of a table does not part it.
    while (
      right + 1 < width &&
      (!isBlank(at(right + 1)) || (isFilled(sheet, row + 1, right + 1) && !isBlank(at(right + 2))))
    ) {
      right++;
    }
    pieces.push({ left, right });
    left = right;
  }
  return pieces.flatMap(({ left: headed }, first) =>
    pieces.slice(first, first + MOST_PIECES).flatMap(({ right }, more): HeaderRun[] => {
      // The first column of a table often has no header: what its records are called needs none on a wall.
      const isFree = first === 0 || pieces[first - 1]!.right < headed - 2;
      const left =
        isFree && isWithoutHeader(sheet, row, headed - 1) && !isFilled(sheet, row + 1, headed - 2)
          ? headed - 1
          : headed;
      const isOne = pieces
        .slice(first + 1, first + more + 1)
        .every((piece, i) => piece.left === pieces[first + i]!.right + 2);
      if (!isOne) return [];
      const names = new Map<number, readonly string[]>();
      for (let column = left; column <= right; column++) {
        const text = headerText(at(column));
        if (text === '') {
          if (isBlank(at(column)) && isWithoutHeader(sheet, row, column))
            names.set(column, [unnamed(column)]);
          continue;
        }
        const group = isGrouped && !isUnitsRow(sheet, row) ? groupOver(sheet, row, column, left) : '';
        names.set(column, group === '' || group === text ? [text] : [text, `${group} ${text}`]);
      }
      const doubt = (isGrouped ? GROUPED : 0) + more * PARTED;
      const count = [...names.values()].filter(([name]) => !isUnnamed(name!)).length;
      return count >= 2 ? [{ row, left, right, names, isGrouped, doubt }] : [];
    }),
  );
}

/**
 * The words of the group over a header: the nearest to its left in the row above. A lone text over the first header is the
 * title of the table.
 */
function groupOver(sheet: BookSheet, row: number, column: number, left: number): string {
  const above = sheet.rows[row - 1]!.flatMap((cell, at) => (headerText(cell) === '' ? [] : [at]));
  if (above.length === 1 && above[0] === left) return '';
  for (let at = column; at >= left; at--) {
    const text = headerText(cellAt(sheet, row - 1, at));
    if (text !== '') return text;
  }
  return '';
}

const headerText = (cell: Cell): string =>
  isBlank(cell) || isCellError(cell) || typeof cell !== 'string' ? '' : cell.trim();

/** The name to show of each column: with its group where two under different groups are called the same. */
function shownNames(names: HeaderRun['names']): ReadonlyMap<number, string> {
  const times = new Map<string, number>();
  for (const [, [text]] of names) times.set(text!, (times.get(text!) ?? 0) + 1);
  return new Map(
    [...names].map(([column, own]) => [column, times.get(own[0]!)! > 1 ? own.at(-1)! : own[0]!]),
  );
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
const isUpperOfTwo = (sheet: BookSheet, { row, left, right }: HeaderRun): boolean =>
  !isFilled(sheet, row + 1, left) && isWordsOverFigures(sheet, row + 1, left, right);

function candidateAt(
  book: GrowersBook,
  sheet: BookSheet,
  run: HeaderRun,
  table: WantedTable,
  isSaid = false,
): Candidate | undefined {
  if (reachesOver(book, sheet, run) || isUpperOfTwo(sheet, run)) return undefined;
  const headers = shownNames(run.names);
  const named = namedPairs(run.names, table);
  // One header alone may be any row's word.
  if (!isSaid && new Set(named.map(({ column }) => column)).size < 2) return undefined;
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
  const looks = new Map(
    [...headers.keys()].map((column) => [column, looksIn(sheet, dataRows, column)] as const),
  );
  const weekdays = new Set(
    [...headers.keys()].filter((column) => areWeekdays(dataRows.map((row) => cellAt(sheet, row, column)))),
  );
  const matches = withUnnamed(chosen(named, table, run.names, looks, weekdays), table, run, looks, (column) =>
    dataRows.map((row) =>
      textOf(cellAt(sheet, row, column))
        .trim()
        .toLowerCase(),
    ),
  );
  // Without the names of its records a table is taken for one only where two other headers say so, one of them needed.
  const key = table.columns[0]!;
  const isNamed = matches.some(({ wanted }) => wanted === key.name);
  const told = matches.filter(({ by }) => by !== 'its data');
  const isTold =
    told.length >= 2 &&
    told.some(({ wanted }) => table.columns.some((one) => one.isNeeded && one.name === wanted));
  if (!isSaid && !isNamed && !isTold) return undefined;
  const missing = table.columns
    .filter(({ name, isNeeded }) => isNeeded && !matches.some(({ wanted }) => wanted === name))
    .map(({ name }) => name);
  const needed = table.columns.filter(({ isNeeded }) => isNeeded).length;
  if (!isSaid && missing.length > needed / 2) return undefined;
  const area = { top: run.row, left: run.left, bottom, right: run.right };
  return {
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
      scoreOf(matches, table, missing.length, sheet.name, dataRows.length) -
      run.doubt -
      (table.name === 'lots' && isLog(sheet, dataRows, matches) ? REPEATED : 0),
  };
}

/** Two header rows, and columns on both sides of a blank one, are read as such only where that finds more. */
const GROUPED = 0.6;
const PARTED = 0.4;

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

const POINTS: Record<MatchedBy, number> = {
  you: 4,
  'its name': 4,
  'another name': 3,
  'a name in another language': 2.5,
  'a name like it': 2,
  'its data': 0.5,
};

function scoreOf(
  matches: readonly ColumnMatch[],
  table: WantedTable,
  missing: number,
  sheetName: string,
  rows: number,
): number {
  const points = matches.reduce((sum, { wanted, by }) => {
    const { isNeeded } = table.columns.find((one) => isFor(one, wanted))!;
    return sum + POINTS[by] * (isNeeded ? 1 : 0.3);
  }, 0);
  return points - 4 * missing + (table.sheetWords.test(sheetName) ? 2 : 0) + Math.min(1, rows / 50);
}

interface Pair {
  readonly wanted: WantedColumn;
  readonly column: number;
  readonly points: number;
}

export function namedPairs(headers: HeaderRun['names'], table: WantedTable): Pair[] {
  const single = table.columns.filter(({ column }) => column.role !== 'numbered');
  return single.flatMap((wanted) => {
    const hint = {
      isMass: ['mass', 'block mass', 'pack'].includes(wanted.name),
      isPrice: wanted.name === 'price',
      isShare: isShare(wanted),
      hasMassUnit: (header: string) => massUnitIn(header) !== undefined,
    };
    return [...headers].flatMap(([column, names]) => {
      const { name, column: declared } = wanted;
      const isLeft = wanted.isOfWhatIsLeft === true && names.some(isOfLeft);
      // Blocks are no part of most picks: there a quantity is what was picked.
      const isOfMass = table.name === 'harvests' && name === 'blocks' && names.every(isQuantity);
      // What is left of a lot is not what was made of it.
      const isOfRest = name === 'blocks' && !wanted.isOfWhatIsLeft && names.some(isOfLeft);
      const isId = (isDateColumn(wanted) || isFigureColumn(wanted)) && names.every(isOfIds);
      const points = isLeft
        ? NAMED.beforeAll
        : isId || isOfMass || isOfRest
          ? 0
          : Math.max(...names.map((header) => naming(header, name, declared.alsoCalled, hint)));
      return points > 0 ? [{ wanted, column, points }] : [];
    });
  });
}

/** `harvest_id` names a record; it is no figure and no day of it. */
const isOfIds = (header: string): boolean => /(?:^|[\s_])(?:id|code|uuid)$/i.test(header.trim());

const isQuantity = (header: string): boolean => /^(?:qty|quantity|amount)\.?$/i.test(header.trim());

/** How many cells of a column have each look. */
export type Looks = ReadonlyMap<Look, number>;

export function looksIn(sheet: BookSheet, rows: readonly number[], column: number): Looks {
  const looks = new Map<Look, number>();
  for (const row of rows) {
    const look = lookAt(sheet, row, column);
    const isDay = look === 'text' && mayBeDay(textOf(cellAt(sheet, row, column)));
    for (const one of isDay ? [look, 'text that may be a day' as const] : [look]) {
      looks.set(one, (looks.get(one) ?? 0) + 1);
    }
  }
  return looks;
}

const FIGURE_WORDS: readonly KindWord[] = [
  'number',
  'mass',
  'count',
  'days',
  'share',
  'efficiency',
  'temperature',
  'degrees',
];

/** Whether a column's cells could be what is wanted: most of those that hold anything. */
export function couldBe(word: KindWord, name: string, looks: Looks): boolean {
  const of = (...wanted: Look[]): number => wanted.reduce((sum, look) => sum + (looks.get(look) ?? 0), 0);
  const filled = [...looks].reduce(
    (sum, [look, count]) => (look === 'blank' || look === 'text that may be a day' ? sum : sum + count),
    0,
  );
  if (filled === 0) return true;
  // A lot's `loaded` is the day, or how many of its blocks are loaded so far.
  if (name === 'loaded' && word === 'number') return true;
  const isDate = word === 'date' || DATES.has(name);
  if (isDate) return of('date', 'text date', 'text that may be a day') >= 0.5 * filled;
  if (FIGURE_WORDS.includes(word) || FIGURES.has(name)) {
    return of('number', 'text number', 'error') >= 0.5 * filled;
  }
  return of('date', 'text date') < 0.5 * filled;
}

/** What the columns of an audit hold, which takes whatever the cells hold. */
const DATES = new Set(['date', 'inoculated', 'loaded', 'due', 'from']);
const FIGURES = new Set(['mass', 'blocks', 'block mass', 'moisture', 'flush', 'total']);

export const isDateColumn = ({ name, column: { kind } }: WantedColumn): boolean =>
  kind.word === 'date' || ((kind.word === 'anything' || kind.word === 'number') && DATES.has(name));
export const isFigureColumn = ({ name, column }: WantedColumn): boolean =>
  (FIGURE_WORDS.includes(column.kind.word) && !DATES.has(name)) ||
  (column.kind.word === 'anything' && FIGURES.has(name));

/** The best match of each wanted column: the surest pairs first, each header for one column only. */
function chosen(
  named: readonly Pair[],
  table: WantedTable,
  names: HeaderRun['names'],
  looks: ReadonlyMap<number, Looks>,
  weekdays: ReadonlySet<number>,
): ColumnMatch[] {
  const headers = shownNames(names);
  const fits = ({ wanted, column, points }: Pair): boolean =>
    points === NAMED.exactly ||
    (wanted.name === 'due' && weekdays.has(column)) ||
    couldBe(wanted.column.kind.word, wanted.name, looks.get(column)!);
  const matches = new Map<string, ColumnMatch>();
  const taken = new Set<number>();
  const take = (wanted: string, column: number, by: MatchedBy): void => {
    taken.add(column);
    matches.set(wanted, { wanted, column, by, header: headers.get(column)! });
  };
  const columns = [...names.keys()];
  for (const { name, column } of table.columns) {
    if (column.role !== 'numbered') continue;
    const plain = numberedHeaders([...names.values()], name, column);
    const others = [...names.values()].map((own) => own.map(withoutShareWords));
    const family =
      plain.length > 0 ? plain : numberedHeaders(others, name, { ...column, alsoCalled: foreignNames(name) });
    for (const [i, number] of family) {
      const own = `${name} ${number}`;
      const at = columns[i]!;
      if (matches.has(own)) continue;
      const isOwn = headerKey(headers.get(at)!) === headerKey(own);
      take(own, at, isOwn ? 'its name' : plain.length > 0 ? 'another name' : 'a name in another language');
    }
  }
  // A header that is the name of one column is no likeness of another, even where a better header serves for the first.
  const isOthersName = ({ column, points }: Pair): boolean =>
    points <= NAMED.alike && named.some((one) => one.column === column && one.points > NAMED.alike);
  for (const pair of [...named].filter(fits).sort((a, b) => b.points - a.points)) {
    if (taken.has(pair.column) || matches.has(pair.wanted.name) || isOthersName(pair)) continue;
    take(pair.wanted.name, pair.column, howNamed(pair.points));
  }
  // An order that stands has a day of the week.
  const due = table.name === 'orders' ? table.columns.find(({ name }) => name === 'due') : undefined;
  const standing = [...headers.keys()].filter((column) => weekdays.has(column) && !taken.has(column));
  if (due && !matches.has('due') && standing.length === 1) take('due', standing[0]!, 'its data');
  // The only column of dates that is left can be no other than the date that is needed.
  const lacking = table.columns.filter(
    (wanted) => wanted.isNeeded && isDateColumn(wanted) && !matches.has(wanted.name),
  );
  const dates = [...headers.keys()].filter(
    (column) => !taken.has(column) && couldBe('date', '', looks.get(column)!) && hasAny(looks.get(column)!),
  );
  if (lacking.length === 1 && dates.length === 1) take(lacking[0]!.name, dates[0]!, 'its data');
  return [...matches.values()].sort((a, b) => columnOf(table, a) - columnOf(table, b));
}

/**
 * Columns without a header that can be no other: the first, where each record has a text of its own there and nothing
 * names the records; the strain of lots, where few texts come again and again.
 */
function withUnnamed(
  matches: ColumnMatch[],
  table: WantedTable,
  { names, left }: HeaderRun,
  looks: ReadonlyMap<number, Looks>,
  textsIn: (column: number) => readonly string[],
): ColumnMatch[] {
  const own = [...matches];
  const isOpen = (wanted: string): boolean =>
    table.columns.some(({ name }) => name === wanted) && !own.some((one) => one.wanted === wanted);
  const free = [...names].flatMap(([column, [name]]) => {
    const texts = looks.get(column)!.get('text') ?? 0;
    const isTaken = own.some((one) => one.column === column);
    return isUnnamed(name!) && !isTaken && texts === textsIn(column).length ? [[column, name!] as const] : [];
  });
  for (const [column, header] of free) {
    const texts = textsIn(column);
    const different = new Set(texts).size;
    const key = table.columns[0]!.name;
    if (column === left && different === texts.length && isOpen(key))
      own.push({ wanted: key, column, header, by: 'its data' });
    else if (different <= texts.length / 2 && table.name === 'lots' && isOpen('strain') && free.length === 1)
      own.push({ wanted: 'strain', column, header, by: 'its data' });
  }
  return own.sort((a, b) => columnOf(table, a) - columnOf(table, b));
}

function howNamed(points: number): MatchedBy {
  if (points === NAMED.exactly) return 'its name';
  if (points === NAMED.otherwise) return 'another name';
  if (points === NAMED.beforeAll) return 'a name like it';
  return points > NAMED.alike ? 'a name in another language' : 'a name like it';
}

/** A header without the words that say share in other languages. */
const withoutShareWords = (header: string): string =>
  unaccented(header).replace(/\b(?:anteil|ertragsanteil|part|parte|aandeel|quota)\b/giu, '');

const columnOf = (table: WantedTable, { wanted }: ColumnMatch): number =>
  table.columns.findIndex((one) => isFor(one, wanted));

/** Whether a match is for this column: `flush 1` is for `flush`, which is numbered. */
export const isFor = ({ name, column }: WantedColumn, wanted: string): boolean =>
  name === wanted || (column.role === 'numbered' && new RegExp(`^${name} \\d+$`).test(wanted));

const hasAny = (looks: Looks): boolean => [...looks.keys()].some((look) => look !== 'blank');

interface RowsFound {
  readonly bottom: number;
  readonly dataRows: number[];
  readonly passedOver: number[];
}

const rowsUpTo = (last: number, { bottom, dataRows, passedOver }: RowsFound): RowsFound => ({
  bottom: Math.min(bottom, last),
  dataRows: dataRows.filter((row) => row <= last),
  passedOver: passedOver.filter((row) => row <= last),
});

export function rowsBelow(
  sheet: BookSheet,
  { row: top, left, right }: HeaderRun,
  headers: ReadonlyMap<number, string>,
): RowsFound {
  const written = Array.from({ length: right - left + 1 }, (_, i) => headers.get(left + i) ?? '');
  const dataRows: number[] = [];
  const passedOver: number[] = [];
  /** Texts of the records and headings so far: `Total Oyster` sums up those of Oyster. */
  const labels = new Set<string>();
  let bottom = top;
  let blanks = 0;
  /** The last row before a gap that no record has followed yet. */
  let beforeGap: number | undefined;
  for (let row = top + 1; row < sheet.rows.length && blanks < ENDING_BLANKS; row++) {
    const cells = written.map((_, i) => cellAt(sheet, row, left + i));
    const own = rowKind(cells, written);
    const isOfGroup = cells.some((cell) => {
      const of = typeof cell === 'string' ? totalOf(cell) : undefined;
      return of !== undefined && labels.has(looseKey(of));
    });
    const kind = own === 'data' && isOfGroup ? 'totals' : own;
    if (kind === 'data' || kind === 'heading')
      for (const cell of cells) if (typeof cell === 'string') labels.add(looseKey(cell));
    if (kind === 'blank') {
      blanks++;
      beforeGap ??= bottom;
      continue;
    }
    // After a gap, a row of words over rows of figures begins another table; the title between is not of this one.
    if (beforeGap !== undefined && kind === 'data' && isWordsOverFigures(sheet, row, left, right)) {
      return rowsUpTo(beforeGap, { bottom, dataRows, passedOver });
    }
    blanks = 0;
    bottom = row;
    if (kind === 'data') {
      dataRows.push(row);
      beforeGap = undefined;
    } else {
      passedOver.push(row);
    }
  }
  return { bottom, dataRows, passedOver };
}

/** Rows that hold one day and nothing more, in a column where others hold none, are headings: what follows is of that day. */
function withoutDays(sheet: BookSheet, { left, right }: HeaderRun, found: RowsFound): RowsFound {
  const isDay = (row: number, column: number): boolean =>
    ['date', 'text date'].includes(lookAt(sheet, row, column));
  const loneDay = (row: number): number | undefined => {
    const columns = Array.from({ length: right - left + 1 }, (_, i) => left + i);
    const filled = columns.filter((column) => isFilled(sheet, row, column));
    return filled.length === 1 && isDay(row, filled[0]!) ? filled[0] : undefined;
  };
  const days = new Map(
    [...found.dataRows, ...found.passedOver].flatMap((row) => {
      const column = loneDay(row);
      return column === undefined ? [] : [[row, column] as const];
    }),
  );
  const records = found.dataRows.filter((row) => !days.has(row));
  const columns = new Set(days.values());
  const [column] = columns;
  if (columns.size !== 1 || records.length === 0 || records.some((row) => isDay(row, column!))) return found;
  const passedOver = [...new Set([...found.passedOver, ...days.keys()])].sort((a, b) => a - b);
  return { ...found, dataRows: records, passedOver };
}

/** Rows below words in which a first figure may lie: a title or a blank row may come between. */
const SOON = 3;

/** Whether a row holds words only, two at least, and figures come soon below them. */
function isWordsOverFigures(
  sheet: BookSheet,
  row: number,
  left = 0,
  right = (sheet.rows[row]?.length ?? 0) - 1,
): boolean {
  let words = 0;
  for (let column = left; column <= right; column++) {
    const look = lookAt(sheet, row, column);
    if (look === 'text') words++;
    else if (look !== 'blank') return false;
  }
  if (words < 2) return false;
  for (let below = row + 1; below <= row + SOON; below++) {
    for (let column = left; column <= right; column++) {
      const look = lookAt(sheet, below, column);
      if (look !== 'text' && look !== 'blank') return true;
    }
  }
  return false;
}
