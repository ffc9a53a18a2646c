import { requireFractionBelowOne } from '../shared/checks';
import { invalid, shareOf, type CalcError } from '../shared/fault';
import { mixerContents } from './mixerContents';

declare module '../shared/fault' {
  interface FaultDetails {
    /** Ingredients that are wetter than the mix is to be; masses in the unit given. */
    tooWet: {
      readonly moisture: Quantity;
      readonly target: Quantity;
      readonly excess: number;
      readonly wet: number;
    };
  }
}

/**
 * Water to add to what is in the mixer so that the mix has a wanted moisture, wet basis.
 *
 * water = Σ mass × (1 − moisture) / (1 − target) − Σ mass: the dry matter stays, and must be the share 1 − target
 * of what comes out.
 *
 * @param masses mass of each ingredient as received, 0 or more, at least one above 0
 * @param moistures water share of each as received, 0 up to less than 1
 * @param target water share wanted, 0 up to less than 1
 * @returns mass of water, in the unit of the masses, 0 or more
 * @throws invalid where an input is outside its range, or the mix is wetter than the target already
 * @throws missing where there is nothing in the mixer
 * @source Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54, moisture of a mixture: G = Σ Q M / Σ Q,
 * solved for one ingredient of moisture 1 (water)
 */
export function waterToAdd(masses: readonly number[], moistures: readonly number[], target: number): number {
  requireFractionBelowOne('target', target);
  const { wet, dry } = mixerContents(masses, moistures);
  const water = dry / (1 - target) - wet;
  // A mix that is at its target already may come out a rounding below it.
  if (water >= -1e-12 * wet) return Math.max(0, water);
  throw tooWet('target', wet, dry, target);
}

/** The fault of a mix that is wetter than wanted: by how much, and how much dry matter would bring it back. */
export function tooWet(argument: string, wet: number, dry: number, target: number): CalcError {
  const excess = wet - dry / (1 - target);
  return invalid(argument, 'tooWet', {
    moisture: shareOf(1 - dry / wet),
    target: shareOf(target),
    excess: Number(excess.toPrecision(3)),
    wet: Number(wet.toPrecision(5)),
  });
}
