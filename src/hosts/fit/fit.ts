import { writtenDate } from '../../worksheet/calendar';
import { isBlank, isCellError, type Cell, type CellError } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { areaOf, rangeOf } from '../xlsx/address';
import type { Answer, Answers } from './answers';
import { cellAt, placeText, sheetText, showsDate, textOf, type GrowersBook } from './book';
import {
  anyParts,
  candidates,
  couldBe,
  isDateColumn,
  isFigureColumn,
  isFor,
  looksIn,
  overlap,
  type Candidate,
  type ColumnMatch,
  type Place,
} from './find';
import { linkedByLabels } from './byLabels';
import { crosstabParts, knownAmong } from './crosstab';
import { headedDays, headedStrains, strainsInNames, strainsOfSheets } from './headings';
import { commonest, looseKey } from './labels';
import { legendFor } from './legend';
import { lotDayHeader, lotDayHint, lotDays, readFromNames } from './lotDays';
import {
  JOB,
  LIMITS,
  SHARES,
  type Job,
  type JobName,
  type TableName,
  type WantedColumn,
  type WantedTable,
} from './jobs';
import {
  cellsAbove,
  isFromElsewhere,
  readColumn,
  readEitherWay,
  readings,
  reasonOf,
  unreadIn,
  valuesOf,
  type ColumnReading,
  type Reader,
  type UnreadCell,
  type YearTurn,
} from './reading';
import { mayBeAlike, saidOfAll } from './saidOfAll';
import { yearTurn } from './years';
import { areAlike, areOfOneKind, everyWeek, isOfPeriod, stacked } from './stack';
import { isOfLeft } from './naming';
import { struckRecords, withoutStruck } from './struck';
import { unaccented } from './otherLanguages';
import { wideParts } from './wide';
import { limitRows, saidLimit, type SaidLimit } from './pickLimit';
import type { DecimalMark } from './units';
import type { DateOrder } from '../../worksheet/writtenDates';
import { isDitto, isTextDate, lacksYear } from './values';

