import type { Limits } from '../../maths/shared/fault';
import { LAST_SERIAL } from '../../maths/shared/serial';
import type { Voice } from '../voice';
import { isBlankOrZero, type Cell } from './cell';

export type KindWord =
  | 'number'
  | 'mass'
  | 'count'
  | 'days'
  | 'share'
  | 'efficiency'
  | 'temperature'
  | 'degrees'
  | 'altitude'
  | 'airflow'
  | 'pressure'
  | 'date'
  | 'label'
  | 'choice'
  | 'anything';

/**
 * What one cell is asked to be. `accept` gives the plain value, or undefined where the cell is no such thing; it
 * never converts text to a number. A blank and a 0 look alike, since a host may hand a blank over as 0: both are
 * refused, but where 0 is an everyday entry and a blank taken for it does no harm (`orZero`). Where 0 is an answer
 * and a blank taken for it would be a guess, a word says it (`orNone`, `price`).
 */
export interface Kind<T> {
  readonly word: KindWord;
  /** What the numbers of a column of anything measure, so that the unit in its header counts. */
  readonly measures?: 'mass' | 'share';
  /** The numbers that are taken, where it is a number; for the guide and for messages. */
  readonly limits?: Limits;
  /** The words that are taken, each with what it means. */
  readonly choices?: Readonly<Record<string, string>>;
  /** Whether a blank is a value of its own. */
  readonly orBlank?: true;
  /** What a blank means where it is a value of its own, as a short phrase for the guide. */
  readonly blankMeans?: string;
  /** Whether 0, and so a blank, is taken as 0. */
  readonly zeroCounts?: true;
  /** The word that says 0. */
  readonly zeroWord?: string;
  /** What a cell must be, after "must be", where word, limits and choices do not say it. */
  readonly needed?: string;
  /** What the answer of a call is told in, where this word decides it. */
  voice?(value: T): Partial<Voice>;
  readonly accept: (cell: Cell) => T | undefined;
  /** Where the value is a number inside bounds and nothing else is asked: what `accept` checks, for long columns. */
  readonly bounds?: Bounds;
  /** Cells that are accepted, ends of the range included: for tests and the guide. */
  readonly samples: readonly Cell[];
}

/** Both ends included. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly whole: boolean;
}

type NumberLimits = { readonly [L in 'from' | 'above' | 'to' | 'below']?: number } & {
  readonly whole?: boolean;
  readonly unit?: string;
};

/** The neighbouring doubles, so that an end that is not included is a bound like any other. */
const nextAbove = (value: number): number =>
  value === 0 ? Number.MIN_VALUE : value + Math.abs(value) * Number.EPSILON;
const nextBelow = (value: number): number => -nextAbove(-value);

function numberOf(word: KindWord, limits: NumberLimits): Kind<number> {
  const low = limits.above === undefined ? (limits.from ?? -Number.MAX_VALUE) : nextAbove(limits.above);
  const high = limits.below === undefined ? (limits.to ?? Number.MAX_VALUE) : nextBelow(limits.below);
  const whole = limits.whole === true;
  const inside = (value: number): number | undefined =>
    value >= low && value <= high && value !== 0 && (!whole || Number.isInteger(value)) ? value : undefined;
  return {
    word,
    limits,
    accept: (cell) => (typeof cell === 'number' ? inside(cell) : undefined),
    bounds: { low, high, whole },
    samples: [low, high, 1, 2, 0.5, 10, 100].filter((value) => inside(value) !== undefined),
  };
}

/** The same, and 0: for what is 0 every day, where a blank taken for 0 does no harm. The word `none` says 0 here too. */
export const orZero = (kind: Kind<number>): Kind<number> => ({
  ...kind,
  limits: kind.limits?.above === 0 ? withLow(kind.limits) : kind.limits!,
  zeroCounts: true,
  bounds: { ...kind.bounds!, low: Math.min(kind.bounds!.low, 0) },
  accept: (cell) => (isBlankOrZero(cell) || isWord(cell, 'none') ? 0 : kind.accept(cell)),
  samples: [0, 'none', ...kind.samples],
});

const isWord = (cell: Cell, word: string): boolean =>
  typeof cell === 'string' && cell.trim().toLowerCase() === word;

/** `above: 0` and 0 itself is `from: 0`. */
function withLow({ above: _above, ...limits }: Limits): Limits {
  return { from: 0, ...limits };
}

/** The same, or a word for 0: for what may be nothing, where a blank would be a guess. */
const orWord =
  (word: string) =>
  (kind: Kind<number>): Kind<number> => {
    const { bounds: _bounds, ...rest } = kind;
    return {
      ...rest,
      zeroWord: word,
      accept: (cell) => (isWord(cell, word) ? 0 : kind.accept(cell)),
      samples: [word, ...kind.samples],
    };
  };

/** The same, or the word `none`: a crop that failed, a day without loss. */
export const orNone = orWord('none');

