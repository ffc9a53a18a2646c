import { isBlank, isCellError } from '../../worksheet/cells/cell';
import type { Answer, Answers } from './answers';
import { textOf, type GrowersBook } from './book';
import { linkedByLabels } from './byLabels';
import { partText, type Candidate } from './candidate';
import { closuresOf, withClosures } from './closures';
import { withoutDayOut } from './dayOut';
import { candidateFor, eachOnce, knownLabels, type Chosen } from './chosenParts';
import { withColumns } from './columnChoices';
import { fillQuestion, isFilledIn, isMissing, sharesOf, strainRows } from './filledIn';
import { fitTable } from './fitTable';
import type { Fit, TableFit } from './fitted';
import { jobUnit } from './jobUnit';
import { areStanding } from './less';
import { JOB, LIMITS, type JobName, type TableName, type WantedTable } from './jobs';
import { joinLabels, joinProducts, joinStrains } from './joining';
import { lotsOfPicks } from './lotsOfPicks';
import { numberedWithin } from './lotWithin';
import { readShelves } from './onShelves';
import { lotsUnit, ordersInWords, soldIn } from './ordersInWords';
import { givenLimits, limitRows, saidDaysOff, saidLimit } from './pickLimit';
import { weekLimits } from './weekLimits';
import { productsOf, readAs, renameProducts } from './products';
import { provenAnywhere } from './provenAnywhere';
import { withBlocksOf } from './flushYields';
import { freeShelves } from './freeShelves';
import { FIGURES, type FigureName, type Question } from './question';
import type { Reader } from './readCells';
import type { UnreadCell } from './unreadCells';
import { asRecipe } from './recipe';
import { readRoomStrains, strainsSold, withRoomStrains } from './roomStrains';
import { withRoomByData } from './lotRooms';
import { roomsOfShelves } from './shelfList';
import { colourKeys } from './colourKeys';
import { roomsInWords } from './roomsInWords';
import { valuesOf } from './reading';
import { mixQuestion } from './saidOfMix';
import { otherWay } from './otherWay';
import { unusedAnswers } from './unusedAnswers';

