/**
 * The whole number at or above `value`, forgiving floating point: a quotient that should be 12 and comes out as
 * 12.000000000000002 gives 12. The allowance is 1e-9 of the value, at least 1e-9.
 */
export function wholeUnitsFor(value: number): number {
  return Math.ceil(value - 1e-9 * Math.max(1, Math.abs(value))) + 0;
}

/** The whole number at or below `value`, with the same allowance: 11.999999999999998 gives 12. */
export function wholeUnitsIn(value: number): number {
  return Math.floor(value + 1e-9 * Math.max(1, Math.abs(value)));
}
