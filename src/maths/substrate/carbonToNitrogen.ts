import { requireFraction } from '../shared/checks';
import { invalid, shareOf, zeroBase } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { mixerContents } from './mixerContents';

declare module '../shared/fault' {
  interface FaultDetails {
    /** Carbon and nitrogen that are together more than the dry matter. */
    moreThanDry: { readonly carbon: Quantity; readonly nitrogen: Quantity };
    noNitrogen: object;
  }
}

/**
 * Ratio of carbon to nitrogen in a mix, by mass.
 *
 * Σ mass × (1 − moisture) × carbon / Σ mass × (1 − moisture) × nitrogen: a mean of the ingredients' own ratios would
 * be wrong, since bran brings most of the nitrogen and sawdust most of the carbon.
 *
 * @param masses mass of each ingredient as received, 0 or more, at least one above 0
 * @param moistures water share of each as received, 0 up to less than 1
 * @param carbon share of carbon in each one's dry matter, 0 to 1
 * @param nitrogen share of nitrogen in each one's dry matter, 0 to 1
 * @returns kilograms of carbon to one of nitrogen
 * @throws invalid where an input is outside its range, or carbon and nitrogen pass the dry matter
 * @throws missing where there is nothing in the mixer
 * @throws zeroBase where the mix holds no nitrogen
 * @source Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54, chapter 3: C:N ratio of a mixture
 */
export function carbonToNitrogen(
  masses: readonly number[],
  moistures: readonly number[],
  carbon: readonly number[],
  nitrogen: readonly number[],
): number {
  mixerContents(masses, moistures);
  carbon.forEach((share, i) => requireFraction('carbon', share, i));
  nitrogen.forEach((share, i) => {
    requireFraction('nitrogen', share, i);
    if (share + carbon[i]! > 1) {
      const details = { carbon: shareOf(carbon[i]!), nitrogen: shareOf(share) };
      throw invalid('nitrogen', 'moreThanDry', details, i);
    }
  });
  const dry = masses.map((mass, i) => mass * (1 - moistures[i]!));
  const nitrogenMass = compensatedSum(dry.map((mass, i) => mass * nitrogen[i]!));
  if (!(nitrogenMass > 0)) throw zeroBase('nitrogen', 'noNitrogen');
  return compensatedSum(dry.map((mass, i) => mass * carbon[i]!)) / nitrogenMass;
}
