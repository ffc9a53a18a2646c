import { toCelsius } from '../../maths/shared/temperature';
import { steamGaugePressure } from '../../maths/sterilising/steamGaugePressure';
import { keyColumn } from '../cells/arguments';
import { temperature } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { altitude } from '../settings';
import { degreesIn, inGaugeUnit, metresIn, steamUnits } from './arguments';

export const STEAMPRESSURE = defineFunction({
  name: 'STEAMPRESSURE',
  family: 'sterilising',
  arguments: [keyColumn('temperature', temperature(), 'steam temperature wanted'), altitude, steamUnits],
  result: value('gauge pressure', amount()),
  eachRow: (steam, height, units) => {
    const celsius = toCelsius(steam, degreesIn(units));
    return inGaugeUnit(steamGaugePressure(celsius, metresIn(height, units)), units);
  },
});
