import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { DateOrder } from '../../worksheet/writtenDates';
import type { Answers } from './answers';
import { asAnswered } from './asAnswered';
import { placeText, textOf, type GrowersBook } from './book';
import { blanksBelow, isMergedDown } from './blankCells';
import type { Candidate, Place } from './candidate';
import { doubtfulLeft, doubtfulLoaded, doubtfulMass } from './columnChoices';
import { withDayBeside } from './dayBeside';
import { ANY_YEAR, textDatesOf, weekTextsOf, yearAmong, yearOver } from './dateTexts';
import { readEitherWay } from './eitherWay';
import { wetMasses, withoutDryAlone } from './dryBlocks';
import { evidenceOf } from './evidence';
import type { TableFit } from './fitted';
import { withFirstLoads } from './firstLoads';
import { isFlushOnce } from './flushOnce';
import { partsInWords } from './goneWords';
import { withGoodBlocks } from './goodBlocks';
import { headedDays, headedStrains, strainsInNames, strainsOfSheets } from './headings';
import { lackingFlushes, lackingGap, lackingIn } from './lacking';
import { doubtfulLeftApart, withLeftApart } from './leftApart';
import { legendFor } from './legend';
import { isDateColumn } from './looks';
import { withoutNoneLeft } from './less';
import { lessLost } from './lost';
import { listChoices, lookedUpFor, type StrainOfLots } from './lookedUp';
import { lotDays, readFromNames } from './lotDays';
import { missingColumn } from './missingColumn';
import { ofMonths, withMonthDays } from './monthDays';
import { doRowsContradict, type ProvenElsewhere } from './provenAnywhere';
import type { Question } from './question';
import { withOutCounts } from './outCounts';
import { readColumn, type Reader } from './readCells';
import { unreadIn, type UnreadCell } from './unreadCells';
import { readings, valuesOf, type ColumnReading } from './reading';
import { saidOfAll } from './saidOfAll';
import { doubtfulRacks } from './shelvesPerRack';
import { struckRecords, withoutStruck } from './struck';
import { lessTakenElsewhere } from './listedElsewhere';
import { lessTakenOff } from './takenOff';
import { isDitto, lacksYear } from './values';
import { overWeeks, withoutUsedUp } from './whichRecords';
import { counting } from './whichRows';
import { lacksYearOfWeek } from './weeks';
import { latestDay, nearestYear } from './years';

const EVIDENCE_ROWS = 5;