/** What only the grower can know. Without an answer nothing that depends on it is written. */
export type Question =
  | {
      readonly kind: 'table';
      readonly table: TableName;
      /** Parts of the book to choose from; none where no sheet could serve. */
      readonly choices: readonly string[];
      /** Whether none of them has the headers that are needed. */
      readonly isGuess: boolean;
    }
  | {
      readonly kind: 'column';
      readonly table: TableName;
      readonly column: string;
      readonly meaning: string;
      readonly choices: readonly string[];
      /** Whether the book may have no such column. */
      readonly mayBeNone: boolean;
      /** Whether one figure for all records answers it as well. */
      readonly mayBeAlike?: boolean;
      /** What else of the book may say it. */
      readonly hint?: string;
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
      readonly kind: 'years';
      /** `lots, inoculated` */
      readonly about: string;
      readonly texts: readonly string[];
      /** The only year that the sheet's name or the cells above the table say. */
      readonly elsewhere: number | undefined;
      /** Where they pass New Year: the year asked is that of the earlier ones. */
      readonly turn: YearTurn | undefined;
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
      readonly kind: 'blanks';
      /** `orders, due` */
      readonly about: string;
      /** The blank cells below filled ones. */
      readonly places: readonly string[];
    }
  | {
      readonly kind: 'struck';
      readonly table: TableName;
      /** A cell of each row that is struck out. */
      readonly places: readonly string[];
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
      /** How many columns one that is numbered has. */
      readonly numbers: number;
      /** Rows to begin with: the strains of the lots. */
      readonly rows: readonly Readonly<Record<string, Answer>>[];
      /** What the book says of it, in words that no formula reads. */
      readonly said?: SaidLimit;
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
export const partText = ({ sheet, area, block, parts }: Candidate): string =>
  parts ? [...new Set(parts.map(partText))].join('; ') : `${sheetText(sheet.name)}!${rangeOf(block ?? area)}`;

/** Fits a job to a book, as far as the answers go. */
export function fitJob(book: GrowersBook, jobName: JobName, answers: Answers, reader: Reader): Fit {
  const job = JOB[jobName];
  const questions: Question[] = [];
  const tables = new Map<TableName, TableFit>();
  const filled = new Map<TableName, readonly Readonly<Record<string, Answer>>[]>();
  const isKnown = knownLabels(book, job, answers);
  const chosen = eachOnce(job.tables, (table, taken) => candidateFor(book, table, answers, taken, isKnown));
  const named = chosen.flatMap(([{ name }, { candidate, isAsked }]) =>
    candidate && !isAsked ? [[name, withColumns(candidate, answers.columns?.[name])] as const] : [],
  );
  const linked = linkedByLabels(new Map(named), answers);
  const found = chosen.map(
    ([table, one]) =>
      [table, linked.has(table.name) ? { ...one, candidate: linked.get(table.name)! } : one] as const,
  );
  const elsewhere = provenAnywhere(found.flatMap(([, { candidate }]) => candidate ?? []));
  const unread: UnreadCell[] = [];
  const strains = strainsIn(found.find(([{ name }]) => name === 'strains')?.[1].candidate, answers);
  for (const [table, { candidate, others, isAsked }] of found) {
    if (isAsked) {
      const isGuess = others.every(({ missing }) => missing.length > 0);
      questions.push({ kind: 'table', table: table.name, choices: others.map(partText), isGuess });
      continue;
    }
    if (!candidate) continue;
    const fitted = fitTable(book, candidate, others, answers, elsewhere, strains, reader);
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
  joined.push(...joinProducts(tables, filled, reader));
  const shares = sharesOf(tables.get('strains'), answers);
  if (shares?.question) questions.push(shares.question);
  else if (shares) filled.set('shares', shares.rows);
  const products = productsOf(tables, filled, answers, questions);
  if (jobName === 'plan') {
    const given = answers.fill?.['calendar'];
    const said = saidLimit(book);
    if (isFilledIn(LIMITS, given)) filled.set('calendar', given!);
    else if (said) questions.push({ ...fillQuestion(LIMITS, limitRows(said, given)), said });
  }
  if (jobName === 'mix') {
    for (const figure of Object.keys(FIGURES) as FigureName[]) {
      if (isMissing(answers.figures?.[figure])) questions.push({ kind: 'figure', figure });
    }
  }
  return { job, book, answers, tables, filled, questions, unread, joined, products };
}

/** The names of the strains, from their table or as the grower filled them in. */
function strainsIn(candidate: Candidate | undefined, answers: Answers): string[] {
  const match = candidate?.matches.find(({ wanted }) => wanted === 'strain');
  const cells = match
    ? valuesOf(candidate!.sheet, candidate!.dataRows, match.column)
    : (answers.fill?.['strains'] ?? []).map(({ strain }) => strain ?? null);
  return cells.flatMap((cell) => (isBlank(cell) || isCellError(cell) ? [] : [String(cell).trim()]));
}

const isMissing = (answer: Answer | undefined): boolean =>
  answer === undefined || answer === null || answer === '';

interface Chosen {
  readonly candidate?: Candidate;
  readonly others: readonly Candidate[];
  readonly isAsked: boolean;
}

/** Whether a label names something that columns of a block may be for: a strain, or what it is sold as; a lot. */
function knownLabels(book: GrowersBook, { tables, name }: Job, answers: Answers): (label: string) => boolean {
  const labelsOf = (wanted: TableName, isLabel: (column: string) => boolean): string[] => {
    const table = tables.find((one) => one.name === wanted);
    return (table ? candidates(book, table) : []).flatMap(({ sheet, dataRows, matches }) =>
      matches
        .filter((match) => isLabel(match.wanted))
        .flatMap(({ column }) => valuesOf(sheet, dataRows, column))
        .flatMap((cell) => (typeof cell === 'string' && !isBlank(cell) ? [cell.trim()] : [])),
    );
  };
  if (name === 'audit')
    return knownAmong(
      labelsOf('lots', (column) => column === 'lot'),
      false,
    );
  const isName = (column: string): boolean => column === 'strain' || column === 'product';
  const filled = (answers.fill?.['strains'] ?? []).flatMap(({ strain }) => (strain ? [String(strain)] : []));
  return knownAmong(
    [
      ...labelsOf('strains', isName),
      ...labelsOf('lots', isName),
      ...filled,
      ...Object.keys(answers.products ?? {}),
    ],
    true,
  );
}

/** Chooses for each table, the surest first: a part of the book that serves for one does not serve for another. */
function eachOnce(
  tables: readonly WantedTable[],
  choose: (table: WantedTable, taken: readonly Candidate[]) => Chosen,
): (readonly [WantedTable, Chosen])[] {
  const taken: Candidate[] = [];
  const chosen = new Map<WantedTable, Chosen>();
  const sureness = (table: WantedTable): number => choose(table, []).candidate?.score ?? -Infinity;
  const surest = tables.map((table) => [table, sureness(table)] as const).sort(([, a], [, b]) => b - a);
  for (const [table] of surest) {
    const one = choose(table, taken);
    chosen.set(table, one);
    if (one.candidate) taken.push(...(one.candidate.parts ?? [one.candidate]));
  }
  return tables.map((table) => [table, chosen.get(table)!]);
}

/** The picks of an audit: dates and masses of strains look like orders. */
const HARVESTS = JOB.audit.tables.find(({ name }) => name === 'harvests')!;
const arePicks = ({ missing, matches }: Candidate): boolean =>
  missing.length === 0 && matches.some(({ wanted, by }) => wanted === 'lot' && by !== 'a name like it');

/** The orders of a plan: what customers wait for looks like lots where the job asks for no orders. */
const ORDERS = JOB.plan.tables.find(({ name }) => name === 'orders')!;
const areOrders = ({ missing, matches }: Candidate): boolean =>
  missing.length === 0 &&
  matches.some(({ wanted, by }) => wanted === 'due' && (by === 'its name' || by === 'another name'));

/** The strains that any list of the book names: sheets may be named after them. */
const strainNames = (book: GrowersBook): ReadonlySet<string> =>
  new Set(
    candidates(book, READY_STRAINS).flatMap(({ sheet, dataRows, matches }) =>
      matches
        .filter(({ wanted }) => wanted === 'strain')
        .flatMap(({ column }) => valuesOf(sheet, dataRows, column).map((cell) => looseKey(textOf(cell)))),
    ),
  );
const READY_STRAINS = JOB.ready.tables.find(({ name }) => name === 'strains')!;

/** Parts of the book that are surely something else than this table. */
function othersThan({ name }: WantedTable, book: GrowersBook): Candidate[] {
  if (name === 'orders') return candidates(book, HARVESTS).filter(arePicks);
  return name === 'lots' ? candidates(book, ORDERS).filter(areOrders) : [];
}

/** Which part of the book serves for a table. */
function candidateFor(
  book: GrowersBook,
  table: WantedTable,
  answers: Answers,
  taken: readonly Candidate[],
  isKnown: (label: string) => boolean,
): Chosen {
  const blocks = crosstabParts(book, table, isKnown);
  const wide = table.name === 'harvests' ? wideParts(book, table) : [];
  const elsewhere = othersThan(table, book);
  const plain = candidates(book, table).filter(
    (one) =>
      !wide.some(({ on, part }) => on === one.sheet && part.area.top === one.area.top) &&
      !blocks.some((part) => overlap(part, one)) &&
      !elsewhere.some((other) => overlap(one, other) && other.score > one.score),
  );
  const together = blocks.length > 0 ? [stacked(blocks)] : [];
  const every = [...together, ...wide.map(({ part }) => part), ...plain];
  const all = [
    ...together,
    ...(wide.length > 0 ? [stacked(wide.map(({ part }) => part))] : []),
    ...plain,
  ].filter((one) => !taken.some((other) => overlap(one, other)));
  const said = answers.tables?.[table.name];
  if (said === 'none' && table.isAsked) return { others: all, isAsked: false };
  const unnamed = (): Candidate[] =>
    anyParts(book, table).filter((one) => ![...taken, ...elsewhere].some((other) => overlap(one, other)));
  if (said !== undefined) {
    const chosen = partsNamed(every, said) ?? partsNamed(unnamed(), said);
    return chosen
      ? { candidate: chosen, others: all.filter((one) => one !== chosen), isAsked: false }
      : { others: all.length > 0 ? all : unnamed(), isAsked: true };
  }
  const [best, second] = all;
  if (!best) {
    const parts = unnamed();
    const [only, ...more] = parts.filter(
      (one) => table.sheetWords.test(one.sheet.name) && one.matches.length > 0,
    );
    // The only table of a sheet whose name says what is on it: what is missing is asked.
    if (only && more.length === 0)
      return { candidate: only, others: parts.filter((one) => one !== only), isAsked: false };
    return { others: table.isAsked ? [] : parts, isAsked: !table.isAsked };
  }
  // The same table on several sheets: one a month is one table; of others only the grower knows.
  const inOrder = (parts: readonly Candidate[]): Candidate[] =>
    [...parts].sort((a, b) => book.sheets.indexOf(a.sheet) - book.sheets.indexOf(b.sheet));
  const alike = inOrder(all.filter((one) => one === best || areAlike(best, one)));
  if (alike.length > 1 && (alike.every(isOfPeriod) || areOfOneKind(alike, strainNames(book)))) {
    return { candidate: stacked(alike), others: all, isAsked: false };
  }
  if (second && second.score >= best.score - 0.5 && second.missing.length === best.missing.length) {
    return { others: alike.length > 1 ? [...all, stacked(alike)] : all, isAsked: true };
  }
  return { candidate: best, others: all.slice(1), isAsked: false };
}

/** The parts that an answer names, as one. */
function partsNamed(all: readonly Candidate[], said: string): Candidate | undefined {
  const blocks = all.find(({ parts }) => parts?.some(({ block }) => block));
  if (blocks && partText(blocks).split(':')[0] === said.replaceAll('$', '').split(':')[0]) return blocks;
  const parts = said.split('; ').map((one) => partNamed(all, one));
  const found = parts.filter((part) => part !== undefined);
  return found.length === parts.length && found.length > 0 ? stacked(found) : undefined;
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
  strains: readonly string[],
  reader: Reader,
): { table: TableFit; questions: Question[]; unread: UnreadCell[] } {
  const whole = overWeeks(withoutUsedUp(found), answers);
  // A lot that is struck out for it is finished keeps its picks: an audit wants it.
  const isKept = whole.table.name === 'lots' && !whole.table.columns.some((one) => one.isOfWhatIsLeft);
  const struck = isKept ? new Map<number, Place>() : struckRecords(book, whole);
  const struckMeaning = answers.struck?.[whole.table.name];
  const named = struckMeaning === 'left out' ? withoutStruck(whole, struck) : whole;
  const headed = named.missing.includes('strain')
    ? (headedStrains(named, strains, reader) ??
      strainsInNames(named, strains) ??
      strainsOfSheets(named, strains, reader))
    : undefined;
  const days = headedDays(named);
  // Only where nothing else says when a lot was made.
  const inNames = named.missing.includes('inoculated') && !days ? lotDays(named, book.dateSystem) : [];
  const saidDay = answers.columns?.[named.table.name]?.['inoculated'];
  const fromName = inNames.length > 0 ? readFromNames(named, saidDay, book.dateSystem) : undefined;
  const alike = saidOfAll(named, answers, reader);
  const fromHeadings = [headed, days, fromName, ...alike].filter((one) => one !== undefined);
  const candidate = {
    ...named,
    missing: named.missing.filter((name) => !fromHeadings.some((one) => one.name === name)),
  };
  const questions: Question[] = [];
  const unread: UnreadCell[] = [];
  const orders = new Map<string, DateOrder>();
  const values = new Map<string, readonly Cell[]>();
  for (const name of candidate.missing) {
    const wanted = candidate.table.columns.find((one) => one.name === name)!;
    const ofNames = name === 'inoculated' ? inNames : [];
    questions.push({
      kind: 'column',
      table: candidate.table.name,
      column: name,
      meaning: wanted.column.meaning,
      choices: [
        ...ofNames.map(lotDayHeader),
        ...choicesFor(candidate, wanted).filter((header) => hasContent(candidate, header)),
      ],
      mayBeNone: false,
      mayBeAlike: mayBeAlike(candidate, name),
      ...(ofNames.length > 0 && { hint: lotDayHint(candidate, ofNames, book.dateSystem) }),
    });
  }
  if (struck.size > 0 && !struckMeaning) {
    const places = new Set([...struck.values()].map(placeOf));
    questions.push({ kind: 'struck', table: whole.table.name, places: [...places] });
  }
  const gap = lackingGap(candidate, answers);
  if (gap) questions.push(gap);
  const doubt = doubtfulLoaded(candidate, answers);
  if (doubt) questions.push(doubt);
  const aboutOf = ({ name }: ColumnReading): string => `${candidate.table.name}, ${name}`;
  // Dates in words need no order: any will do for them.
  const orderOf = (reading: ColumnReading): DateOrder | undefined =>
    answers.dates?.[aboutOf(reading)] ??
    reading.proven?.order ??
    (reading.proven && !reading.proven.isNeeded ? 'day first' : undefined);
  const own = readings(candidate);
  const inWords = (reading: ColumnReading): ColumnReading => {
    if (candidate.table.name !== 'lots' || reading.name !== 'strain' || reading === headed) return reading;
    const labels = valuesOf(candidate.sheet, candidate.dataRows, reading.match.column).filter(
      (cell) => !isDitto(cell),
    );
    const legend = legendFor(book, labels, strains);
    return legend ? { ...reading, legend } : reading;
  };
  const all = [...own.slice(0, 1), ...fromHeadings, ...own.slice(1)].map(inWords).map((reading) => {
    const said = answers.decimals?.[aboutOf(reading)];
    const isFilledDown = answers.blanks?.[aboutOf(reading)] === 'as above';
    const year = reading.proven?.lacksYear ? (answers.years?.[aboutOf(reading)] ?? undefined) : undefined;
    const order = orderOf(reading);
    const turn =
      reading.proven?.lacksYear && order
        ? yearTurn(textDatesOf(candidate, reading, reader), order, reader, book.dateSystem)
        : undefined;
    return {
      ...reading,
      ...(turn && { turn }),
      ...(year !== undefined && { year }),
      ...(said && { decimalMark: said }),
      ...(isFilledDown && { isFilledDown }),
    };
  });
  for (const reading of all) {
    const about = aboutOf(reading);
    const { proven } = reading;
    const readAs = orderOf(reading);
    if (readAs) orders.set(reading.name, readAs);
    else if (proven?.isNeeded) {
      questions.push({
        kind: 'dates',
        about,
        texts: textDatesOf(candidate, reading, reader).slice(0, EVIDENCE_ROWS),
        isContradicted: proven.isContradicted,
        elsewhere: elsewhere.order,
      });
    }
    const isYearOpen = proven?.lacksYear === true && reading.year === undefined;
    if (isYearOpen) {
      const texts = textDatesOf(candidate, reading, reader).filter(lacksYear).slice(0, EVIDENCE_ROWS);
      questions.push({ kind: 'years', about, texts, elsewhere: yearOver(candidate), turn: reading.turn });
    }
    const read = readColumn(candidate, reading, readAs, reader);
    values.set(reading.name, read);
    const cells = valuesOf(candidate.sheet, candidate.dataRows, reading.match.column);
    const texts = readEitherWay(cells, reading, reader).map((i) => textOf(cells[i]!));
    if (texts.length > 0) {
      const asked = { about, texts: texts.slice(0, EVIDENCE_ROWS), elsewhere: elsewhere.mark };
      questions.push({ kind: 'decimals', ...asked });
    } else if (proven === undefined || readAs) {
      // What no year makes a date is told before the year is.
      const asked = isYearOpen ? { ...reading, year: ANY_YEAR } : reading;
      const told = isYearOpen ? readColumn(candidate, asked, readAs, reader) : read;
      // A cell that several parts read is told once.
      const found = new Map(unreadIn(candidate, asked, told).map((one) => [placeOf(one), one]));
      const open = answers.blanks?.[about] ? [] : blanksBelow(candidate, reading);
      const places = [...new Set([...found.values()].filter(({ held }) => isBlank(held)).map(placeOf))];
      if (open.length > 0 && places.length > 0) questions.push({ kind: 'blanks', about, places });
      unread.push(...found.values());
    }
  }
  const evidence = candidate.dataRows
    .slice(0, EVIDENCE_ROWS)
    .map((row) =>
      Object.fromEntries(
        all.map((reading) => [reading.name, evidenceOf(book, candidate, row, reading)] as const),
      ),
    );
  return { table: { candidate, readings: all, orders, values, evidence, others }, questions, unread };
}

/** In a leap year 29 February is a day. */
const ANY_YEAR = 2024;

/** The days that a plan has where nobody says. */
export const USUAL_DAYS = 28;

/** Orders with a day of the week in the place of a day, once for every week of the plan. */
function overWeeks(candidate: Candidate, answers: Answers): Candidate {
  const due = readings(candidate).find(({ name }) => name === 'due');
  if (due?.conversion !== 'weekdays') return candidate;
  const days = Number(answers.figures?.['days'] ?? USUAL_DAYS);
  return everyWeek(
    candidate,
    due.match.column,
    Math.max(1, Math.min(53, Math.ceil((days > 0 ? days : USUAL_DAYS) / 7))),
  );
}

/** 0, as figures or as text writes it. */
const NOTHING = /^\s*0+(?:[.,]0+)?\s*$/;

/** Lots without those that have none left, where a column says how many there are. */
function withoutUsedUp(candidate: Candidate): Candidate {
  const { matches, table, sheet, dataRows, parts } = candidate;
  const left = matches.find(
    ({ wanted, header }) =>
      isOfLeft(header) && table.columns.some((one) => one.isOfWhatIsLeft && one.name === wanted),
  )?.column;
  if (left === undefined) return candidate;
  const textAt = (row: number): string => textOf(cellAt(sheet, row, left));
  const own = dataRows.filter((row) => !NOTHING.test(textAt(row)));
  const noneLeft = [...new Set(['0', ...dataRows.map(textAt).filter((text) => NOTHING.test(text))])];
  return {
    ...candidate,
    left,
    noneLeft,
    dataRows: own,
    usedUp: dataRows.length - own.length,
    ...(parts && { parts: parts.map((part) => ({ ...part, left, noneLeft })) }),
  };
}

const textDatesOf = (
  { sheet, dataRows }: Candidate,
  { match, dayRows, lotDay }: ColumnReading,
  reader: Reader,
): string[] =>
  valuesOf(sheet, dayRows ? [...new Set(dayRows.values())] : dataRows, match.column)
    .map((value) => (lotDay ? reader.lotDay(value, lotDay) : value))
    .filter((value): value is string => typeof value === 'string' && isTextDate(value));

/** Rows above a table in which the year of its records may stand. */
const ABOVE = 4;

/** The only year that the name of a sheet or the cells above its table say. */
function yearOver(candidate: Candidate): number | undefined {
  const parts = candidate.parts ?? [candidate];
  const texts = parts.flatMap(({ sheet, area }) => [
    sheet.name,
    ...sheet.rows.slice(Math.max(0, area.top - ABOVE), area.top).flatMap((cells) => cells.map(textOf)),
  ]);
  const years = new Set(texts.flatMap((text) => text.match(/(?<!\d)20\d\d(?!\d)/g) ?? []));
  return years.size === 1 ? Number([...years][0]) : undefined;
}

const placeOf = ({ sheet, row, column }: Place): string => placeText(sheet, row, column);

/** The blank cells of a needed column of days or labels that lie below a filled one: a day written once for many rows. */
function blanksBelow(
  candidate: Candidate,
  { wanted, match, conversion, isFilledDown }: ColumnReading,
): number[] {
  const isSaidOnce = isDateColumn(wanted) || !isFigureColumn(wanted);
  if (!wanted.isNeeded || !isSaidOnce || isFilledDown || isFromElsewhere(conversion)) return [];
  const filled = cellsAbove(candidate, match.column);
  const blanks = candidate.dataRows.filter(
    (row) => isBlank(cellAt(candidate.sheet, row, match.column)) && !isBlank(filled(row)),
  );
  return blanks.length >= FEWEST_BLANKS && blanks.length >= BLANK_SHARE * candidate.dataRows.length
    ? blanks
    : [];
}

/** Fewer blanks are cells that were forgotten, not days written once. */
const [FEWEST_BLANKS, BLANK_SHARE] = [2, 0.2];

/** What is read of a record, as the grower wrote it. */
function evidenceOf(
  book: GrowersBook,
  candidate: Candidate,
  row: number,
  { match, headings, dayRows, rest, unit, said }: ColumnReading,
): string {
  if (said) return said.text;
  if (headings) return headings.get(row) ?? '';
  if (dayRows) return dayRows.has(row) ? shownAt(book, candidate, dayRows.get(row)!, match.column) : '';
  const own = shownAt(book, candidate, row, match.column);
  const more = rest ? shownAt(book, candidate, row, rest.column) : '';
  return rest && more !== '' ? `${own === '' ? '' : `${own} ${unit} `}${more} ${rest.unit}` : own;
}

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
    // Answers hold for all jobs, of which each takes its own columns.
    if (header === null || !candidate.table.columns.some((one) => isFor(one, wanted))) continue;
    const headers = [...candidate.headers];
    const at =
      headers.find(([, one]) => one === header) ??
      headers.find(([, one]) => headerKey(one) === headerKey(header));
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

/**
 * Lots that are loaded already are not ready, and not to be planned again: where no column is known to say so, and one of
 * days is read by nothing, only the grower knows.
 */
function doubtfulLoaded(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, matches } = candidate;
  const wanted = table.columns.find(({ name }) => name === 'loaded');
  const isSaid = answers.columns?.[table.name]?.['loaded'] !== undefined;
  if (table.name !== 'lots' || !wanted || isSaid || matches.some((one) => one.wanted === 'loaded'))
    return undefined;
  // What is left says it already.
  if (candidate.left !== undefined) return undefined;
  const days = unreadHeaders(candidate).filter(([at, header]) => {
    if (OF_PICKS.test(unaccented(header))) return false;
    const looks = looksIn(candidate.sheet, candidate.dataRows, at);
    return (looks.get('date') ?? 0) + (looks.get('text date') ?? 0) > 0;
  });
  if (days.length === 0) return undefined;
  return {
    kind: 'column',
    table: table.name,
    column: 'loaded',
    meaning: wanted.column.meaning,
    choices: days.map(([, header]) => header),
    mayBeNone: true,
  };
}

/** Days of picks beside their lots. */
const OF_PICKS =
  /\b(?:flush|break|wave|pick|picked|harvest|harvested|schub|welle|ernte|volee|recolte|oleada|cosecha|vlucht|oogst|volata|raccolta|rzut|zbior)(?=\b|\d)/i;

/** Strains with shares of several flushes need the days between them. */
function lackingGap(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, matches } = candidate;
  const wanted = table.columns.find(({ name }) => name === 'flush gap');
  const isThere =
    matches.some((match) => match.wanted === 'flush gap') ||
    answers.columns?.[table.name]?.['flush gap'] !== undefined;
  const flushes = matches.filter((match) => /^flush \d+$/.test(match.wanted)).length;
  if (table.name !== 'strains' || !wanted || isThere || flushes < 2) return undefined;
  return {
    kind: 'column',
    table: table.name,
    column: 'flush gap',
    meaning: wanted.column.meaning,
    choices: choicesFor(candidate, wanted),
    mayBeNone: false,
  };
}

