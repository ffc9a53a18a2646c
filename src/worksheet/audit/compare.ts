import type { EqualMeansTest, Group, GroupSummary, PairComparison } from '../../maths/audit/groupComparison';
import { invalid } from '../../maths/shared/fault';
import { labelKey, lookAlikes } from '../../maths/shared/labels';
import { column, keyColumn, optionalSetting } from '../cells/arguments';
import { confidence, number, orBlank, orNone, text } from '../cells/kinds';
import { amount, label, tableResult, type ResultRow } from '../cells/results';
import { defineFunction } from '../define';
import { isTotalsRow } from '../cells/totals';

const columns = {
  compared: label('a group, a test or a pair of groups'),
  n: amount('number of values'),
  mean: amount('mean of a group, or difference of a pair'),
  from: amount('lower end of its interval'),
  to: amount('upper end of its interval'),
  't or F': amount('t of a pair, F of a test'),
  'degrees of freedom': amount(),
  p: amount('chance of such a difference where there is none'),
  finding: label(),
};
type Row = ResultRow<typeof columns>;

const BLANK: Row = {
  compared: '',
  n: '',
  mean: '',
  from: '',
  to: '',
  't or F': '',
  'degrees of freedom': '',
  p: '',
  finding: '',
};

/** Whether two values of a group differ, so that it weighs in Welch's test. */
const hasSpread = ({ values }: Group): boolean => values.some((value) => value !== values[0]);
const countOf = (groups: readonly Group[]): number =>
  groups.reduce((sum, { values }) => sum + values.length, 0);

/** Values by group, groups and values in an order that does not depend on the rows'. */
function groupsOf(labels: readonly string[], values: readonly number[]): Group[] {
  const groups = new Map<string, { name: string; values: number[] }>();
  labels.forEach((name, i) => {
    const same = labelKey(name);
    const group = groups.get(same);
    if (group) group.values.push(values[i]!);
    else groups.set(same, { name, values: [values[i]!] });
  });
  return [...groups.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, { name, values: own }]) => ({ name, values: own.sort((a, b) => a - b) }));
}

const groupRow = ({ name, n, mean, interval }: GroupSummary): Row => ({
  ...BLANK,
  compared: name,
  n,
  mean,
  from: interval?.[0] ?? '',
  to: interval?.[1] ?? '',
  finding: interval ? '' : 'one value: no interval',
});

const testRow = (compared: string, n: number, test: EqualMeansTest, level: number): Row => ({
  ...BLANK,
  compared,
  n,
  't or F': test.f,
  'degrees of freedom': test.freedomWithin,
  p: test.p,
  finding: test.p < 1 - level ? 'means differ' : 'no difference shown',
});

function pairRow(pair: PairComparison, sizes: ReadonlyMap<string, number>): Row {
  const { first, second, difference, interval, t, freedom, p, differ } = pair;
  const judged = differ ? 'differ' : 'no difference shown';
  return {
    compared: `${first} − ${second}`,
    n: sizes.get(first)! + sizes.get(second)!,
    mean: difference,
    from: interval?.[0] ?? '',
    to: interval?.[1] ?? '',
    't or F': t ?? '',
    'degrees of freedom': freedom ?? '',
    p: p ?? '',
    finding: differ === undefined ? 'no spread to judge by' : judged,
  };
}

export const COMPARE = defineFunction({
  name: 'COMPARE',
  family: 'audit',
  arguments: [
    keyColumn('groups', text(), 'group of each value: strain, room, recipe'),
    column(
      'values',
      orBlank(orNone(number()), 'the row is left out; a last row counts such rows'),
      'the values compared, one per lot: efficiencies; none for a crop that failed',
    ),
    optionalSetting('confidence', confidence(), 0.95, 'how sure intervals and verdicts are; 95% if left out'),
  ],
  result: tableResult(columns),
  needs: ['distributions', 'statistics'],
  whole: (labels, values, level, { tools: { distributions, statistics } }) => {
    const own = [...labels.keys()].filter((i) => !isTotalsRow([labels[i]!]));
    const counted = own.filter((i) => values[i] !== null);
    const [totals, blanks] = [labels.length - own.length, own.length - counted.length];
    const alike = lookAlikes(labels);
    if (alike)
      throw invalid(
        'groups',
        'groupsLookAlike',
        { first: alike[0], second: alike[1] },
        labels.indexOf(alike[1]),
      );
    const groups = groupsOf(
      counted.map((i) => labels[i]!),
      counted.map((i) => values[i] as number),
    );
    const { groups: known, test, pairs } = statistics.groupComparison(groups, level, distributions);
    const classical = statistics.classicalTest(groups, distributions);
    const sizes = new Map(known.map(({ name, n }) => [name, n]));
    return [
      ...known.map(groupRow),
      ...(test ? [testRow('all equal? (Welch)', countOf(groups.filter(hasSpread)), test, level)] : []),
      ...(classical ? [testRow('all equal? (classical)', countOf(groups), classical, level)] : []),
      ...pairs.map((pair) => pairRow(pair, sizes)),
      ...(totals > 0 ? [{ ...BLANK, compared: 'totals rows', n: totals, finding: 'left out' }] : []),
      ...(blanks > 0
        ? [
            {
              ...BLANK,
              compared: 'rows without a value',
              n: blanks,
              finding: 'left out; for a crop that failed write none',
            },
          ]
        : []),
    ];
  },
});
