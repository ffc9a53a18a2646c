import { KILOGRAMS_A_POUND } from '../shared/constants';

/** A change of mass that a slip of the hand makes, as a factor on the true mass. */
interface Slip {
  readonly factor: number;
  readonly code: 'mass-unit' | 'mass-decimal';
  readonly slip: string;
}

/** Factors between the units of mass: pound and kilogram, ounce, gram. */
const UNITS: Slip[] = (
  [
    [1 / KILOGRAMS_A_POUND, 'pounds', 'kilograms'],
    [16, 'ounces', 'pounds'],
    [16 / KILOGRAMS_A_POUND, 'ounces', 'kilograms'],
    [28.349523125, 'grams', 'ounces'],
    [453.59237, 'grams', 'pounds'],
    [1000, 'grams', 'kilograms'],
  ] as const
).flatMap(([factor, small, large]): Slip[] => [
  { factor, code: 'mass-unit', slip: `${small} typed for ${large}` },
  { factor: 1 / factor, code: 'mass-unit', slip: `${large} typed for ${small}` },
]);

const DECIMALS: Slip[] = [1, 2].flatMap((places): Slip[] => [
  { factor: 10 ** places, code: 'mass-decimal', slip: `decimal ${places} to the right` },
  { factor: 10 ** -places, code: 'mass-decimal', slip: `decimal ${places} to the left` },
]);

const SLIPS = [...DECIMALS, ...UNITS];

/**
 * The slip that best explains a mass which is off by exp(`residual`): undefined where none brings it within two and a
 * half standard deviations of what was expected. Where two explain it (28.35 g to the ounce lies near 35.27 ounces to the
 * kilogram) the nearer one is given; the reader judges.
 */
export function massSlip(residual: number, deviation: number): Slip | undefined {
  let best: Slip | undefined;
  let least = 2.5 * deviation;
  for (const slip of SLIPS) {
    const left = Math.abs(residual - Math.log(slip.factor));
    if (left < least) [best, least] = [slip, left];
  }
  return best;
}
