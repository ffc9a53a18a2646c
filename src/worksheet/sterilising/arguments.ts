import { requireNumber } from '../../maths/shared/checks';
import { METRES_A_FOOT, PASCALS_A_PSI } from '../../maths/shared/constants';
import { pascalsOf } from '../../maths/shared/fault';
import { differenceToCelsius, toCelsius, type TemperatureUnit } from '../../maths/shared/temperature';
import { SPORES, type Resistance } from '../../maths/sterilising/lethalRate';
import { column, optionalSetting } from '../cells/arguments';
import { choice, measure, number, orBlank, orZero, temperature } from '../cells/kinds';
import { temperatureUnit } from '../settings';

// Arguments that several functions of the family share.

const times = column('times', orZero(number({ above: 0 })), 'time of each reading, rising');
const temperatures = column(
  'temperatures',
  orBlank(temperature(), 'refused beside a time; a row with neither does not count'),
  'core temperature of each reading',
);

export const zKind = measure('degrees', { above: 0 });
export const Z_MEANING = 'degrees for ten times the kill; 10 °C (18 °F) if left out';
export const REFERENCE_MEANING = 'temperature at which a minute is a minute; 121.1 °C if left out';
const z = optionalSetting('z', zKind, undefined, Z_MEANING);
const reference = optionalSetting('reference', temperature(), undefined, REFERENCE_MEANING);

export const timeUnit = optionalSetting(
  'time unit',
  choice({ minutes: 'times are minutes', dates: 'times are dates with times of day' }),
  undefined,
  'minutes, or dates for dates and times of day; minutes if left out',
);

/** The columns of a core logger, and how its kill is counted. */
export const logColumns = [times, temperatures] as const;
export const killSettings = [z, reference, temperatureUnit, timeUnit] as const;

/** A logger's readings in °C; NaN where a cell is blank or 0, which no probe in a hot core shows. */
export function readingsInCelsius(readings: readonly (number | null)[], unit: TemperatureUnit): Float64Array {
  // A loop: Float64Array.from takes ten times as long over a long log.
  const celsius = new Float64Array(readings.length);
  for (let i = 0; i < readings.length; i++) {
    const reading = readings[i] ?? null;
    celsius[i] = reading === null ? NaN : toCelsius(reading, unit);
  }
  return celsius;
}

/** z and reference in °C. What is left out is the same kill in either unit. */
export const resistanceOf = (
  zDegrees: number | undefined,
  referenceDegrees: number | undefined,
  unit: TemperatureUnit,
): Resistance => ({
  zC: zDegrees === undefined ? SPORES.zC : differenceToCelsius(zDegrees, unit),
  referenceC: referenceDegrees === undefined ? SPORES.referenceC : toCelsius(referenceDegrees, unit),
});

/** Pascals in a unit of each gauge, and the range taken, which catches a gauge read in another unit. */
const GAUGES = {
  metric: { pascals: 1e5, low: -0.9, high: 10 },
  kPa: { pascals: 1e3, low: -90, high: 1000 },
  US: { pascals: PASCALS_A_PSI, low: -13, high: 145 },
} as const;
type SteamUnits = keyof typeof GAUGES;

export const steamUnits = optionalSetting(
  'units',
  choice({ metric: 'bar, metres, °C', kPa: 'kPa, metres, °C', US: 'psi, feet, °F' }, (units) =>
    units === 'US'
      ? { pressure: 'psi', length: 'ft', degrees: 'F' }
      : { pressure: units === 'kPa' ? 'kPa' : 'bar', length: 'm', degrees: 'C' },
  ),
  'metric',
  'metric: bar, m, °C; kPa: kPa, m, °C; US: psi, ft, °F; metric if left out',
);

export const degreesIn = (units: SteamUnits): TemperatureUnit => (units === 'US' ? 'F' : 'C');
export const metresIn = (altitude: number, units: SteamUnits): number =>
  units === 'US' ? altitude * METRES_A_FOOT : altitude;

/** A gauge's reading in Pa. */
export function gaugePascals(gauge: number, units: SteamUnits): number {
  const { pascals, low, high } = GAUGES[units];
  const limits = { from: pascalsOf(low * pascals), to: pascalsOf(high * pascals) };
  return requireNumber('gauge pressure', gauge * pascals, limits);
}

export const inGaugeUnit = (pascals: number, units: SteamUnits): number => pascals / GAUGES[units].pascals;
