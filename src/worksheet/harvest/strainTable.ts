import { flushTimes } from '../../maths/harvest/flushTimes';
import type { CroppedLot } from '../../maths/harvest/strainRecord';
import { CalcError, missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import { loadedDay } from '../../maths/shared/loadedBlocks';
import { optionalSetting } from '../cells/arguments';
import { isCellError } from '../cells/cell';
import { confidence } from '../cells/kinds';
import { amount, label, numberedIn, percent, tableResult, type Faulty } from '../cells/results';
import { defineFunction } from '../define';
import type { Tools } from '../tools';
import { inLine } from '../wording/phrases';
import { croppedLotsTable, harvestsTable } from './arguments';
import { cropsOf, isCrop, type LotCrop } from './lotCrops';

interface Strain {
  readonly name: string;
  readonly picked: CroppedLot[];
  /** Lots not picked yet. */
  waiting: number;
}

/** A lot that does not count: why, and how much is left out with it. */
interface LeftOut {
  readonly what: string;
  readonly fault: Faulty;
}

/** The lots strain by strain, in the order in which strains first appear, and those left out, each once. */
function strainsOf(crops: readonly LotCrop[]): { strains: Strain[]; leftOut: LeftOut[] } {
  const strains = new Map<string, Strain>();
  const leftOut = new Map<string, LeftOut>();
  for (const [i, { label: lotLabel, lot, crop, picks, rows }] of crops.entries()) {
    if (crop instanceof CalcError || isCellError(crop)) {
      const named = typeof lotLabel === 'string';
      const where = rows > 0 ? `${rows} ${rows === 1 ? 'row' : 'rows'} of harvests` : 'a row of lots';
      const what = named ? `${lotLabel} left out` : `${where} without a lot left out`;
      const counted = named && rows > 0 ? `${what}, with ${where}` : what;
      leftOut.set(named ? labelKey(lotLabel) : `${i}`, { what: counted, fault: crop });
      continue;
    }
    const { strain: name, loaded } = lot!;
    const strain = strains.get(labelKey(name)) ?? { name, picked: [], waiting: 0 };
    strains.set(labelKey(name), strain);
    if (isCrop(crop)) strain.picked.push({ crop, times: flushTimes(picks, loadedDay(loaded)) });
    else strain.waiting++;
  }
  return { strains: [...strains.values()], leftOut: [...leftOut.values()] };
}

/** For each strain, the others whose mean efficiency differs from its own. */
function differences(
  strains: readonly Strain[],
  level: number,
  { distributions, statistics }: Pick<Tools, 'distributions' | 'statistics'>,
): (name: string) => string {
  const groups = strains.map(({ name, picked }) => ({
    name,
    values: picked.map(({ crop }) => crop.efficiency),
  }));
  const { pairs } =
    groups.length > 0 ? statistics.groupComparison(groups, level, distributions) : { pairs: [] };
  return (name) => {
    const others = pairs.flatMap(({ first, second, differ }) =>
      differ && (first === name || second === name) ? [first === name ? second : first] : [],
    );
    return others.join(', ') || 'none shown';
  };
}

const NONE = '' as const;

/** The figures of a line that only tells of a lot left out. */
const NO_FIGURES = {
  lots: NONE,
  'not picked': NONE,
  efficiency: NONE,
  from: NONE,
  to: NONE,
  'first pick': NONE,
  'pick days': NONE,
  'flush gap': NONE,
  flushes: NONE,
  flush: [],
  'yield spread': NONE,
  'pick spread': NONE,
} as const;

export const STRAINTABLE = defineFunction({
  name: 'STRAINTABLE',
  family: 'harvest',
  arguments: [
    harvestsTable,
    croppedLotsTable,
    optionalSetting('confidence', confidence(), 0.95, 'how sure intervals and verdicts are; 95% if left out'),
  ],
  result: tableResult({
    strain: label(),
    lots: amount('lots picked'),
    'not picked': amount('lots not picked'),
    efficiency: percent('mean biological efficiency'),
    from: percent('lower end of its interval'),
    to: percent('upper end of its interval'),
    'first pick': amount('days from loading to the first pick'),
    'pick days': amount('days a flush lasts'),
    'flush gap': amount('days from one flush to the next'),
    flushes: amount('number of flushes'),
    flush: numberedIn(percent('share of the mass in each flush')),
    'differs from': label('strains whose mean efficiency differs'),
    'yield spread': percent('standard deviation of the efficiency between lots, as a share of its mean'),
    'pick spread': amount('standard deviation between lots of the days to the first pick'),
  }),
  needs: ['distributions', 'statistics'],
  whole: (harvests, lots, level, { tools }) => {
    const { strains, leftOut } = strainsOf(cropsOf(harvests, lots));
    const records = new Map(
      strains
        .filter(({ picked }) => picked.length > 0)
        .map((strain) => [strain, tools.statistics.strainRecord(strain.picked, level, tools.distributions)]),
    );
    const differing = differences([...records.keys()], level, tools);
    const rows = strains.map((strain) => {
      const { name, waiting } = strain;
      const record = records.get(strain);
      const noInterval = missing('lots', 'tooFew', {
        least: 2,
        things: `picked lots of ${inLine(name)}`,
        found: 1,
      });
      return {
        strain: name,
        lots: record?.lots ?? 0,
        'not picked': waiting,
        efficiency: record?.efficiency ?? NONE,
        from: record ? (record.interval?.[0] ?? noInterval) : NONE,
        to: record ? (record.interval?.[1] ?? noInterval) : NONE,
        'first pick': record?.firstPick ?? NONE,
        'pick days': record?.pickDays ?? NONE,
        'flush gap': record?.flushGap ?? NONE,
        flushes: record?.shares.length || NONE,
        flush: record?.shares ?? [],
        'differs from': record ? differing(name) : '',
        'yield spread': record?.yieldSpread ?? NONE,
        'pick spread': record?.pickSpread ?? NONE,
      };
    });
    return [
      ...rows,
      ...leftOut.map(({ what, fault }) => ({ ...NO_FIGURES, strain: what, 'differs from': fault })),
    ];
  },
});
