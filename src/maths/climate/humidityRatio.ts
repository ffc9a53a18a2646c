import { ambientPressure } from '../shared/ambientPressure';
import { requireAir, waterToDryAir, type Air } from './moistAir';

/**
 * Humidity ratio: mass of water vapour to a mass of dry air.
 *
 * 0.621945 p_w / (p − p_w), p_w = humidity × saturated vapour pressure. Handbook tables hold an enhancement factor
 * that this equation leaves out: they are up to 0.5% higher.
 *
 * @param air dry bulb -40 to 60 °C, humidity 0 to 1
 * @param altitudeM metres above sea level
 * @returns kilograms to a kilogram, the same in any unit of mass
 * @throws invalid where an input is outside its range
 * @source ASHRAE Handbook – Fundamentals (2017) chapter 1, equations 5, 6, 12 and 20
 */
export function humidityRatio(air: Air, altitudeM: number): number {
  requireAir(air);
  return waterToDryAir(air, ambientPressure(altitudeM));
}
