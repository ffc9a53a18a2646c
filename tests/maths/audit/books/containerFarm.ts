import type { LotRecord } from '../../../../src/maths/audit/yieldRecords';
import { bookOf, Draw, FIRST_DAY, NOTHING, steps, strain, type Book, type Picked } from './farms';

// A farm of containers, each filled and emptied as a whole: what is picked follows the market days, and habits change over
// the year. Run once before and once after the audit was changed, and nothing was set by it. Invented; nothing here was
// measured.

const DAYS = 400;
/** Flushes are written down from here on, a second person comes, and the scale is replaced by a coarser one. */
const [WRITES, HIRED, NEW_SCALE] = [90, 150, 220];
/** A cooler that failed: nothing grows. */
const STANDSTILL = [260, 265] as const;
/** What is ripe and not picked grows on by this much a day, until it is past it. */
const GROWS_ON = 0.06;

const STRAINS = (
  [
    ['Chalk', 15, 18, 6, 4, 12, 0.9, [0.6, 0.4], 2.8, 0.65],
    ['Flint', 20, 26, 8, 6, 15, 0.75, [0.5, 0.3, 0.2], 2.8, 0.63],
    ['Marl', 42, 50, 10, 5, 18, 0.6, [0.7, 0.3], 2, 0.6],
  ] as const
).map(strain);

interface Growing {
  readonly label: string;
  readonly own: (typeof STRAINS)[number];
  readonly blocks: number;
  readonly worth: number;
  flush: number;
  /** Middle of the flush, and how many days it takes; both in parts of days. */
  middle: number;
  slope: number;
  ofFlush: number;
  /** Share of the flush that has ripened, and what of it still hangs. */
  ripened: number;
  hanging: number;
}

/** A draw of Laplace's density, of unit variance. */
const laplace = (draw: Draw): number => {
  const side = draw.random() - 0.5;
  return (-Math.sign(side) * Math.log(1 - 2 * Math.abs(side))) / Math.SQRT2;
};

/**
 * Four containers of four to seven lots, loaded on one day and cleared together: about 150 lots of three strains in grams.
 * Ripeness follows a logistic curve; on the days before a market all is picked, on others what is worth the way, on
 * Sundays nothing. On a fifth of the days only the container's total is weighed and shared out by blocks. Yields fall with
 * the age of the spawn. One strain is sorted into two grades. Rows are in the order of days and shelves.
 */
