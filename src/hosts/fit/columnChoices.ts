import { isBlank } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import type { Answers } from './answers';
import { cellAt, textOf } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import { isOfWhatCameOff } from './flushHeaders';
import type { WantedColumn } from './jobs';
import { couldBe, isFor, looksIn } from './looks';
import type { Question } from './question';
import { isStamp } from './otherDay';
import { valuesOf } from './reading';
import { isGross, isNet, isTare, lessTare, tareIn } from './tare';
import { isTold } from './tellingWords';
import { massUnitIn } from './units';
import { isOfKeeping, partsOfWait, plusIn } from './waitParts';

/** The columns of a wait that an answer adds up: `Colonise + Brown`. */
function summed({ table, headers }: Candidate, wanted: string, said: string): number[] | undefined {
  if (table.name !== 'strains' || (wanted !== 'earliest' && wanted !== 'best')) return undefined;
  const names = said.split('+').map(headerKey);
  const found = names.map((name) => [...headers].find(([, header]) => headerKey(header) === name)?.[0]);
  const columns = found.filter((column) => column !== undefined);
  return names.length > 1 && columns.length === names.length ? columns : undefined;
}

/** The candidate with the columns that the grower named in place of those that were proposed. */
export function withColumns(
  candidate: Candidate,
  said: Readonly<Record<string, string | null>> | undefined,
): Candidate {
  if (!said) return candidate;
  const matches = candidate.matches.filter(({ wanted }) => !(wanted in said));
  for (const [wanted, header] of Object.entries(said)) {
    // Answers hold for all jobs, of which each takes its own columns.
    if (header === null || !candidate.table.columns.some((one) => isFor(one, wanted))) continue;
    const headers = [...candidate.headers];
    const parts = summed(candidate, wanted, header);
    if (parts) {
      matches.push({ wanted, header, column: parts[0]!, by: 'you', parts });
      continue;
    }
    const at =
      headers.find(([, one]) => one === header) ??
      headers.find(([, one]) => headerKey(one) === headerKey(header)) ??
      headers.find(([, one]) => headers.some(([, tare]) => header === lessTare(one, tare)));
    if (!at) continue;
    const [column] = at;
    const written = header.startsWith(lessTare(at[1], '')) ? header : at[1];
    // What agrees with the match is no other: answers that a book keeps repeat what was matched.
    const own = candidate.matches.find((match) => match.wanted === wanted && match.column === column);
    if (own && written === at[1]) {
      matches.push(own);
      continue;
    }
    // Two figures in one cell, and one figure that is two, are the grower’s own word.
    const taken = matches.findIndex((match) => match.column === column && !(match.wanted in said));
    if (taken >= 0) matches.splice(taken, 1);
    matches.push({ wanted, header: written, column, by: 'you' });
  }
  const missing = candidate.table.columns
    .filter(({ name, isNeeded }) => isNeeded && !matches.some((match) => match.wanted === name))
    .map(({ name }) => name);
  return { ...candidate, matches: inOrder(candidate.table, matches), missing };
}

const IS_LOADED = /\b(?:loaded|opened|fruited|into fruiting|moved in|went in)\b/i;

/**
 * Lots that are loaded already are not ready, and not to be planned again: where no column is known to say so, and one of
 * days is read by nothing, only the grower knows.
 */
