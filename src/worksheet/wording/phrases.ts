import { METRES_A_FOOT, PASCALS_A_PSI } from '../../maths/shared/constants';
import { metresOf, type Figure, type Given, type Limits, type Quantity } from '../../maths/shared/fault';
import { writtenDate, writtenTime } from '../calendar';
import type { Place } from '../cells/cell';
import type { Telling, Voice } from '../voice';

// The pieces that sentences are made of.

/** Six significant digits, or two after the point of a large figure: more are no part of what a grower weighed. */
export function shownNumber(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  const whole = Math.abs(value) < 1 ? 0 : Math.floor(Math.log10(Math.abs(value))) + 1;
  return String(Number(value.toPrecision(Math.min(15, Math.max(6, whole + 2)))));
}

/** A label of a sheet in a sentence: on one line, and not longer than a line. */
export function inLine(label: string): string {
  const line = label.replace(/[\p{Cc}\p{Cf}\u2028\u2029]+/gu, ' ').trim();
  return line.length > 40 ? `${line.slice(0, 37)}…` : line;
}

/** The same in quotes. */
export const quoted = (label: string): string => `"${inLine(label)}"`;

/** A share as a percentage: `62.5%`. */
export function shownPercent(share: number): string {
  return `${Number((100 * share).toPrecision(4))}%`;
}

const PASCALS: Record<Voice['pressure'], number> = { bar: 1e5, kPa: 1e3, psi: PASCALS_A_PSI };

const inCalendar = (serial: number): boolean => serial >= 0 && serial < 2_958_466;

function shownQuantity({ of, value }: Quantity, { dateSystem, voice }: Telling, withUnit: boolean): string {
  const measured = (figure: number, unit: string): string =>
    shownNumber(figure) + (withUnit ? ` ${unit}` : '');
  switch (of) {
    case 'date':
      return inCalendar(value) ? writtenDate(value, dateSystem) : shownNumber(value);
    case 'time':
      return inCalendar(value) ? writtenTime(value, dateSystem) : shownNumber(value);
    case 'celsius':
      return measured(voice.degrees === 'C' ? value : value * 1.8 + 32, `°${voice.degrees}`);
    case 'degrees':
      return measured(voice.degrees === 'C' ? value : value * 1.8, `°${voice.degrees}`);
    case 'pascals':
      return measured(value / PASCALS[voice.pressure], voice.pressure);
    case 'metres':
      return measured(voice.length === 'm' ? value : value / METRES_A_FOOT, voice.length);
    case 'share':
      return shownPercent(value);
  }
}

/** A figure in the dates and units of the call. */
export function shownFigure(figure: Figure, telling: Telling, withUnit = true): string {
  return typeof figure === 'number' ? shownNumber(figure) : shownQuantity(figure, telling, withUnit);
}

/** What was found, after "it is". */
export function shownGiven(given: Given, telling: Telling): string {
  if (given === undefined || given === null) return 'blank';
  if (typeof given === 'string') return quoted(given);
  if (typeof given === 'boolean') return given ? 'TRUE' : 'FALSE';
  return shownFigure(given, telling);
}

/** A limit that is round in metres, in whole feet inside of it: what a sentence calls the limit is itself taken. */
function inWholeFeet(limit: Figure | undefined, inward: (feet: number) => number, { voice }: Telling) {
  if (typeof limit !== 'object' || limit.of !== 'metres' || voice.length === 'm') return limit;
  return metresOf(inward(limit.value / METRES_A_FOOT) * METRES_A_FOOT);
}

/** Limits after "must be": `above 0`, `from 1 to 9`, `0 or more`; empty where there are none. */
export function limitWords({ from: low, above, to: high, below, unit }: Limits, telling: Telling): string {
  const from = inWholeFeet(low, Math.ceil, telling);
  const to = inWholeFeet(high, Math.floor, telling);
  const plain = (figure: Figure): string => shownFigure(figure, telling);
  const bare = (figure: Figure): string => shownFigure(figure, telling, false);
  const suffix = unit ? ` ${unit}` : '';
  if (from !== undefined && to !== undefined) return `from ${bare(from)} to ${plain(to)}${suffix}`;
  if (above !== undefined && to !== undefined)
    return `above ${bare(above)} and at most ${plain(to)}${suffix}`;
  if (from !== undefined && below !== undefined)
    return `from ${bare(from)} to below ${plain(below)}${suffix}`;
  if (above !== undefined && below !== undefined)
    return `between ${bare(above)} and ${plain(below)}${suffix}`;
  if (above !== undefined) return `above ${plain(above)}${suffix}`;
  if (from !== undefined) return `${plain(from)}${suffix} or more`;
  if (to !== undefined) return `at most ${plain(to)}${suffix}`;
  if (below !== undefined) return `below ${plain(below)}${suffix}`;
  return '';
}

/** What a sentence speaks of: `moisture`, or `best in strains` for a column of a table. */
export function subjectOf(argument: string): string {
  if (!argument.includes(', ')) return argument;
  const [table, ...column] = argument.split(', ');
  return `${inLine(column.join(', '))} in ${table!}`;
}

/** Where to look, at the end of a sentence. Rows of a table count from its header, those of a column from its top. */
export function placeWords({ argument, row }: Place, isTable = argument.includes(', ')): string {
  if (row === undefined) return '';
  return ` (row ${row} of ${isTable ? argument.split(', ')[0]! : 'the column'})`;
}

/** `A, B and C` */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)!}`;

/** A number and what is counted: `1 row`, `2 rows`. */
export const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? '' : 's'}`;
