import type { Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';

/** The form in which labels are the same whatever their signs and capitals. */
export const looseKey = (label: Cell): string =>
  textOf(label)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '');

/** Each label in its commonest spelling. */
export function commonest(labels: readonly Cell[]): string[] {
  const counts = new Map<string, Map<string, number>>();
  for (const label of labels) {
    const spelled = counts.get(looseKey(label)) ?? new Map<string, number>();
    const own = textOf(label).trim();
    spelled.set(own, (spelled.get(own) ?? 0) + 1);
    counts.set(looseKey(label), spelled);
  }
  return [...counts.values()].map((spelled) => [...spelled].sort(([, a], [, b]) => b - a)[0]![0]);
}
