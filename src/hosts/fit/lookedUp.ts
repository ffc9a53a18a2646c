import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { PREFIX } from '../../worksheet/constants';
import { fixedRangeOf } from '../xlsx/address';
import type { Answers } from './answers';
import { cellAt, sheetText, textOf, type GrowersBook } from './book';
import { overlap, partText, type Candidate } from './candidate';
import { choicesFor, withColumns } from './columnChoices';
import { lastRowOf } from './columns';
import { anyParts } from './find';
import { looseKey } from './labels';
import { readings, type ColumnReading } from './reading';
import { saidText } from './saidOfAll';

// What blocks weigh and hold of water is often said once for each mix, on a sheet of its own: lots name their mix.

/** A list that says something of every label of a column. */
export interface LookedUp {
  /** What it says, by the label. */
  readonly cells: ReadonlyMap<string, Cell>;
  /** Where it is, in words. */
  readonly from: string;
  /** The list as a formula says it, its labels left, and which of its columns counts, from 1. */
  readonly range: string;
  readonly place: number;
  /** Its labels as a formula says them, where they are strains: those of lots may be spelt otherwise. */
  readonly strains: string | undefined;
  /** The strain of each row, where it is by strain. */
  readonly strainOf: ReadonlyMap<number, Cell> | undefined;
  /** Its labels as they are written. */
  readonly labels: readonly string[];
}

const COLUMNS = ['block mass', 'moisture'];
/** Rows below a list that are read as well. */
const GROWTH = 50;
/** So many of the strains must be in a list, as some may be misspelt. */
const KNOWN = 0.5;
/** Words that are more than these are no names of mixes. */
const MOST_MIXES = 200;

const keyOf = (cell: Cell, isStrain: boolean): string =>
  isStrain ? looseKey(cell) : textOf(cell).trim().toLowerCase();

/** What a list says of a label: nothing where it has none of it. */
export const lookedUp = ({ cells, strains }: LookedUp, label: Cell): Cell =>
  cells.get(keyOf(label, strains !== undefined)) ?? null;

export const lookedUpText = ({ range, place, strains }: LookedUp, labels: string): string => {
  const named = strains === undefined ? `TRIM(${labels})` : `${PREFIX}MATCHLABELS(${labels},${strains})`;
  return `IFERROR(VLOOKUP(${named},${range},${place},FALSE),"")`;
};

/** The strain of lots as it is read: from a column, their names, headings, sheets or an answer. */
export interface StrainOfLots {
  readonly column: number;
  readonly ofRows: ReadonlyMap<number, Cell>;
}

/** The mass and the moisture of the blocks of lots, by the only list that has them for a label of every lot. */
export function lookedUpFor(
  book: GrowersBook,
  lots: Candidate,
  answers: Answers,
  strain: StrainOfLots | undefined,
): ColumnReading[] {
  const { table, matches, headers, sheet, dataRows, lies, parts } = lots;
  if (table.name !== 'lots' || lies || parts?.some((part) => part.lies)) return [];
  // What else is listed by lot is of what was picked or sold.
  const isName = (column: number): boolean =>
    matches.some((match) => match.column === column && match.wanted === 'lot');
  const own = [...headers.keys()]
    .filter((column) => !isName(column) && column !== strain?.column)
    .flatMap((column): Labels[] => {
      const labels = dataRows.map((row) => cellAt(sheet, row, column));
      const isLabelled = labels.every((label) => typeof label === 'string' && !isBlank(label));
      const wanted = new Set(isLabelled ? labels.map((label) => keyOf(label, false)) : []);
      return wanted.size > 0 && wanted.size <= MOST_MIXES ? [{ column, wanted }] : [];
    });
  const all = [...own, ...strainLabels(strain)];
  const open = COLUMNS.filter(
    (name) =>
      table.columns.some((one) => one.name === name) &&
      !matches.some(({ wanted }) => wanted === name) &&
      saidText('lots', name, answers) === undefined,
  );
  if (all.length === 0 || open.length === 0) return [];
  const lists = listsBeside(book, lots);
  return open.flatMap((name) => {
    const said = answers.columns?.[table.name]?.[name] ?? undefined;
    const found = lists.flatMap((list) => {
      const reading = said === undefined ? readingOf(list, name) : readingSaid(list, name, said);
      return reading ? all.flatMap((labels) => listed(list, reading, labels)) : [];
    });
    return found.length === 1 ? found : [];
  });
}

const listsBeside = (book: GrowersBook, lots: Candidate): Candidate[] =>
  anyParts(book, lots.table).filter((list) => !list.isTurned && !overlap(list, lots));

