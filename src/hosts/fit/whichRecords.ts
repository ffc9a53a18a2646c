import { isBlank } from '../../worksheet/cells/cell';
import type { Answers } from './answers';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { isOfLeft } from './leftHeaders';
import { readings } from './reading';
import { everyWeek } from './stack';

/** The days that a plan has where nobody says. */
export const USUAL_DAYS = 28;

/** Orders with a day of the week in the place of a day, once for every week of the plan. */
export function overWeeks(candidate: Candidate, answers: Answers): Candidate {
  const due = readings(candidate).find(({ name }) => name === 'due');
  if (due?.conversion !== 'weekdays') return candidate;
  return everyWeek(candidate, due.match.column, weeksOf(answers));
}

/** How many weeks a plan has. */
export function weeksOf(answers: Answers): number {
  const days = Number(answers.figures?.['days'] ?? USUAL_DAYS);
  return Math.max(1, Math.min(53, Math.ceil((days > 0 ? days : USUAL_DAYS) / 7)));
}

/** 0, as figures or as text writes it. */
const NOTHING = /^\s*0+(?:[.,]0+)?\s*\p{L}*\s*$/u;

/** Lots without those that have none left, where a column says how many there are. */
export function withoutUsedUp(candidate: Candidate): Candidate {
  const { matches, table, sheet, dataRows, parts } = candidate;
  const blocks = matches.find(({ wanted }) =>
    table.columns.some((one) => one.isOfWhatIsLeft && one.name === wanted),
  );
  if (!blocks) return candidate;
  const left = blocks.column;
  const textAt = (row: number): string => textOf(cellAt(sheet, row, left));
  // A column that the grower named for it, of which some say 0, is of what is left too.
  const isNamed = blocks.by === 'you' && dataRows.some((row) => NOTHING.test(textAt(row)));
  if (!isOfLeft(blocks.header) && !isNamed) return candidate;
  // What is left falls with loading: where all lots of none were never loaded, they are lost.
  const loaded = matches.find(({ wanted }) => wanted === 'loaded')?.column;
  const isApart =
    !isOfLeft(blocks.header) &&
    loaded !== undefined &&
    dataRows.every((row) => !NOTHING.test(textAt(row)) || isBlank(cellAt(sheet, row, loaded)));
  const own = dataRows.filter((row) => !NOTHING.test(textAt(row)));
  const noneLeft = [...new Set(['0', ...dataRows.map(textAt).filter((text) => NOTHING.test(text))])];
  return {
    ...candidate,
    left,
    noneLeft,
    ...(isApart && { isLeftApart: true }),
    dataRows: own,
    usedUp: dataRows.length - own.length,
    ...(parts && { parts: parts.map((part) => ({ ...part, left, noneLeft })) }),
  };
}
