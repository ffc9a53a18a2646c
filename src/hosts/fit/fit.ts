import { writtenDate } from '../../worksheet/calendar';
import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headers';
import { areaOf, rangeOf } from '../xlsx/address';
import type { Answer, Answers } from './answers';
import { cellAt, sheetText, showsDate, textOf, type GrowersBook } from './book';
import { candidates, couldBe, looksIn, type Candidate, type ColumnMatch } from './find';
import { commonest, looseKey } from './labels';
import { JOB, type Job, type JobName, type TableName, type WantedColumn, type WantedTable } from './jobs';
import {
  readColumn,
  readings,
  reasonOf,
  unreadIn,
  valuesOf,
  type ColumnReading,
  type DecimalMark,
  type Reader,
  type UnreadCell,
} from './reading';
import { isTextDate, type DateOrder } from './values';

/** What only the grower can know. Without an answer nothing that depends on it is written. */
export type Question =
  | {
      readonly kind: 'table';
      readonly table: TableName;
      /** Parts of the book to choose from; none where no sheet could serve. */
      readonly choices: readonly string[];
    }
  | {
      readonly kind: 'column';
      readonly table: TableName;
      readonly column: string;
      readonly meaning: string;
      readonly choices: readonly string[];
    }
  | {
      readonly kind: 'dates';
      /** `lots, inoculated` */
      readonly about: string;
      readonly texts: readonly string[];
      readonly isContradicted: boolean;
      /** The order that another column of the book proves. */
      readonly elsewhere: DateOrder | undefined;
    }
  | {
      readonly kind: 'decimals';
      /** `orders, mass` */
      readonly about: string;
      /** Figures whose mark may part thousands or begin the decimals. */
      readonly texts: readonly string[];
      /** The mark that another column of the book proves. */
      readonly elsewhere: DecimalMark | undefined;
    }
  | {
      readonly kind: 'products';
      readonly words: readonly string[];
      readonly strains: readonly string[];
    }
  | {
      readonly kind: 'fill';
      readonly table: TableName;
      readonly columns: readonly WantedColumn[];
      /** Rows to begin with: the strains of the lots. */
      readonly rows: readonly Readonly<Record<string, Answer>>[];
    }
  | { readonly kind: 'figure'; readonly figure: FigureName };

/** Single figures that a job cannot do without. */
export const FIGURES = {
  blocks: 'number of blocks to fill',
  'block mass': 'wet mass of a finished block, in the unit of the scale',
  moisture: 'water share of the substrate wanted: 62% is written 62% or 0.62',
} as const;
export type FigureName = keyof typeof FIGURES;

/** A table of the job as the book gives it. */
export interface TableFit {
  readonly candidate: Candidate;
  readonly readings: readonly ColumnReading[];
  /** The order of the text dates of each column, by its name, where it is known. */
  readonly orders: ReadonlyMap<string, DateOrder>;
  /** What each column's cells become, by its name, one for each data row. */
  readonly values: ReadonlyMap<string, readonly Cell[]>;
  /** The first rows as the grower sees them, by the name of the column. */
  readonly evidence: readonly Readonly<Record<string, string>>[];
  /** Other parts of the book that could serve. */
  readonly others: readonly Candidate[];
}

/** A label that is read in the spelling of the table it refers to. */
export interface Joined {
  readonly table: TableName;
  readonly label: string;
  readonly as: string;
  readonly cells: number;
}

export interface Fit {
  readonly job: Job;
  readonly book: GrowersBook;
  readonly answers: Answers;
  readonly tables: ReadonlyMap<TableName, TableFit>;
  /** Tables that the grower filled in, as the book has none. */
  readonly filled: ReadonlyMap<TableName, readonly Readonly<Record<string, Answer>>[]>;
  readonly questions: readonly Question[];
  readonly unread: readonly UnreadCell[];
  /** Labels that are read as another: `Fernbank 7` as `Fernbank-7`. */
  readonly joined: readonly Joined[];
  /** The strain of each product word, where orders name products. */
  readonly products: ReadonlyMap<string, readonly string[]>;
}