/** Headers of a table that nothing reads, by their columns. */
export const unreadHeaders = ({ headers, matches }: Candidate): (readonly [number, string])[] =>
  [...headers].filter(([at]) => !matches.some(({ column }) => column === at));

/** Headers that could name a column, those first that no other column is matched with. */
export function choicesFor(candidate: Candidate, { name, column }: WantedColumn): string[] {
  const { headers, sheet, dataRows, matches } = candidate;
  return [...headers]
    .filter(
      ([at, header]) =>
        couldBe(column.kind.word, name, looksIn(sheet, dataRows, at)) &&
        !(name === 'inoculated' && OF_PICKS.test(unaccented(header))),
    )
    .sort(([a], [b]) => Number(isTaken(matches, a)) - Number(isTaken(matches, b)))
    .map(([, header]) => header);
}

/** Whether anything is in a column: nothing is learnt by asking about one that is empty. */
const hasContent = ({ headers, sheet, dataRows }: Candidate, header: string): boolean =>
  [...headers].some(
    ([at, one]) => one === header && valuesOf(sheet, dataRows, at).some((cell) => !isBlank(cell)),
  );

const isTaken = (matches: readonly ColumnMatch[], column: number): boolean =>
  matches.some((match) => match.column === column);

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

/** Why a label is none of a list; one that is near to two of them says so itself. */
const notAmong = (cell: CellError, among: TableName): string =>
  / is not in list$/.test(reasonOf(cell)) ? `is not among your ${among}` : reasonOf(cell);

