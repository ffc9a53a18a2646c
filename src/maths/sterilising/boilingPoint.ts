import { steamTemperature } from './steamTemperature';

/**
 * Temperature at which water boils in an open vessel.
 *
 * @param altitudeM metres above sea level, -500 to 11,000
 * @returns temperature in °C
 * @throws invalid where the altitude is outside its range
 * @source IAPWS R7-97(2012) region 4; ISO 2533:1975 for the ambient pressure
 */
export function boilingPoint(altitudeM: number): number {
  return steamTemperature(0, altitudeM);
}
