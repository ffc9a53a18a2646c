import { labelKey, lookKey } from '../shared/labels';

/** Things found by a label that one slip of the fingers made of theirs. */
export class LabelSlips<T> {
  private readonly byLook = new Map<string, T[]>();
  /** By the label with one of its characters left out, or none. */
  private readonly byRest = new Map<string, { readonly key: string; readonly thing: T }[]>();

  constructor(things: Iterable<T>, labelOf: (thing: T) => string) {
    for (const thing of things) {
      const key = labelKey(labelOf(thing));
      add(this.byLook, lookKey(key), thing);
      const keyed = { key, thing };
      for (const rest of rests(key)) add(this.byRest, rest, keyed);
    }
  }

  /** Those whose label looks the same: another spelling, a letter O for a nought. */
  alike(label: string): readonly T[] {
    const look = lookKey(label);
    return look === '' ? [] : (this.byLook.get(look) ?? []);
  }

  /** Those whose label differs in one character: changed, left out, added, or two neighbours swapped. */
  oneSlipFrom(label: string): readonly T[] {
    const typed = labelKey(label);
    const near = new Set<T>();
    for (const rest of rests(typed)) {
      for (const { key, thing } of this.byRest.get(rest) ?? []) {
        if (key !== typed && oneSlipApart(typed, key)) near.add(thing);
      }
    }
    return [...near];
  }
}

function add<T>(map: Map<string, T[]>, key: string, thing: T): void {
  const there = map.get(key);
  if (there) there.push(thing);
  else map.set(key, [thing]);
}

function rests(label: string): Set<string> {
  const all = new Set([label]);
  for (let at = 0; at < label.length; at++) all.add(label.slice(0, at) + label.slice(at + 1));
  return all;
}

function oneSlipApart(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (
    end < a.length - start &&
    end < b.length - start &&
    a[a.length - 1 - end] === b[b.length - 1 - end]
  ) {
    end++;
  }
  const [left, right] = [a.slice(start, a.length - end), b.slice(start, b.length - end)];
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}
