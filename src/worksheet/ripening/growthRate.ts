import { growthRate } from '../../maths/ripening/growthRate';
import { column } from '../cells/arguments';
import { temperature } from '../cells/kinds';
import { percent, value } from '../cells/results';
import { defineFunction } from '../define';

export const GROWTHRATE = defineFunction({
  name: 'GROWTHRATE',
  family: 'ripening',
  arguments: [
    column('temperature', temperature(), 'temperature of the mycelium, in °C or °F'),
    column('min', temperature(), 'temperature at and below which the strain does not grow'),
    column('best', temperature(), 'temperature at which it grows fastest: above the middle of min and max'),
    column('max', temperature(), 'temperature at and above which it does not grow'),
  ],
  result: value('relative growth rate', percent()),
  eachRow: (at, min, best, max) => growthRate(at, { min, best, max }),
});
