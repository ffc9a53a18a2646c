/** A sheet keeps fifteen digits; three are left to the order in which a long sum is added up. */
const TOLERANCE = 1e-12;
/** Spreadsheet programs make 0 of a difference that is nothing but rounding. */
const NOTHING = 1e-13;

/** Whether two results are the same number on a sheet. */
export function isSameNumber(one: number, other: number): boolean {
  if (one === 0 || other === 0) return Math.abs(one - other) <= NOTHING;
  return Math.abs(one - other) <= TOLERANCE * Math.max(Math.abs(one), Math.abs(other));
}
