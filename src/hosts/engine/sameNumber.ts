/** A sheet keeps fifteen digits; three are left to the order in which a long sum is added up. */
const TOLERANCE = 1e-12;
/** Spreadsheet programs make 0 of a difference that is nothing but rounding. */
const NOTHING = 1e-13;

/** What functions that close in on their result are exact to, by the vendor's reference. */
const CLOSES_IN: Readonly<Record<string, number>> = { IRR: 1e-7, XIRR: 1e-8, RATE: 1e-7 };

/** How far two results of a formula may be apart, in its functions' own words; 0 where they are exact. */
export const accuracyOf = (functions: readonly string[]): number =>
  functions.reduce((most, name) => Math.max(most, CLOSES_IN[name] ?? 0), 0);

/** Whether two results are the same number on a sheet, or are both as exact as was promised. */
export function isSameNumber(one: number, other: number, accuracy = 0): boolean {
  const size = Math.max(Math.abs(one), Math.abs(other));
  const apart = Math.abs(one - other);
  if (apart <= accuracy * Math.max(1, size)) return true;
  return apart <= (one === 0 || other === 0 ? NOTHING : TOLERANCE * size);
}
