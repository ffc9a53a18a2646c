import { shelfDayMargin, type LotMargin } from '../../maths/cost/shelfDayMargin';
import { invalid } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import { compensatedSum } from '../../maths/shared/numeric';
import { optionalSetting, setting } from '../cells/arguments';
import { choice, confidence, count, number } from '../cells/kinds';
import { amount, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { costedLots, unpickedLines } from './costedLots';
import { costsTable, cropsTable } from './tables';

interface EarningLot extends LotMargin {
  readonly income: number;
  readonly cost: number;
}

const NONE = '' as const;

export const SHELFDAYMARGIN = defineFunction({
  name: 'SHELFDAYMARGIN',
  family: 'cost',
  arguments: [
    costsTable,
    cropsTable,
    setting('price', number({ above: 0 }), 'what a unit of fresh mass sells for'),
    setting('blocks per shelf', count(), 'blocks a shelf holds'),
    optionalSetting(
      'by',
      choice({ strain: 'all lots of a strain together', lot: 'each lot by itself' }),
      'strain',
      'strain or lot; strain if left out',
    ),
    optionalSetting('confidence', confidence(), 0.95, 'how sure the interval is to hold; 95% if left out'),
  ],
  result: tableResult({
    of: label('strain or lot'),
    lots: amount(),
    'shelf days': amount('shelves times the days they were taken'),
    income: amount(),
    cost: amount(),
    margin: amount('income less cost'),
    'margin per shelf and day': amount(),
    from: amount('lower end of its interval'),
    to: amount('upper end of its interval'),
  }),
  needs: ['distributions'],
  whole: (costs, crops, soldAt, blocksPerShelf, by, level, { tools }) => {
    const groups = new Map<string, { name: string; lots: EarningLot[] }>();
    const { lots: picked, unpicked } = costedLots(costs, crops, blocksPerShelf);
    for (const lot of picked) {
      if (lot.shelfDays === undefined) {
        throw invalid('crops, days', 'neededFor', { purpose: 'the margin per shelf and day' }, lot);
      }
      const name = lot[by];
      if (name === undefined)
        throw invalid('crops, strain', 'neededFor', { purpose: 'margins by strain' }, lot);
      const group = groups.get(labelKey(name)) ?? { name, lots: [] };
      groups.set(labelKey(name), group);
      const income = lot.mass * soldAt;
      group.lots.push({
        at: lot.at,
        income,
        cost: lot.cost,
        margin: income - lot.cost,
        shelfDays: (lot.blocks / blocksPerShelf) * lot.shelfDays,
      });
    }
    const margins = [...groups.values()].map(({ name, lots }) => {
      const sum = (of: (lot: EarningLot) => number): number => compensatedSum(lots.map(of));
      const { perShelfDay, interval } = shelfDayMargin(lots, level, tools.distributions);
      return {
        of: name,
        lots: lots.length,
        'shelf days': sum(({ shelfDays }) => shelfDays),
        income: sum(({ income }) => income),
        cost: sum(({ cost }) => cost),
        margin: sum(({ margin }) => margin),
        'margin per shelf and day': perShelfDay,
        from: interval?.[0] ?? NONE,
        to: interval?.[1] ?? NONE,
      };
    });
    const told = unpickedLines(unpicked).map((line) => ({
      of: line,
      lots: NONE,
      'shelf days': NONE,
      income: NONE,
      cost: NONE,
      margin: NONE,
      'margin per shelf and day': NONE,
      from: NONE,
      to: NONE,
    }));
    return [...margins, ...told];
  },
});
