import { requireAir, saturatedVapourPressure, type Air } from './moistAir';

/**
 * Vapour pressure deficit: how much vapour pressure the air still takes up, the pull that dries a mushroom or a pin.
 *
 * (1 − humidity) × saturated vapour pressure, at the temperature of the air. It does not depend on altitude.
 *
 * @param air dry bulb -40 to 60 °C, humidity 0 to 1
 * @returns kPa
 * @throws invalid where an input is outside its range
 * @source Oke, T. R. (1987) Boundary Layer Climates, equation 2.13a; saturated pressure by ASHRAE (2017) chapter 1
 */
export function vapourPressureDeficit(air: Air): number {
  requireAir(air);
  return ((1 - air.humidity) * saturatedVapourPressure(air.celsius)) / 1000;
}
