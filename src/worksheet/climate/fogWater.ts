import { fogWater } from '../../maths/climate/fogWater';
import { KILOGRAMS_A_POUND, METRES_A_FOOT } from '../../maths/shared/constants';
import { column, keyColumn } from '../cells/arguments';
import { fraction, measure, temperature } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { altitude, temperatureUnit } from '../settings';
import { airOf, metresIn } from './arguments';

const CUBIC_METRES_A_CUBIC_FOOT = METRES_A_FOOT ** 3;

export const FOGWATER = defineFunction({
  name: 'FOGWATER',
  family: 'climate',
  arguments: [
    keyColumn(
      'airflow',
      measure('airflow', { above: 0 }),
      'outside air, measured at the state of the room: m³ an hour (ft³ an hour with unit F)',
    ),
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
      inFeet ? airflow * CUBIC_METRES_A_CUBIC_FOOT : airflow,
      airOf(outsideDegrees, outsideHumidity, unit),
      airOf(roomDegrees, roomHumidity, unit),
      metresIn(height, unit),
    );
    return inFeet ? kilograms / KILOGRAMS_A_POUND : kilograms;
  },
});
