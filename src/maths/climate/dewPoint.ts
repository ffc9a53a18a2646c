import { CalcError } from '../shared/calcError';
import { condensesAt, requireAir, type Air } from './moistAir';

/**
 * Dew point: the temperature at which a surface begins to drip.
 *
 * The temperature whose saturated vapour pressure is humidity × that of the air; the frost point below 0.01 °C. It
 * does not depend on altitude.
 *
 * @param air dry bulb -40 to 60 °C, humidity above 0 to 1
 * @returns temperature in °C
 * @throws invalid where an input is outside its range, or the dew point below -100 °C, as in bone-dry air
 * @source ASHRAE Handbook – Fundamentals (2017) chapter 1, equations 5 and 6 solved for temperature
 */
export function dewPoint(air: Air): number {
  requireAir(air);
  const celsius = condensesAt(air);
  if (celsius === undefined) {
    throw new CalcError('invalid', 'humidity: more needed, the dew point would be below -100 °C');
  }
  return celsius;
}