/** Puts labels of one table in the spelling of the table they refer to. */
function joinTo(
  fit: TableFit,
  column: string,
  list: readonly string[],
  among: TableName,
  reader: Reader,
  unread: UnreadCell[],
): Joined[] {
  const reading = fit.readings.find(({ name }) => name === column);
  const values = fit.values.get(column);
  if (!reading || !values || list.length === 0) return [];
  const table = fit.candidate.table.name;
  const read = reader.labels(values, list);
  const joined = new Map<string, Joined>();
  read.forEach((cell, i) => {
    const before = values[i]!;
    if (isBlank(before)) return;
    if (isCellError(cell)) {
      unread.push({
        ...fit.candidate.origin(fit.candidate.dataRows[i]!, reading.match.column),
        about: `${fit.candidate.table.name}, ${column}`,
        held: before,
        why: notAmong(cell, among),
      });
    } else if (textOf(cell) !== textOf(before)) {
      const key = `${textOf(before)}\n${textOf(cell)}`;
      const one = joined.get(key) ?? { table, label: textOf(before), as: textOf(cell), cells: 0 };
      joined.set(key, { ...one, cells: one.cells + 1 });
    }
  });
  if (joined.size > 0) {
    // A pick of no lot stays as it was written: the audit says what lot it may be.
    const kept = table === 'harvests' ? read.map((cell, i) => (isCellError(cell) ? values[i]! : cell)) : read;
    (fit.values as Map<string, readonly Cell[]>).set(column, kept);
  }
  return [...joined.values()];
}