export function doubtfulLoaded(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, matches } = candidate;
  const wanted = table.columns.find(({ name }) => name === 'loaded');
  const isSaid = answers.columns?.[table.name]?.['loaded'] !== undefined;
  if (table.name !== 'lots' || !wanted || isSaid || matches.some((one) => one.wanted === 'loaded'))
    return undefined;
  // What is left says it already; in a log the day of a row is that of what was done.
  const isOfLog = (candidate.counted ?? []).some(({ without }) => without === undefined);
  if (candidate.left !== undefined || isOfLog) return undefined;
  const days = unreadHeaders(candidate).filter(([at, header]) => {
    if (isOfWhatCameOff(header) || isStamp(header)) return false;
    const looks = looksIn(candidate.sheet, candidate.dataRows, at);
    // `1/2` may be a day without its year, and anything else: a column of them is days.
    const mayBe = looks.get('text that may be a day') ?? 0;
    const areAll = mayBe > 0 && mayBe === looks.get('text') && !looks.has('number');
    if (areAll) return true;
    if ((looks.get('date') ?? 0) + (looks.get('text date') ?? 0) > 0) return true;
    // Figures among words, under a header that says so: what they say is then told cell by cell.
    const texts = valuesOf(candidate.sheet, candidate.dataRows, at).map(textOf);
    return IS_LOADED.test(header) && texts.some((text) => /\d/.test(text));
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

/**
 * What is left of a lot is what is ready or planned, not what was made: where one more column of counts is never above the
 * blocks, and some lots have all of it and others none, only the grower knows what it counts.
 */
export function doubtfulLeft(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, matches, sheet, dataRows, left } = candidate;
  const wanted = table.columns.find((one) => one.isOfWhatIsLeft);
  const blocks = matches.find((one) => one.wanted === wanted?.name);
  const said = answers.columns?.[table.name] ?? {};
  const isKnown = left !== undefined || matches.some((one) => one.wanted === 'loaded');
  if (!wanted || !blocks || isKnown || said[wanted.name] !== undefined || said['loaded'] !== undefined)
    return undefined;
  const figureAt = (row: number, at: number): number => Number(cellAt(sheet, row, at) ?? Number.NaN);
  const isPartOfAll = ([at]: readonly [number, string]): boolean => {
    const pairs = dataRows.map((row) => [figureAt(row, at), figureAt(row, blocks.column)] as const);
    return (
      pairs.every(([own, all]) => Number.isInteger(own) && own >= 0 && own <= all) &&
      pairs.some(([own]) => own === 0) &&
      pairs.some(([own, all]) => own === all && all > 0)
    );
  };
  const parts = unreadHeaders(candidate).filter(isPartOfAll);
  if (parts.length === 0) return undefined;
  return {
    kind: 'column',
    table: table.name,
    column: wanted.name,
    meaning: `${wanted.column.meaning}, those that are left where the book says so`,
    choices: [...parts.map(([, header]) => header), blocks.header],
    mayBeNone: false,
  };
}

/** Picks in several columns of one unit: only the grower knows which is the whole of a pick. */
export function doubtfulMass(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, matches, sheet, dataRows } = candidate;
  const mass = matches.find(({ wanted }) => wanted === 'mass');
  const isSaid = answers.columns?.[table.name]?.['mass'] !== undefined;
  const tare = tareIn(candidate);
  // Only the grower knows whether a mass beside a tare is with the crate, where no header says so.
  if (mass && tare && !isSaid && !isGross(mass.header) && !isNet(mass.header)) {
    return {
      kind: 'column',
      table: table.name,
      column: 'mass',
      meaning: `${table.columns.find(({ name }) => name === 'mass')!.column.meaning}, without the crate`,
      choices: [mass.header, lessTare(mass.header, tare[1])],
      mayBeNone: false,
    };
  }
  const unit = mass && massUnitIn(mass.header);
  if (table.name !== 'harvests' || mass?.by !== 'a name like it' || unit === undefined) return undefined;
  if (isSaid || isTold(mass.header, 'whole pick')) return undefined;
  const others = unreadHeaders(candidate).filter(([at, header]) => {
    const looks = looksIn(sheet, dataRows, at);
    return (
      massUnitIn(header) === unit && !isTare(header) && !isGross(header) && (looks.get('number') ?? 0) > 0
    );
  });
  if (others.length === 0) return undefined;
  const wanted = table.columns.find(({ name }) => name === 'mass')!;
  return {
    kind: 'column',
    table: table.name,
    column: 'mass',
    meaning: wanted.column.meaning,
    choices: [mass.header, ...others.map(([, header]) => header)],
    mayBeNone: false,
    hint: 'If a pick is the sum of several columns, add a column for it, and choose the job again.',
  };
}

/** Headers of a table that nothing reads, by their columns. */
export const unreadHeaders = ({ headers, matches }: Candidate): (readonly [number, string])[] =>
  [...headers].filter(([at]) => !matches.some(({ column }) => column === at));

/** Headers that could name a column, those first that no other column is matched with. */
export function choicesFor(candidate: Candidate, { name, column }: WantedColumn): string[] {
  const { headers, sheet, dataRows, matches, table } = candidate;
  const isOther = (header: string): boolean =>
    table.name === 'strains' &&
    ((name !== 'latest' && isOfKeeping(header)) || (column.kind.word === 'days' && NO_DAYS.test(header)));
  const inParts = matches.flatMap((match) => partsOfWait(candidate, match) ?? []).map((part) => part.column);
  return [...headers]
    .filter(
      ([at, header]) =>
        (couldBe(column.kind.word, name, looksIn(sheet, dataRows, at)) ||
          (column.kind.word === 'days' && plusIn(valuesOf(sheet, dataRows, at)) > 0)) &&
        !inParts.includes(at) &&
        !isOther(header) &&
        !(name === 'inoculated' && isOfWhatCameOff(header)),
    )
    .sort(([a], [b]) => Number(isTaken(matches, a)) - Number(isTaken(matches, b)))
    .map(([, header]) => header);
}

/** Headers of what is no wait: a mass, a share, money, the day of a later flush, which is counted from loading. */
const NO_DAYS =
  /%|[$€£]|\b(?:kgs?|kilos?|lbs?|g|grams?|oz|moist\w*|mc|h2o|be|bio\w*|effic\w*|yield\w*|price|cost|(?:2nd|3rd|4th|second|third|fourth)\s+(?:flush|break|wave))\b/i;

/** Whether anything is in a column: nothing is learnt by asking about one that is empty. */
export const hasContent = ({ headers, sheet, dataRows }: Candidate, header: string): boolean =>
  [...headers].some(
    ([at, one]) => one === header && valuesOf(sheet, dataRows, at).some((cell) => !isBlank(cell)),
  );

const isTaken = (matches: readonly ColumnMatch[], column: number): boolean =>
  matches.some((match) => match.column === column);
