import { requireInCalendar, requireNumber, requirePositive, requireWhole } from '../shared/checks';
import { dateOf, invalid, missing, type CalcError, type Placed } from '../shared/fault';
import { labelKey, lookAlikes, nearestLabel } from '../shared/labels';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A load of a lot that no row of the lots has, or that has no date there. */
    noDatedLot: { readonly label: string; readonly nearest?: string };
    /** A load of a lot that several rows of the lots have. */
    severalLots: { readonly label: string };
    /** A load that names a lot and a strain that is not the lot's. */
    otherStrain: { readonly lot: string; readonly strain: string; readonly given: string };
    /** Two strains that look the same but are written in two ways. */
    strainsAlike: { readonly strains: readonly [string, string] };
    /** A load of neither a lot nor a strain. */
    loadOfNothing: object;
    /** A load of more blocks than are left of a lot, or ready of a strain. */
    moreThanLeft: {
      readonly left: number;
      readonly of: string;
      readonly isStrain: boolean;
      readonly date: Quantity;
      readonly given: number;
    };
  }
}

/** A lot and the dates between which its blocks may be opened. */
export interface RipeningLot extends Placed {
  readonly lot: string;
  readonly strain: string;
  readonly blocks: number;
  readonly earliestSerial: number;
  /** Last date to open it; undefined where it never goes over age. */
  readonly latestSerial: number | undefined;
  /** Date on which all that was left of it was loaded. */
  readonly loadedSerial: number | undefined;
}

/** Blocks set on the shelves: of a lot, or of whichever lots of a strain are nearest to going over age. */
export interface BlocksLoaded extends Placed {
  readonly loadedSerial: number;
  readonly blocks: number;
  readonly lot: string | undefined;
  readonly strain: string | undefined;
}

export interface CalendarSpan {
  readonly fromSerial: number;
  readonly toSerial: number;
  readonly stepDays: 1 | 7;
}

/** What happens to a strain's blocks in one step of the calendar. */
export interface RipeStep {
  readonly fromSerial: number;
  readonly strain: string;
  readonly comingReady: number;
  readonly loaded: number;
  readonly goingOverAge: number;
  /** Loaded after their lot's latest day: they had gone over age and are in none of the other figures. */
  readonly loadedOverAge: number;
  /** At the end of the step: ready, not loaded, and not over age on the day after. */
  readonly inHand: number;
}

/** Ten years: more is a slip of the pen in one of the dates. */
const MOST_DAYS = 3660;

/**
 * Blocks coming ready, loaded, going over age and in hand, strain by strain, day by day or week by week.
 *
 * A block comes ready on its lot's earliest day and may be loaded up to its latest day; not loaded by the end of that day
 * it goes over age. In hand at the end of a step = in hand before + coming ready − loaded − going over age. Blocks loaded
 * before their earliest day count as coming ready on the day they are loaded; blocks loaded after their latest day had
 * gone over age by then and are told apart. A load that names only a strain takes the ready lots of it that go
 * over age first. Weeks run from the first day given, seven days each, the last one whole.
 *
 * @param lots blocks 0 or more, dates as worksheet serials; the time of day does not count
 * @param loads what was loaded of them, in any order
 * @returns one entry for each step and strain, in order of date and name of the strain
 * @throws invalid where dates or numbers are out of range, more is loaded than there is, or a load's lot is of another
 * strain than it names
 * @throws missing where a load names a lot that is not there
 */
