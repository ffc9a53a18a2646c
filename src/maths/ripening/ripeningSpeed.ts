import { missing, type Placed } from '../shared/fault';
import { growthRate, requireCardinals, type CardinalTemperatures, type TemperatureNames } from './growthRate';

declare module '../shared/fault' {
  interface FaultDetails {
    /** Days seen at a temperature at which the strain does not grow, by its own cardinal temperatures. */
    noGrowthObserved: { readonly observedAt: number; readonly min: number; readonly max: number };
    /** A temperature that is not written; 0 degrees reads as blank. */
    noTemperature: { readonly header: string; readonly table: string };
  }
}

/** How a strain answers to temperature, as the strains table holds it; undefined where nothing is written. */
export interface TemperatureResponse extends Placed {
  /** Temperature at which the strain's days to ready were seen. */
  readonly observedAt: number | undefined;
  readonly min: number | undefined;
  readonly best: number | undefined;
  readonly max: number | undefined;
}

const NAMES: TemperatureNames = {
  temperature: 'temperature',
  min: 'strains, min temp',
  best: 'strains, best temp',
  max: 'strains, max temp',
};

/** A strain's cardinal temperatures, checked, and its growth rate at the temperature its days were seen at, above 0. */
export interface KnownResponse {
  readonly cardinals: CardinalTemperatures;
  readonly observedRate: number;
}

/**
 * A strain's answer to temperature, complete and sound enough to carry its days over to another temperature.
 *
 * @throws missing where one of the four temperatures is not known
 * @throws invalid where the cardinal temperatures have no shape, or the strain would not grow where it was observed
 */
export function knownResponse(response: TemperatureResponse): KnownResponse {
  const { observedAt, min, best, max } = response;
  if (observedAt === undefined) throw notWritten('observed at');
  if (min === undefined) throw notWritten('min temp');
  if (best === undefined) throw notWritten('best temp');
  if (max === undefined) throw notWritten('max temp');
  const cardinals = { min, best, max };
  requireCardinals(cardinals, NAMES, response);
  const observedRate = growthRate(observedAt, cardinals, { ...NAMES, temperature: 'strains, observed at' });
  if (!(observedRate > 0)) {
    throw missing('strains, observed at', 'noGrowthObserved', { observedAt, min, max }, response);
  }
  return { cardinals, observedRate };
}

function notWritten(header: string): ReturnType<typeof missing> {
  return missing('strain', 'noTemperature', { header, table: 'strains' });
}

/**
 * How many of a strain's observed days pass in one day at a steady temperature: the growth rate there over the growth
 * rate where the days were observed. That blocks ripen in proportion to the growth of mycelium is an assumption.
 *
 * @param temperature of the room, in the unit of the response
 * @returns 0 or more; above 1 where the temperature suits the strain better than the one observed
 * @throws missing where one of the strain's four temperatures is not known
 * @throws invalid where a temperature is no number, or the cardinal temperatures have no shape
 */
export function ripeningSpeed(temperature: number, response: TemperatureResponse): number {
  const { cardinals, observedRate } = knownResponse(response);
  return growthRate(temperature, cardinals, NAMES) / observedRate;
}
