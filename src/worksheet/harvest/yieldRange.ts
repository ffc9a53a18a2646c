import { yieldRange } from '../../maths/harvest/yieldRange';
import { optionalSetting, range } from '../cells/arguments';
import { confidence, number, orNone } from '../cells/kinds';
import { amount, percent, row } from '../cells/results';
import { defineFunction } from '../define';

export const YIELDRANGE = defineFunction({
  name: 'YIELDRANGE',
  family: 'harvest',
  arguments: [
    range('past', orNone(number({ above: 0 })), 'efficiencies (or masses) of past lots, two or more'),
    optionalSetting(
      'coverage',
      confidence(),
      0.9,
      'how often the next lot should fall inside; 90% if left out',
    ),
  ],
  result: row({
    from: percent('lower end'),
    mean: percent(),
    to: percent('upper end'),
    lots: amount('number of past lots'),
  }),
  needs: ['distributions'],
  whole: (past, coverage, { tools }) => {
    const { low, mean, high, lots } = yieldRange(past, coverage, tools.distributions);
    return { from: low, mean, to: high, lots };
  },
});
