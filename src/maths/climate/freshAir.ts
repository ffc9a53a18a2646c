import { requireAtLeast, requireNumber, requireWithin } from '../shared/checks';

/** Carbon dioxide in outside air, ppm: the world's mean of the early 2020s, rounded (NOAA Global Monitoring Laboratory). */
export const OUTSIDE_PPM = 420;
const PURE_PPM = 1e6;

/**
 * Airflow that holds a level of carbon dioxide in a room at steady production.
 *
 * airflow = production / (limit − outside), levels as shares of the air (ppm × 1e-6).
 *
 * @param production volume of CO2 an hour, 0 or more
 * @param limitPpm level to hold, above the outside level, to 1,000,000 ppm
 * @param outsidePpm level outside
 * @returns volume of outside air an hour, in the unit of the production
 * @throws invalid where an input is outside its range
 * @source ASHRAE Standard 62.1, appendix on the mass balance of CO2 in a space at steady state
 */
export function freshAir(production: number, limitPpm: number, outsidePpm = OUTSIDE_PPM): number {
  requireAtLeast('production', production, 0);
  requireWithin('outside', outsidePpm, 0, PURE_PPM, 'ppm');
  requireWithin('limit', limitPpm, 0, PURE_PPM, 'ppm');
  requireNumber('limit', limitPpm, { above: outsidePpm, unit: 'ppm' }, 'the level outside');
  return production / ((limitPpm - outsidePpm) / PURE_PPM);
}
