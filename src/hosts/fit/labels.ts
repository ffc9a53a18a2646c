import type { Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { textOf } from './book';

/** The form in which labels are the same whatever their signs and capitals. */
export const looseKey = (label: Cell): string =>
  textOf(label)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '');

/** The form in which words for a product are the same: `Oyster`, `oysters`, `Oyster mushrooms`. */
export const productKey = (word: Cell): string =>
  looseKey(textOf(word).replace(/\bmushrooms?\b/i, '')).replace(/s$/, '') || looseKey(word);

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

/** Whether a label is one of some; or, where its words count, shares one with them: `Oysters` and `Blue oyster`. */
export function knownAmong(labels: readonly string[], doWordsCount: boolean): (label: string) => boolean {
  const keys = new Set(labels.map(headerKey));
  const words = new Set(doWordsCount ? labels.flatMap(tellingWords) : []);
  return (label) => {
    const key = headerKey(label);
    return key !== '' && (keys.has(key) || tellingWords(label).some((word) => words.has(word)));
  };
}

const tellingWords = (label: string): string[] =>
  (label.toLowerCase().match(/\p{L}{4,}/gu) ?? []).map((word) => word.replace(/s$/, ''));
