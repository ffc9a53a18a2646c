import { parseA1Ref, tokenize } from '@borgar/fx';
import { placeOf } from '../xlsx/address';
import type { Place } from './book';
import type { Finding } from './check';

/** A cell that shows an error. */
export interface Faulty {
  readonly place: Place;
  /** `#VALUE!` */
  readonly code: string;
  /** Why, where that is known. */
  readonly reason: string;
  /** What is said of it. */
  readonly words: string;
  readonly formula?: string;
}

/**
 * Cells that show an error as findings, one for each cause: those with the same reason are one, and so is a cell that
 * only passes on the error of a cell it refers to. The first cell of a finding is the one to begin at.
 */
export function byCause(faulty: readonly Faulty[]): Finding[] {
  const groups = new Map<string, Faulty[]>();
  for (const one of faulty) {
    const key = keyOf(one);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  const causes = [...groups.values()];
  const isPassedOn = new Set<readonly Faulty[]>();
  for (const group of causes) {
    if (group[0]!.reason !== '') continue;
    const root = causes.find(
      (other) => other !== group && !isPassedOn.has(other) && refersTo(group[0]!, other),
    );
    if (!root || refersTo(root[0]!, group)) continue;
    root.push(...group);
    isPassedOn.add(group);
  }
  return causes
    .filter((group) => !isPassedOn.has(group))
    .map((group) => {
      const [{ place, words, formula }] = group as [Faulty];
      const places = group.map((one) => one.place);
      return { kind: 'fault', place, places, words, ...(formula !== undefined && { formula }) };
    });
}

/** Figures of a row do not make a cause, labels in quotation marks do. Without a reason each cell is its own. */
const keyOf = ({ code, reason, place }: Faulty): string =>
  reason === ''
    ? `${code} ${place.sheet} ${place.address}`
    : `${code} ${reason.replace(/"[^"]*"|\d+(?:[.,]\d+)*/g, (found) => (found.startsWith('"') ? found : '0'))}`;

/** Whether a formula refers to a cell of these, as an address or within a range. */
function refersTo({ formula, place }: Faulty, others: readonly Faulty[]): boolean {
  if (formula === undefined) return false;
  return tokenize(formula).some(({ type, value }) => {
    if (!type.startsWith('range') && type !== 'range') return false;
    const reference = parseA1Ref(value.replace(/#$/, ''));
    if (!reference || !('range' in reference)) return false;
    const { top, left, bottom = top, right = left } = reference.range;
    const sheet = String(reference.context?.at(-1) ?? place.sheet);
    return others.some((other) => {
      const at = placeOf(other.place.address)!;
      const isWithin = (least: unknown, most: unknown, one: number): boolean =>
        (typeof least !== 'number' || one >= least) && (typeof most !== 'number' || one <= most);
      return other.place.sheet === sheet && isWithin(top, bottom, at.row) && isWithin(left, right, at.column);
    });
  });
}