export function containerFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x3779d1b5);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: { pick: Picked; flush: number }[] = [];
  const containers = ['K1', 'K2', 'K3', 'K4'].map((name, i) => ({
    name,
    fill: 0,
    freeFrom: 9 * i,
    growing: [] as Growing[],
  }));

  const open = (lot: Growing, from: number): void => {
    const { own } = lot;
    const wait = lot.flush === 0 ? own.firstPick! : own.flushGap!;
    const length = own.pickDays!;
    lot.middle = from + wait + (length - 1) / 2 + 1.1 * draw.normal();
    lot.slope = (length / 6) * draw.factor(0.2);
    lot.ofFlush = lot.worth * own.shares[lot.flush]! * Math.exp(0.45 * scatter * laplace(draw));
    lot.flush++;
    lot.ripened = 0;
  };

  const fill = (container: (typeof containers)[number], day: number): void => {
    container.fill++;
    const together = 0.5 * scatter * laplace(draw);
    const aged = Math.exp(-0.25 * ((day % 130) / 130));
    const shelves = draw.whole(4, 7);
    for (let shelf = 1; shelf <= shelves; shelf++) {
      const own = draw.of(STRAINS);
      const blocks = draw.of([8, 12, 16, 24, 40]);
      const moisture = own.moisture + 0.012 * draw.normal();
      const dry = blocks * own.blockMass * (1 - moisture) * 1000;
      const label = `${container.name}-${String(container.fill).padStart(2, '0')}-${shelf}`;
      const lot: Growing = {
        ...{ label, own, blocks, flush: 0, middle: 0, slope: 1, ofFlush: 0, ripened: 0, hanging: 0 },
        worth: dry * own.efficiency! * aged * Math.exp(together + 0.8 * scatter * laplace(draw)),
      };
      open(lot, day);
      container.growing.push(lot);
      lots.push({
        lot: label,
        strain: own.label,
        blocks,
        blockMass: 1000 * own.blockMass,
        moisture: draw.random() < 0.1 ? undefined : Number(moisture.toFixed(2)),
        inoculated: FIRST_DAY + day - Math.max(own.earliest!, own.best + draw.whole(-2, 5)),
        loaded: FIRST_DAY + day,
        total: undefined,
      });
    }
  };

  const weigh = (
    lot: Growing,
    grams: number,
    flush: number,
    day: number,
    picker: string,
    isShared: boolean,
  ): void => {
    const step = day < NEW_SCALE ? (grams < 500 ? 1 : 5) : 20;
    const sorted = lot.own.label === 'Marl' && !isShared;
    const best = 0.8 + 0.08 * draw.normal();
    const parts = sorted
      ? [
          ['extra', Math.min(0.95, best)],
          ['standard', 1 - Math.min(0.95, best)],
        ]
      : [['', 1]];
    for (const [grade, part] of parts as [string, number][]) {
      const mass = steps(grams * part, step);
      if (mass <= 0) continue;
      picks.push({
        pick: {
          ...NOTHING,
          lot: lot.label,
          date: FIRST_DAY + day,
          mass,
          flush: day >= WRITES ? flush : undefined,
          blocks: undefined,
          picker,
          grade,
        },
        flush,
      });
    }
  };

  for (let day = 0; day < DAYS; day++) {
    const weekday = (FIRST_DAY + day) % 7;
    const isStill = day >= STANDSTILL[0] && day < STANDSTILL[1];
    const beforeMarket = weekday === 4 || weekday === 6;
    for (const container of containers) {
      if (container.growing.length === 0) {
        if (day >= container.freeFrom && day < DAYS - 30 && weekday === 2) fill(container, day);
        continue;
      }
      const picker = day >= HIRED && draw.random() < 0.45 ? 'Bea' : 'Ole';
      const taken: [lot: Growing, grams: number, flush: number][] = [];
      for (const lot of [...container.growing]) {
        if (isStill) {
          lot.middle++;
          continue;
        }
        const ripe = 1 / (1 + Math.exp(-(day - lot.middle) / (lot.slope / 1.2)));
        if (ripe > 0.02) {
          const fresh = Math.max(0, ripe - lot.ripened);
          lot.ripened = Math.max(lot.ripened, ripe);
          lot.hanging = lot.hanging * (1 + GROWS_ON) + fresh * lot.ofFlush * draw.factor(0.3 * scatter);
        }
        const isOver = ripe > 0.96;
        const isWorthIt = lot.hanging > (beforeMarket ? 0.03 : 0.14) * lot.ofFlush;
        if (weekday === 1 || !(isOver || isWorthIt) || lot.hanging <= 0) continue;
        const part = isOver || beforeMarket ? 1 : Math.min(1, 0.85 + 0.1 * draw.normal());
        taken.push([lot, lot.hanging * part, lot.flush]);
        lot.hanging *= 1 - part;
        if (!isOver) continue;
        lot.hanging = 0;
        if (lot.flush < lot.own.shares.length) open(lot, day - (lot.own.pickDays! - 1));
        else container.growing.splice(container.growing.indexOf(lot), 1);
      }
      const isShared = taken.length > 1 && draw.random() < 0.2;
      const all = taken.reduce((sum, [, grams]) => sum + grams, 0);
      const blocks = taken.reduce((sum, [lot]) => sum + lot.blocks, 0);
      for (const [lot, grams, flush] of taken) {
        const told = isShared ? (all * lot.blocks) / blocks : grams;
        weigh(lot, told, flush, day, picker, isShared);
      }
      if (container.growing.length === 0) container.freeFrom = day + draw.whole(3, 9);
    }
  }
  const sorted = picks.sort((a, b) => a.pick.date - b.pick.date || (a.pick.lot < b.pick.lot ? -1 : 1));
  const book = bookOf(
    [],
    lots,
    STRAINS,
    'g',
    350,
    sorted.map(({ pick }) => pick),
  );
  return { ...book, flushOf: new Map(sorted.map(({ flush }, i) => [book.picks[i]!.row, flush])) };
}
