import type { LotRecord, PickRecord, StrainFacts } from '../../../../src/maths/audit/yieldRecords';
import { seeded } from '../../../bench/measure';
import { normalDraw } from '../../../normalDraw';

// Books of three invented farms that differ in kind. Efficiencies, flush shares and times are ordinary ones for
// supplemented sawdust (common practice, no source); nothing here was measured.

export interface Book {
  readonly picks: PickRecord[];
  readonly lots: LotRecord[];
  readonly strains: Map<string, StrainFacts>;
  readonly unit: 'kg' | 'lb' | 'g';
  /** Mass of the crate that picks are weighed in. */
  readonly crate: number;
  /** Lots of which a flush was truly never weighed. */
  readonly unweighed?: ReadonlySet<string>;
  /** The flush that each row is truly of, where runs of days do not tell it. */
  readonly flushOf?: ReadonlyMap<number, number>;
}

interface Strain extends StrainFacts {
  readonly label: string;
  readonly best: number;
  readonly shares: readonly number[];
  readonly blockMass: number;
  readonly moisture: number;
}

type Row = readonly [
  label: string,
  earliest: number,
  best: number,
  first: number,
  days: number,
  gap: number,
  efficiency: number,
  shares: readonly number[],
  blockMass: number,
  moisture: number,
];

export const strain = ([
  label,
  earliest,
  best,
  first,
  days,
  gap,
  efficiency,
  shares,
  blockMass,
  moisture,
]: Row): Strain => ({
  label,
  earliest,
  best,
  firstPick: first,
  pickDays: days,
  flushGap: gap,
  flushes: shares.length,
  efficiency,
  shares,
  blockMass,
  moisture,
});

export const FIRST_DAY = 45_300;

/** What every farm draws from. */
export class Draw {
  readonly random: () => number;
  constructor(seed: number) {
    this.random = seeded(seed);
  }
  normal(): number {
    return normalDraw(this.random);
  }
  /** A factor that varies by this share. */
  factor(spread: number): number {
    return Math.exp(Math.sqrt(Math.log(1 + spread * spread)) * this.normal());
  }
  /** A whole number from `low` to `high`. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.random());
  }
  of<T>(things: readonly T[]): T {
    return things[Math.floor(things.length * this.random())]!;
  }
}

export const steps = (value: number, step: number): number =>
  Number((Math.round(value / step) * step).toFixed(3));

export type Picked = Omit<PickRecord, 'row'> & { readonly date: number };

export function bookOf(
  picked: readonly Picked[],
  lots: readonly Omit<LotRecord, 'row'>[],
  strains: readonly Strain[],
  unit: Book['unit'],
  crate: number,
  order = [...picked].sort((a, b) => a.date - b.date || (a.lot < b.lot ? -1 : 1)),
): Book {
  return {
    picks: order.map((pick, i) => ({ ...pick, row: i + 2 })),
    lots: lots.map((lot, i) => ({ ...lot, row: i + 2 })),
    strains: new Map(strains.map((one) => [one.label.toLowerCase(), one])),
    unit,
    crate,
  };
}

export const NOTHING = { picker: '', scale: '', grade: '', crate: '' };

/**
 * A farm that loads shelves all year: 150 lots of four strains, one weighing a lot and day, more in the middle of a flush
 * than at its ends, two pickers 3% apart, a season of ±13%, 4% of lots honestly bad. Kilograms, flushes recorded.
 */
export function shelfFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed);
  const strains = (
    [
      ['Alder-3', 63, 77, 7, 5, 16, 0.8, [0.6, 0.26, 0.14], 2.5, 0.62],
      ['Birch-1', 14, 18, 6, 4, 13, 0.95, [0.66, 0.34], 2.5, 0.64],
      ['Rowan-2', 50, 60, 8, 6, 20, 0.7, [0.5, 0.3, 0.2], 3, 0.58],
      ['Hazel-5', 28, 35, 9, 4, 15, 0.85, [0.7, 0.3], 2.5, 0.65],
    ] as const
  ).map(strain);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: Picked[] = [];
  for (let number = 0; number < 150; number++) {
    const own = draw.of(strains);
    const lot = `${own.label[0]}-${1001 + number}`;
    const loaded = FIRST_DAY + Math.floor((number * 7) / 4);
    const blocks = 10 * draw.whole(4, 12);
    const moisture = Number((own.moisture + 0.008 * draw.normal()).toFixed(2));
    const bad = draw.random() < 0.04 ? 0.35 : 1;
    const yields = blocks * own.blockMass * (1 - moisture) * own.efficiency! * draw.factor(scatter) * bad;
    let start = loaded + Math.max(4, Math.round(own.firstPick! + 1.2 * draw.normal()));
    own.shares.forEach((share, f) => {
      const length = Math.max(2, own.pickDays! + draw.whole(-1, 1));
      const profile = Array.from({ length }, (_, day) => 0.5 + Math.sin((Math.PI * (day + 0.5)) / length));
      const whole = profile.reduce((sum, part) => sum + part, 0);
      const season = 1 + 0.13 * Math.sin((2 * Math.PI * (start - FIRST_DAY)) / 365);
      const ofFlush = yields * share * season * draw.factor(0.15);
      profile.forEach((part, day) => {
        const picker = draw.of(['Ana', 'Ben']);
        const mass = ((ofFlush * part) / whole) * draw.factor(0.6 * scatter) * (picker === 'Ana' ? 1.03 : 1);
        picks.push({
          ...NOTHING,
          lot,
          date: start + day,
          mass: Math.max(0.05, steps(mass, 0.05)),
          flush: f + 1,
          blocks: undefined,
          picker,
        });
      });
      start += Math.max(length + 3, Math.round(own.flushGap! + 1.5 * draw.normal()));
    });
    const run = Math.max(own.earliest!, Math.round(own.best * draw.factor(0.05)));
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: loaded - run,
      loaded,
      total: undefined,
    });
  }
  return bookOf(picks, lots, strains, 'kg', 1.2);
}

