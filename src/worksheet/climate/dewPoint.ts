import { dewPoint } from '../../maths/climate/dewPoint';
import { fromCelsius } from '../../maths/shared/temperature';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { airArguments, airOf } from './arguments';

export const DEWPOINT = defineFunction({
  name: 'DEWPOINT',
  family: 'climate',
  arguments: airArguments,
  result: value('dew point', amount()),
  eachRow: (degrees, humidity, _altitude, unit) =>
    fromCelsius(dewPoint(airOf(degrees, humidity, unit)), unit),
});