/** A price or a cost above 0, or the word `free`. */
export const price = (to?: number): Kind<number> =>
  orWord('free')(numberOf('number', { above: 0, ...(to === undefined ? {} : { to }) }));

/** A finite number inside the given limits. */
export const number = (limits: NumberLimits = {}): Kind<number> => numberOf('number', limits);

/** A quantity in the units that a call asks in: a difference of temperatures, an altitude, an airflow, a pressure. */
export const measure = (
  word: 'degrees' | 'altitude' | 'airflow' | 'pressure',
  limits: NumberLimits = {},
): Kind<number> => numberOf(word, limits);

/** A mass above 0 in the unit of the sheet: same unit in, same unit out. `to` catches slips. */
export const mass = (to?: number): Kind<number> =>
  numberOf('mass', { above: 0, ...(to === undefined ? {} : { to }) });

/** A whole number of things. */
export const count = (from = 1, to?: number): Kind<number> =>
  numberOf('count', { from, whole: true, ...(to === undefined ? {} : { to }) });

/** A length of time in days, above 0. */
export const days = (limits: NumberLimits = { above: 0 }): Kind<number> =>
  numberOf('days', { unit: 'days', ...limits });

/** A share above 0 and up to 1: 62% is 0.62. */
export const fraction = (): Kind<number> => numberOf('share', { above: 0, to: 1 });

/** A share above 0 and below 1, which must leave something over. */
export const fractionBelowOne = (): Kind<number> => numberOf('share', { above: 0, below: 1 });

/** The water share of substrate as mixed: none is drier than 5%. */
export const moisture = (): Kind<number> => numberOf('share', { from: 0.05, below: 1 });

/** A share of what is lost, which may be nothing and leaves something over. */
export const loss = (): Kind<number> => orZero(fractionBelowOne());

/** A biological efficiency: fresh mass over dry mass, which may pass 1. Above 5 (500%) it is a slip. */
export const efficiency = (): Kind<number> => numberOf('efficiency', { above: 0, to: 5 });

/** How sure an interval is to hold: 95% or 0.95. */
export const confidence = (): Kind<number> => numberOf('share', { from: 0.5, to: 0.9999 });

/** A temperature in the call's degrees; its range is checked where the unit is known. 0 degrees is written 0.01. */
export const temperature = (): Kind<number> => numberOf('temperature', { from: -459.67, to: 1000 });

/** A date as the sheet holds it: days in its date system, the time of day in the fraction. */
export const serial = (): Kind<number> => ({
  ...numberOf('date', { above: 0, below: LAST_SERIAL + 1 }),
  samples: [1, 59, 60, 61, 44927, 46000.75, LAST_SERIAL],
});

/** The day a lot was loaded, or how many of its blocks are loaded so far: a number up to a day in this century. */
export const dayOrBlocks = (): Kind<number> => ({
  ...numberOf('number', { above: 0, below: LAST_SERIAL + 1 }),
  needed: 'a date, or a number of blocks',
  samples: [12, 46_000],
});

/** A label: any text; a plain number is taken as its digits. Never blank. */
export function text(): Kind<string> {
  return {
    word: 'label',
    accept: (cell) => {
      if (typeof cell === 'string') return cell.trim() || undefined;
      return typeof cell === 'number' && cell !== 0 && Number.isFinite(cell) ? String(cell) : undefined;
    },
    samples: ['A', 'Oak 7', 12],
  };
}

/** One of a few words, each given with what it means; case and outer spaces do not count. */
export function choice<const C extends string>(
  choices: Readonly<Record<C, string>>,
  voice?: (chosen: C) => Partial<Voice>,
): Kind<C> {
  const words = Object.keys(choices) as C[];
  const byKey = new Map(words.map((word) => [word.toLowerCase(), word]));
  return {
    word: 'choice',
    choices,
    ...(voice && { voice }),
    accept: (cell) => (typeof cell === 'string' ? byKey.get(cell.trim().toLowerCase()) : undefined),
    samples: words,
  };
}

/** Whatever the cell holds, errors included, a blank as empty text: for functions that judge the records themselves. */
export const anything = (blankMeans = 'is reported'): Kind<Cell> => ({
  word: 'anything',
  blankMeans,
  accept: (cell) => cell ?? '',
  samples: ['A', 1, 0.5, true],
});

/** The same in a column whose header may say a unit. */
export const anythingOf = (measures: 'mass' | 'share'): Kind<Cell> => ({ ...anything(), measures });

/**
 * The same, or nothing: a blank or 0 reads as null. For a column that must be given but need not be filled.
 *
 * @param blankMeans what a blank says, as a short phrase for the guide
 */
export function orBlank<T>(
  { word, limits, zeroWord, accept, samples }: Kind<T>,
  blankMeans: string,
): Kind<T | null> {
  return {
    word,
    blankMeans,
    ...(limits && { limits }),
    ...(zeroWord !== undefined && { zeroWord }),
    orBlank: true,
    accept: (cell) => (isBlankOrZero(cell) ? null : accept(cell)),
    samples: [...samples, null],
  };
}
