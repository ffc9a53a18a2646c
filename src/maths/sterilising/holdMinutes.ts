import { requireAtLeast, requireCelsius } from '../shared/checks';
import { lethalRate, requireResistance, SPORES, type Resistance } from './lethalRate';
import { HOTTEST_READING } from './readings';

/**
 * Minutes to hold a core at a steady temperature for a wanted lethality.
 *
 * minutes = target / 10^((T − reference) / z). Heating and cooling are not counted.
 *
 * @param target equivalent minutes wanted at the reference temperature, 0 or more
 * @param temperatureC core temperature in °C, 50 to 160
 * @throws invalid where an input is outside its range
 * @source Bigelow, W. D. (1921) J. Infect. Dis. 29:528–536
 */
export function holdMinutes(target: number, temperatureC: number, resistance: Resistance = SPORES): number {
  requireAtLeast('target', target, 0);
  requireCelsius('temperature', temperatureC, 50, HOTTEST_READING);
  requireResistance(resistance);
  return target / lethalRate(temperatureC, resistance);
}
