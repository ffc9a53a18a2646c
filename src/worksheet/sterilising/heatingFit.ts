import { toCelsius } from '../../maths/shared/temperature';
import { coreLog } from '../../maths/sterilising/coreLog';
import { heatingFit } from '../../maths/sterilising/heatingFit';
import { heatingLethality } from '../../maths/sterilising/heatingLethality';
import { setting } from '../cells/arguments';
import { temperature } from '../cells/kinds';
import { amount, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { killSettings, logColumns, readingsInCelsius, resistanceOf } from './arguments';

export const HEATINGFIT = defineFunction({
  name: 'HEATINGFIT',
  family: 'sterilising',
  arguments: [
    ...logColumns,
    setting('medium', temperature(), 'steady temperature of the steam or water around it'),
    ...killSettings,
  ],
  result: tableResult({
    'heating rate f (minutes)': amount('minutes in which the gap between medium and core shrinks to a tenth'),
    'lag factor j': amount('gap at which the straight part starts, over the gap at the first reading'),
    'lag (minutes)': amount('f × log10(j)'),
    'r squared': amount('how near the readings lie to the line; 1 is on it'),
    'straight from (minute)': amount('where the straight part begins'),
    'straight to (minute)': amount('where the straight part ends'),
    'lethality (minutes)': amount(
      'equivalent minutes of the fitted line, from the first to the hottest reading',
    ),
  }),
  whole: (times, temperatures, medium, z, reference, unit, timeUnit) => {
    const { minutes, temperaturesC } = coreLog(times, readingsInCelsius(temperatures, unit), timeUnit);
    const mediumC = toCelsius(medium, unit);
    const fit = heatingFit([...minutes], [...temperaturesC], mediumC);
    const heated = minutes[fit.hottest]!;
    const resistance = resistanceOf(z, reference, unit);
    return [
      {
        'heating rate f (minutes)': fit.minutesPerTenth,
        'lag factor j': fit.lagFactor,
        'lag (minutes)': fit.minutesPerTenth * Math.log10(fit.lagFactor),
        'r squared': fit.rSquared,
        'straight from (minute)': minutes[fit.first]!,
        'straight to (minute)': minutes[fit.last]!,
        'lethality (minutes)': heatingLethality(fit, temperaturesC[0]!, mediumC, heated, resistance),
      },
    ];
  },
});
