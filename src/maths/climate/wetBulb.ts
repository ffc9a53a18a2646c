import { requireAir, wetBulbOf, type Air } from './moistAir';

/**
 * Wet bulb: the temperature that evaporation brings a wetted surface in moving air down to.
 *
 * The bulb counts as frozen only where a liquid one would be below 0 °C; as air passes that point the published
 * equations jump by up to 0.9 °C.
 *
 * @param air dry bulb -40 to 60 °C, humidity 0 to 1
 * @param altitudeM metres above sea level
 * @returns temperature in °C
 * @throws invalid where an input is outside its range
 * @source ASHRAE Handbook – Fundamentals (2017) chapter 1, equations 33 and 35 solved for the wet bulb
 */
export function wetBulb(air: Air, altitudeM: number): number {
  requireAir(air);
  return wetBulbOf(air, altitudeM);
}
