import { requireAtLeast } from '../shared/checks';
import { orderOfDays, type ProgrammeDay, type SetPoint } from './programme';

/**
 * A set point on a day, from a programme of days and values.
 *
 * On the straight line between the programme's days before and after; the first value before the first day, the last
 * one after the last day. Words (a light plan, a room's state) hold from their day until the next.
 *
 * @param rows the programme's days since loading, 0 or more, each once, in any order
 * @param values the set point on each of those days, undefined where blank: in numbers a 0, in words the word before
 * @param day day since loading, 0 or more
 * @returns the set point; undefined where no word has been given yet
 * @throws invalid where a day is in two rows or outside its range
 */
export function setPointOn<V extends SetPoint>(
  rows: readonly ProgrammeDay[],
  values: readonly (V | undefined)[],
  day: number,
): V | number | undefined {
  requireAtLeast('day', day, 0);
  const order = orderOfDays(rows);
  const dayAt = (place: number): number => rows[order[place]!]!.day;
  const after = order.findIndex((i) => rows[i]!.day > day);
  if (values.some((value) => value !== undefined && typeof value !== 'number')) {
    const started = after < 0 ? order : order.slice(0, after);
    const last = started.filter((i) => values[i] !== undefined).at(-1);
    return last === undefined ? undefined : values[last];
  }
  const at = (place: number): number => Number(values[order[place]!] ?? 0);
  if (after === 0) return at(0);
  if (after < 0) return at(order.length - 1);
  const share = (day - dayAt(after - 1)) / (dayAt(after) - dayAt(after - 1));
  return at(after - 1) * (1 - share) + at(after) * share;
}