/**
 * A farm that hangs bags: 90 lots of three strains from 20 to 600 bags in two sizes, no pickers, no season and no profile
 * within a flush, three weighings in ten on one day in two parts, four lots in ten thrown out before their last flush.
 * Pounds, flushes recorded, lots named by year, week and number.
 */
export function bagFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x5bd1e995);
  const strains = (
    [
      ['Grey', 12, 16, 6, 4, 12, 0.9, [0.55, 0.3, 0.15], 12, 0.66],
      ['Golden', 10, 14, 5, 3, 10, 0.6, [0.6, 0.4], 12, 0.66],
      ['King', 28, 35, 12, 6, 18, 0.7, [0.75, 0.25], 5, 0.6],
    ] as const
  ).map(strain);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: Picked[] = [];
  for (let number = 0; number < 90; number++) {
    const own = draw.of(strains);
    const week = Math.floor(number / 2.2);
    const lot = `${2601 + week}-${1 + (number % 3)}${own.label[0]}`;
    if (lots.some((other) => other.lot === lot)) continue;
    const loaded = FIRST_DAY + 7 * week + draw.of([0, 2, 3]);
    const blocks = Math.round(20 * 30 ** draw.random());
    const blockMass = draw.random() < 0.2 ? 5 : own.blockMass;
    const yields = blocks * blockMass * (1 - own.moisture) * own.efficiency! * draw.factor(scatter);
    const kept = draw.random() < 0.4 ? own.shares.length - 1 : own.shares.length;
    let start = loaded + Math.max(3, Math.round(own.firstPick! * draw.factor(0.18)));
    own.shares.slice(0, kept).forEach((share, f) => {
      const length = draw.whole(2, own.pickDays! + 2);
      for (let day = 0; day < length; day++) {
        const parts = draw.random() < 0.3 ? [0.6, 0.4] : [1];
        for (const part of parts) {
          const mass = ((yields * share * part) / length) * draw.factor(0.7 * scatter);
          picks.push({
            ...NOTHING,
            lot,
            date: start + day,
            mass: Math.max(0.1, steps(mass, 0.1)),
            flush: f + 1,
            blocks: undefined,
          });
        }
      }
      start += Math.max(length + 2, Math.round(own.flushGap! * draw.factor(0.12)));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass,
      moisture: own.moisture,
      inoculated: undefined,
      loaded,
      total: undefined,
    });
  }
  return bookOf(picks, lots, strains, 'lb', 2.6);
}

