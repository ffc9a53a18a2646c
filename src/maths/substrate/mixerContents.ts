import { requireAtLeast, requireFractionBelowOne } from '../shared/checks';
import { invalid, missing } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

declare module '../shared/fault' {
  interface FaultDetails {
    emptyMixer: object;
  }
}

/** What is in the mixer. */
export interface MixerContents {
  /** Mass of everything in it. */
  readonly wet: number;
  /** Mass of its dry matter. */
  readonly dry: number;
}

/**
 * Wet and dry mass of what is in the mixer.
 *
 * @param masses mass of each ingredient as received, 0 or more, at least one above 0
 * @param moistures water share of each as received, 0 up to less than 1
 * @throws invalid where an input is outside its range
 * @throws missing where there is nothing in the mixer
 */
export function mixerContents(masses: readonly number[], moistures: readonly number[]): MixerContents {
  masses.forEach((mass, i) => requireAtLeast('masses', mass, 0, i));
  moistures.forEach((moisture, i) => requireFractionBelowOne('moistures', moisture, i));
  if (masses.length !== moistures.length) {
    const details = { other: 'masses', length: masses.length, found: moistures.length };
    throw invalid('moistures', 'notAsLong', details);
  }
  const wet = compensatedSum(masses);
  if (!(wet > 0)) throw missing('masses', 'emptyMixer');
  return { wet, dry: compensatedSum(masses.map((mass, i) => mass * (1 - moistures[i]!))) };
}
