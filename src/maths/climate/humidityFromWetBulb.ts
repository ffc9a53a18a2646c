import { requireCelsius, requireNumber } from '../shared/checks';
import { celsiusOf, invalid } from '../shared/fault';
import { COLDEST_AIR, HOTTEST_AIR, humidityFrom } from './moistAir';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A wet bulb lower than that of perfectly dry air. */
    belowDryAir: object;
  }
}

/**
 * Relative humidity from a dry and a wet bulb thermometer in moving air.
 *
 * @param celsius dry bulb, -40 to 60 °C
 * @param wetBulbC wet bulb, at most the dry bulb; taken as frozen below 0 °C
 * @param altitudeM metres above sea level
 * @returns 0 to 1
 * @throws invalid where an input is outside its range, or no air has these two temperatures
 * @source ASHRAE Handbook – Fundamentals (2017) chapter 1, equations 33, 35, 20, 12 and 22
 */
export function humidityFromWetBulb(celsius: number, wetBulbC: number, altitudeM: number): number {
  requireCelsius('temperature', celsius, COLDEST_AIR, HOTTEST_AIR);
  requireNumber('wet bulb', wetBulbC, { to: celsiusOf(celsius) }, 'the dry bulb');
  const humidity = wetBulbC < COLDEST_AIR - 10 ? undefined : humidityFrom(celsius, wetBulbC, altitudeM);
  if (humidity === undefined) throw invalid('wet bulb', 'belowDryAir');
  return humidity;
}
