import { headerKey } from '../../worksheet/cells/headerWords';
import type { Answers } from './answers';
import { partText } from './candidate';
import type { TableFit } from './fitted';
import type { TableName } from './jobs';
import { isFor } from './looks';
import type { Question } from './question';
import { TABLE_WORDS } from './told';
import { isOfWord } from './whichRows';

// Names in the answers that the book does not have: an answer that changes nothing is told, as it may be misspelt.

/** Our own words for what the names of lots or sheets of loads say: no header has them. */
const OWN_WORDS = /lot’s name$|^the first .+ of /;

/** What is said of names in the answers that no header, sheet or row has. */
export function unusedAnswers(
  tables: ReadonlyMap<TableName, TableFit>,
  answers: Answers,
  questions: readonly Question[],
): string[] {
  return [...tables].flatMap(([name, fit]) => {
    const { candidate, readings } = fit;
    const { headers, table } = candidate;
    const isHeader = (header: string): boolean =>
      [...headers.values()].some((own) => headerKey(own) === headerKey(header));
    const isAsked = (column: string): boolean =>
      questions.some((one) => one.kind === 'column' && one.table === name && one.column === column);
    const where = `no header of your ${TABLE_WORDS[name]} in ${partText(candidate)}`;
    const columns = Object.entries(answers.columns?.[name] ?? {}).flatMap(([column, header]) => {
      if (header === null || isHeader(header) || OWN_WORDS.test(header) || isAsked(column)) return [];
      // Answers hold for all jobs, of which each takes its own columns.
      if (!table.columns.some((one) => isFor(one, column))) return [];
      return readings.some((one) => one.name === column && one.match.header === header)
        ? []
        : [`“${header}”, your answer for “${column}”, is ${where}`];
    });
    const { takenOff, takenElsewhere = [] } = candidate;
    const isTaken = (word: string): boolean =>
      takenElsewhere.some(({ sheet }) => sheet === word) ||
      takenOff?.words.some((own) => isOfWord(word, own)) === true;
    const isOfWhatIsLeft = table.columns.some((one) => one.isOfWhatIsLeft);
    const taken = (isOfWhatIsLeft ? (answers.taken?.[name] ?? []) : []).flatMap((word) =>
      isTaken(word)
        ? []
        : [`“${word}”, which your answers name, takes no blocks off your ${TABLE_WORDS[name]}`],
    );
    return [...columns, ...taken];
  });
}
