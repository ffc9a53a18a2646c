import type { LotRecord } from '../../../../src/maths/audit/yieldRecords';
import { bookOf, Draw, FIRST_DAY, NOTHING, steps, strain, type Book, type Picked } from './farms';

// Plastic tunnels of one grower who writes little down: few picks a lot, some of them two days' work. Written before it was
// run, and nothing was set by it. Invented; nothing here was measured.

const DAYS = 400;
const STRAINS = (
  [
    ['Adder', 15, 18, 8, 5, 14, 0.85, [0.55, 0.28, 0.17], 3.2, 0.63],
    ['Skink', 20, 25, 7, 4, 11, 0.55, [0.7, 0.3], 3.2, 0.65],
    ['Newt', 45, 55, 12, 8, 24, 0.75, [0.5, 0.3, 0.2], 1.8, 0.58],
  ] as const
).map(strain);
/** What each weighs is taken off in the head. */
const CRATES = ['blue', 'slatted', 'box'];
const REMARKS = ['', '', '', '', 'wet', 'small'];

/** Heavy tails: a bell over the root of a mean of three squares, of variance about 1. */
function heavy(draw: Draw): number {
  const [a, b, c] = [draw.normal(), draw.normal(), draw.normal()];
  return (0.62 * draw.normal()) / Math.sqrt((a * a + b * b + c * c) / 3 + 0.03);
}

/**
 * About 170 lots of 10 to 300 blocks in kilograms, all lots of a week filled from one delivery. Yields of lots, flushes and
 * visits have heavy tails. Weather spells of three to nine days hold back or push what ripens in all tunnels alike, and
 * what is held back comes later. A flush is visited one to five times, not at all in the worst weeks; what a visit leaves
 * is in the next. The book is kept lot by lot on cards and copied card by card. Flush numbers stand on two cards in three,
 * loads on all, inoculations on some, totals on some; a few cards have dates only by the visit before. Masses are rounded
 * to 0.1 below 10 and to 0.5 above, or to 0.05 by one of two scales.
 */
export function tunnelFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x51a3c6f7);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: { pick: Picked; flush: number }[] = [];
  const unweighed = new Set<string>();
  const push: number[] = [];
  while (push.length < DAYS + 200) {
    const strength = draw.random() < 0.5 ? 0 : 0.6 * heavy(draw);
    for (let n = draw.whole(3, 9); n > 0; n--) push.push(Math.exp(Math.max(-1.6, Math.min(1, strength))));
  }
  /** No visit on Sundays, nor on a day in eight with other work. */
  const away = push.map((_, day) => (FIRST_DAY + day) % 7 === 1 || draw.random() < 0.12);

  for (let week = 0; 7 * week < DAYS; week++) {
    const delivery = 0.5 * scatter * draw.normal();
    const wet = 0.015 * draw.normal();
    for (let n = draw.whole(2, 4); n > 0; n--) {
      const own = draw.of(STRAINS);
      const load = 7 * week + draw.whole(0, 5);
      const label = `${String(week + 1).padStart(2, '0')}${'ABCD'[n - 1]}${draw.whole(1, 6)}`;
      const blocks = draw.random() < 0.4 ? 10 * draw.whole(10, 30) : draw.whole(10, 60);
      const moisture = own.moisture + wet;
      const isNumbered = draw.random() < 0.66;
      const isFine = draw.random() < 0.5;
      let left =
        blocks *
        own.blockMass *
        (1 - moisture) *
        own.efficiency! *
        Math.exp(delivery + 0.8 * scatter * heavy(draw));
      let total = 0;
      let opens = load + own.firstPick! - 1 + Math.round(1.3 * heavy(draw));
      for (let flush = 1; flush <= own.shares.length && opens < DAYS; flush++) {
        if (flush > 1 && draw.random() < 0.12) break;
        const later = own.shares.slice(flush - 1).reduce((sum, one) => sum + one, 0);
        const given =
          left * Math.min(0.97, (own.shares[flush - 1]! / later) * Math.exp(0.5 * scatter * heavy(draw)));
        left -= given;
        let [unripe, hanging, last, visits] = [given, 0, opens, 0];
        const most = draw.whole(1, 5);
        for (let day = opens; day < opens + own.pickDays! + 6 && day < DAYS && visits < most; day++) {
          const ripens = Math.min(unripe, (unripe * push[day]!) / Math.max(1, 0.5 * own.pickDays!));
          unripe -= ripens;
          hanging += ripens;
          if (away[day]! || hanging < 0.05 * given || draw.random() < 0.35) continue;
          const taken = hanging * Math.min(1, 0.95 * Math.exp(0.5 * scatter * heavy(draw)));
          const crate = draw.of(CRATES);
          const rough = isFine ? 0.05 : taken < 10 ? 0.1 : 0.5;
          // What a crate weighs is known to 50 g.
          const mass = steps(taken + (taken > 3 ? 0.05 * draw.normal() : 0), rough);
          hanging = Math.max(0, hanging - taken);
          if (mass <= 0) continue;
          visits++;
          last = day;
          total += mass;
          picks.push({
            pick: {
              ...NOTHING,
              lot: label,
              date: FIRST_DAY + day,
              mass,
              flush: isNumbered ? flush : undefined,
              blocks: undefined,
              crate,
              grade: draw.of(REMARKS) === 'small' && draw.random() < 0.1 ? 'seconds' : '',
            },
            flush,
          });
        }
        if (visits === 0) unweighed.add(label);
        opens = Math.max(last + 4, opens + own.flushGap! + Math.round(1.6 * heavy(draw)));
      }
      lots.push({
        lot: label,
        strain: own.label,
        blocks,
        blockMass: own.blockMass,
        moisture: draw.random() < 0.3 ? undefined : Number(moisture.toFixed(2)),
        inoculated:
          draw.random() < 0.4
            ? undefined
            : FIRST_DAY + load - Math.max(own.earliest!, own.best + draw.whole(-4, 9)),
        loaded: FIRST_DAY + load,
        total: draw.random() < 0.2 && total > 0 ? steps(total, 0.1) : undefined,
      });
    }
  }
  const book = bookOf(
    [],
    lots,
    STRAINS,
    'kg',
    1.2,
    picks.map(({ pick }) => pick),
  );
  return { ...book, unweighed, flushOf: new Map(picks.map(({ flush }, i) => [book.picks[i]!.row, flush])) };
}
