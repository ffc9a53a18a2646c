import { grouped } from './likelihood';
import type { KnownBook, KnownLot } from './knownBook';

// A strain that is picked on Mondays, Wednesdays and Fridays is picked on every day of its own: two days without a pick mean
// nothing there, and a pick on a Thursday a good deal. Which weekdays those are is counted in the book.

const WEEK = 7;
/** A strain with fewer days of picking goes by the book's weekdays. */
const FEW = 40;
/** A weekday with less than this share of an ordinary one is not one of picking. */
const HARDLY_EVER = 0.15;
/** Where so many lots are picked on an ordinary day, one without any is a holiday. */
const BUSY = 4;
/** Farther apart than this, days are counted as they are. */
const LONG = 28;

/** The days of the week on which a strain is picked. */
interface Weekdays {
  readonly isOpen: readonly boolean[];
  /** How often something is picked on each against an ordinary one: 1 where it is open. */
  readonly often: readonly number[];
}

const EVERY: Weekdays = { isOpen: Array<boolean>(WEEK).fill(true), often: Array<number>(WEEK).fill(1) };

function weekdaysOf(counts: readonly number[]): Weekdays {
  const usual = [...counts].sort((a, b) => b - a)[2]!;
  const isOpen = counts.map((count) => count >= HARDLY_EVER * usual);
  return {
    isOpen,
    often: counts.map((count, day) => (isOpen[day] ? 1 : (count + 0.5) / (usual + 0.5))),
  };
}

/** On which days strains are picked. */
export class PickingDays {
  private readonly ofStrain = new Map<string, Weekdays>();
  private readonly holidays = new Set<number>();

  constructor({ lots }: KnownBook) {
    const all = Array<number>(WEEK).fill(0);
    const lotsOn = new Map<number, number>();
    const own = new Map<string, number[]>();
    for (const [strain, members] of grouped([...lots.values()], ({ strainKey }) => strainKey)) {
      const counts = Array<number>(WEEK).fill(0);
      own.set(strain, counts);
      for (const { picks } of members) {
        const days = new Set(picks.map(({ day }) => day));
        for (const day of days) {
          if (day === undefined) continue;
          counts[day % WEEK]!++;
          all[day % WEEK]!++;
          lotsOn.set(day, (lotsOn.get(day) ?? 0) + 1);
        }
      }
    }
    const enough = (counts: readonly number[]): boolean => counts.reduce((a, b) => a + b, 0) >= FEW;
    const ofBook = enough(all) ? weekdaysOf(all) : EVERY;
    for (const [strain, counts] of own) {
      this.ofStrain.set(strain, enough(counts) ? weekdaysOf(counts) : ofBook);
    }
    const days = [...lotsOn.keys()].sort((a, b) => a - b);
    // A year that is wrong makes no row of holidays.
    const near = days.filter((day, i) => i === 0 || day - days[i - 1]! <= LONG);
    const span = near.filter((day) => ofBook.isOpen[day % WEEK]);
    const picked = span.reduce((sum, day) => sum + lotsOn.get(day)!, 0);
    if (picked < BUSY * span.length) return;
    for (let i = 1; i < days.length; i++) {
      if (days[i]! - days[i - 1]! > LONG) continue;
      for (let day = days[i - 1]! + 1; day < days[i]!; day++) this.holidays.add(day);
    }
  }

  /** Days of picking from one day, itself left out, to another. */
  between({ strainKey }: KnownLot, from: number, to: number): number {
    if (to - from > LONG) return to - from;
    const { isOpen } = this.ofStrain.get(strainKey)!;
    let count = 1;
    for (let day = from + 1; day < to; day++) if (isOpen[day % WEEK] && !this.holidays.has(day)) count++;
    return count;
  }

  /** Days from the last day of picking to a day, the usual step between two, and whether a holiday made them more. */
  restBefore(
    { strainKey }: KnownLot,
    day: number,
  ): { readonly days: number; readonly usual: number; readonly isHoliday: boolean } {
    const { isOpen } = this.ofStrain.get(strainKey)!;
    let [days, isHoliday] = [1, false];
    for (; days < LONG; days++) {
      const before = day - days;
      if (!isOpen[before % WEEK]) continue;
      if (!this.holidays.has(before)) break;
      isHoliday = true;
    }
    return { days, usual: Math.floor(WEEK / isOpen.filter(Boolean).length), isHoliday };
  }

  /** How often a lot is picked on such a day, against an ordinary one. */
  often({ strainKey }: KnownLot, day: number): number {
    return this.ofStrain.get(strainKey)!.often[day % WEEK]!;
  }
}
