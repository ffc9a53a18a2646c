import { humidityRatio } from '../../maths/climate/humidityRatio';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { airArguments, airOf, metresIn } from './arguments';

export const HUMIDITYRATIO = defineFunction({
  name: 'HUMIDITYRATIO',
  family: 'climate',
  arguments: airArguments,
  result: value('humidity ratio', amount()),
  eachRow: (degrees, humidity, height, unit) =>
    humidityRatio(airOf(degrees, humidity, unit), metresIn(height, unit)),
});
