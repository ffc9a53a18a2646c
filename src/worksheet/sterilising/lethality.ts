import { coreLog } from '../../maths/sterilising/coreLog';
import { runningLethality } from '../../maths/sterilising/runningLethality';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { killSettings, logColumns, readingsInCelsius, resistanceOf } from './arguments';

export const LETHALITY = defineFunction({
  name: 'LETHALITY',
  family: 'sterilising',
  arguments: [...logColumns, ...killSettings],
  result: value('equivalent minutes', amount()),
  whole: (times, temperatures, z, reference, unit, timeUnit) => {
    const { minutes, temperaturesC } = coreLog(times, readingsInCelsius(temperatures, unit), timeUnit);
    return runningLethality(minutes, temperaturesC, resistanceOf(z, reference, unit)).at(-1)!;
  },
});
