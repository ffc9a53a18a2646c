import { lossRate } from '../../maths/audit/lossRate';
import { column, keyColumn, optionalSetting } from '../cells/arguments';
import { confidence, count, orNone } from '../cells/kinds';
import { percent, row } from '../cells/results';
import { defineFunction } from '../define';

export const LOSSRATE = defineFunction({
  name: 'LOSSRATE',
  family: 'audit',
  arguments: [
    column('lost', orNone(count()), 'blocks (bags, jars) lost; none where none was'),
    keyColumn('total', count(), 'blocks counted, lost ones included'),
    optionalSetting('confidence', confidence(), 0.95, 'how sure the interval is to hold; 95% if left out'),
  ],
  result: row({ rate: percent(), from: percent('lower end'), to: percent('upper end') }),
  needs: ['distributions'],
  eachRow: (lost, total, level, { tools }) => {
    const { rate, low, high } = lossRate(lost, total, level, tools.distributions);
    return { rate, from: low, to: high };
  },
});