export const labelsIn = (fit: TableFit | undefined, column: string): string[] => [
  ...new Set(
    (fit?.values.get(column) ?? []).flatMap((cell) =>
      isBlank(cell) || isCellError(cell) ? [] : [String(cell).trim()],
    ),
  ),
];

/** Labels of a column, of the records whose needed cells are all there. */
function readLabels({ candidate, readings, values }: TableFit, column: string): string[] {
  const needed = readings.filter(({ wanted }) => wanted.isNeeded).map(({ name }) => values.get(name)!);
  const own = values.get(column) ?? [];
  return [
    ...new Set(
      candidate.dataRows.flatMap((_, i) =>
        needed.some((cells) => isBlank(cells[i]) || isCellError(cells[i]!)) ? [] : [textOf(own[i]!).trim()],
      ),
    ),
  ];
}

function joinLabels(tables: Map<TableName, TableFit>, reader: Reader, unread: UnreadCell[]): Joined[] {
  const [lots, strains, harvests] = [tables.get('lots'), tables.get('strains'), tables.get('harvests')];
  const joined: Joined[] = [];
  if (lots && strains)
    joined.push(...joinTo(lots, 'strain', labelsIn(strains, 'strain'), 'strains', reader, unread));
  if (lots && harvests)
    joined.push(...joinTo(harvests, 'lot', labelsIn(lots, 'lot'), 'lots', reader, unread));
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
  return lots ? joinTo(lots, 'strain', list, 'strains', reader, unread) : [];
};

