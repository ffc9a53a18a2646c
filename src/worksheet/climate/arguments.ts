import { OUTSIDE_PPM } from '../../maths/climate/freshAir';
import type { Air } from '../../maths/climate/moistAir';
import { METRES_A_FOOT } from '../../maths/shared/constants';
import { toCelsius, type TemperatureUnit } from '../../maths/shared/temperature';
import { column, keyColumn, optionalColumn } from '../cells/arguments';
import { fraction, number, temperature } from '../cells/kinds';
import { altitude, temperatureUnit } from '../settings';

// Arguments that several functions of the family share.

export const airArguments = [
  column('temperature', temperature(), 'air temperature (dry bulb)'),
  keyColumn('humidity', fraction(), 'relative humidity: 90% or 0.9'),
  altitude,
  temperatureUnit,
] as const;

export const airOf = (degrees: number, humidity: number, unit: TemperatureUnit): Air => ({
  celsius: toCelsius(degrees, unit),
  humidity,
});

/** An altitude given in feet beside °F. */
export const metresIn = (height: number, unit: TemperatureUnit): number =>
  unit === 'F' ? height * METRES_A_FOOT : height;

export const PRODUCTION_MEANING = 'volume of CO2 given off an hour, in the unit of the airflow';

/** A level of carbon dioxide. */
export const ppm = number({ unit: 'ppm', above: 0, to: 1e6 });

export const outside = optionalColumn(
  'outside',
  ppm,
  OUTSIDE_PPM,
  `level outside in ppm; ${OUTSIDE_PPM} if left out`,
);
