import type { KnownPick } from './knownBook';

export const PLACES = [undefined, 'first', 'second', 'middle', 'last but one', 'last', 'only'] as const;
export type PlaceName = Exclude<(typeof PLACES)[number], undefined>;

/** What is still due of a flush when a pick is left out. */
export interface Due {
  /** Mass of the flush's other picks. */
  readonly others: number;
  /** ln of the flush's whole mass as the lot's other flushes and the strain have it, and how wide that is known. */
  readonly whole: number;
  readonly spread: number;
}

/** A pick with a mass, on the scale of logarithms; a class, so that there is one kind of object of it. */
export class JudgedPick {
  /** ln(mass / dry mass of its lot) less what strain, flush, day and whoever picked it make usual. */
  off = NaN;
  /** Of what is usual, the part of the day's place in its flush and of the rows it shares the day with. */
  placed = NaN;
  /** Whether its flush may go on after the end of the book. */
  goesOn = false;
  /** Where in its flush its day lies. */
  place: PlaceName | undefined;
  /** How much wider picks of its kind vary than others: those at the ends of a flush, and small ones. */
  wide = NaN;
  /** What the pick's neighbours make of it: how far off it is and how wide that is known. */
  residual = NaN;
  spread = NaN;
  /** The same where the lot's other flushes say nothing of its own; NaN where there are none. */
  apart = NaN;
  apartSpread = NaN;
  /** What its flush lacks without it; undefined where that is not known. */
  due: Due | undefined;
  /** Whether it may say anything of its neighbours. */
  counts = true;
  /** Whether it does: it is not far from them. */
  isHeard = false;
  /** A mass that was corrected once is believed. */
  isSettled = false;

  constructor(
    readonly pick: KnownPick,
    /** Its number among all that are judged. */
    readonly at: number,
  ) {}
}

/** The picks of a lot that are judged, in their order, and by flush. */
export interface LotPicks {
  readonly all: readonly JudgedPick[];
  readonly flushes: readonly (readonly JudgedPick[])[];
}