/** Products of orders in the spelling of the strains, or of what these are sold as, where that leaves none over. */
function joinProducts(
  tables: Map<TableName, TableFit>,
  filled: ReadonlyMap<TableName, readonly Readonly<Record<string, Answer>>[]>,
  reader: Reader,
): Joined[] {
  const orders = tables.get('orders');
  const products = orders?.values.get('product');
  if (!orders || !products) return [];
  const given = filled.get('strains') ?? [];
  const strains = tables.get('strains');
  const sold = labelsIn(strains, 'product');
  const list =
    sold.length > 0
      ? sold
      : strains
        ? labelsIn(strains, 'strain')
        : given.flatMap(({ strain }) => (isMissing(strain) ? [] : [String(strain)]));
  if (list.length === 0) return [];
  const isOther = reader.labels(products, list).some((cell, i) => !isBlank(products[i]) && isCellError(cell));
  return isOther ? [] : joinTo(orders, 'product', list, 'strains', reader, []);
}

/** The strains of the lots, each in its commonest spelling: what the grower is asked about. */
const strainRows = (tables: ReadonlyMap<TableName, TableFit>): { strain: string }[] =>
  commonest(
    (tables.get('lots')?.values.get('strain') ?? []).filter((cell) => !isBlank(cell) && !isCellError(cell)),
  ).map((strain) => ({ strain }));

