import { fromCelsius } from '../../maths/shared/temperature';
import { steamTemperature } from '../../maths/sterilising/steamTemperature';
import { column } from '../cells/arguments';
import { measure, orNone } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { altitude } from '../settings';
import { degreesIn, gaugePascals, metresIn, steamUnits } from './arguments';

export const STEAMTEMP = defineFunction({
  name: 'STEAMTEMP',
  family: 'sterilising',
  arguments: [
    column('gauge pressure', orNone(measure('pressure')), 'what the gauge shows, above outside air'),
    altitude,
    steamUnits,
  ],
  result: value('steam temperature', amount()),
  eachRow: (gauge, height, units) => {
    const celsius = steamTemperature(gaugePascals(gauge, units), metresIn(height, units));
    return fromCelsius(celsius, degreesIn(units));
  },
});