export function fitTable(
  book: GrowersBook,
  given: Candidate,
  others: readonly Candidate[],
  served: readonly Candidate[],
  answers: Answers,
  elsewhere: ProvenElsewhere,
  { strains, rooms }: { readonly strains: readonly string[]; readonly rooms: readonly string[] },
  reader: Reader,
): { table: TableFit; questions: Question[]; unread: UnreadCell[] } {
  const ofLoads = withFirstLoads(
    book,
    withOutCounts(withGoodBlocks(given)),
    served,
    elsewhere.order,
    answers,
    reader,
  );
  const withAll = withLeftApart(withoutUsedUp(ofLoads), answers);
  const [ofKinds, ofRows] = counting(withAll, answers);
  const [ofLog, taken] = lessTakenOff(withAll, ofKinds, answers);
  const known = { rooms, order: elsewhere.order };
  const [counted, elsewhereTaken] = lessTakenElsewhere(book, ofLog, served, answers, known, reader);
  const questions: Question[] = ofRows.map((one) => ({ kind: 'rows', table: given.table.name, ...one }));
  for (const one of [taken, elsewhereTaken])
    if (one) questions.push({ kind: 'taken', table: given.table.name, ...one });
  const [lessAll, ofLost] = lessLost(counted, answers);
  const withoutLost = withoutNoneLeft(lessAll);
  // What may be left of each lot is asked first.
  const ofLeft = doubtfulLeft(withoutLost, answers);
  const isOfLeft = (header: string): boolean => ofLeft?.kind === 'column' && ofLeft.choices.includes(header);
  questions.push(...ofLost.filter(({ header }) => !isOfLeft(header)));
  const whole = overWeeks(withoutLost, answers);
  // A lot that is struck out for it is finished keeps its picks: an audit wants it.
  const isKept = whole.table.name === 'lots' && !whole.table.columns.some((one) => one.isOfWhatIsLeft);
  const struck = isKept ? new Map<number, Place>() : struckRecords(book, whole);
  const struckMeaning = answers.struck?.[whole.table.name];
  const unstruck = struckMeaning === 'left out' ? withoutStruck(whole, struck) : whole;
  const [named, months] = withMonthDays(unstruck) ?? [unstruck, undefined];
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
  const aboutOf = ({ name }: ColumnReading): string => `${named.table.name}, ${name}`;
  const inWords = (reading: ColumnReading): ColumnReading => {
    if (named.table.name !== 'lots' || reading.name !== 'strain' || reading === headed) return reading;
    const labels = valuesOf(named.sheet, named.dataRows, reading.match.column).filter(
      (cell) => !isDitto(cell),
    );
    const legend = legendFor(book, labels, strains);
    return legend ? { ...reading, legend } : reading;
  };
  const filled = (reading: ColumnReading): ColumnReading => {
    const isFilledDown =
      !reading.dayBeside &&
      (answers.blanks?.[aboutOf(reading)] === 'as above' ||
        isMergedDown(book, named, reading) ||
        isFlushOnce(named, reading));
    return isFilledDown ? { ...reading, isFilledDown } : reading;
  };
  const ofStrain = [headed, ...alike, ...readings(named)].find((one) => one?.name === 'strain');
  const strain = ofStrain && strainOfLots(named, filled(inWords(ofStrain)), reader);
  const ofMixes = lookedUpFor(book, named, answers, strain);
  const fromHeadings = [headed, days, fromName, ...ofMixes, ...alike].filter((one) => one !== undefined);
  const candidate = {
    ...named,
    missing: named.missing.filter(
      (name) =>
        !fromHeadings.some((one) => one.name === name) &&
        !named.table.columns.some((one) => one.name === name && one.mayLack),
    ),
  };
  const unread: UnreadCell[] = partsInWords(candidate);
  if (answers.taken?.[candidate.table.name])
    for (const { unread: ofLoads } of candidate.takenElsewhere ?? []) unread.push(...ofLoads);
  const orders = new Map<string, DateOrder>();
  const values = new Map<string, readonly Cell[]>();
  const lacking = lackingIn(candidate, answers);
  for (const name of candidate.missing) {
    // Asked for all strains together.
    if (lacking.includes(name)) continue;
    const elsewhere = {
      ofNames: name === 'inoculated' ? inNames : [],
      ofLists: listChoices(book, candidate, name, strain, served),
    };
    questions.push(
      missingColumn(
        book,
        candidate,
        name,
        elsewhere,
        strains,
        answers.columns?.[candidate.table.name]?.[name],
      ),
    );
  }
  if (struck.size > 0 && !struckMeaning) {
    const places = new Set([...struck.values()].map(placeOf));
    questions.push({ kind: 'struck', table: whole.table.name, places: [...places] });
  }
  const gap = lackingGap(candidate, answers);
  if (gap) questions.push(gap);
  const flushes = lackingFlushes(candidate, answers);
  if (flushes) questions.push(flushes);
  for (const doubt of [doubtfulLoaded, doubtfulLeft, doubtfulLeftApart, doubtfulMass, doubtfulRacks].map(
    (of) => of(candidate, answers),
  ))
    if (doubt) questions.push(doubt);
  // Dates in words need no order: any will do for them.
  const orderOf = (reading: ColumnReading): DateOrder | undefined =>
    answers.dates?.[aboutOf(reading)] ??
    reading.proven?.order ??
    (reading.proven && !reading.proven.isNeeded ? 'day first' : undefined) ??
    (reading.asProvenOn === undefined ? undefined : elsewhere.order);
  // Nothing in the column shows the order, but other dates of the book do, and its rows do not speak against it.
  const isAsElsewhere = (reading: ColumnReading): boolean =>
    elsewhere.order !== undefined &&
    answers.dates?.[aboutOf(reading)] === undefined &&
    reading.proven?.isNeeded === true &&
    reading.proven.order === undefined &&
    !reading.proven.isContradicted &&
    !doRowsContradict(
      valuesOf(candidate.sheet, candidate.dataRows, reading.match.column),
      elsewhere.order,
      reader,
    );
  const needsDay = candidate.table.columns.find((one) => isDateColumn(one) && one.isNeeded)?.name;
  const matched = readings(candidate).map((one) =>
    months && one.name === needsDay ? ofMonths(one, months) : one,
  );
  const withDay = (reading: ColumnReading): ColumnReading =>
    withDayBeside(
      candidate,
      reading,
      (column) =>
        answers.blanks?.[aboutOf(reading)] === 'as above' ||
        isMergedDown(book, candidate, { ...reading, match: { ...reading.match, column } }),
    );
  const found = withoutDryAlone([...matched.slice(0, 1), ...fromHeadings, ...matched.slice(1)]);
  const all = found
    .map(inWords)
    .map(withDay)
    .map((reading) => (isAsElsewhere(reading) ? { ...reading, asProvenOn: elsewhere.from } : reading))
    .map(filled)
    .map((reading) => asAnswered(book, candidate, reading, orderOf(reading), answers, reader));
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
    if (reading.range && !reading.range.weekday) {
      const texts = valuesOf(candidate.sheet, candidate.dataRows, reading.match.column).map(textOf);
      questions.push({ kind: 'weekdays', about, texts: [...new Set(texts)].slice(0, EVIDENCE_ROWS) });
    }
    const weekTexts = reading.weeks ? [] : weekTextsOf(candidate, reading);
    if (weekTexts.length > 0) {
      const texts = weekTexts.slice(0, EVIDENCE_ROWS);
      if (!answers.weekdays?.[about] && !reading.week && !reading.dayBeside)
        questions.push({ kind: 'weekdays', about, texts });
      const isYearAsked =
        proven?.lacksYear === true || answers.years?.[about] || !weekTexts.some(lacksYearOfWeek);
      const elsewhere =
        yearOver(candidate) ??
        yearAmong(textDatesOf(candidate, reading, reader)) ??
        nearestYear(weekTexts, latestDay(served, reader), book.dateSystem);
      if (!isYearAsked) questions.push({ kind: 'years', about, texts, elsewhere, turn: undefined });
    }
    const ofDays = reading.dayBeside && !answers.blanks?.[about] ? blanksBelow(candidate, reading) : [];
    if (reading.dayBeside && ofDays.length > 0) {
      const cells = ofDays.map((row) => candidate.origin(row, reading.dayBeside!.column));
      questions.push({ kind: 'blanks', about, places: [...new Set(cells.map(placeOf))] });
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
      const isOpen = ({ held }: UnreadCell): boolean => typeof held === 'string' && weekTexts.includes(held);
      const found = new Map(
        unreadIn(candidate, asked, told)
          .filter((one) => !isOpen(one))
          .map((one) => [placeOf(one), one]),
      );
      const open = answers.blanks?.[about] ? [] : blanksBelow(candidate, reading);
      const places = [...new Set([...found.values()].filter(({ held }) => isBlank(held)).map(placeOf))];
      const areAsked = open.length > 0 && places.length > 0;
      if (areAsked) questions.push({ kind: 'blanks', about, places });
      // One by one: a call takes no hundred thousand arguments. Blanks that are asked about are told there.
      for (const one of found.values()) if (!areAsked || !isBlank(one.held)) unread.push(one);
    }
  }
  if (all.some(({ isDry }) => isDry))
    values.set('block mass', wetMasses(values.get('block mass')!, values.get('moisture')));
  const evidence = candidate.dataRows
    .slice(0, EVIDENCE_ROWS)
    .map((row) =>
      Object.fromEntries(
        all.map((reading) => [reading.name, evidenceOf(book, candidate, row, reading)] as const),
      ),
    );
  return { table: { candidate, readings: all, orders, values, evidence, others }, questions, unread };
}

/** The strain of each of the lots, as it is read. */
const strainOfLots = (lots: Candidate, reading: ColumnReading, reader: Reader): StrainOfLots => ({
  column: reading.match.column,
  ofRows: new Map(
    readColumn(lots, reading, undefined, reader).map((cell, i) => [lots.dataRows[i]!, cell] as const),
  ),
});

const placeOf = ({ sheet, row, column }: Place): string => placeText(sheet, row, column);
