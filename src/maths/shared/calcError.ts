/**
 * Why a calculation has no answer:
 * `invalid` an input is of the wrong kind or outside its range; `missing` something looked up is not there, or
 * the data cannot answer; `zeroBase` a ratio to nothing; `noConvergence` a search that did not settle.
 */
export type FaultKind = 'invalid' | 'missing' | 'zeroBase' | 'noConvergence';

/** Where a fault lies: the argument as the worksheet names it, and the entry (from 0) of an array or table in it. */
export interface FaultPlace {
  readonly argument?: string;
  readonly index?: number;
}

/** The only error the maths throws on purpose. `message` is one lower-case sentence for the person at the sheet. */
export class CalcError extends Error {
  constructor(
    readonly kind: FaultKind,
    message: string,
    readonly place: FaultPlace = {},
  ) {
    super(message);
  }
}

/** A number or text as a message shows it: text in quotes, numbers to at most ten significant digits. */
export function shown(value: unknown): string {
  if (typeof value === 'number') return String(Number(value.toPrecision(10)));
  if (typeof value === 'string') {
    const short = value.length > 40 ? `${value.slice(0, 37)}…` : value;
    return `"${short}"`;
  }
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (value === null || value === undefined) return 'a blank cell';
  return 'something that is no plain value';
}

/** A share as a message shows it: `62.5%`. */
export function shownPercent(share: number): string {
  return `${Number((100 * share).toPrecision(4))}%`;
}

/** `<argument>: <needed> needed, got <value>`: an input of the wrong kind or range. */
export function invalid(argument: string, needed: string, got: unknown, index?: number): CalcError {
  return new CalcError('invalid', `${argument}: ${needed} needed, got ${shown(got)}`, place(argument, index));
}

/** Something looked up is not there, or the data given cannot answer; `sentence` follows the argument's name. */
export function missing(argument: string, sentence: string, index?: number): CalcError {
  return new CalcError('missing', `${argument}: ${sentence}`, place(argument, index));
}

/** A ratio whose base is zero. */
export function zeroBase(argument: string, sentence: string, index?: number): CalcError {
  return new CalcError('zeroBase', `${argument}: ${sentence}`, place(argument, index));
}

function place(argument: string, index: number | undefined): FaultPlace {
  return index === undefined ? { argument } : { argument, index };
}
