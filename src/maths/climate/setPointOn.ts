import { requireAtLeast } from '../shared/checks';
import { orderOfDays, type ProgrammeDay, type SetPoint } from './programme';

/**
 * A set point on a day, from a programme of days and values.
 *
 * On the straight line between the programme's days before and after; the first value before the first day, the last
 * one after the last day. Words (a light plan, a room's state) hold from their day until the next. A blank gives no
 * set point: the line runs past it, and the word before it holds.
 *
 * @param rows the programme's days since loading, 0 or more, each once, in any order
 * @param values the set point on each of those days, undefined where blank
 * @param day day since loading, 0 or more
 * @returns the set point; undefined where no word has been given yet, or no number at all
 * @throws invalid where a day is in two rows or outside its range
 */
export function setPointOn<V extends SetPoint>(
  rows: readonly ProgrammeDay[],
  values: readonly (V | undefined)[],
  day: number,
): V | number | undefined {
  requireAtLeast('day', day, 0);
  const order = orderOfDays(rows);
  const given = order.filter((i) => values[i] !== undefined);
  const next = given.find((i) => rows[i]!.day > day);
  const last = given.filter((i) => rows[i]!.day <= day).at(-1);
  if (given.some((i) => typeof values[i] !== 'number')) return last === undefined ? undefined : values[last];
  if (last === undefined || next === undefined) return values[last ?? next ?? -1];
  const share = (day - rows[last]!.day) / (rows[next]!.day - rows[last]!.day);
  return Number(values[last]) * (1 - share) + Number(values[next]) * share;
}
