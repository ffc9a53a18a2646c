import { fromCelsius } from '../../maths/shared/temperature';
import { boilingPoint } from '../../maths/sterilising/boilingPoint';
import { column, optionalSetting } from '../cells/arguments';
import { choice, measure, orZero } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { degreesIn, metresIn } from './arguments';

const units = optionalSetting(
  'units',
  choice({ metric: 'metres, °C', US: 'feet, °F' }, (chosen) =>
    chosen === 'US' ? { length: 'ft', degrees: 'F' } : { length: 'm', degrees: 'C' },
  ),
  'metric',
  'metric: m, °C; US: ft, °F; metric if left out',
);

export const BOILINGPOINT = defineFunction({
  name: 'BOILINGPOINT',
  family: 'sterilising',
  arguments: [column('altitude', orZero(measure('altitude')), 'altitude above sea level'), units],
  result: value('boiling point', amount()),
  eachRow: (altitude, chosen) => fromCelsius(boilingPoint(metresIn(altitude, chosen)), degreesIn(chosen)),
});