/** The shares of the flushes, where the strains' sheet says how many there are and no more; undefined where it says all. */
function sharesOf(
  strains: TableFit | undefined,
  answers: Answers,
): { readonly question?: Question; readonly rows: readonly Readonly<Record<string, Answer>>[] } | undefined {
  if (!strains?.candidate.table.columns.some(({ name }) => name === 'flush')) return undefined;
  const has = (wanted: RegExp): boolean => strains.readings.some(({ name }) => wanted.test(name));
  if (!has(/^flushes$/) || has(/^flush \d+$/)) return undefined;
  const [names, counts] = [strains.values.get('strain') ?? [], strains.values.get('flushes')!];
  const kept = names.flatMap((strain, i) => {
    const flushes = counts[i];
    const isKnown = !isBlank(strain) && !isCellError(strain) && typeof flushes === 'number' && flushes >= 1;
    return isKnown ? [{ strain: textOf(strain).trim(), flushes: Math.floor(flushes) }] : [];
  });
  const numbers = Math.max(0, ...kept.map(({ flushes }) => flushes));
  if (numbers < 2 || numbers > MOST_FLUSHES) return undefined;
  const given = new Map(
    (answers.fill?.['shares'] ?? []).map((row) => [looseKey(String(row['strain'] ?? '')), row]),
  );
  const rows = kept.map(({ strain, flushes }) => {
    const own = given.get(looseKey(strain));
    const first = flushes === 1 ? '100%' : null;
    return { 'flush 1': first, ...own, strain };
  });
  const isOpen = kept.some(({ flushes }, i) =>
    Array.from({ length: flushes }, (_, at) => `flush ${at + 1}`).some((name) =>
      isMissing((rows[i] as Readonly<Record<string, Answer>>)[name]),
    ),
  );
  if (!isOpen) return { rows };
  return { rows, question: { ...fillQuestion(SHARES, rows), numbers } };
}

/** More flushes than these are a slip. */
const MOST_FLUSHES = 6;

const fillQuestion = (
  table: WantedTable,
  rows: readonly Readonly<Record<string, Answer>>[],
): Question & { kind: 'fill' } => ({
  kind: 'fill',
  numbers: 2,
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
    [
      ...strains,
      ...labelsIn(tables.get('strains'), 'product'),
      ...labelsIn(lots, 'strain'),
      ...labelsIn(lots, 'product'),
      'any',
    ].map(looseKey),
  );
  const said = new Map(Object.entries(answers.products ?? {}).map(([word, of]) => [looseKey(word), of]));
  // Shiitake and shiitake are one question; of an order that cannot be read nothing is asked.
  const asked = new Map(
    readLabels(orders, 'product')
      .reverse()
      .map((word) => [looseKey(word), word]),
  );
  const words = [...asked].flatMap(([own, word]) => (known.has(own) ? [] : [word])).reverse();
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
