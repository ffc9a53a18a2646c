import { requireAtLeast, requireFractionBelowOne, requirePositive, requireWhole } from '../shared/checks';
import { dateOf, invalid, type Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

/** One weighing of fresh mushrooms from a lot. */
export interface Pick extends Placed {
  readonly dateSerial: number;
  /** 0 where the crop failed: the day its blocks left the shelf. */
  readonly mass: number;
  /** Which flush, from 1; undefined where not recorded. */
  readonly flush: number | undefined;
}

/** The blocks of a lot as they were set on the shelf. */
export interface CroppedBlocks extends Placed {
  readonly blocks: number;
  /** Wet mass of one block, in the unit of the picks. */
  readonly blockMass: number;
  readonly moisture: number;
  /** Day they were set on the shelf; undefined where not recorded. */
  readonly loadedSerial: number | undefined;
}

/** What a lot gave. */
export interface Crop {
  /** Mass by flush, the first flush at 0. */
  readonly byFlush: readonly number[];
  /** Mass of picks whose flush was not recorded. */
  readonly unassigned: number;
  readonly total: number;
  readonly perBlock: number;
  /** Biological efficiency of all picks. */
  readonly efficiency: number;
  /** Days from load to the last pick; undefined where the load was not recorded. */
  readonly days: number | undefined;
  /** Efficiency over those days. */
  readonly efficiencyPerDay: number | undefined;
}

/**
 * The crop of one lot from its picks: mass by flush, total, per block, biological efficiency (fresh over dry mass),
 * days from load to the last pick, and efficiency over days.
 *
 * Efficiency per day is counted from loading, for a comparison of what shelves bear; Royse's production rate counts from
 * spawning.
 *
 * @param picks at least one, masses 0 or more
 * @throws invalid where a figure is out of range, or a pick lies on or before the day of loading
 * @source Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency, production rate
 */
export function lotCrop(picks: readonly Pick[], lot: CroppedBlocks): Crop {
  requireWhole('lots, blocks', lot.blocks, 1, lot);
  requirePositive('lots, block mass', lot.blockMass, lot);
  requireFractionBelowOne('lots, moisture', lot.moisture, lot);
  const flushes = picks.reduce((most, { flush }) => Math.max(most, flush ?? 0), 0);
  const masses = Array.from({ length: flushes + 1 }, (): number[] => []);
  for (const pick of picks) {
    masses[pick.flush ?? 0]!.push(requireAtLeast('harvests, mass', pick.mass, 0, pick));
  }
  const [unassigned, ...byFlush] = masses.map(compensatedSum) as [number, ...number[]];
  const total = compensatedSum(masses.flat());
  const efficiency = total / (lot.blocks * lot.blockMass * (1 - lot.moisture));
  const days = lot.loadedSerial === undefined ? undefined : daysToLastPick(picks, lot.loadedSerial);
  return {
    byFlush,
    unassigned,
    total,
    perBlock: total / lot.blocks,
    efficiency,
    days,
    efficiencyPerDay: days === undefined ? undefined : efficiency / days,
  };
}

/** Whole days from loading to the last pick. @throws invalid where any pick is not after the loading */
function daysToLastPick(picks: readonly Pick[], loadedSerial: number): number {
  const loaded = Math.floor(loadedSerial);
  const early = picks.find(({ dateSerial }) => Math.floor(dateSerial) <= loaded);
  if (early) {
    const details = { other: 'loaded', date: dateOf(loadedSerial), given: dateOf(early.dateSerial) };
    throw invalid('harvests, date', 'after', details, early);
  }
  return picks.reduce((latest, { dateSerial }) => Math.max(latest, Math.floor(dateSerial)), loaded) - loaded;
}
