import type { DatedPick, ExpectedTimes } from '../../../src/maths/harvest/flushNumbers';
import { seeded } from '../../bench/measure';
import { normalDraw } from '../../normalDraw';

// Two invented farms whose flushes are known, to score FLUSHSPLIT by. They differ in kind: one picks every day and each time
// varies by itself; the other picks on three days a week, its lots are quick or slow as a whole, its rooms drift through
// the year, and a flush swells and fades. Nothing here was measured.

export interface KnownLot {
  readonly loadedSerial: number;
  readonly picks: readonly DatedPick[];
  readonly flushes: readonly number[];
}

/** What a case does to its lots. */
export interface Case {
  readonly strain: ExpectedTimes & { readonly flushes: number };
  /** Days by which every lot is late. */
  readonly late?: number;
  /** Factor of the gaps between flushes. */
  readonly stretched?: number;
  readonly firstLost?: boolean;
}

const LOOSE = { firstPick: 7, pickDays: 6, flushGap: 18, flushes: 3 };
const TIGHT = { firstPick: 6, pickDays: 4, flushGap: 10, flushes: 3 };

export const CASES = {
  ordinary: { strain: LOOSE },
  '10 days late': { strain: LOOSE, late: 10 },
  'tight rhythm': { strain: TIGHT },
  'tight rhythm, 10 days late': { strain: TIGHT, late: 10 },
  'gaps × 1.5': { strain: LOOSE, stretched: 1.5 },
  'first flush lost': { strain: LOOSE, firstLost: true },
  'merged flushes': { strain: LOOSE, stretched: 0.45 },
} satisfies Record<string, Case>;

type Farm = (given: Case, lot: number, random: () => number) => KnownLot;

const pick = (day: number): DatedPick => ({ dateSerial: day, flush: undefined });

const daily: Farm = ({ strain, late = 0, stretched = 1, firstLost = false }, lot, random) => {
  const loadedSerial = 46_000 + 2 * lot;
  const picks: DatedPick[] = [];
  const flushes: number[] = [];
  let start =
    loadedSerial + late + Math.max(3, Math.round(strain.firstPick * (1 + 0.15 * normalDraw(random))));
  for (let flush = 1; flush <= strain.flushes; flush++) {
    const length = Math.max(2, Math.round(strain.pickDays + normalDraw(random)));
    for (let day = 0; day < length; day++) {
      if (day > 0 && random() < 0.25) continue;
      const straggler = random() < 0.03 ? 1 + Math.floor(3 * random()) : 0;
      if (firstLost && flush === 1) continue;
      picks.push(pick(start + day + straggler));
      flushes.push(flush);
    }
    start += Math.max(length, Math.round(strain.flushGap! * stretched * (1 + 0.12 * normalDraw(random))));
  }
  return { loadedSerial, picks, flushes };
};

const threeDaysAWeek: Farm = ({ strain, late = 0, stretched = 1, firstLost = false }, lot, random) => {
  const loadedSerial = 46_000 + 3 * lot + Math.floor(2 * random());
  const speed = Math.exp(0.12 * normalDraw(random));
  const drift = 2 * Math.sin((2 * Math.PI * lot) / 60);
  // Mondays, Wednesdays, Fridays, and one Sunday in three while a flush is at its height.
  const isPickingDay = (day: number): boolean =>
    [1, 3, 5].includes(day % 7) || (day % 7 === 0 && day % 3 === 0);
  const picks: DatedPick[] = [];
  const flushes: number[] = [];
  const kept = random() < 0.25 ? strain.flushes - 1 : strain.flushes;
  let start = loadedSerial + late + Math.max(3, strain.firstPick * speed + drift);
  for (let flush = 1; flush <= kept; flush++) {
    // A skewed swell: most of the mass in the first half, a tail after it; days that bear little are not picked.
    const length = strain.pickDays * Math.exp(0.2 * normalDraw(random));
    for (let day = Math.floor(start); day < start + 1.5 * length; day++) {
      const at = (day - start + 0.5) / length;
      const bears = at < 0.2 ? 0.7 : at < 0.7 ? 1 : at < 1 ? 0.6 : 0.1;
      if (!isPickingDay(day) || random() > bears || (firstLost && flush === 1)) continue;
      picks.push(pick(day));
      flushes.push(flush);
    }
    start += Math.max(length, strain.flushGap! * stretched * speed * Math.exp(0.08 * normalDraw(random)));
  }
  return { loadedSerial, picks, flushes };
};

export const FARMS = { daily, 'three days a week': threeDaysAWeek } satisfies Record<string, Farm>;

/** Share of picks whose flush is found over `lots` lots of a farm. */
export function shareRight(
  find: (picks: readonly DatedPick[], loadedSerial: number, strain: ExpectedTimes) => readonly unknown[],
  farm: keyof typeof FARMS,
  given: Case,
  seed: number,
  lots = 120,
): number {
  const random = seeded(seed);
  let [right, all] = [0, 0];
  for (let lot = 0; lot < lots; lot++) {
    const { loadedSerial, picks, flushes } = FARMS[farm](given, lot, random);
    const found = find(picks, loadedSerial, given.strain);
    right += found.filter((flush, i) => flush === flushes[i]).length;
    all += picks.length;
  }
  return right / all;
}
