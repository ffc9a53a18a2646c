import { fogWater } from '../../maths/climate/fogWater';
import { METRES_A_FOOT } from '../../maths/shared/ambientPressure';
import { column, keyColumn } from '../cells/arguments';
import { fraction, measure, temperature } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { altitude, temperatureUnit } from '../settings';
import { airOf, metresIn } from './arguments';

/** Cubic metres an hour in a cubic foot a minute, and kilograms in a pound. */
const HOURLY_METRES_A_CFM = 60 * METRES_A_FOOT ** 3;
const KILOGRAMS_A_POUND = 0.45359237;

export const FOGWATER = defineFunction({
  name: 'FOGWATER',
  family: 'climate',
  arguments: [
    keyColumn('airflow', measure('airflow', { above: 0 }), 'outside air: m³ an hour (cubic feet a minute)'),
    column('outside temperature', temperature(), 'temperature of the outside air'),
    column('outside humidity', fraction(), 'relative humidity of the outside air'),
    column('room temperature', temperature(), 'temperature to hold'),
    column('room humidity', fraction(), 'relative humidity to hold'),
    altitude,
    temperatureUnit,
  ],
  result: value('water an hour', amount()),
  eachRow: (airflow, outsideDegrees, outsideHumidity, roomDegrees, roomHumidity, height, unit) => {
    const inFeet = unit === 'F';
    const kilograms = fogWater(
      inFeet ? airflow * HOURLY_METRES_A_CFM : airflow,
      airOf(outsideDegrees, outsideHumidity, unit),
      airOf(roomDegrees, roomHumidity, unit),
      metresIn(height, unit),
    );
    return inFeet ? kilograms / KILOGRAMS_A_POUND : kilograms;
  },
});
