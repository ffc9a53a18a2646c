import { wetBulb } from '../../maths/climate/wetBulb';
import { fromCelsius } from '../../maths/shared/temperature';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { airArguments, airOf, metresIn } from './arguments';

export const WETBULB = defineFunction({
  name: 'WETBULB',
  family: 'climate',
  arguments: airArguments,
  result: value('wet bulb', amount()),
  eachRow: (degrees, humidity, height, unit) =>
    fromCelsius(wetBulb(airOf(degrees, humidity, unit), metresIn(height, unit)), unit),
});
