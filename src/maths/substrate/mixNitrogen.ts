import { requireFraction } from '../shared/checks';
import { compensatedSum } from '../shared/numeric';

/**
 * Nitrogen in the dry matter of a mix: Σ dry mass × nitrogen / Σ dry mass.
 *
 * @param dryMasses dry mass of each ingredient, at least one above 0
 * @param nitrogen share of nitrogen in each one's dry matter, 0 to 1
 * @returns share of nitrogen in the dry matter of the whole
 * @throws invalid where a share is outside its range
 * @source Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54, chapter 3: C:N ratio of a mixture, its nitrogen
 */
export function mixNitrogen(dryMasses: readonly number[], nitrogen: readonly number[]): number {
  nitrogen.forEach((share, i) => requireFraction('nitrogen', share, i));
  return compensatedSum(dryMasses.map((dry, i) => dry * nitrogen[i]!)) / compensatedSum(dryMasses);
}
