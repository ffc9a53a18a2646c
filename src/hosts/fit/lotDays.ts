import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { serialOf, type DateSystem } from '../../worksheet/calendar';
import type { DateOrder } from '../../worksheet/writtenDates';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import type { ColumnReading } from './reading';
import { isTextDate } from './values';

// The day that a lot was made, where nothing says it but the lot's own name: LM-0510-A was made on 5 October. The grower is
// asked which figures of the name are what.

/** How figures of a name write a day, by the letters of its pattern. */
const PATTERNS = ['YYYYMMDD', 'YYMMDD', 'DDMMYY', 'MMDDYY', 'DDMM', 'MMDD', 'YYWW'] as const;
type Pattern = (typeof PATTERNS)[number];

const ORDER: Record<Pattern, DateOrder> = {
  YYYYMMDD: 'year first',
  YYMMDD: 'year first',
  DDMMYY: 'day first',
  MMDDYY: 'month first',
  DDMM: 'day first',
  MMDD: 'month first',
  YYWW: 'year first',
};
/** A week is its Monday: the week of 4 January is the first (ISO 8601). */
const WEEK: Pattern = 'YYWW';
/** Years in which a lot of today may have been made. */
const [FIRST_YEAR, LAST_YEAR] = [2015, 2044];

/** Where the day is in the names of lots, and how. */
export interface LotDay {
  readonly pattern: Pattern;
  /** The first of its figures in each name, from 0. */
  readonly from: number;
}

/** What a grower chooses where the names of the lots say the day. */
export const lotDayHeader = ({ pattern }: LotDay): string => `${pattern} in the lot’s name`;

/** So many of the names have to say a day; the others have no figures there. */
const NEARLY_ALL = 0.95;

/** What the names of lots may say of the day, each way in which nearly all of them would be days. */
export function lotDays(candidate: Candidate, dateSystem: DateSystem): readonly LotDay[] {
  const names = lotNames(candidate);
  if (names.length < 2) return [];
  const said = (day: LotDay): readonly string[] => names.filter((name) => !hasNoFigures(name, day));
  // One of the first two has figures where nearly all have.
  const places = names.slice(0, 2).flatMap((name) => [...name.matchAll(/\d+/g)]);
  const days = places.flatMap(({ 0: figures, index: from }) =>
    PATTERNS.filter((pattern) => pattern.length === figures.length).map((pattern) => ({ pattern, from })),
  );
  const different = new Map(days.map((day) => [`${day.pattern} ${day.from}`, day]));
  return [...different.values()].filter((day) => {
    const own = said(day);
    return own.length >= NEARLY_ALL * names.length && own.every((name) => isDayIn(name, day, dateSystem));
  });
}

/** Whether a name has other signs where the day would be: as a formula reads it, that is no day. */
const hasNoFigures = (name: string, { pattern, from }: LotDay): boolean =>
  !/^\d+$/.test(name.slice(from, from + pattern.length).padEnd(pattern.length, ' '));

const lotNames = ({ sheet, dataRows, matches }: Candidate): string[] => {
  const lot = matches.find(({ wanted }) => wanted === 'lot');
  if (!lot) return [];
  return dataRows
    .map((row) => cellAt(sheet, row, lot.column))
    .filter((cell) => !isBlank(cell))
    .map(textOf);
};

/** The figures that are the day: they stand alone, at the place where they are in all names. */
function figuresIn(name: string, { pattern, from }: LotDay): string | undefined {
  const figures = name.slice(from, from + pattern.length);
  const isAlone = !/\d/.test(name.charAt(from - 1)) && !/\d/.test(name.charAt(from + pattern.length));
  return isAlone && /^\d+$/.test(figures) && figures.length === pattern.length ? figures : undefined;
}

function isDayIn(name: string, day: LotDay, dateSystem: DateSystem): boolean {
  const read = dayIn(name, day, dateSystem);
  if (typeof read === 'number') return true;
  if (Number(partIn(name, day, 'M')) > 12) return false;
  const year = /^\d{4}/.exec(read)?.[0] ?? /\d{4}$/.exec(read)?.[0];
  const isLately = year === undefined || (Number(year) >= FIRST_YEAR && Number(year) <= LAST_YEAR);
  return read !== name && isTextDate(read) && isLately;
}

const partsOf = ({ pattern, from }: LotDay, letter: 'D' | 'M' | 'Y' | 'W'): readonly [number, number] => [
  from + pattern.indexOf(letter),
  pattern.lastIndexOf(letter) - pattern.indexOf(letter) + 1,
];

