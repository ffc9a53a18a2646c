import { ambientPressure } from '../shared/ambientPressure';
import { requireCelsius } from '../shared/checks';
import { saturationPressure } from './saturation';

/**
 * What the gauge of a vessel of saturated steam shows at a temperature; below 0 where water boils hotter than that.
 *
 * @param temperatureC 10 to 185 °C
 * @param altitudeM metres above sea level, -500 to 11,000
 * @returns pressure above ambient in Pa
 * @throws invalid where an input is outside its range
 * @source IAPWS R7-97(2012) region 4; ISO 2533:1975 for the ambient pressure
 */
export function steamGaugePressure(temperatureC: number, altitudeM: number): number {
  requireCelsius('temperature', temperatureC, 10, 185);
  return saturationPressure(temperatureC + 273.15) * 1e6 - ambientPressure(altitudeM);
}
