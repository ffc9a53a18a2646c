import { weekdayOf, type DateSystem } from '../../worksheet/calendar';
import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';
import { onceForText } from './once';
import { unaccented } from './otherLanguages';
import { isTextDate } from './values';

// Orders that stand: days of the week in the place of a day. Each week of the plan reads the whole table once for each day
// that a cell names.

/** Days of the week as people write them, Monday first, seven to a row; the first rows are English. */
const WRITTEN = (
  [
    'mon tue wed thu fri sat sun',
    'monday tuesday wednesday thursday friday saturday sunday',
    'mondays tuesdays wednesdays thursdays fridays saturdays sundays',
    'mo tues weds thurs fr sa su',
    'mon tu we thur fri sat sun',
    // German, French, Spanish, Dutch, Italian, Polish.
    'montag dienstag mittwoch donnerstag freitag samstag sonntag',
    'montags dienstags mittwochs donnerstags freitags samstags sonntags',
    'mo di mi do fr sa so',
    'lundi mardi mercredi jeudi vendredi samedi dimanche',
    'lun mar mer jeu ven sam dim',
    'lunes martes miércoles jueves viernes sábado domingo',
    'lun mar mié jue vie sáb dom',
    'maandag dinsdag woensdag donderdag vrijdag zaterdag zondag',
    'ma di wo do vr za zo',
    'lunedì martedì mercoledì giovedì venerdì sabato domenica',
    'lun mar mer gio ven sab dom',
    'poniedziałek wtorek środa czwartek piątek sobota niedziela',
    'pon wt śr czw pt sob nd',
    // Danish.
    'mandag tirsdag onsdag torsdag fredag lørdag søndag',
    'man tir ons tor fre lør søn',
  ] as const
).map((row) => row.split(' '));
const ENGLISH_ROWS = 5;

/** Words before the name of a day that say nothing more. */
const BEFORE = [' every ', ' each ', ' on '];
/** What parts two days. */
const BETWEEN = ['/', ',', '&', '+', ';', '.', ' and ', ' y ', ' und ', ' et ', ' en ', ' e ', ' i '];

/** Which day a word names, Monday 1: with its accents or without, and as the first row that has it says. */
const DAY_NAMED = new Map(
  WRITTEN.flatMap((row) =>
    row.flatMap((name, at) => [name, unaccented(name)].map((word) => [word, at + 1] as const)),
  ).reverse(),
);

/** The words of a text that should name days. */
function wordsIn(text: string): string[] {
  const bare = BEFORE.reduce((rest, word) => rest.replaceAll(word, ' '), ` ${text.toLowerCase()} `);
  const parted = BETWEEN.reduce((rest, sign) => rest.replaceAll(sign, ' '), bare);
  return parted.split(' ').filter((word) => word !== '');
}

/** More days than these are every day of the week. */
export const MOST_DAYS = 7;

/** The days of the week that a text names, Monday 1; none where it says anything else, or a day twice. */
export const weekdaysIn = onceForText((text): readonly number[] => {
  const days = /\d/.test(text) ? [] : wordsIn(text).map((word) => DAY_NAMED.get(word));
  const known = days.filter((day) => day !== undefined);
  return known.length === days.length && new Set(known).size === known.length ? known : [];
});

const namesDays = (cell: Cell): boolean => typeof cell === 'string' && weekdaysIn(cell).length > 0;

/** Whether a column of days has some of the week among its dates: `Wed, Sat` beside `12/18`. */
export const haveWeekdays = (cells: readonly Cell[]): boolean =>
  cells.some(namesDays) &&
  cells.some((cell) => typeof cell === 'number' || (typeof cell === 'string' && isTextDate(cell)));

/** Whether a column says on which days of the week: most of its cells name some. */
export function areWeekdays(cells: readonly Cell[]): boolean {
  const filled = cells.filter((cell) => !isBlank(cell));
  const named = filled.filter(namesDays);
  return named.length > 0 && named.length >= filled.length / 2;
}

