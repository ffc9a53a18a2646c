import { shown } from '../../maths/shared/calcError';
import { LAST_SERIAL } from '../../maths/shared/serial';
import { CellError, isBlank, isBlankOrZero, type Cell } from './cell';

/**
 * What one cell is asked to be. `accept` gives the plain value, or undefined where the cell is no such thing; it
 * never converts text to a number. A blank reads as 0 where 0 is a value, since a host may hand a blank over as 0.
 */
export interface Kind<T> {
  /** One word for the guide: `date`, `mass`. */
  readonly word: string;
  /** What a message asks for: `a date`, `0 to 1`. */
  readonly needed: string;
  readonly unit?: string;
  readonly choices?: readonly string[];
  readonly accept: (cell: Cell) => T | undefined;
  /** Where the value is a number inside bounds and nothing else is asked: what `accept` checks, for long columns. */
  readonly bounds?: Bounds;
  /** A way out for a cell that was refused. */
  readonly hint?: (cell: Cell) => string | undefined;
  /** Cells that are accepted, ends of the range included: for tests and the guide. */
  readonly samples: readonly Cell[];
}

/** Both ends included. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly whole: boolean;
}

interface NumberLimits {
  readonly word?: string;
  readonly unit?: string;
  /** Lowest value, included unless `above` is set. */
  readonly from?: number;
  /** The value must be more than this. */
  readonly above?: number;
  /** Highest value, included unless `below` is set. */
  readonly to?: number;
  /** The value must be less than this. */
  readonly below?: number;
  readonly whole?: boolean;
}

function numberNeeded({ from, above, to, below, whole, unit }: NumberLimits): string {
  const what = whole ? 'a whole number' : 'a number';
  const suffix = unit ? ` ${unit}` : '';
  if (from !== undefined && to !== undefined)
    return `${whole ? `${what} from ` : ''}${from} to ${to}${suffix}`;
  if (above !== undefined && to !== undefined) return `more than ${above}, at most ${to}${suffix}`;
  if (from !== undefined && below !== undefined) return `${from} up to less than ${below}${suffix}`;
  if (above !== undefined && below !== undefined) return `between ${above} and ${below}${suffix}`;
  if (above !== undefined) return `${what} above ${above}${suffix}`;
  if (from !== undefined) return `${what} of ${from} or more${suffix}`;
  if (to !== undefined) return `${what} up to ${to}${suffix}`;
  return what + suffix;
}

/** The neighbouring doubles, so that an end that is not included is a bound like any other. */
const nextAbove = (value: number): number =>
  value === 0 ? Number.MIN_VALUE : value + Math.abs(value) * Number.EPSILON;
const nextBelow = (value: number): number => -nextAbove(-value);

/** A finite number inside the given limits. */
export function number(limits: NumberLimits = {}): Kind<number> {
  const low = limits.above === undefined ? (limits.from ?? -Number.MAX_VALUE) : nextAbove(limits.above);
  const high = limits.below === undefined ? (limits.to ?? Number.MAX_VALUE) : nextBelow(limits.below);
  const whole = limits.whole === true;
  const inside = (value: number): number | undefined =>
    value >= low && value <= high && (!whole || Number.isInteger(value)) ? value : undefined;
  return {
    word: limits.word ?? 'number',
    needed: numberNeeded(limits),
    ...(limits.unit === undefined ? {} : { unit: limits.unit }),
    accept: (cell) => (typeof cell === 'number' ? inside(cell) : isBlank(cell) ? inside(0) : undefined),
    bounds: { low, high, whole },
    hint: numberHint,
    samples: [low, high, 0, 1, 2, 0.5, 10, 100].filter((value) => inside(value) !== undefined),
  };
}

function numberHint(cell: Cell): string | undefined {
  if (
    typeof cell === 'string' &&
    /\d/.test(cell) &&
    Number.isFinite(Number(cell.replace(',', '.').replace('%', '')))
  ) {
    return 'it is text that looks like a number: retype it as a number';
  }
  return undefined;
}

/** A mass in the unit of the sheet: same unit in, same unit out. */
export function mass(): Kind<number> {
  return { ...number({ word: 'mass', above: 0 }), needed: 'a mass above 0' };
}

/** A mass that may be 0. */
export function massOrNone(): Kind<number> {
  return { ...number({ word: 'mass', from: 0 }), needed: 'a mass of 0 or more' };
}

/** A whole number of things. */
export function count(from = 1): Kind<number> {
  return number({ word: 'count', from, whole: true });
}

/** A length of time in days, above 0. */
export function days(): Kind<number> {
  return number({ word: 'days', unit: 'days', above: 0 });
}