const EVIDENCE_ROWS = 5;

/** `Grow log!A4:H13` */
export const partText = ({ sheet, area }: Pick<Candidate, 'sheet' | 'area'>): string =>
  `${sheetText(sheet.name)}!${rangeOf(area)}`;

/** Fits a job to a book, as far as the answers go. */
export function fitJob(book: GrowersBook, jobName: JobName, answers: Answers, reader: Reader): Fit {
  const job = JOB[jobName];
  const questions: Question[] = [];
  const tables = new Map<TableName, TableFit>();
  const filled = new Map<TableName, readonly Readonly<Record<string, Answer>>[]>();
  const found = job.tables.map((table) => [table, candidateFor(book, table, answers)] as const);
  const elsewhere = provenAnywhere(found.flatMap(([, { candidate }]) => candidate ?? []));
  const unread: UnreadCell[] = [];
  for (const [table, { candidate, others, isAsked }] of found) {
    if (isAsked) {
      questions.push({ kind: 'table', table: table.name, choices: others.map(partText) });
      continue;
    }
    if (!candidate) continue;
    const fitted = fitTable(book, candidate, others, answers, elsewhere, reader);
    questions.push(...fitted.questions);
    unread.push(...fitted.unread);
    tables.set(table.name, fitted.table);
  }
  const joined = joinLabels(tables, reader, unread);
  for (const [table, { candidate, isAsked }] of found) {
    if (candidate || isAsked) continue;
    const given = answers.fill?.[table.name];
    if (given && given.length > 0) filled.set(table.name, given);
    const rows = table.name === 'strains' ? strainRows(tables) : [];
    if (!isFilledIn(table, given)) questions.push(fillQuestion(table, given ?? rows));
  }
  if (filled.has('strains')) joined.push(...joinStrains(tables, filled.get('strains')!, reader, unread));
  const products = productsOf(tables, filled, answers, questions);
  if (jobName === 'mix') {
    for (const figure of Object.keys(FIGURES) as FigureName[]) {
      if (isMissing(answers.figures?.[figure])) questions.push({ kind: 'figure', figure });
    }
  }
  return { job, book, answers, tables, filled, questions, unread, joined, products };
}

const isMissing = (answer: Answer | undefined): boolean =>
  answer === undefined || answer === null || answer === '';

/** Which part of the book serves for a table. */
function candidateFor(
  book: GrowersBook,
  table: WantedTable,
  answers: Answers,
): { candidate?: Candidate; others: readonly Candidate[]; isAsked: boolean } {
  const all = candidates(book, table);
  const said = answers.tables?.[table.name];
  if (said === 'none' && table.isAsked) return { others: all, isAsked: false };
  if (said !== undefined) {
    const chosen = partNamed(all, said);
    return chosen
      ? { candidate: chosen, others: all.filter((one) => one !== chosen), isAsked: false }
      : { others: all, isAsked: true };
  }
  const [best, second] = all;
  if (!best) return { others: [], isAsked: !table.isAsked };
  // Two that serve alike: only the grower knows which holds what is on the shelves.
  if (second && second.score >= best.score - 0.5 && second.missing.length === best.missing.length) {
    return { others: all, isAsked: true };
  }
  return { candidate: best, others: all.slice(1), isAsked: false };
}

/** The part that an answer names: a sheet, or a part of one by its first cell, since rows are added below. */
function partNamed(all: readonly Candidate[], said: string): Candidate | undefined {
  const [range, sheetName = range] = said.split(/!(?=[^!]*$)/).reverse() as [string, string?];
  const bare = sheetName.replace(/^'|'$/g, '').replaceAll("''", "'").trim().toLowerCase();
  const onSheet = all.filter(({ sheet }) => sheet.name.toLowerCase() === bare);
  const area = areaOf(range.replaceAll('$', ''));
  return (
    onSheet.find((one) => area && one.area.top === area.top && one.area.left === area.left) ??
    (onSheet.length === 1 ? onSheet[0] : undefined)
  );
}

