// What more than one place of the project must agree on.

// Hosts show examples in other units by the factors that the maths calculates with.
export { KILOGRAMS_A_POUND, METRES_A_FOOT, PASCALS_A_PSI } from '../maths/shared/constants';

/** Set by the build of pages: the build for development has a name of its own, so that both can be installed. */
declare const PINSET_NAMESPACE: string | undefined;

/** What every function's name begins with in a sheet. */
export const PREFIX = `${typeof PINSET_NAMESPACE === 'string' ? PINSET_NAMESPACE : 'PINSET'}.`;

/** The families, in the order of the grower's week, and what headings call them. */
export const FAMILY_TITLES = {
  records: 'Your own sheet',
  ripening: 'Dates and ripening',
  lineage: 'Labels and lineage',
  substrate: 'Substrate',
  sterilising: 'Sterilising',
  climate: 'Climate',
  loading: 'Loading',
  harvest: 'Yield',
  audit: 'Audit',
  cost: 'Cost',
} as const;
export type Family = keyof typeof FAMILY_TITLES;
export const FAMILIES = Object.keys(FAMILY_TITLES) as readonly Family[];

/** The error codes a sheet knows. Ours are the first four; the others only pass through from other formulas. */
export const ERROR_CODES = [
  '#VALUE!',
  '#N/A',
  '#DIV/0!',
  '#NUM!',
  '#REF!',
  '#NAME?',
  '#NULL!',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
] as const;
export type ErrorCode = (typeof ERROR_CODES)[number];