/** From 2 on a percentage was typed without its sign; 1.05 is as likely 105% as 1.05%. */
function withPercentHint(kind: Kind<number>, upTo: number): Kind<number> {
  return {
    ...kind,
    hint: (cell) =>
      typeof cell === 'number' && cell >= 2 && cell <= 100 * upTo
        ? `percentages are fractions: write ${cell}% or ${Number((cell / 100).toPrecision(10))}`
        : numberHint(cell),
  };
}

/** A share from 0 to 1, both included: 62% is 0.62. */
export function fraction(): Kind<number> {
  return withPercentHint(number({ word: 'share', from: 0, to: 1 }), 1);
}

/** A share that must be something. */
export function fractionAbove0(): Kind<number> {
  return withPercentHint(number({ word: 'share', above: 0, to: 1 }), 1);
}

/** A share from 0 up to but not 1: a moisture or a loss, which must leave something over. */
export function fractionBelowOne(): Kind<number> {
  return withPercentHint(number({ word: 'share', from: 0, below: 1 }), 1);
}

/** A biological efficiency: fresh mass over dry mass, which may pass 1. Above 5 (500%) it is a slip. */
export function efficiency(): Kind<number> {
  return withPercentHint(number({ word: 'efficiency', above: 0, to: 5 }), 5);
}

/** How sure an interval is to hold: 95% or 0.95. */
export function confidence(): Kind<number> {
  return withPercentHint(number({ word: 'confidence', from: 0.5, to: 0.9999 }), 1);
}

/** A temperature in °C unless the function has a unit argument; its range is checked where the unit is known. */
export function temperature(unit = '°C'): Kind<number> {
  return { ...number({ word: 'temperature', unit, from: -459.67, to: 1000 }), needed: 'a temperature' };
}

/** A date as the sheet holds it: days in its date system, the time of day in the fraction. */
export function serial(): Kind<number> {
  return {
    ...number({ word: 'date', above: 0, below: LAST_SERIAL + 1 }),
    needed: 'a date',
    samples: [1, 59, 60, 61, 44927, 46000.75, LAST_SERIAL],
    hint: (cell) =>
      typeof cell === 'string' && !isBlank(cell)
        ? 'it is text: retype it so that the sheet takes it as a date'
        : undefined,
  };
}

/** A label: any text; a plain number is taken as its digits. Never blank. */
export function text(word = 'text'): Kind<string> {
  return {
    word,
    needed: 'a label',
    accept: (cell) => {
      if (typeof cell === 'string') return cell.trim() || undefined;
      return typeof cell === 'number' && cell !== 0 && Number.isFinite(cell) ? String(cell) : undefined;
    },
    samples: ['A', 'Oak 7', 12],
  };
}

/** One of a few words; case and outer spaces do not count. */
export function choice<const C extends string>(choices: readonly C[]): Kind<C> {
  const byKey = new Map(choices.map((word) => [word.toLowerCase(), word]));
  return {
    word: 'choice',
    needed: `one of ${choices.join(', ')}`,
    choices,
    accept: (cell) => (typeof cell === 'string' ? byKey.get(cell.trim().toLowerCase()) : undefined),
    samples: choices,
  };
}

/** Whatever the cell holds, errors included, a blank as empty text: for functions that judge the records themselves. */
export function anything(): Kind<Cell> {
  return { word: 'anything', needed: 'anything', accept: (cell) => cell ?? '', samples: ['A', 1, 0.5, true] };
}

/** The same, or nothing: a blank or 0 reads as null. For a column that must be given but need not be filled. */
export function orBlank<T>(kind: Kind<T>): Kind<T | null> {
  const { word, hint } = kind;
  return {
    word,
    needed: `${kind.needed}, or a blank,`,
    ...(hint === undefined ? {} : { hint }),
    accept: (cell) => (isBlankOrZero(cell) ? null : kind.accept(cell)),
    samples: [...kind.samples, null],
  };
}

/** Why a cell was not taken. */
export class Refusal {
  constructor(readonly error: CellError) {}
}

/** The value of `kind`, or why the cell is refused. */
export function readCell<T>(kind: Kind<T>, cell: Cell, argument: string, place = ''): T | Refusal {
  return kind.accept(cell) ?? refusal(kind, cell, argument, place);
}

/** Why `kind` does not take a cell, with `argument` and `place` named. An error cell is refused as that same error. */
export function refusal(kind: Kind<unknown>, cell: Cell, argument: string, place: string): Refusal {
  if (cell instanceof CellError) return new Refusal(cell);
  const hint = kind.hint?.(cell);
  const reason = `${argument}: ${kind.needed} needed, got ${cellShown(cell)}`;
  return new Refusal(new CellError('#VALUE!', reason + (hint === undefined ? '' : ` – ${hint}`) + place));
}

function cellShown(cell: Cell): string {
  return isBlankOrZero(cell) ? 'a blank cell or 0' : shown(cell);
}
