import { isTotalsWord } from '../../worksheet/cells/totals';
import type { GrowersBook } from './book';
import type { Candidate } from './candidate';
import { choicesFor, hasContent } from './columnChoices';
import { freeChoices, mayBeTyped } from './lacking';
import type { LotDay } from './lotDays';
import { lotDayHeader, lotDayHint } from './lotDays';
import { isOfShelves } from './headerTests';
import type { Question } from './question';
import { mayBeAlike } from './saidOfAll';
import { partsOfWait, partWords } from './waitParts';
import { beginsWithWeek } from './weeks';
import { saidInBook } from './saidInBook';

/** Where else than in a column of its own a table may have it. */
interface OtherChoices {
  /** Days in the names of lots. */
  readonly ofNames: readonly LotDay[];
  /** Columns of other tables, by the strain: `Block kg of Strains`. */
  readonly ofLists: readonly string[];
}

/** The question for a needed column that no header names, with what else of the book may say it. */
export function missingColumn(
  book: GrowersBook,
  candidate: Candidate,
  name: string,
  { ofNames, ofLists }: OtherChoices,
  strains: readonly string[],
  answered: string | null | undefined,
): Question {
  const wanted = candidate.table.columns.find((one) => one.name === name)!;
  const isTyped = mayBeTyped(candidate, name);
  const isAlike = mayBeAlike(candidate, name);
  const said = isAlike ? saidInBook(book, candidate, wanted) : [];
  const values = new Set(said.map(({ value }) => value));
  const isOfStrain = name === 'strain' || name === 'product';
  const [only] = isOfStrain ? strains : values;
  const isOnly = isOfStrain ? strains.length === 1 : values.size === 1;
  const capacity = name === 'shelves' ? wholeCapacity(candidate) : undefined;
  const hints = [
    ...(typeof answered === 'string' ? [`No header is called “${answered}”.`] : []),
    ...(capacity === undefined ? [] : [`“${capacity}” may be what a whole room holds: it then has 1.`]),
    ...(ofNames.length > 0 ? [lotDayHint(candidate, ofNames, book.dateSystem)] : []),
    ...(isOfStrain && isOnly ? [`Your only strain is ${only!}.`] : []),
    ...said.slice(0, MOST_TOLD).map(({ place, says }) => `${place} says “${says}”.`),
  ];
  const choices = isTyped
    ? freeChoices(candidate, name)
    : choicesFor(candidate, wanted).filter((header) => hasContent(candidate, header));
  for (const header of name === 'latest' ? choices : []) {
    const column = [...candidate.headers].find(([, one]) => one === header)![0];
    const [last, ...wait] = (
      partsOfWait(candidate, { wanted: name, column, header, by: 'you' }) ?? []
    ).reverse();
    if (last)
      hints.push(
        `“${header}” is counted from the day a block is ready: it is added to ${partWords(wait.reverse())}.`,
      );
  }
  // What was ordered for one week is not what every week needs.
  const ofWeeks = candidate.table.name === 'orders' && name === 'mass' ? choices.filter(beginsWithWeek) : [];
  if (ofWeeks.length > 1)
    hints.push(`“${ofWeeks[0]!}” looks like a week: write only its number over the column, such as KW 10.`);
  return {
    kind: 'column',
    table: candidate.table.name,
    column: name,
    meaning: wanted.column.meaning,
    choices: [
      ...ofNames.map(lotDayHeader),
      ...ofLists,
      ...choices.filter(
        (header) => ofWeeks.length < 2 || !(ofWeeks.includes(header) || isTotalsWord(header)),
      ),
    ],
    mayBeNone: isTyped,
    ...(isTyped && { mayBeTyped: true }),
    mayBeAlike: isAlike,
    ...(capacity === undefined ? isOnly && { proposed: only! } : { proposed: '1' }),
    ...(hints.length > 0 && { hint: hints.join(' ') }),
  };
}

/** The header of what a room holds, where it names no shelf. */
const wholeCapacity = ({ matches }: Candidate): string | undefined =>
  matches.find(({ wanted, header }) => wanted === 'blocks per shelf' && !isOfShelves(header))?.header;

/** More places that say it are not told. */
const MOST_TOLD = 3;
