import type { GrowersBook } from './book';
import type { Candidate } from './candidate';
import { choicesFor, hasContent } from './columnChoices';
import type { LotDay } from './lotDays';
import { lotDayHeader, lotDayHint } from './lotDays';
import type { Question } from './question';
import { mayBeAlike } from './saidOfAll';
import { saidInBook } from './saidInBook';

/** The question for a needed column that no header names, with what else of the book may say it. */
export function missingColumn(
  book: GrowersBook,
  candidate: Candidate,
  name: string,
  ofNames: readonly LotDay[],
  strains: readonly string[],
): Question {
  const wanted = candidate.table.columns.find((one) => one.name === name)!;
  const isAlike = mayBeAlike(candidate, name);
  const said = isAlike ? saidInBook(book, candidate, wanted) : [];
  const values = new Set(said.map(({ value }) => value));
  const isOfStrain = name === 'strain' || name === 'product';
  const [only] = isOfStrain ? strains : values;
  const isOnly = isOfStrain ? strains.length === 1 : values.size === 1;
  const hints = [
    ...(ofNames.length > 0 ? [lotDayHint(candidate, ofNames, book.dateSystem)] : []),
    ...(isOfStrain && isOnly ? [`Your only strain is ${only!}.`] : []),
    ...said.slice(0, MOST_TOLD).map(({ place, says }) => `${place} says “${says}”.`),
  ];
  return {
    kind: 'column',
    table: candidate.table.name,
    column: name,
    meaning: wanted.column.meaning,
    choices: [
      ...ofNames.map(lotDayHeader),
      ...choicesFor(candidate, wanted).filter((header) => hasContent(candidate, header)),
    ],
    mayBeNone: false,
    mayBeAlike: isAlike,
    ...(isOnly && { proposed: only! }),
    ...(hints.length > 0 && { hint: hints.join(' ') }),
  };
}

/** More places that say it are not told. */
const MOST_TOLD = 3;
