import { requireAtLeast } from '../shared/checks';
import { mixerContents } from './mixerContents';

/**
 * Moisture of what is in the mixer, wet basis.
 *
 * (Σ mass × moisture + water) / (Σ mass + water)
 *
 * @param masses mass of each ingredient as received, 0 or more, at least one above 0
 * @param moistures water share of each as received, 0 up to less than 1
 * @param water mass of water added, 0 or more
 * @returns water share of the whole
 * @throws invalid where an input is outside its range
 * @throws missing where there is nothing in the mixer
 * @source Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54, moisture of a mixture: G = Σ Q M / Σ Q
 */
export function mixMoisture(masses: readonly number[], moistures: readonly number[], water: number): number {
  requireAtLeast('water', water, 0);
  const { wet, dry } = mixerContents(masses, moistures);
  return 1 - dry / (wet + water);
}
