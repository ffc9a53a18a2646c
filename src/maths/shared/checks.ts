import { celsiusOf, dateOf, invalid, type Figure, type Limits, type Where } from './fault';
import { LAST_SERIAL } from './serial';

// Every comparison is written so that NaN fails it.

const plain = (figure: Figure | undefined, none: number): number =>
  figure === undefined ? none : typeof figure === 'number' ? figure : figure.value;

/**
 * Passes a finite number inside the limits. Limits given as quantities (`celsiusOf(60)`) are told as such; `what` says
 * what a limit is where the number alone would puzzle.
 */
export function requireNumber(
  argument: string,
  value: number,
  limits: Limits,
  what?: string,
  where?: Where,
): number {
  const inside =
    value >= plain(limits.from, -Number.MAX_VALUE) &&
    value <= plain(limits.to, Number.MAX_VALUE) &&
    value > plain(limits.above, -Infinity) &&
    value < plain(limits.below, Infinity) &&
    (limits.whole !== true || Number.isSafeInteger(value));
  if (inside) return value;
  const told = limits.from ?? limits.above ?? limits.to ?? limits.below;
  const given = typeof told === 'object' ? { ...told, value } : value;
  throw invalid(argument, 'outside', { ...limits, given, ...(what && { what }) }, where);
}

/** Passes a finite number above 0. */
export function requirePositive(argument: string, value: number, where?: Where): number {
  return requireNumber(argument, value, { above: 0 }, undefined, where);
}

/** Passes a finite number of `low` or more. */
export function requireAtLeast(argument: string, value: number, low: number, where?: Where): number {
  return requireNumber(argument, value, { from: low }, undefined, where);
}

/** Passes a number from `low` to `high`, both included. */
export function requireWithin(
  argument: string,
  value: number,
  low: number,
  high: number,
  unit?: string,
  where?: Where,
): number {
  return requireNumber(argument, value, { from: low, to: high, ...(unit && { unit }) }, undefined, where);
}

/** Passes a temperature in °C from `low` to `high`; a refusal tells all three in the degrees that the call asks in. */
export function requireCelsius(
  argument: string,
  temperatureC: number,
  low: number,
  high: number,
  where?: Where,
): number {
  return requireNumber(
    argument,
    temperatureC,
    { from: celsiusOf(low), to: celsiusOf(high) },
    undefined,
    where,
  );
}

/** Passes a share from 0 to 1, both included. */
export function requireFraction(argument: string, value: number, where?: Where): number {
  return requireNumber(argument, value, { from: 0, to: 1 }, undefined, where);
}

/** Passes a share from 0 up to but not 1: a moisture or a loss of 1 leaves nothing to divide by. */
export function requireFractionBelowOne(argument: string, value: number, where?: Where): number {
  return requireNumber(argument, value, { from: 0, below: 1 }, undefined, where);
}

/** Passes a whole number of `low` or more. */
export function requireWhole(argument: string, value: number, low = 0, where?: Where): number {
  return requireNumber(argument, value, { from: low, whole: true }, undefined, where);
}

/** Passes a confidence or coverage: a share from 0.5 to 0.9999. */
export function requireConfidence(argument: string, value: number): number {
  return requireNumber(argument, value, { from: 0.5, to: 0.9999 });
}

/** Passes a date that was reckoned from `given`, once a sheet can show it. */
export function requireInCalendar(argument: string, reckoned: number, given: number, where?: Where): number {
  if (reckoned < LAST_SERIAL + 1) return reckoned;
  throw invalid(argument, 'pastCalendar', { given: dateOf(given) }, where);
}
