import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';

// Orders that stand: a day of the week in the place of a day. Each week of the plan reads the whole table once.

/** Days of the week as people write them, Monday first, seven to a row. */
const WRITTEN = [
  ...['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
  ...['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'],
  ...['mondays', 'tuesdays', 'wednesdays', 'thursdays', 'fridays', 'saturdays', 'sundays'],
  ...['mon.', 'tues', 'weds', 'thurs', 'fri.', 'sat.', 'sun.'],
];
const BEFORE = ['every ', 'each ', 'on '];

/** The day of the week that a text names, Monday 1; undefined where it names none, or several. */
function weekdayIn(text: string): number | undefined {
  const bare = BEFORE.reduce((rest, word) => rest.replaceAll(word, ''), text.toLowerCase()).trim();
  const at = WRITTEN.indexOf(bare);
  return at < 0 ? undefined : (at % 7) + 1;
}

/** Whether a column says on which day of the week: most of its cells name one. */
export function areWeekdays(cells: readonly Cell[]): boolean {
  const filled = cells.filter((cell) => !isBlank(cell));
  const named = filled.filter((cell) => typeof cell === 'string' && weekdayIn(cell) !== undefined);
  return named.length > 0 && named.length >= filled.length / 2;
}

/** The days of the week that cells name. */
export const readWeekdays = (cells: readonly Cell[]): Cell[] =>
  cells.map((cell) => {
    if (isBlank(cell) || isCellError(cell)) return cell;
    return (
      weekdayIn(textOf(cell)) ??
      cellError(
        '#N/A',
        `must name one day of the week; for two days give each a row; it is "${textOf(cell)}"`,
      )
    );
  });

/** The first such day from a first one on, so many weeks later. */
export const dayFrom = (weekday: number, first: number, firstWeekday: number, week: number): number =>
  first + ((weekday - firstWeekday + 7) % 7) + 7 * week;

/** The same as a formula says it. */
export function dayText(cells: string, first: string, week: number): string {
  const bare = BEFORE.reduce((rest, word) => `SUBSTITUTE(${rest},"${word}","")`, `LOWER(${cells})`);
  const list = WRITTEN.map((word) => `"${word}"`).join(',');
  const weekday = `MOD(MATCH(TRIM(${bare}),{${list}},0)-1,7)+1`;
  return `${first}+MOD(${weekday}-WEEKDAY(${first},2),7)+${7 * week}`;
}
