import type { DateOrder } from '../../worksheet/writtenDates';
import type { Answers } from './answers';
import type { GrowersBook } from './book';
import type { Candidate } from './candidate';
import { ANY_YEAR, textDatesOf, weekTextsOf } from './dateTexts';
import type { Reader } from './readCells';
import type { ColumnReading } from './reading';
import { lacksYearOfWeek, weekReading } from './weeks';
import { yearTurn } from './years';

/** A column as the grower answered for it: the mark of its decimals, the year of its dates, the day of its weeks. */
export function asAnswered(
  book: GrowersBook,
  candidate: Candidate,
  reading: ColumnReading,
  order: DateOrder | undefined,
  answers: Answers,
  reader: Reader,
): ColumnReading {
  const about = `${candidate.table.name}, ${reading.name}`;
  const said = answers.decimals?.[about];
  const year = reading.proven?.lacksYear ? (answers.years?.[about] ?? undefined) : undefined;
  const turn =
    reading.proven?.lacksYear && order
      ? yearTurn(textDatesOf(candidate, reading, reader), order, reader, book.dateSystem)
      : undefined;
  const weekTexts = weekTextsOf(candidate, reading);
  const saidDay = answers.weekdays?.[about] ?? undefined;
  const weekday = reading.week || reading.dayBeside ? 'Monday' : saidDay;
  const ofWeeks = weekTexts.some(lacksYearOfWeek) ? answers.years?.[about] : ANY_YEAR;
  const weeks =
    weekTexts.length > 0 && weekday && ofWeeks
      ? { ...weekReading(weekTexts, ofWeeks, weekday), system: book.dateSystem }
      : undefined;
  return {
    ...reading,
    ...(weeks && { weeks }),
    ...(reading.range && { range: { ...reading.range, weekday: saidDay } }),
    ...(turn && { turn }),
    ...(year !== undefined && { year }),
    ...(said && { decimalMark: said }),
  };
}
