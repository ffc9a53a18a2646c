import { ambientPressure } from '../shared/ambientPressure';
import { requireNumber } from '../shared/checks';
import { invalid, pascalsOf } from '../shared/fault';
import { saturationTemperature } from './saturation';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A gauge pressure that leaves next to no pressure inside. */
    nearVacuum: { readonly given: Quantity };
  }
}

/** Pressure inside in Pa below which a reading is taken for a slip. */
const LEAST_PRESSURE = 1000;

/**
 * Temperature of saturated steam in a vessel, from what its gauge shows.
 *
 * The gauge shows the pressure above that of the air outside; steam follows the sum of both. True only where no air
 * is left in the vessel: with air in it the same gauge reading means a lower temperature.
 *
 * @param gaugePa pressure above ambient in Pa, 1,000 more than a vacuum to 1e6
 * @param altitudeM metres above sea level, -500 to 11,000
 * @returns temperature in °C
 * @throws invalid where an input is outside its range
 * @source IAPWS R7-97(2012) region 4; ISO 2533:1975 for the ambient pressure
 */
export function steamTemperature(gaugePa: number, altitudeM: number): number {
  const ambient = ambientPressure(altitudeM);
  requireNumber('gauge pressure', gaugePa, { to: pascalsOf(1e6) });
  if (!(gaugePa >= LEAST_PRESSURE - ambient)) {
    throw invalid('gauge pressure', 'nearVacuum', { given: pascalsOf(gaugePa) });
  }
  return saturationTemperature((ambient + gaugePa) / 1e6) - 273.15;
}
