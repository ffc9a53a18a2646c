import { found, type KnownBook, type KnownPick } from './knownBook';
import { grouped } from './likelihood';
import { decimalsOf } from './massSlips';

/** How often a row is typed twice. */
const TWICE = 0.0015;
/** 1 / (2 √π σ) with σ = 0.35: how likely two masses of one lot and day are to be the same, for each ln of a step. */
const ALIKE = 0.8;
/** Masses nearer than this, on the scale of natural logarithms, show how often one of them is typed. */
const NEAR_MASSES = 0.5;
/** Even steps count for as many of them. */
const EVEN = 50;
/** Steps of the scale are the narrow ones between masses; wider ones were only never weighed. */
const NARROW = 0.25;

/** A copy is as often near its original as far from it. */
const HALF = 0.5;
const NEAR_ROWS = 3;

/**
 * How often each mass is typed among masses near it: few figures are, where a scale is coarse or people round. Counted,
 * not taken from decimals, so that it is the same in pounds and kilograms.
 */
class TypedMasses {
  private readonly sorted: Float64Array;
  private readonly step: number;

  constructor(masses: readonly number[]) {
    this.sorted = new Float64Array(masses).sort();
    const steps: number[] = [];
    for (let at = 1; at < this.sorted.length; at++) {
      const step = this.sorted[at]! - this.sorted[at - 1]!;
      if (step > 1e-9 * this.sorted[at]!) steps.push(step);
    }
    steps.sort((a, b) => a - b);
    this.step = steps[Math.floor(NARROW * steps.length)] ?? 10 ** -decimalsOf(masses[0]!);
  }

  /** How likely another mass of the same lot and day is to be the same by chance; the two take no part. */
  alike(mass: number): number {
    const [low, high] = [this.below(mass * Math.exp(-NEAR_MASSES)), this.below(mass * Math.exp(NEAR_MASSES))];
    const same = this.below(mass * (1 + 1e-9)) - this.below(mass * (1 - 1e-9));
    const even = (EVEN * this.step) / mass / (2 * NEAR_MASSES);
    const share = (Math.max(0, same - 2) + even) / (Math.max(0, high - low - 2) + EVEN);
    return Math.min(1, ALIKE * 2 * NEAR_MASSES * share);
  }

  /** How many are less. */
  private below(mass: number): number {
    let [from, to] = [0, this.sorted.length];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (this.sorted[middle]! < mass) from = middle + 1;
      else to = middle;
    }
    return from;
  }
}

/** Rows that are the same as another in every column: typed twice, unless the book has as many by chance. */
export function judgeCopies({ picks, findings }: KnownBook): void {
  const whole = picks.filter(({ day, mass }) => day !== undefined && mass !== undefined && mass > 0);
  if (whole.length === 0) return;
  const masses = new TypedMasses(whole.map(({ mass }) => mass!));
  const placeOf = ({ record: { lot, date, picker, scale, grade, crate, flush } }: KnownPick): string =>
    [lot, date, picker, scale, grade, crate, flush].join('\n');
  const byPlace = [...grouped(whole, placeOf).values()].filter(({ length }) => length > 1);
  for (const members of byPlace) members.sort((a, b) => a.record.row - b.record.row);
  const isNear = (one: KnownPick, other: KnownPick): boolean =>
    Math.abs(one.record.row - other.record.row) <= NEAR_ROWS;
  let [others, near] = [0.1, 0.1];
  const pairs = byPlace.flatMap((members) =>
    members.slice(1).map((pick, i) => {
      const first = members.slice(0, i + 1).find(({ mass }) => mass === pick.mass);
      if (!first) {
        others++;
        if (isNear(pick, members[0]!)) near++;
      }
      return { pick, first };
    }),
  );
  for (const { pick, first } of pairs) {
    if (!first) continue;
    // Where honest second weighings are typed one after the other, one that is not is no second weighing.
    const habit = isNear(pick, first) ? near / others : 1 - (near - 0.05) / others;
    const chance = (habit / HALF) * masses.alike(pick.mass!);
    const sure = TWICE / (TWICE + (others / whole.length) * chance);
    if (sure < 0.5) continue;
    pick.isCopy = true;
    const { row } = first.record;
    findings.push(
      found(pick.record, 'twice', 'mass', pick.mass!, {
        slip: 'twice',
        about: row,
        sure,
        rows: [pick.record.row],
      }),
    );
  }
}