export function ripeCalendar(
  lots: readonly RipeningLot[],
  loads: readonly BlocksLoaded[],
  { fromSerial, toSerial, stepDays }: CalendarSpan,
): RipeStep[] {
  requirePositive('from', fromSerial);
  requirePositive('to', toSerial);
  const from = Math.floor(fromSerial);
  const to = Math.floor(toSerial);
  if (!(to >= from)) {
    throw invalid('to', 'notBefore', { other: 'from', date: dateOf(from), given: dateOf(toSerial) });
  }
  requireNumber('to', to, { to: dateOf(from + MOST_DAYS - 1) }, 'ten years after from');
  const days = to - from + 1;
  const stock = lots.map((lot) => new LotStock(lot));
  takeLoads(stock, loads);

  const steps = Math.ceil(days / stepDays);
  const strains = strainsOf(stock.map(({ lot }) => lot));
  const counts = new Map([...strains.keys()].map((strain) => [strain, new Counts(steps)]));
  for (const lot of stock)
    lot.count(counts.get(lot.strainKey)!, (day) => Math.floor((day - from) / stepDays));
  const rows: RipeStep[] = [];
  const inHand = new Map([...counts].map(([strain, { before }]) => [strain, before]));
  for (let step = 0; step < steps; step++) {
    for (const [key, { comingReady, loaded, goingOverAge, loadedOverAge }] of counts) {
      const left = inHand.get(key)! + comingReady[step]! - loaded[step]! - goingOverAge[step]!;
      inHand.set(key, left);
      rows.push({
        fromSerial: from + step * stepDays,
        strain: strains.get(key)!,
        comingReady: comingReady[step]!,
        loaded: loaded[step]!,
        goingOverAge: goingOverAge[step]!,
        loadedOverAge: loadedOverAge[step]!,
        inHand: left,
      });
    }
  }
  return rows;
}

