import { median } from '../shared/statistics';
import { found, type KnownBook } from './knownBook';
import type { JudgedPick } from './judgedPick';
import type { GroupEffect, MassModel } from './massModel';

// A crate that someone never takes off adds the same to every mass: light picks are too heavy by more than heavy ones,
// where a person who is honestly above the others is so by the same share throughout.

/** Fewer picks than this show no slope. */
const LEAST_PICKS = 20;
/** Weights of a crate that are tried, against the middle mass, each a fifth above the one before. */
const TRIED = Array.from({ length: 22 }, (_, step) => 0.03 * 1.2 ** step);
/** People and scales differ honestly by about this much, on the scale of natural logarithms. */
const BETWEEN = 0.12;
/** ln of how often someone never takes the crate off. */
const NEVER_OFF = Math.log(0.005);
/** Picks of one flush share their weather: they count for less than as many of their own. */
const TOGETHER = 0.7;
/** Of Student's density, as for single masses. */
const TAIL_DEGREES = 6;
const HONEST = [-0.3, -0.2, -0.1, -0.05, 0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5];
/** A crate that weighs more than the lightest picks is none: so many of a hundred may be slips. */
const LIGHTEST = 0.05;

export interface Tare {
  readonly group: GroupEffect;
  readonly added: number;
  readonly odds: number;
}

/** The person, scale or kind of crate whose masses a constant weight explains best. */
export function worstTare({ groups, byLot, spreads }: MassModel): Tare | undefined {
  let worst: Tare | undefined;
  for (const group of groups) {
    const others = groups.filter(({ column, name }) => column === group.column && name !== group.name);
    if (others.length === 0 || group.members.length < LEAST_PICKS) continue;
    const above = group.effect - median(others.map(({ effect }) => effect));
    const seen = besideOthers(group, byLot, above, spreads.pick);
    if (seen.length < LEAST_PICKS) continue;
    const masses = seen.map(({ mass }) => mass).sort((a, b) => a - b);
    const [lightest, middle] = [masses[Math.floor(LIGHTEST * masses.length)]!, median(masses)];
    const likely = (off: (mass: number) => number): number => TOGETHER * logTails(seen, off);
    const honest = Math.max(...HONEST.map((share) => likely(() => share) - 0.5 * (share / BETWEEN) ** 2));
    for (const tried of TRIED) {
      const added = tried * middle;
      if (added >= lightest) break;
      const off = (mass: number): number => -Math.log(1 - Math.min(0.95, added / mass));
      const odds = NEVER_OFF - Math.log(TRIED.length) + likely(off) - honest;
      if (odds > 0 && !(worst && worst.odds >= odds)) worst = { group, added, odds };
    }
  }
  return worst;
}

/** ln of how likely all are; what is the same whatever is tried is left out. */
function logTails(seen: readonly Seen[], off: (mass: number) => number): number {
  let [sum, product] = [0, 1];
  for (const { mass, ahead, spread } of seen) {
    // The product of many is one logarithm.
    product *= 1 + ((ahead - off(mass)) / spread) ** 2 / TAIL_DEGREES;
    if (product > 1e100) [sum, product] = [sum + Math.log(product), 1];
  }
  return -((TAIL_DEGREES + 1) / 2) * (sum + Math.log(product));
}

interface Seen {
  readonly mass: number;
  readonly ahead: number;
  readonly spread: number;
}

/** By how much each of a group's picks is ahead of those of others in its lot and flush. */
function besideOthers(
  { column, name, members }: GroupEffect,
  byLot: MassModel['byLot'],
  above: number,
  ofPick: number,
): Seen[] {
  const isOwn = ({ pick }: JudgedPick): boolean => pick.record[column] === name;
  const seen: Seen[] = [];
  for (const lot of new Set(members.map(({ pick }) => pick.lot!))) {
    for (const flush of byLot.get(lot)!.flushes) {
      const others: number[] = [];
      for (const one of flush) if (!isOwn(one)) others.push(one.off);
      if (others.length === 0 || others.length === flush.length) continue;
      const middle = median(others);
      const spread = ofPick * Math.sqrt(1 + 1.5 / others.length);
      for (const one of flush)
        if (isOwn(one)) seen.push({ mass: one.pick.mass!, ahead: one.off + above - middle, spread });
    }
  }
  return seen;
}

/** Tells the group, and takes the weight off for the sake of what is judged after it. */
export function tellTare(book: KnownBook, { group: { column, name, members }, added, odds }: Tare): void {
  const rows = members.map(({ pick }) => pick.record.row).sort((a, b) => a - b);
  const first = members.find(({ pick }) => pick.record.row === rows[0])!.pick;
  const weight = Number(added.toPrecision(2));
  book.findings.push(
    found(first.record, 'group', 'mass', first.mass!, {
      rows,
      // The weight is only known about: the crate has to be put on the scale.
      expected: Number((first.mass! - weight).toPrecision(12)),
      slip: 'crate',
      added: weight,
      about: `${column} ${name}`,
      sure: Math.min(0.9999, 1 / (1 + Math.exp(-odds))),
    }),
  );
  for (const { pick } of members) if (pick.mass! > added) pick.mass! -= added;
}