function fitTable(
  book: GrowersBook,
  found: Candidate,
  others: readonly Candidate[],
  answers: Answers,
  elsewhere: ProvenElsewhere,
  reader: Reader,
): { table: TableFit; questions: Question[]; unread: UnreadCell[] } {
  const candidate = withColumns(found, answers.columns?.[found.table.name]);
  const questions: Question[] = [];
  const unread: UnreadCell[] = [];
  const orders = new Map<string, DateOrder>();
  const values = new Map<string, readonly Cell[]>();
  for (const name of candidate.missing) {
    const wanted = candidate.table.columns.find((one) => one.name === name)!;
    questions.push({
      kind: 'column',
      table: candidate.table.name,
      column: name,
      meaning: wanted.column.meaning,
      choices: choicesFor(candidate, wanted),
    });
  }
  const aboutOf = ({ name }: ColumnReading): string => `${candidate.table.name}, ${name}`;
  const all = readings(candidate).map((reading) => {
    const said = answers.decimals?.[aboutOf(reading)];
    return said ? { ...reading, decimalMark: said } : reading;
  });
  for (const reading of all) {
    const about = aboutOf(reading);
    const { proven } = reading;
    const order = answers.dates?.[about] ?? proven?.order;
    if (order) orders.set(reading.name, order);
    else if (proven?.isNeeded) {
      questions.push({
        kind: 'dates',
        about,
        texts: textDatesOf(candidate, reading).slice(0, EVIDENCE_ROWS),
        isContradicted: proven.isContradicted,
        elsewhere: elsewhere.order,
      });
    }
    // Dates in words need no order: any will do for them.
    const readAs = order ?? (proven && !proven.isNeeded ? 'day first' : undefined);
    if (readAs && !order) orders.set(reading.name, readAs);
    const read = readColumn(candidate, reading, readAs, reader);
    values.set(reading.name, read);
    const texts = eitherMark(candidate, reading, reader);
    if (texts.length > 0) {
      const asked = { about, texts: texts.slice(0, EVIDENCE_ROWS), elsewhere: elsewhere.mark };
      questions.push({ kind: 'decimals', ...asked });
    } else if (reading.conversion !== 'dates' || readAs) unread.push(...unreadIn(candidate, reading, read));
  }
  const evidence = candidate.dataRows
    .slice(0, EVIDENCE_ROWS)
    .map((row) =>
      Object.fromEntries(
        all.map(({ name, match }) => [name, shownAt(book, candidate, row, match.column)] as const),
      ),
    );
  return { table: { candidate, readings: all, orders, values, evidence, others }, questions, unread };
}

const textDatesOf = ({ sheet, dataRows }: Candidate, { match }: ColumnReading): string[] =>
  valuesOf(sheet, dataRows, match.column).filter(
    (value): value is string => typeof value === 'string' && isTextDate(value),
  );

/** What the grower sees in a cell. */
export function shownAt(
  { dateSystem }: GrowersBook,
  { sheet }: Pick<Candidate, 'sheet'>,
  row: number,
  column: number,
): string {
  const cell = cellAt(sheet, row, column);
  if (cell === null) return '';
  if (isCellError(cell)) return cell.code;
  if (typeof cell !== 'number') return String(cell);
  const format = sheet.formatAt(row, column);
  if (showsDate(format)) return writtenDate(Math.floor(cell), dateSystem);
  if (format?.includes('%')) return `${Number((cell * 100).toPrecision(12))}%`;
  return String(Number(cell.toPrecision(12)));
}

/** The candidate with the columns that the grower named in place of those that were proposed. */
function withColumns(
  candidate: Candidate,
  said: Readonly<Record<string, string | null>> | undefined,
): Candidate {
  if (!said) return candidate;
  const matches = candidate.matches.filter(({ wanted }) => !(wanted in said));
  for (const [wanted, header] of Object.entries(said)) {
    if (header === null) continue;
    const at = [...candidate.headers].find(([, one]) => headerKey(one) === headerKey(header));
    if (!at) continue;
    const [column, written] = at;
    const taken = matches.findIndex((match) => match.column === column);
    if (taken >= 0) matches.splice(taken, 1);
    matches.push({ wanted, header: written, column, by: 'you' });
  }
  const missing = candidate.table.columns
    .filter(({ name, isNeeded }) => isNeeded && !matches.some((match) => match.wanted === name))
    .map(({ name }) => name);
  return { ...candidate, matches: inOrder(candidate.table, matches), missing };
}

