import { shelfLifeUsed } from '../../maths/harvest/shelfLifeUsed';
import { toCelsius } from '../../maths/shared/temperature';
import { column, keyColumn, optionalSetting, setting } from '../cells/arguments';
import { days, number, serial, temperature } from '../cells/kinds';
import { amount, percent, row } from '../cells/results';
import { defineFunction } from '../define';
import { temperatureUnit } from '../settings';

export const SHELFLIFE = defineFunction({
  name: 'SHELFLIFE',
  family: 'harvest',
  arguments: [
    keyColumn('times', serial(), 'date and time of each reading, rising'),
    column('temperatures', temperature(), 'temperature of each reading'),
    setting('life', days(), 'days the mushrooms keep at the reference temperature'),
    optionalSetting(
      'reference',
      temperature(),
      undefined,
      'temperature of that life; 0 °C (32 °F) if left out',
    ),
    optionalSetting(
      'q10',
      number({ from: 1, to: 10 }),
      2,
      'how many times faster they age 10 °C warmer; 2 if left out',
    ),
    temperatureUnit,
  ],
  result: row({ 'life used': percent(), 'days left': amount('days left at the last temperature') }),
  whole: (times, temperatures, lifeDays, reference, q10, unit) => {
    const readings = temperatures.map((reading) => toCelsius(reading, unit));
    const referenceC = reference === undefined ? 0 : toCelsius(reference, unit);
    const { used, daysLeft } = shelfLifeUsed(times, readings, { lifeDays, referenceC, q10 });
    return { 'life used': used, 'days left': daysLeft };
  },
});