/** The strains by name, in order; of several ways to write one the first. */
function strainsOf(lots: readonly RipeningLot[]): Map<string, string> {
  const alike = lookAlikes(lots.map(({ strain }) => strain));
  if (alike) {
    const second = lots.find(({ strain }) => strain === alike[1]);
    throw invalid('lots, strain', 'strainsAlike', { strains: alike }, second);
  }
  const names = new Map<string, string>();
  for (const { strain } of lots) {
    const key = labelKey(strain);
    const known = names.get(key);
    if (known === undefined || strain < known) names.set(key, strain);
  }
  return new Map([...names].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** A strain's sums, step by step; `before` is what is in hand as the first step begins. */
class Counts {
  readonly comingReady: Float64Array;
  readonly loaded: Float64Array;
  readonly goingOverAge: Float64Array;
  readonly loadedOverAge: Float64Array;
  before = 0;

  constructor(private readonly steps: number) {
    this.comingReady = new Float64Array(steps);
    this.loaded = new Float64Array(steps);
    this.goingOverAge = new Float64Array(steps);
    this.loadedOverAge = new Float64Array(steps);
  }

  add(what: 'comingReady' | 'loaded' | 'goingOverAge' | 'loadedOverAge', step: number, blocks: number): void {
    if (step >= this.steps) return;
    if (step >= 0) this[what][step]! += blocks;
    else if (what !== 'loadedOverAge') this.before += what === 'comingReady' ? blocks : -blocks;
  }
}

/** A lot and what was taken from it. */
class LotStock {
  readonly strainKey: string;
  readonly firstDay: number;
  readonly lastDay: number;
  left: number;
  private readonly taken: { readonly day: number; readonly blocks: number }[] = [];

  constructor(readonly lot: RipeningLot) {
    this.strainKey = labelKey(lot.strain);
    this.left = requireWhole('lots, blocks', lot.blocks, 0, lot);
    this.firstDay = Math.floor(requireDate('lots, earliest', lot.earliestSerial, lot));
    this.lastDay =
      lot.latestSerial === undefined
        ? Infinity
        : Math.floor(requireDate('lots, latest', lot.latestSerial, lot));
    if (!(this.lastDay >= this.firstDay)) {
      const details = { other: 'earliest', date: dateOf(this.firstDay), given: dateOf(this.lastDay) };
      throw invalid('lots, latest', 'notBefore', details, lot);
    }
  }

  take(day: number, blocks: number): void {
    this.taken.push({ day, blocks });
    this.left -= blocks;
  }

  isReadyOn(day: number): boolean {
    return this.left > 0 && this.firstDay <= day && day <= this.lastDay;
  }

  count(counts: Counts, stepOf: (day: number) => number): void {
    let early = 0;
    let inTime = 0;
    for (const { day, blocks } of this.taken) {
      if (day > this.lastDay) {
        counts.add('loadedOverAge', stepOf(day), blocks);
        continue;
      }
      if (day < this.firstDay) {
        early += blocks;
        counts.add('comingReady', stepOf(day), blocks);
      }
      inTime += blocks;
      counts.add('loaded', stepOf(day), blocks);
    }
    counts.add('comingReady', stepOf(this.firstDay), this.lot.blocks - early);
    if (this.lastDay < Infinity) counts.add('goingOverAge', stepOf(this.lastDay), this.lot.blocks - inTime);
  }
}

function requireDate(argument: string, serial: number, lot: RipeningLot): number {
  return requireInCalendar(argument, requirePositive(argument, serial, lot), serial, lot);
}

interface Taking {
  readonly day: number;
  /** On one day, loads of a named lot come first, then those of a strain, then what a lot's own row says of its rest. */
  readonly turn: 0 | 1 | 2;
  readonly take: () => void;
}

function takeLoads(stock: readonly LotStock[], loads: readonly BlocksLoaded[]): void {
  const byLot = new Map<string, LotStock[]>();
  for (const lot of stock) {
    const key = labelKey(lot.lot.lot);
    byLot.set(key, [...(byLot.get(key) ?? []), lot]);
  }
  const takings: Taking[] = loads.map((load) => {
    const day = Math.floor(requirePositive('loads, loaded', load.loadedSerial, load));
    requireWhole('loads, blocks', load.blocks, 1, load);
    return {
      day,
      turn: load.lot === undefined ? 1 : 0,
      take: () => takeOne(load, day, stock, byLot),
    };
  });
  for (const lot of stock) {
    const { loadedSerial } = lot.lot;
    if (loadedSerial === undefined) continue;
    const day = Math.floor(loadedSerial);
    takings.push({ day, turn: 2, take: () => lot.take(day, lot.left) });
  }
  takings.sort((a, b) => a.day - b.day || a.turn - b.turn);
  for (const { take } of takings) take();
}

function takeOne(
  load: BlocksLoaded,
  day: number,
  stock: readonly LotStock[],
  byLot: ReadonlyMap<string, readonly LotStock[]>,
): void {
  if (load.lot !== undefined) {
    const [lot, twin] = byLot.get(labelKey(load.lot)) ?? [];
    if (!lot) {
      throw missing(
        'loads, lot',
        'noDatedLot',
        told(
          load.lot,
          stock.map((one) => one.lot.lot),
        ),
        load,
      );
    }
    if (twin) throw invalid('loads, lot', 'severalLots', { label: load.lot }, load);
    if (load.strain !== undefined && labelKey(load.strain) !== lot.strainKey) {
      const details = { lot: load.lot, strain: lot.lot.strain, given: load.strain };
      throw invalid('loads, strain', 'otherStrain', details, load);
    }
    if (load.blocks > lot.left) throw tooMany(load, { left: lot.left, of: lot.lot.lot, isStrain: false });
    lot.take(day, load.blocks);
    return;
  }
  if (load.strain === undefined) throw invalid('loads', 'loadOfNothing', undefined, load);
  const strain = labelKey(load.strain);
  if (!stock.some(({ strainKey }) => strainKey === strain)) {
    const strains = stock.map((one) => one.lot.strain);
    throw missing('loads, strain', 'notIn', { ...told(load.strain, strains), table: 'lots' }, load);
  }
  const ready = stock
    .filter((lot) => lot.strainKey === strain && lot.isReadyOn(day))
    .sort(
      (a, b) =>
        a.lastDay - b.lastDay ||
        a.firstDay - b.firstDay ||
        (labelKey(a.lot.lot) < labelKey(b.lot.lot) ? -1 : 1),
    );
  const there = ready.reduce((sum, { left }) => sum + left, 0);
  if (load.blocks > there) throw tooMany(load, { left: there, of: load.strain, isStrain: true });
  let wanted = load.blocks;
  for (const lot of ready) {
    const some = Math.min(wanted, lot.left);
    if (some > 0) lot.take(day, some);
    wanted -= some;
  }
}

/** A label that finds nothing, with the nearest that would. */
function told(label: string, labels: readonly string[]): { label: string; nearest?: string } {
  const nearest = nearestLabel(label, labels);
  return { label, ...(nearest !== undefined && { nearest }) };
}

function tooMany(
  load: BlocksLoaded,
  there: { readonly left: number; readonly of: string; readonly isStrain: boolean },
): CalcError {
  const details = { ...there, date: dateOf(load.loadedSerial), given: load.blocks };
  return invalid('loads, blocks', 'moreThanLeft', details, load);
}