const inOrder = (table: WantedTable, matches: readonly ColumnMatch[]): ColumnMatch[] => {
  const at = ({ wanted }: ColumnMatch): number =>
    table.columns.findIndex(({ name }) => wanted === name || wanted.startsWith(`${name} `));
  return [...matches].sort((a, b) => at(a) - at(b));
};

/** Headers that could name a column, those first that no other column is matched with. */
export function choicesFor(candidate: Candidate, { name, column }: WantedColumn): string[] {
  const { headers, sheet, dataRows, matches } = candidate;
  return [...headers]
    .filter(([at]) => couldBe(column.kind.word, name, looksIn(sheet, dataRows, at)))
    .sort(([a], [b]) => Number(isTaken(matches, a)) - Number(isTaken(matches, b)))
    .map(([, header]) => header);
}

const isTaken = (matches: readonly ColumnMatch[], column: number): boolean =>
  matches.some((match) => match.column === column);

/** Figures of a column that a decimal point and a decimal comma both read, each as another. */
function eitherMark(candidate: Candidate, reading: ColumnReading, reader: Reader): string[] {
  if (reading.conversion !== 'figures' || reading.decimalMark !== undefined) return [];
  const values = valuesOf(candidate.sheet, candidate.dataRows, reading.match.column);
  const [asPoint, asComma] = (['point', 'comma'] as const).map((mark) =>
    reader.figures(values, reading.unit, mark),
  );
  return values.filter((value, i): value is string => {
    const [point, comma] = [asPoint![i], asComma![i]];
    return (
      typeof value === 'string' && typeof point === 'number' && typeof comma === 'number' && point !== comma
    );
  });
}

/** What text dates and figures prove somewhere in the book, where no others contradict it. */
interface ProvenElsewhere {
  readonly order: DateOrder | undefined;
  readonly mark: DecimalMark | undefined;
}

function provenAnywhere(found: readonly Candidate[]): ProvenElsewhere {
  const all = found.flatMap(readings);
  const only = <T>(proven: readonly T[]): T | undefined =>
    new Set(proven).size === 1 ? proven[0] : undefined;
  return {
    order: only(all.flatMap(({ proven }) => proven?.order ?? [])),
    mark: only(all.flatMap(({ decimalMark }) => decimalMark ?? [])),
  };
}

/** Puts labels of one table in the spelling of the table they refer to. */
function joinTo(
  fit: TableFit,
  column: string,
  list: readonly string[],
  reader: Reader,
  unread: UnreadCell[],
): Joined[] {
  const reading = fit.readings.find(({ name }) => name === column);
  const values = fit.values.get(column);
  if (!reading || !values || list.length === 0) return [];
  const table = fit.candidate.table.name;
  const read = reader.labels(values, list);
  // A pick of no lot stays as it was written: the audit says what lot it may be.
  const kept = table === 'harvests' ? read.map((cell, i) => (isCellError(cell) ? values[i]! : cell)) : read;
  (fit.values as Map<string, readonly Cell[]>).set(column, kept);
  const joined = new Map<string, Joined>();
  read.forEach((cell, i) => {
    const before = values[i]!;
    if (isBlank(before)) return;
    if (isCellError(cell)) {
      unread.push({
        sheet: fit.candidate.sheet.name,
        row: fit.candidate.dataRows[i]!,
        column: reading.match.column,
        about: `${fit.candidate.table.name}, ${column}`,
        held: before,
        why: reasonOf(cell),
      });
    } else if (textOf(cell) !== textOf(before)) {
      const key = `${textOf(before)}\n${textOf(cell)}`;
      const one = joined.get(key) ?? { table, label: textOf(before), as: textOf(cell), cells: 0 };
      joined.set(key, { ...one, cells: one.cells + 1 });
    }
  });
  return [...joined.values()];
}

