import { requireCelsius, requireNumber } from '../shared/checks';
import { degreesOf } from '../shared/fault';

/** How the kill of moist heat depends on temperature. */
export interface Resistance {
  /** Degrees (°C) by which ten times as much is killed in the same time. */
  readonly zC: number;
  /** Temperature (°C) at which a minute counts as a minute. */
  readonly referenceC: number;
}

/** The usual figures for bacterial spores in moist heat: F0 of canning and of autoclaves. */
export const SPORES: Resistance = { zC: 10, referenceC: 121.1 };

/** Passes a resistance whose figures can be one of moist heat. */
export function requireResistance({ zC, referenceC }: Resistance): void {
  requireNumber('z', zC, { from: degreesOf(2), to: degreesOf(50) });
  requireCelsius('reference', referenceC, 50, 150);
}

/**
 * Lethal rate: minutes at the reference temperature that a minute at a temperature is worth.
 *
 * rate = 10^((T − reference) / z)
 *
 * @param temperatureC core temperature in °C
 * @returns the rate, 1 at the reference temperature
 * @source Bigelow, W. D. (1921) The logarithmic nature of thermal death time curves. J. Infect. Dis. 29:528–536
 */
export function lethalRate(temperatureC: number, { zC, referenceC }: Resistance): number {
  return Math.exp((Math.LN10 / zC) * (temperatureC - referenceC));
}
