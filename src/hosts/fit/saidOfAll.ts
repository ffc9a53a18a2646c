import type { Answers } from './answers';
import type { Candidate } from './candidate';
import type { ColumnReading } from './reading';
import type { Reader } from './readCells';
import { isShare, massUnitIn } from './units';

// What a grower's lots may all have alike, and which no column says: the mass of a block, its moisture.

const ALIKE: readonly string[] = ['block mass', 'moisture'];

/** What stands for a header where one figure is said of all lots. */
export const OF_ALL = 'the same for all lots';

/** Whether a column of a table may be answered by one figure for all. */
export const mayBeAlike = ({ table }: Candidate, column: string): boolean =>
  table.name === 'lots' && ALIKE.includes(column);

/** The answer of such a figure: `lots, block mass`. */
export const alikeAnswer = (column: string): string => `lots, ${column}`;

/** The columns that the grower said one figure of. */
export function saidOfAll(candidate: Candidate, answers: Answers, reader: Reader): ColumnReading[] {
  const [key] = candidate.matches;
  return candidate.missing.flatMap((name): ColumnReading[] => {
    const answer = answers.figures?.[alikeAnswer(name)];
    const wanted = candidate.table.columns.find((one) => one.name === name);
    if (!key || !wanted || !mayBeAlike(candidate, name) || answer === undefined || answer === null) return [];
    const text = String(answer).trim();
    if (text === '') return [];
    const unit = isShare(wanted) ? 'percent' : (massUnitIn(text) ?? 'number');
    const [value = null] = reader.figures([text], unit, undefined);
    return [
      {
        wanted,
        name,
        match: { wanted: name, header: OF_ALL, column: key.column, by: 'you' },
        conversion: 'said',
        proven: undefined,
        unit,
        decimalMark: undefined,
        said: { text, value },
      },
    ];
  });
}