const partIn = (name: string, day: LotDay, letter: 'D' | 'M' | 'Y' | 'W'): string => {
  const [at, length] = partsOf(day, letter);
  return name.slice(at, at + length);
};

/** The day in a name, as a date written out or, of a week, its serial; the name itself where it says none. */
export function dayIn(name: string, day: LotDay, dateSystem: DateSystem): string | number {
  if (figuresIn(name, day) === undefined) return name;
  const part = (letter: 'D' | 'M' | 'Y' | 'W'): string => partIn(name, day, letter);
  if (day.pattern === WEEK) {
    const [year, week] = [2000 + Number(part('Y')), Number(part('W'))];
    if (year < FIRST_YEAR || year > LAST_YEAR || week < 1 || week > 53) return name;
    const fourth = serialOf(year, 1, 4, dateSystem);
    const weekday = (new Date(Date.UTC(year, 0, 4)).getUTCDay() + 6) % 7;
    return fourth - weekday + 7 * (week - 1);
  }
  if (!day.pattern.includes('Y'))
    return day.pattern === 'DDMM' ? `${part('D')}/${part('M')}` : `${part('M')}/${part('D')}`;
  const year = part('Y').length === 2 ? `20${part('Y')}` : part('Y');
  return `${year}-${part('M')}-${part('D')}`;
}

/** The same as a formula says it. */
export function dayText(cells: string, day: LotDay): string {
  const part = (letter: 'D' | 'M' | 'Y' | 'W'): string => {
    const [at, length] = partsOf(day, letter);
    return `MID(${cells},${at + 1},${length})`;
  };
  const written = (): string => {
    if (day.pattern === WEEK) {
      const fourth = `DATE(2000+${part('Y')},1,4)`;
      return `${fourth}-WEEKDAY(${fourth},2)+1+7*(${part('W')}-1)`;
    }
    if (!day.pattern.includes('Y')) {
      const [first, last] = day.pattern === 'DDMM' ? (['D', 'M'] as const) : (['M', 'D'] as const);
      return `${part(first)}&"/"&${part(last)}`;
    }
    const century = day.pattern === 'YYYYMMDD' ? '' : '"20"&';
    return `${century}${part('Y')}&"-"&${part('M')}&"-"&${part('D')}`;
  };
  return `IF(${cells}="","",${written()})`;
}

/** The day of each lot from its name, as the grower said that it is there. */
export function readFromNames(
  candidate: Candidate,
  said: string | null | undefined,
  dateSystem: DateSystem,
): ColumnReading | undefined {
  const day = lotDays(candidate, dateSystem).find((one) => lotDayHeader(one) === said);
  const wanted = candidate.table.columns.find(({ name }) => name === 'inoculated');
  const lot = candidate.matches.find((match) => match.wanted === 'lot');
  if (!day || !wanted || !lot) return undefined;
  const lacksYear = !day.pattern.includes('Y');
  return {
    wanted,
    name: 'inoculated',
    match: { wanted: 'inoculated', header: lotDayHeader(day), column: lot.column, by: 'you' },
    conversion: 'dates',
    proven: {
      order: lacksYear ? ORDER[day.pattern] : 'year first',
      proofs: candidate.dataRows.length,
      isContradicted: false,
      isNeeded: false,
      lacksYear,
    },
    unit: 'number',
    decimalMark: undefined,
    lotDay: day,
  };
}

/** A cell of the lots' names as the day in it. */
export const asLotDay = (cell: Cell, day: LotDay, dateSystem: DateSystem): Cell =>
  isBlank(cell) ? cell : dayIn(textOf(cell), day, dateSystem);

const MONTHS = 'January February March April May June July August September October November December'.split(
  ' ',
);

/** What the names would say, for the grower to judge: `PO-0510-A may say it: 5 October as DDMM`. */
export function lotDayHint(candidate: Candidate, days: readonly LotDay[], dateSystem: DateSystem): string {
  const [name = ''] = lotNames(candidate);
  const told = days.map((day) => {
    const month = MONTHS[Number(partIn(name, day, 'M')) - 1];
    const read = dayIn(name, day, dateSystem);
    if (typeof read === 'number')
      return `the Monday of week ${Number(partIn(name, day, 'W'))} as ${day.pattern}`;
    return `${day.pattern.includes('Y') ? read : `${Number(partIn(name, day, 'D'))} ${month}`} as ${day.pattern}`;
  });
  return `The name ${name} may say it: ${told.join(', or ')}`;
}
