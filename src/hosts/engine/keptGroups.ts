import { reasonOf, type Kept } from './proof';

/** What formulas have in common that keep their stored results for a like reason. */
export function keptGroup(why: Kept, functions: readonly string[], formula: string): string {
  if (why.because === 'lacking') return `${reasonOf(why)}, which the calculation here lacks`;
  if (why.because === 'unproven') return reasonOf(why);
  const signs = formula
    .replace(/^=|\[[^\]]*\]/g, '')
    .replace(/[^-+*/^&=<>%]+/g, ' ')
    .trim();
  const calls = functions.length === 0 ? signs || 'a reference' : functions.join(', ');
  return `${calls}, whose result here is another`;
}

/** Members by a name for each, the largest group first. */
export function grouped<T>(members: Iterable<T>, nameOf: (member: T) => string): [name: string, of: T[]][] {
  const byName = new Map<string, T[]>();
  for (const one of members) {
    const name = nameOf(one);
    const of = byName.get(name);
    if (of) of.push(one);
    else byName.set(name, [one]);
  }
  return [...byName].sort(([, a], [, b]) => b.length - a.length);
}