function readingOf(list: Candidate, name: string): ColumnReading | undefined {
  const reading = readings(list).find((one) => one.name === name);
  return reading && isNamed(reading) ? reading : undefined;
}

/** The column of a list that the grower named for it. */
function readingSaid(list: Candidate, name: string, said: string): ColumnReading | undefined {
  const header = [...list.headers.values()].find((one) =>
    [one, ofList(one, list)].some((words) => headerKey(words) === headerKey(said)),
  );
  if (header === undefined) return undefined;
  const reading = readings(withColumns(list, { [name]: header })).find((one) => one.name === name);
  return reading && { ...reading, match: { ...reading.match, header: said } };
}

/** How a column of another table is named where it may be chosen: `Fill of Strains`. */
const ofList = (header: string, { sheet }: Candidate): string => `${header} of ${sheet.name}`;

/** The columns of lists by strain that may say it, where none is sure to. */
export function listChoices(
  book: GrowersBook,
  lots: Candidate,
  name: string,
  strain: StrainOfLots | undefined,
  served: readonly Candidate[],
): string[] {
  const wanted = lots.table.columns.find((one) => one.name === name)!;
  if (!COLUMNS.includes(name)) return [];
  const isRead = (list: Candidate, column: number): boolean =>
    served.some(
      (one) => one.sheet.name === list.sheet.name && one.matches.some((match) => match.column === column),
    );
  return listsBeside(book, lots).flatMap((list) =>
    choicesFor({ ...list, matches: [] }, wanted)
      .filter((header) => {
        const reading = readingSaid(list, name, header);
        return (
          reading !== undefined &&
          !isRead(list, reading.match.column) &&
          strainLabels(strain).some((labels) => listed(list, reading, labels).length > 0)
        );
      })
      .map((header) => ofList(header, list)),
  );
}

/** A unit alone does not say that a mass is that of a block: in a list of orders it is what was ordered. */
const isNamed = ({ match, isDryShare }: ColumnReading): boolean =>
  isDryShare === true ||
  match.by !== 'a name like it' ||
  /\b(?:blocks?|bags?|bricks?|logs?|cakes?|sacks?)\b/i.test(match.header);

/** A column of lots that names something in each row; or their strains, whatever these are read from. */
interface Labels {
  readonly column: number;
  readonly wanted: ReadonlySet<string>;
  readonly strainOf?: ReadonlyMap<number, Cell>;
}

function strainLabels(strain: StrainOfLots | undefined): Labels[] {
  const labels = [...(strain?.ofRows.values() ?? [])].filter(
    (label) => !isBlank(label) && !isCellError(label),
  );
  if (!strain || labels.length === 0) return [];
  const wanted = new Set(labels.map((label) => keyOf(label, true)));
  return [{ column: strain.column, wanted, strainOf: strain.ofRows }];
}

/** A column of a list as it is read for labels of lots, if it says one thing of each of them. */
function listed(
  list: Candidate,
  reading: ColumnReading,
  { column, wanted, strainOf }: Labels,
): ColumnReading[] {
  const { sheet, area, dataRows } = list;
  const at = reading.match.column;
  const isStrain = strainOf !== undefined;
  for (let key = area.left; key < at; key++) {
    const labelAt = (row: number): string => keyOf(cellAt(sheet, row, key), isStrain);
    const isListed = (row: number): boolean =>
      isStrain ? !isBlank(cellAt(sheet, row, key)) : wanted.has(labelAt(row));
    const rows = dataRows.filter(isListed);
    const cells = new Map(rows.map((row) => [labelAt(row), cellAt(sheet, row, at)]));
    const known = [...wanted].filter((label) => cells.has(label));
    const fewest = isStrain ? Math.max(1, KNOWN * wanted.size) : wanted.size;
    const isTold = known.length >= fewest && known.every((label) => !isBlank(cells.get(label)));
    if (!isTold || cells.size < rows.length) continue;
    const range = { top: area.top + 1, bottom: lastRowOf(list, GROWTH), left: key, right: at };
    const rangeText = (right: number): string =>
      `${sheetText(sheet.name)}!${fixedRangeOf({ ...range, right })}`;
    return [
      {
        ...reading,
        match: { ...reading.match, column, by: 'its data' },
        lookedUp: {
          cells,
          from: partText(list),
          range: rangeText(at),
          place: at - key + 1,
          strains: isStrain ? rangeText(key) : undefined,
          strainOf,
          labels: rows.map((row) => textOf(cellAt(sheet, row, key)).trim()),
        },
      },
    ];
  }
  return [];
}
