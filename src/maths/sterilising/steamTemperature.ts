import { ambientPressure } from '../shared/ambientPressure';
import { requireWithin } from '../shared/checks';
import { saturationTemperature } from './saturation';

/**
 * Temperature of saturated steam in a vessel, from what its gauge shows.
 *
 * The gauge shows the pressure above the air's outside; steam follows the sum of both. True only where no air is
 * left in the vessel: with air in it the same gauge stands at a lower temperature.
 *
 * @param gaugePa pressure above ambient in Pa, above -ambient to 1e6
 * @param altitudeM metres above sea level, -500 to 11,000
 * @returns temperature in °C
 * @throws invalid where an input is outside its range
 * @source IAPWS R7-97(2012) region 4; ISO 2533:1975 for the ambient pressure
 */
export function steamTemperature(gaugePa: number, altitudeM: number): number {
  const ambient = ambientPressure(altitudeM);
  requireWithin('gauge pressure', gaugePa, 1000 - ambient, 1e6, 'Pa');
  return saturationTemperature((ambient + gaugePa) / 1e6) - 273.15;
}