export const labelsIn = (fit: TableFit | undefined, column: string): string[] => [
  ...new Set(
    (fit?.values.get(column) ?? []).flatMap((cell) =>
      isBlank(cell) || isCellError(cell) ? [] : [String(cell).trim()],
    ),
  ),
];

function joinLabels(tables: Map<TableName, TableFit>, reader: Reader, unread: UnreadCell[]): Joined[] {
  const [lots, strains, harvests] = [tables.get('lots'), tables.get('strains'), tables.get('harvests')];
  const joined: Joined[] = [];
  if (lots && strains) joined.push(...joinTo(lots, 'strain', labelsIn(strains, 'strain'), reader, unread));
  if (lots && harvests) joined.push(...joinTo(harvests, 'lot', labelsIn(lots, 'lot'), reader, unread));
  return joined;
}

const joinStrains = (
  tables: Map<TableName, TableFit>,
  rows: readonly Readonly<Record<string, Answer>>[],
  reader: Reader,
  unread: UnreadCell[],
): Joined[] => {
  const lots = tables.get('lots');
  const list = rows.flatMap(({ strain }) => (isMissing(strain) ? [] : [String(strain)]));
  return lots ? joinTo(lots, 'strain', list, reader, unread) : [];
};

/** The strains of the lots, each in its commonest spelling: what the grower is asked about. */
const strainRows = (tables: ReadonlyMap<TableName, TableFit>): { strain: string }[] =>
  commonest(
    (tables.get('lots')?.values.get('strain') ?? []).filter((cell) => !isBlank(cell) && !isCellError(cell)),
  ).map((strain) => ({ strain }));

const fillQuestion = (table: WantedTable, rows: readonly Readonly<Record<string, Answer>>[]): Question => ({
  kind: 'fill',
  table: table.name,
  columns: table.columns.filter(
    ({ column, isNeeded }) => isNeeded || column.role === 'numbered' || ASKED.has(table.name),
  ),
  rows,
});

/** Tables whose further columns are asked for as well: they change a plan more than they cost to type. */
const ASKED: ReadonlySet<TableName> = new Set<TableName>(['strains']);

const isFilledIn = (
  table: WantedTable,
  rows: readonly Readonly<Record<string, Answer>>[] | undefined,
): boolean =>
  rows !== undefined &&
  rows.length > 0 &&
  rows.every((row) => table.columns.every(({ name, isNeeded }) => !isNeeded || !isMissing(row[name])));

/** The strains of the products that orders name. */
function productsOf(
  tables: ReadonlyMap<TableName, TableFit>,
  filled: ReadonlyMap<TableName, readonly Readonly<Record<string, Answer>>[]>,
  answers: Answers,
  questions: Question[],
): ReadonlyMap<string, readonly string[]> {
  const orders = tables.get('orders');
  if (!orders) return new Map();
  const lots = tables.get('lots');
  const strains = [
    ...labelsIn(tables.get('strains'), 'strain'),
    ...(filled.get('strains') ?? []).flatMap(({ strain }) => (isMissing(strain) ? [] : [String(strain)])),
  ];
  const known = new Set(
    [...strains, ...labelsIn(lots, 'strain'), ...labelsIn(lots, 'product'), 'any'].map(looseKey),
  );
  const said = new Map(Object.entries(answers.products ?? {}).map(([word, of]) => [looseKey(word), of]));
  const words = labelsIn(orders, 'product').filter((word) => !known.has(looseKey(word)));
  const open = words.filter((word) => (said.get(looseKey(word)) ?? []).length === 0);
  if (open.length > 0) {
    const choices = strains.length > 0 ? strains : strainRows(tables).map(({ strain }) => strain);
    questions.push({ kind: 'products', words: open, strains: choices });
  }
  return new Map(
    words.flatMap((word) => {
      const of = said.get(looseKey(word));
      return of && of.length > 0 ? [[word, of] as const] : [];
    }),
  );
}
