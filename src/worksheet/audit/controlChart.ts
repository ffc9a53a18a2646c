import {
  individualsChart,
  movingRangeChart,
  proportionsChart,
  type ChartPoint,
} from '../../maths/audit/controlChart';
import { invalid, missing } from '../../maths/shared/fault';
import { column, optionalColumn, optionalSetting } from '../cells/arguments';
import { choice, count, number, orBlank, orNone } from '../cells/kinds';
import { amount, everywhere, label, row, type ResultRow } from '../cells/results';
import { defineFunction } from '../define';

const columns = {
  plotted: amount('the reading, its distance from the one before, or the share lost'),
  centre: amount('the level that points lie about'),
  'lower limit': amount(),
  'upper limit': amount(),
  'rules broken': label('run rules that the point breaks'),
};

/** A point of a chart beside its entry. */
interface PlacedPoint {
  readonly entry: number;
  readonly point: ChartPoint;
}

/** Charts the readings that are not blank. */
function chartOf(
  values: readonly (number | null)[],
  chart: (readings: readonly number[]) => ChartPoint[],
): PlacedPoint[] {
  const entries = [...values.keys()].filter((i) => values[i] !== null);
  return chart(entries.map((i) => values[i]!)).map((point, n) => ({ entry: entries[n]!, point }));
}

/** Charts the shares lost in the rows that have a count lost or a size. */
function chartOfShares(
  values: readonly (number | null)[],
  sizes: readonly (number | undefined)[],
  rowNumbers: readonly number[],
): PlacedPoint[] {
  if (sizes.every((size) => size === undefined)) throw invalid('sizes', 'sizesNeeded');
  const entries = [...values.keys()].filter((i) => values[i] !== null || sizes[i] !== undefined);
  const samples = entries.map((i) => {
    const at = rowNumbers[i];
    const lost = values[i];
    if (lost === null || lost === undefined) throw missing('values', 'noCountLost', undefined, { at });
    return { lost, size: sizes[i] ?? 0, at };
  });
  return proportionsChart(samples).map((point, n) => ({ entry: entries[n]!, point }));
}

export const CONTROLCHART = defineFunction({
  name: 'CONTROLCHART',
  family: 'audit',
  arguments: [
    column(
      'values',
      orBlank(orNone(number())),
      'readings in order of time; for proportions the counts lost, none where none were',
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
  beside: (values, kind, sizes, { rowNumbers }) => {
    const points =
      kind === 'proportions'
        ? chartOfShares(values, sizes, rowNumbers)
        : chartOf(values, kind === 'individuals' ? individualsChart : movingRangeChart);
    const answers = values.map((): ResultRow<typeof columns> => everywhere(columns, ''));
    for (const { entry, point } of points) {
      answers[entry] = {
        plotted: point.plotted ?? '',
        centre: point.centre,
        'lower limit': point.low,
        'upper limit': point.high,
        'rules broken': point.broken.join('; '),
      };
    }
    return answers;
  },
});
