import { serialOf, type DateSystem } from '../../worksheet/calendar';
import type { Answers } from './answers';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { dayIn, lotDays, type LotDay } from './lotDays';
import { saysOut } from './outCounts';
import { FIRST_SERIAL } from './values';

// The only column of days beside lots is not always the day they were made: often it is when they went to their room, and
// their names say the other, `SH-260302-1`.

/** Of the lots with both days so many at least went out after the one in their name: some may be slips. */
const NEARLY_ALL = 0.9;

/** The day in a name that says its year. */
function serialIn(name: string, day: LotDay, dateSystem: DateSystem): number | undefined {
  const read = dayIn(name, day, dateSystem);
  if (typeof read === 'number') return read;
  const [, year, month, date] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(read) ?? [];
  return year === undefined ? undefined : serialOf(Number(year), Number(month), Number(date), dateSystem);
}

/** Whether a column has days after those that the names of the lots say. */
function isAfterNames(candidate: Candidate, column: number, dateSystem: DateSystem): boolean {
  const { sheet, dataRows, matches } = candidate;
  const lot = matches.find(({ wanted }) => wanted === 'lot');
  return lotDays(candidate, dateSystem).some((day) => {
    const pairs = dataRows.flatMap((row) => {
      const made = serialIn(textOf(cellAt(sheet, row, lot!.column)), day, dateSystem);
      const held = cellAt(sheet, row, column);
      const isBoth = made !== undefined && typeof held === 'number' && held >= FIRST_SERIAL;
      return isBoth ? [held > made] : [];
    });
    return pairs.length >= 2 && pairs.filter(Boolean).length >= NEARLY_ALL * pairs.length;
  });
}

/** Lots without the day that only its place says is that of inoculation, where its header or their names say otherwise. */
export function withoutDayOut(candidate: Candidate, answers: Answers, dateSystem: DateSystem): Candidate {
  const { table, matches } = candidate;
  const match = matches.find(({ wanted }) => wanted === 'inoculated');
  const isSaid = answers.columns?.[table.name]?.['inoculated'] !== undefined;
  if (table.name !== 'lots' || isSaid || match?.by !== 'its data') return candidate;
  if (!saysOut(match.header) && !isAfterNames(candidate, match.column, dateSystem)) return candidate;
  return {
    ...candidate,
    matches: matches.filter((one) => one !== match),
    missing: [...candidate.missing, 'inoculated'],
  };
}
