import { requireAtLeast, requirePositive, requireWithin } from '../shared/checks';
import { invalid } from '../shared/fault';
import { OUTSIDE_PPM } from './freshAir';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A room that would hold nothing but carbon dioxide. */
    pureCarbonDioxide: object;
  }
}

/** A well-mixed room. One unit of volume for all; hours for both rates. */
export interface VentilatedRoom {
  /** Volume of CO2 given off an hour, 0 or more. */
  readonly production: number;
  /** Volume of outside air an hour, 0 or more; 0 is a closed room. */
  readonly airflow: number;
  /** Volume of air in the room, above 0. */
  readonly volume: number;
}

/**
 * Level of carbon dioxide in a well-mixed room after some minutes of steady production and airflow.
 *
 * With n = airflow / volume and t in hours: outside + (start − outside) e^(−n t) + production / volume × t ×
 * (1 − e^(−n t)) / (n t), whose last factor is 1 in a closed room.
 *
 * @param minutes time since the level was `startPpm`, 0 or more
 * @returns ppm
 * @throws invalid where an input is outside its range, or the room would be pure CO2
 * @source ASHRAE Standard 62.1, appendix on the mass balance of CO2 in a space, transient solution
 */
export function carbonDioxide(
  { production, airflow, volume }: VentilatedRoom,
  minutes: number,
  startPpm: number,
  outsidePpm = OUTSIDE_PPM,
): number {
  requireAtLeast('production', production, 0);
  requireAtLeast('airflow', airflow, 0);
  requirePositive('volume', volume);
  requireAtLeast('minutes', minutes, 0);
  requireWithin('start', startPpm, 0, 1e6, 'ppm');
  requireWithin('outside', outsidePpm, 0, 1e6, 'ppm');
  const hours = minutes / 60;
  const changes = (airflow / volume) * hours;
  const left = Math.exp(-changes);
  const meanLeft = changes > 0 ? -Math.expm1(-changes) / changes : 1;
  const level = outsidePpm + (startPpm - outsidePpm) * left + (production / volume) * hours * meanLeft * 1e6;
  if (!(level <= 1e6)) throw invalid('production', 'pureCarbonDioxide');
  return level;
}