/** The first, second … day of the week that cells name; where it is not the first, nothing where they name no more. */
export const readWeekdays = (cells: readonly Cell[], which = 0): Cell[] =>
  cells.map((cell) => {
    if (isBlank(cell) || isCellError(cell)) return cell;
    const days = weekdaysIn(textOf(cell));
    return days[which] ?? cellError('#N/A', `must name days of the week, each once; it is "${textOf(cell)}"`);
  });

/** The day of the week of a date, Monday 1. */
export const weekdayNumber = (serial: number, system: DateSystem): number =>
  ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'].indexOf(
    weekdayOf(Math.floor(serial), system),
  ) + 1;

/** The first such day from a first one on, so many weeks later. */
export const dayFrom = (weekday: number, first: number, firstWeekday: number, week: number): number =>
  first + ((weekday - firstWeekday + 7) % 7) + 7 * week;

/** Longer than any name of a day. */
const WIDTH = 20;

/** The words of cells that name days with one space between, as a formula says it. */
function dayWords(cells: string): string {
  const bare = BEFORE.reduce((rest, word) => `SUBSTITUTE(${rest},"${word}"," ")`, `" "&LOWER(${cells})&" "`);
  return `TRIM(${BETWEEN.reduce((rest, sign) => `SUBSTITUTE(${rest},"${sign}"," ")`, bare)})`;
}

/** The first, second … of them. */
export function dayWord(cells: string, which: number): string {
  const spread = `SUBSTITUTE(${dayWords(cells)}," ",REPT(" ",${WIDTH}))`;
  return `TRIM(MID(${spread},${which * WIDTH + 1},${WIDTH}))`;
}

/** A number that is a day of the week, not a date. */
export const isWeekday = (value: Cell): value is number => typeof value === 'number' && value <= MOST_DAYS;

/** Where the first, second … word of cells is in the list of the names of days, as a formula says it. */
function placeOfDay(cells: string, which: number, held: readonly Cell[]): string {
  const words = new Set(held.flatMap((cell) => (typeof cell === 'string' ? wordsIn(cell) : [])));
  const rows = WRITTEN.filter(
    (row, at) => at < ENGLISH_ROWS || row.some((name) => words.has(name) || words.has(unaccented(name))),
  );
  const spelt = rows.flatMap((row) =>
    row.some((name) => unaccented(name) !== name) ? [row, row.map(unaccented)] : [row],
  );
  const list = spelt.flatMap((row) => row.map((name) => `"${name}"`)).join(',');
  return `MATCH(${dayWord(cells, which)},{${list}},0)`;
}

/** The day of the week that cells name, Monday 1, as a formula says it. */
export const weekdayText = (cells: string, held: readonly Cell[]): string =>
  `MOD(${placeOfDay(cells, 0, held)}-1,7)+1`;

/** How many days of the week cells name, 1 where they name none, as a formula says it. */
export function dayCount(cells: string, held: readonly Cell[]): string {
  const words = dayWords(cells);
  const spaces = `LEN(${words})-LEN(SUBSTITUTE(${words}," ",""))`;
  return `IF(${isDayText(cells, 0, held)},1+${spaces},1)`;
}

/** Whether cells name a day of the week, as a formula says it. */
export const isDayText = (cells: string, which: number, held: readonly Cell[]): string =>
  `ISNUMBER(${placeOfDay(cells, which, held)})`;

/** The day of an order as a formula says it: of the names of days in English, and in the language of those that are there. */
export function dayText(
  cells: string,
  first: string,
  { week, which, held }: { readonly week: number; readonly which: number; readonly held: readonly Cell[] },
): string {
  const weekday = `MOD(${placeOfDay(cells, which, held)}-1,7)+1`;
  return `${first}+MOD(${weekday}-WEEKDAY(${first},2),7)+${7 * week}`;
}
