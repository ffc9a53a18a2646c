import type { JudgedPick, LotPicks, PlaceName } from './judgedPick';

/** Rows of a lot and day are counted up to here. */
export const MOST_SHARED = 4;
/** Days since the last pick are counted up to here; a flush that was picked so shortly before the book ends may go on. */
const MOST_SINCE = 4;
/** Flushes of more days are taken together. */
const MOST_LENGTH = 8;

/** Where in its flush a lot's picks of a day lie. */
export interface Place {
  readonly day: number;
  place: PlaceName | undefined;
  /** Which day of how many, where the flush is no longer than is counted. */
  cell: number;
  /** Days that the flush was picked on; 0 where more may come after the end of the book. */
  length: number;
  /** Rows that share the day. */
  shared: number;
  /** Days in which what was picked grew: since the flush was last picked, or, below 0, since anything was. */
  since: number;
}

const NOWHERE: Place = { day: 0, place: undefined, cell: 0, length: 0, shared: 1, since: 0 };

/** The place of each pick, by its number. */
export function placesOf(judged: readonly JudgedPick[], lots: Iterable<LotPicks>): Place[] {
  const places = Array<Place>(judged.length).fill(NOWHERE);
  const ofFlushes: Place[][] = [];
  const all = new Set<number>();
  for (const { flushes } of lots) {
    for (const members of flushes) {
      const days: Place[] = [];
      for (const { pick, at } of members) {
        const { day } = pick;
        if (day === undefined) continue;
        let place: Place | undefined;
        for (const one of days) if (one.day === day) place = one;
        if (!place) {
          days.push((place = { day, place: 'middle', cell: 0, length: 0, shared: 0, since: 0 }));
          all.add(day);
        }
        if (place.shared < MOST_SHARED) place.shared++;
        places[at] = place;
      }
      if (days.length > 0) ofFlushes.push(days.sort((a, b) => a.day - b.day));
    }
  }
  const sinceAny = new Map<number, number>();
  let before = -Infinity;
  for (const day of Float64Array.from(all).sort()) {
    sinceAny.set(day, Math.min(MOST_SINCE, day - before));
    before = day;
  }
  for (const days of ofFlushes) {
    const goesOn = days.at(-1)!.day > before - MOST_SINCE;
    const length = goesOn ? 0 : Math.min(MOST_LENGTH, days.length);
    for (let at = 0; at < days.length; at++) {
      const one = days[at]!;
      one.length = length;
      one.place = placeOf(at, days.length, goesOn);
      one.cell =
        (length > 0 && days.length <= MOST_LENGTH ? length * MOST_LENGTH : 0) + Math.min(at, MOST_LENGTH - 1);
      // Before the first pick a day off let it grow as well.
      one.since = at > 0 ? Math.min(MOST_SINCE, one.day - days[at - 1]!.day) : -sinceAny.get(one.day)!;
    }
  }
  return places;
}

function placeOf(at: number, length: number, goesOn: boolean): PlaceName {
  if (at === 0) return length > 1 || goesOn ? 'first' : 'only';
  if (goesOn) return at === 1 ? 'second' : 'middle';
  if (at === length - 1) return 'last';
  if (length < 4) return 'middle';
  return at === 1 ? 'second' : at === length - 2 ? 'last but one' : 'middle';
}
