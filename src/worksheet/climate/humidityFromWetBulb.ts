import { humidityFromWetBulb } from '../../maths/climate/humidityFromWetBulb';
import { toCelsius } from '../../maths/shared/temperature';
import { column } from '../cells/arguments';
import { temperature } from '../cells/kinds';
import { percent, value } from '../cells/results';
import { defineFunction } from '../define';
import { altitude, temperatureUnit } from '../settings';
import { metresIn } from './arguments';

export const HUMIDITYFROMWETBULB = defineFunction({
  name: 'HUMIDITYFROMWETBULB',
  family: 'climate',
  arguments: [
    column('temperature', temperature(), 'dry bulb'),
    column('wet bulb', temperature(), 'wet bulb, at most the dry bulb'),
    altitude,
    temperatureUnit,
  ],
  result: value('relative humidity', percent()),
  eachRow: (dryBulb, wetBulb, height, unit) =>
    humidityFromWetBulb(toCelsius(dryBulb, unit), toCelsius(wetBulb, unit), metresIn(height, unit)),
});
