import { requireNumber } from '../shared/checks';
import type { Where } from '../shared/fault';

/** The temperatures at which mycelium stops growing, grows fastest, and stops again, all in one unit. */
export interface CardinalTemperatures {
  readonly min: number;
  readonly best: number;
  readonly max: number;
}

/** What the four temperatures are called in messages. */
export interface TemperatureNames {
  readonly temperature: string;
  readonly min: string;
  readonly best: string;
  readonly max: string;
}

const NAMES: TemperatureNames = { temperature: 'temperature', min: 'min', best: 'best', max: 'max' };

/**
 * Growth rate of mycelium at a temperature, relative to its rate at the best temperature: the cardinal temperature
 * model with inflection.
 *
 * rate = (T − max)(T − min)² / {(best − min)·[(best − min)(T − best) − (best − max)(best + min − 2T)]} between min and
 * max, else 0. The model has its slow start and its single peak only where best lies above the middle of min and max.
 * Every term is a difference of temperatures, so any unit does as long as all four share it. It describes the growth
 * of mycelium in steady warmth; it says nothing of fruiting, which many strains start only when chilled.
 *
 * @param temperature of the mycelium, in the unit of `cardinals`
 * @param names what messages call the four temperatures
 * @returns 0 at and beyond min and max, 1 at best
 * @throws invalid where a temperature is no number, or min, best and max are not in an order the model has a shape for
 * @source Rosso, L., Lobry, J. R., Flandrois, J.-P. (1993) An unexpected correlation between cardinal temperatures of
 * microbial growth highlighted by a new model. Journal of Theoretical Biology 162:447–463
 */
export function growthRate(
  temperature: number,
  cardinals: CardinalTemperatures,
  names: TemperatureNames = NAMES,
): number {
  requireNumber(names.temperature, temperature, {});
  requireCardinals(cardinals, names);
  return rateWithin(temperature, cardinals);
}

/** Passes cardinal temperatures the model has a shape for. */
export function requireCardinals(
  { min, best, max }: CardinalTemperatures,
  names: TemperatureNames,
  where?: Where,
): void {
  /** A column of a table by its header alone. */
  const said = (name: string): string => name.split(', ').at(-1)!;
  const [lowest, highest] = [said(names.min), said(names.max)];
  requireNumber(names.min, min, {}, undefined, where);
  requireNumber(names.max, max, { above: min }, `which is ${lowest}`, where);
  const middle = (min + max) / 2;
  requireNumber(names.best, best, { above: middle }, `halfway between ${lowest} and ${highest}`, where);
  requireNumber(names.best, best, { below: max }, `which is ${highest}`, where);
}

/** The model for cardinal temperatures already checked. */
export function rateWithin(temperature: number, { min, best, max }: CardinalTemperatures): number {
  if (!(temperature > min && temperature < max)) return 0;
  const rise = best - min;
  const numerator = (temperature - max) * (temperature - min) ** 2;
  const denominator = rise * (rise * (temperature - best) - (best - max) * (best + min - 2 * temperature));
  // Rounding may lift the peak slightly above 1.
  return Math.min(1, numerator / denominator);
}
