import { toCelsius } from '../../maths/shared/temperature';
import { coreLog } from '../../maths/sterilising/coreLog';
import { minutesAbove } from '../../maths/sterilising/minutesAbove';
import { setting } from '../cells/arguments';
import { temperature } from '../cells/kinds';
import { amount, row } from '../cells/results';
import { defineFunction } from '../define';
import { temperatureUnit } from '../settings';
import { logColumns, readingsInCelsius, timeUnit } from './arguments';

export const MINUTESABOVE = defineFunction({
  name: 'MINUTESABOVE',
  family: 'sterilising',
  arguments: [
    ...logColumns,
    setting('threshold', temperature(), 'temperature from which minutes count'),
    temperatureUnit,
    timeUnit,
  ],
  result: row({
    minutes: amount('minutes at or above the threshold'),
    'longest spell': amount('minutes of the longest spell without a drop below it'),
    peak: amount('the hottest reading'),
  }),
  whole: (times, temperatures, threshold, unit, timesIn) => {
    const log = coreLog(times, readingsInCelsius(temperatures, unit), timesIn);
    const above = minutesAbove(log.minutes, log.temperaturesC, toCelsius(threshold, unit));
    return {
      minutes: above.minutes,
      'longest spell': above.longest,
      // As the log has it: °F do not go through °C and back.
      peak: temperatures[log.entries[above.hottest]!]!,
    };
  },
});
