import { requireAtLeast } from '../shared/checks';
import { dateOf, invalid, missing, timeOf, type Placed, type Where } from '../shared/fault';

declare module '../shared/fault' {
  interface FaultDetails {
    noProgrammeDay: object;
    /** A day that is in two rows of the programme. */
    dayTwice: { readonly day: number };
    /** A set point in words among numbers, or the reverse. */
    mixedSetPoints: { readonly given: string | number | boolean };
    /** A blank or 0 among numbers, which a host may not tell apart. */
    blankSetPoint: object;
  }
}

/** A set point: a number such as a temperature, or a word such as a light plan. */
export type SetPoint = number | string | boolean;

/** A day of a programme, counted from loading. */
export interface ProgrammeDay extends Placed {
  readonly day: number;
}

/** The same with its set points by name, undefined where blank. */
export interface ProgrammeRow extends ProgrammeDay {
  readonly points: ReadonlyMap<string, SetPoint | undefined>;
}

/**
 * The set points of a programme by name, in the order of its rows: numbers throughout, or words throughout. Among
 * numbers the word `none` is 0.
 *
 * @throws missing where the programme has no row
 * @throws invalid where numbers and words are mixed, or one of the numbers is blank
 */
export function setPointColumns(
  rows: readonly ProgrammeRow[],
): ReadonlyMap<string, readonly (SetPoint | undefined)[]> {
  const first = rows[0];
  if (first === undefined) throw missing('programme', 'noProgrammeDay');
  return new Map([...first.points.keys()].map((name) => [name, setPointColumn(rows, name)]));
}

function setPointColumn(rows: readonly ProgrammeRow[], name: string): readonly (SetPoint | undefined)[] {
  const isNone = (point: SetPoint): boolean =>
    typeof point === 'string' && point.trim().toLowerCase() === 'none';
  const points = rows.map((row) => row.points.get(name));
  const first = points.find((point) => point !== undefined && !isNone(point));
  const numbers = typeof first === 'number';
  return points.map((point, i) => {
    if (point === undefined) {
      if (numbers) throw invalid(`programme, ${name}`, 'blankSetPoint', undefined, rows[i]);
      return undefined;
    }
    if (numbers && isNone(point)) return 0;
    if ((typeof point === 'number') === numbers) return point;
    throw invalid(`programme, ${name}`, 'mixedSetPoints', { given: point }, rows[i]);
  });
}

/**
 * The rows of a programme in the order of their days, by their places in the list given.
 *
 * @throws invalid where a day is below 0 or in two rows
 */
export function orderOfDays(rows: readonly ProgrammeDay[]): readonly number[] {
  const order = rows.map((_, i) => i).sort((a, b) => rows[a]!.day - rows[b]!.day);
  order.forEach((i, place) => {
    const { day } = rows[i]!;
    requireAtLeast('programme, day', day, 0, rows[i]);
    if (place > 0 && day === rows[order[place - 1]!]!.day) {
      throw invalid('programme, day', 'dayTwice', { day }, rows[i]);
    }
  });
  return order;
}

/**
 * Days from loading to a date, 0 or more.
 *
 * @throws invalid where the date is before the loading
 */
export function daysSinceLoading(onSerial: number, loadedSerial: number, where?: Where): number {
  const days = onSerial - loadedSerial;
  if (days >= 0) return days;
  const wholeDays = Number.isInteger(onSerial) && Number.isInteger(loadedSerial);
  const told = wholeDays ? dateOf : timeOf;
  const details = { other: 'loaded', date: told(loadedSerial), given: told(onSerial) };
  throw invalid('on', 'notBefore', details, where);
}
