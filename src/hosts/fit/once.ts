// A book is read for several tables, and its headers and labels come again and again: what follows from one alone is worked
// out once, and kept no longer than what it follows from.

/** What follows from a thing that is never changed, worked out with its first use. */
export function onceFor<K extends object, T>(work: (thing: K) => T): (thing: K) => T {
  const known = new WeakMap<K, { readonly found: T }>();
  return (thing) => {
    const before = known.get(thing);
    if (before) return before.found;
    const found = work(thing);
    known.set(thing, { found });
    return found;
  };
}

/** Texts of which answers are kept: more than the labels and headers of a large book. */
const MOST_TEXTS = 20_000;

/** What follows from a text. */
export function onceForText<T>(work: (text: string) => T): (text: string) => T {
  const known = new Map<string, { readonly found: T }>();
  return (text) => {
    const before = known.get(text);
    if (before) return before.found;
    const found = work(text);
    if (known.size >= MOST_TEXTS) known.clear();
    known.set(text, { found });
    return found;
  };
}