/** Fits a job to a book, as far as the answers go. */
export function fitJob(book: GrowersBook, jobName: JobName, answers: Answers, reader: Reader): Fit {
  const job = JOB[jobName];
  const questions: Question[] = [];
  const tables = new Map<TableName, TableFit>();
  const filled = new Map<TableName, readonly Readonly<Record<string, Answer>>[]>();
  const isKnown = knownLabels(book, job, answers);
  const choose = (table: WantedTable, taken: readonly Candidate[]): Chosen =>
    candidateFor(book, table, answers, taken, isKnown);
  const harvests = job.tables.find(({ name }) => name === 'harvests');
  const picks = harvests && choose(harvests, []).candidate;
  const chosen = eachOnce(job.tables, (table, taken) =>
    table.name === 'lots' && answers.tables?.lots === undefined
      ? lotsOfPicks(choose(table, taken), picks)
      : choose(table, taken),
  );
  const named = chosen.flatMap(([{ name }, { candidate, isAsked }]) =>
    candidate && !isAsked
      ? [
          [
            name,
            withoutDayOut(
              asRecipe(withColumns(candidate, answers.columns?.[name])),
              answers,
              book.dateSystem,
            ),
          ] as const,
        ]
      : [],
  );
  const linked = numberedWithin(withRoomStrains(linkedByLabels(new Map(named), answers), answers));
  const listed = linked.get('rooms');
  const ofShelves = listed && roomsOfShelves(listed);
  const lots = linked.get('lots');
  const rooms = roomNames(listed, ofShelves?.rows ?? answers.fill?.['rooms']);
  if (lots) linked.set('lots', withRoomByData(lots, rooms));
  const found = chosen.map(([table, one]) => {
    const candidate = table.name === 'rooms' && ofShelves ? undefined : linked.get(table.name);
    return [table, linked.has(table.name) ? { ...one, candidate } : one] as const;
  });
  const served = found.flatMap(([, { candidate, isAsked }]) => (candidate && !isAsked ? [candidate] : []));
  const elsewhere = provenAnywhere(
    book,
    found.flatMap(([, { candidate }]) => candidate ?? []),
  );
  const unread: UnreadCell[] = [];
  const strains = strainsIn(found.find(([{ name }]) => name === 'strains')?.[1].candidate, answers);
  const names = { strains, rooms };
  // Orders that no table has may be told in sentences, or be filled in.
  const isTyped = ({ name }: WantedTable): boolean =>
    name === 'orders' &&
    answers.tables?.[name] === undefined &&
    (answers.fill?.[name] !== undefined || ordersInWords(book, [], undefined, reader) !== undefined);
  for (const [table, { candidate, others, isAsked }] of found) {
    const isUnsure = answers.tables?.[table.name] === undefined && (candidate?.missing.length ?? 0) > 1;
    const hint = isAsked || isUnsure ? otherWay(book, table, isKnown) : undefined;
    if (isAsked && isTyped(table)) continue;
    if (isAsked || hint !== undefined) {
      const choices = [...new Set([...(candidate ? [candidate] : []), ...others].map(partText))];
      const isGuess = hint !== undefined || others.every(({ missing }) => missing.length > 0);
      const asked = { choices, isGuess, ...(hint !== undefined && { hint }) };
      questions.push({ kind: 'table', table: table.name, ...asked });
      continue;
    }
    if (!candidate) continue;
    const own = withBlocksOf(candidate, tables.get('lots'));
    const fitted = fitTable(book, own, others, served, answers, elsewhere, names, reader);
    questions.push(...fitted.questions);
    for (const one of fitted.unread) unread.push(one);
    tables.set(table.name, fitted.table);
  }
  const calendar = { tables, answers, order: elsewhere.order, reader };
  let joined = joinLabels(tables, reader, unread);
  for (const [table, { candidate, isAsked }] of found) {
    if (candidate || (isAsked && !isTyped(table))) continue;
    const given = answers.fill?.[table.name];
    if (given && given.length > 0) filled.set(table.name, given);
    if (isFilledIn(table, given)) continue;
    const inWords =
      table.name === 'rooms'
        ? (ofShelves ?? roomsInWords(book))
        : table.name === 'orders'
          ? ordersInWords(book, soldIn(tables), lotsUnit(tables), reader)
          : undefined;
    const rows = table.name === 'strains' ? strainRows(tables) : (inWords?.rows ?? []);
    const told = inWords && { told: inWords.told };
    const asked = { ...fillQuestion(table, given ?? rows), ...told };
    questions.push(table.name === 'rooms' ? withClosures(book, asked, calendar) : asked);
  }
  if (filled.has('strains'))
    joined = [...joined, ...joinStrains(tables, filled.get('strains')!, reader, unread)];
  joined = [...joined, ...joinProducts(tables, filled, answers, reader)];
  const areOnShelves = readShelves(tables, filled.get('rooms'), reader, unread);
  const hasShelves = areOnShelves || areStanding(tables.get('lots'));
  const shares = sharesOf(tables.get('strains'), answers);
  if (shares?.question) questions.push(shares.question);
  else if (shares) filled.set('shares', shares.rows);
  // The shares themselves say how many flushes there are.
  if (shares?.isFewer) tables.set('strains', without(tables.get('strains')!, 'flushes'));
  const products = productsOf(tables, filled, answers, questions);
  readRoomStrains(tables, strainsSold(tables.get('strains'), filled.get('strains'), products));
  const productNames = readAs(products, tables.get('strains'));
  joined = [...joined, ...renameProducts(tables.get('orders'), productNames)];
  if (jobName === 'plan') {
    const rooms = tables.get('rooms');
    const free = rooms && !hasShelves ? freeShelves(rooms) : undefined;
    if (free) questions.push({ ...fillQuestion(rooms!.candidate.table, free.rows), told: free.told });
    const given = answers.fill?.['calendar'] && givenLimits(answers.fill['calendar']);
    const shut = closuresOf(book, calendar);
    if (shut?.question) questions.push(shut.question);
    if (shut?.rows) filled.set('closures', shut.rows);
    const [said, daysOff] = [saidLimit(book), saidDaysOff(book)];
    const week = weekLimits(book, jobUnit(tables));
    const rows = limitRows(said, daysOff, given, jobUnit(tables), week);
    if (isFilledIn(LIMITS, given)) filled.set('calendar', given!);
    else questions.push({ ...fillQuestion(LIMITS, rows), ...(said ? { said } : week && { week }), daysOff });
  }
  if (jobName === 'mix') {
    const recipe = tables.get('recipe');
    for (const figure of Object.keys(FIGURES) as FigureName[])
      if (isMissing(answers.figures?.[figure])) questions.push(mixQuestion(book, recipe, figure));
  }
  const keys = colourKeys(book, tables);
  const read = { tables, filled, joined, products, productNames, hasShelves };
  const unused = unusedAnswers(tables, answers, questions);
  return { job, book, answers, questions, unread, colourKeys: keys, unused, ...read };
}

/** A table without what it says of one column. */
const without = (fit: TableFit, column: string): TableFit => ({
  ...fit,
  candidate: { ...fit.candidate, matches: fit.candidate.matches.filter(({ wanted }) => wanted !== column) },
  readings: fit.readings.filter(({ name }) => name !== column),
});

/** The names of the rooms, from their table or as they are typed or proposed. */
function roomNames(
  listed: Candidate | undefined,
  typed: readonly Readonly<Record<string, Answer>>[] = [],
): string[] {
  const column = listed?.matches.find(({ wanted }) => wanted === 'room')?.column;
  const own = column === undefined ? [] : valuesOf(listed!.sheet, listed!.dataRows, column).map(textOf);
  return typed.length > 0 ? typed.map(({ room }) => String(room ?? '')) : own;
}

/** The names of the strains, from their table or as the grower filled them in. */
function strainsIn(candidate: Candidate | undefined, answers: Answers): string[] {
  const match = candidate?.matches.find(({ wanted }) => wanted === 'strain');
  const cells = match
    ? valuesOf(candidate!.sheet, candidate!.dataRows, match.column)
    : (answers.fill?.['strains'] ?? []).map(({ strain }) => strain ?? null);
  return cells.flatMap((cell) => (isBlank(cell) || isCellError(cell) ? [] : [String(cell).trim()]));
}