/**
 * A market grower: about 230 small lots of seven strains, one to three picks a flush, none on Sundays, two grades in rows
 * of their own, four pickers and two scales, harvests that drift from week to week, 6% of flushes that failed and are
 * recorded as `none`. Kilograms; flushes are not recorded.
 */
export function marketFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x27d4eb2f);
  const strains = (
    [
      ['Oyster W', 12, 15, 6, 2, 11, 0.8, [0.6, 0.4], 2, 0.65],
      ['Oyster P', 10, 13, 5, 2, 9, 0.55, [0.7, 0.3], 2, 0.65],
      ['Lion', 18, 24, 9, 3, 14, 0.6, [0.7, 0.3], 2, 0.62],
      ['Nameko', 40, 50, 12, 3, 14, 0.5, [0.5, 0.3, 0.2], 2.2, 0.68],
      ['Chestnut', 35, 42, 10, 3, 15, 0.6, [0.65, 0.35], 2.2, 0.63],
      ['Shii', 60, 75, 7, 3, 17, 0.7, [0.6, 0.4], 2.4, 0.58],
      ['Maitake', 55, 65, 14, 1, 30, 0.35, [1], 2.4, 0.6],
    ] as const
  ).map(strain);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: Picked[] = [];
  const drift = new Map(strains.map(({ label }) => [label, 0]));
  for (let number = 0; number < 230; number++) {
    const own = draw.of(strains);
    drift.set(own.label, 0.8 * drift.get(own.label)! + 0.6 * scatter * draw.normal());
    const lot = `${own.label.slice(0, 2).toUpperCase()}${100 + number}`;
    const loaded = FIRST_DAY + Math.floor(number * 1.6);
    const blocks = draw.whole(6, 30);
    const yields =
      blocks *
      own.blockMass *
      (1 - own.moisture) *
      own.efficiency! *
      Math.exp(drift.get(own.label)!) *
      draw.factor(0.6 * scatter);
    let start = loaded + Math.max(2, own.firstPick! + draw.whole(-1, 2));
    for (const share of own.shares) {
      const length = draw.whole(1, own.pickDays!);
      const failed = draw.random() < 0.06;
      const seen = new Set<number>();
      for (let day = 0; day < length; day++) {
        // A pick that falls on a Sunday is made on Monday.
        const date = start + day + ((start + day) % 7 === 1 ? 1 : 0);
        if (seen.has(date)) continue;
        seen.add(date);
        const picker = draw.of(['Cleo', 'Dan', 'Eva', 'Finn']);
        const scale = draw.random() < 0.6 ? 'bench' : 'hanging';
        const all = ((yields * share) / length) * draw.factor(0.5 * scatter);
        const second = draw.random() < 0.5;
        for (const grade of second ? ['A', 'B'] : ['A']) {
          const mass = all * (second ? (grade === 'A' ? 0.75 : 0.25) : 1) * draw.factor(0.3 * scatter);
          picks.push({
            ...NOTHING,
            lot,
            date,
            mass: failed ? 'none' : Math.max(0.02, steps(mass, 0.01)),
            flush: undefined,
            blocks: undefined,
            picker,
            scale,
            grade,
          });
        }
      }
      start += Math.max(length + 3, Math.round(own.flushGap! + 1.4 * draw.normal()));
    }
    const run = Math.max(own.earliest!, Math.round(own.best * draw.factor(0.07)));
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture: own.moisture,
      inoculated: loaded - run,
      loaded,
      total: undefined,
    });
  }
  return bookOf(picks, lots, strains, 'kg', 0.4);
}
