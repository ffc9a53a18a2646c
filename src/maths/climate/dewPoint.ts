import { celsiusOf, invalid } from '../shared/fault';
import { COLDEST_DEW, condensesAt, requireAir, type Air } from './moistAir';

declare module '../shared/fault' {
  interface FaultDetails {
    /** Air so dry that its dew point is beyond the equations. */
    noDewPoint: { readonly lowest: Quantity };
  }
}

/**
 * Dew point: the temperature at which a surface begins to drip.
 *
 * The temperature whose saturated vapour pressure is humidity × that of the air; the frost point below 0.01 °C. It
 * does not depend on altitude.
 *
 * @param air dry bulb -40 to 60 °C, humidity above 0 to 1
 * @returns temperature in °C
 * @throws invalid where an input is outside its range, or the dew point below -100 °C, as in perfectly dry air
 * @source ASHRAE Handbook – Fundamentals (2017) chapter 1, equations 5 and 6 solved for temperature
 */
export function dewPoint(air: Air): number {
  requireAir(air);
  const celsius = condensesAt(air);
  if (celsius === undefined) throw invalid('humidity', 'noDewPoint', { lowest: celsiusOf(COLDEST_DEW) });
  return celsius;
}
