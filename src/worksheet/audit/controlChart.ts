import type { ChartPoint } from '../../maths/audit/controlChart';
import { invalid } from '../../maths/shared/fault';
import { keyColumn, optionalColumn, optionalSetting } from '../cells/arguments';
import { choice, count, number, orNone } from '../cells/kinds';
import { amount, label, row, type ResultRow } from '../cells/results';
import { defineFunction } from '../define';
import type { Tools } from '../tools';

const columns = {
  plotted: amount('the reading, its distance from the one before, or the share lost'),
  centre: amount('the level that points lie about'),
  'lower limit': amount(),
  'upper limit': amount(),
  'rules broken': label('run rules that the point breaks'),
};

/** Charts the shares lost. */
function chartOfShares(
  values: readonly number[],
  sizes: readonly (number | undefined)[],
  rowNumbers: readonly number[],
  { proportionsChart }: Tools['statistics'],
): ChartPoint[] {
  if (sizes.every((size) => size === undefined)) throw invalid('sizes', 'sizesNeeded');
  return proportionsChart(values.map((lost, i) => ({ lost, size: sizes[i] ?? 0, at: rowNumbers[i] })));
}

export const CONTROLCHART = defineFunction({
  name: 'CONTROLCHART',
  family: 'audit',
  arguments: [
    keyColumn(
      'values',
      orNone(number()),
      'readings in order of time, none for 0; for proportions the counts lost',
    ),
    optionalSetting(
      'kind',
      choice({
        individuals: 'single readings',
        'moving range': 'the distance of each reading from the one before',
        proportions: 'shares lost, from counts lost and counts they came from',
      }),
      'individuals',
      'individuals, moving range or proportions; individuals if left out',
    ),
    optionalColumn('sizes', count(), undefined, 'for proportions: how many were counted at each point'),
  ],
  result: row(columns),
  needs: ['statistics'],
  beside: (values, kind, sizes, { rowNumbers, tools: { statistics } }) => {
    const points =
      kind === 'proportions'
        ? chartOfShares(values, sizes, rowNumbers, statistics)
        : (kind === 'individuals' ? statistics.individualsChart : statistics.movingRangeChart)(values);
    return points.map(({ plotted, centre, low, high, broken }): ResultRow<typeof columns> => ({
      plotted: plotted ?? '',
      centre,
      'lower limit': low,
      'upper limit': high,
      'rules broken': broken.join('; '),
    }));
  },
});
