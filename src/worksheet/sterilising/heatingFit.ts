import { toCelsius } from '../../maths/shared/temperature';
import { coreLog } from '../../maths/sterilising/coreLog';
import { heatingFit } from '../../maths/sterilising/heatingFit';
import { heatingLethality } from '../../maths/sterilising/heatingLethality';
import { runningLethality } from '../../maths/sterilising/runningLethality';
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
    'straight from (minute)': amount('where the straight part begins, in the minutes of the log'),
    'straight to (minute)': amount('where it ends'),
    'lethality (minutes)': amount(
      'equivalent minutes of the fitted line up to the hottest reading, and of the readings from there to the last as hot',
    ),
  }),
  whole: (times, temperatures, medium, z, reference, unit, timeUnit) => {
    const { minutes, temperaturesC, entries } = coreLog(
      times,
      readingsInCelsius(temperatures, unit),
      timeUnit,
    );
    // Dates have no minute of their own: theirs count from the first reading.
    const began = timeUnit === 'dates' ? 0 : times[entries[0]!]!;
    const mediumC = toCelsius(medium, unit);
    const fit = heatingFit([...minutes], [...temperaturesC], mediumC);
    const heated = minutes[fit.hottest]!;
    const resistance = resistanceOf(z, reference, unit);
    const heating = heatingLethality(fit, temperaturesC[0]!, mediumC, heated, resistance);
    const soFar = runningLethality(minutes, temperaturesC, resistance);
    const holding = soFar[fit.lastHottest]! - soFar[fit.hottest]!;
    return [
      {
        'heating rate f (minutes)': fit.minutesPerTenth,
        'lag factor j': fit.lagFactor,
        'lag (minutes)': fit.minutesPerTenth * Math.log10(fit.lagFactor),
        'r squared': fit.rSquared,
        'straight from (minute)': began + minutes[fit.first]!,
        'straight to (minute)': began + minutes[fit.last]!,
        'lethality (minutes)': heating + holding,
      },
    ];
  },
});
