import type { Answers } from './answers';
import type { Candidate } from './candidate';
import { choicesFor, hasContent } from './columnChoices';
import { SHARES } from './jobs';
import type { Question } from './question';
import { isTypedOf, saidText } from './saidOfAll';

/** The headers that could serve for a column of strains, which nothing else reads. */
export function freeChoices(candidate: Candidate, column: string): string[] {
  const wanted = candidate.table.columns.find(({ name }) => name === column)!;
  const taken = new Set(candidate.matches.map(({ header }) => header));
  return choicesFor(candidate, wanted).filter(
    (header) => !taken.has(header) && hasContent(candidate, header),
  );
}

/** Whether the grower may type a figure for each record in place of a column. */
export const mayBeTyped = ({ table }: Candidate, column: string): boolean =>
  table.name === 'strains' && column !== 'strain' && SHARES.columns.some(({ name }) => name === column);

/** Strains with shares of several flushes need the days between them. */
export function lackingGap(candidate: Candidate, answers: Answers): Question | undefined {
  if (!lacksGap(candidate) || isSaid(answers, GAP) || isTypedOf('strains', GAP, answers)) return undefined;
  const choices = freeChoices(candidate, GAP);
  if (choices.length === 0) return undefined;
  const { meaning } = candidate.table.columns.find(({ name }) => name === GAP)!.column;
  return {
    kind: 'column',
    table: 'strains',
    column: GAP,
    meaning,
    choices,
    mayBeNone: true,
    mayBeTyped: true,
    mayBeAlike: true,
  };
}

/** Days between flushes say that there is more than one: how many is not said. */
export function lackingFlushes(candidate: Candidate, answers: Answers): Question | undefined {
  const { table, matches } = candidate;
  const wanted = table.columns.find(({ name }) => name === FLUSHES);
  const isLacking =
    table.name === 'strains' &&
    table.columns.some(({ name }) => name === 'flush') &&
    matches.some((match) => match.wanted === GAP) &&
    !matches.some((match) => /^flush(?:es| \d+)$/.test(match.wanted));
  if (!wanted || !isLacking || isSaid(answers, FLUSHES)) return undefined;
  return {
    kind: 'column',
    table: 'strains',
    column: FLUSHES,
    meaning: wanted.column.meaning,
    choices: freeChoices(candidate, FLUSHES),
    mayBeNone: false,
    mayBeAlike: true,
  };
}

const [GAP, FLUSHES] = ['flush gap', 'flushes'];

const isSaid = (answers: Answers, name: string): boolean =>
  answers.columns?.['strains']?.[name] !== undefined || saidText('strains', name, answers) !== undefined;

function lacksGap({ table, matches }: Candidate): boolean {
  const flushes = matches.filter(({ wanted }) => /^flush \d+$/.test(wanted)).length;
  const isWanted = table.name === 'strains' && table.columns.some(({ name }) => name === GAP);
  return isWanted && flushes >= 2 && !matches.some(({ wanted }) => wanted === GAP);
}

/** The columns that strains need and do not have: no header could be theirs, or the grower said that none is. */
export function lackingIn(candidate: Candidate, answers: Answers): string[] {
  const needed = [...candidate.missing, ...(lacksGap(candidate) ? [GAP] : [])];
  return needed.filter(
    (name) =>
      mayBeTyped(candidate, name) &&
      (saidText('strains', name, answers) === undefined || isTypedOf('strains', name, answers)) &&
      (answers.columns?.['strains']?.[name] === null ||
        isTypedOf('strains', name, answers) ||
        freeChoices(candidate, name).length === 0),
  );
}
