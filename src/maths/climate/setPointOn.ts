import { invalid } from '../shared/calcError';
import { requireAtLeast } from '../shared/checks';

/**
 * A set point on a day, from a programme of days and values.
 *
 * On the straight line between the programme's days before and after; the first value before the first day, the last
 * one after the last day. Words (a light plan, a room's state) hold from their day until the next.
 *
 * @param days the programme's days since load, 0 or more, each once, in any order
 * @param values the set point on each of those days, undefined where blank: in numbers a 0, in words the word before
 * @param day day since load, 0 or more
 * @returns the set point; undefined where no word has been given yet
 * @throws invalid where a day stands twice or is outside its range
 */
export function setPointOn<V extends number | string | boolean>(
  days: readonly number[],
  values: readonly (V | undefined)[],
  day: number,
): V | number | undefined {
  if (!(day >= 0)) throw invalid('on', '0 or more days since load', day);
  const order = days.map((_, i) => i).sort((a, b) => days[a]! - days[b]!);
  order.forEach((i, place) => {
    requireAtLeast('programme, day', days[i]!, 0, i);
    if (place > 0 && days[i] === days[order[place - 1]!]) {
      throw invalid('programme, day', 'each day once', days[i], i);
    }
  });
  const after = order.findIndex((i) => days[i]! > day);
  if (values.some((value) => value !== undefined && typeof value !== 'number')) {
    const started = after < 0 ? order : order.slice(0, after);
    const last = started.filter((i) => values[i] !== undefined).at(-1);
    return last === undefined ? undefined : values[last];
  }
  const at = (place: number): number => Number(values[order[place]!] ?? 0);
  if (after === 0) return at(0);
  if (after < 0) return at(order.length - 1);
  const [from, to] = [days[order[after - 1]!]!, days[order[after]!]!];
  const share = (day - from) / (to - from);
  return at(after - 1) * (1 - share) + at(after) * share;
}
