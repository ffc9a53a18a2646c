import { lethalityCurve } from '../../maths/sterilising/lethalityCurve';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { killSettings, logColumns, readingsInCelsius, resistanceOf } from './arguments';

export const LETHALITYCURVE = defineFunction({
  name: 'LETHALITYCURVE',
  family: 'sterilising',
  arguments: [...logColumns, ...killSettings],
  result: value('equivalent minutes so far', amount()),
  beside: (times, temperatures, z, reference, unit, timeUnit) =>
    lethalityCurve(
      times,
      readingsInCelsius(temperatures, unit),
      timeUnit,
      resistanceOf(z, reference, unit),
    ).map((soFar) => soFar ?? ''),
});
