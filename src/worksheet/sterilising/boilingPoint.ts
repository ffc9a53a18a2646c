import { fromCelsius } from '../../maths/shared/temperature';
import { boilingPoint } from '../../maths/sterilising/boilingPoint';
import { column } from '../cells/arguments';
import { measure, orZero } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { degreesIn, metresIn, steamUnits } from './arguments';

export const BOILINGPOINT = defineFunction({
  name: 'BOILINGPOINT',
  family: 'sterilising',
  arguments: [column('altitude', orZero(measure('altitude')), 'altitude above sea level'), steamUnits],
  result: value('boiling point', amount()),
  eachRow: (altitude, chosen) => fromCelsius(boilingPoint(metresIn(altitude, chosen)), degreesIn(chosen)),
});
