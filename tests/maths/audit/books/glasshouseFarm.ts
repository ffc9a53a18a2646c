import type { LotRecord } from '../../../../src/maths/audit/yieldRecords';
import { bookOf, Draw, FIRST_DAY, NOTHING, steps, strain, type Book, type Picked } from './farms';

// A glasshouse that no heating evens out: everything is slower in winter. Written before it was run, and nothing was set by
// it. Invented; nothing here was measured.

const DAYS = 460;
/** The last days of a year and a week in summer, on which nobody picks. */
const CLOSED: readonly (readonly [from: number, to: number])[] = [
  [118, 122],
  [300, 304],
];
const STRAINS = (
  [
    ['Heron', 14, 17, 7, 4, 12, 0.95, [0.5, 0.3, 0.2], 10, 0.66],
    ['Egret', 12, 15, 6, 3, 10, 0.6, [0.65, 0.35], 10, 0.67],
    ['Teal', 35, 42, 11, 7, 20, 0.65, [0.6, 0.4], 5, 0.6],
    ['Rail', 18, 24, 9, 5, 15, 0.7, [0.45, 0.3, 0.15, 0.1], 5, 0.62],
  ] as const
).map(strain);
const PICKERS = [
  { name: 'Abe', scale: 'bench', rough: 0.8 },
  { name: 'Bo', scale: 'bench', rough: 1 },
  { name: 'Cy', scale: 'hook', rough: 1.3 },
];
const STEP: Readonly<Record<string, number>> = { bench: 0.1, hook: 0.25 };

/** Standard exponential. */
const waiting = (draw: Draw): number => -Math.log(1 - draw.random());

/**
 * Some hundred lots of 12 to 200 bags in pounds, loaded weekly and numbered through. Warmth follows the season and decides
 * how fast flushes come and how long they last; what a flush gives ripens in waves, is picked five days a week, now and
 * then in the morning and again in the afternoon, and one visit in six is left out. A flush takes what it gives from what
 * the lot has left, so that a good one is followed by a poor one. Mixes are shared by a week's lots. A flush in twenty
 * fails in part; flush numbers, pickers and moistures are left blank at times; some rows are copied a day late.
 */
export function glasshouseFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x2f6e2b1d);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: { pick: Picked; flush: number; typed: number }[] = [];
  const warm: number[] = [];
  /** Lots of which a flush came and went while nobody picked. */
  const unweighed = new Set<string>();
  let spell = 0;
  for (let day = 0; day < DAYS + 200; day++) {
    spell = 0.9 * spell + 0.25 * draw.normal();
    warm.push(Math.exp(0.22 * Math.sin((2 * Math.PI * day) / 365) + 0.08 * spell));
  }
  const isClosed = (day: number): boolean =>
    [0, 1].includes((FIRST_DAY + day) % 7) || CLOSED.some(([from, to]) => day >= from && day <= to);

  /** The day on which so many days of ordinary warmth have gone by. */
  const after = (from: number, days: number): number => {
    let [day, left] = [from, days];
    while (left > 0 && day < warm.length - 1) left -= warm[day++]!;
    return day;
  };

  const grow = (label: string, own: (typeof STRAINS)[number], worth: number, loaded: number): void => {
    let left = worth;
    let opens = after(loaded, Math.max(3, own.firstPick! - 1 + 0.9 * draw.normal()));
    for (let flush = 1; flush <= own.shares.length; flush++) {
      if (flush > 1 && draw.random() < 0.08) return;
      const later = own.shares.slice(flush - 1).reduce((sum, one) => sum + one, 0);
      const part = Math.min(0.95, (own.shares[flush - 1]! / later) * draw.factor(0.5 * scatter));
      const given = left * (flush === own.shares.length ? Math.min(1, draw.factor(0.4 * scatter)) : part);
      left -= given;
      const failed = draw.random() < 0.05 ? 0.35 + 0.3 * draw.random() : 1;
      // One to three waves, each a day or two about its height.
      const waves = Array.from({ length: draw.whole(1, own.pickDays! > 4 ? 3 : 2) }, () => ({
        height: opens + (own.pickDays! - 1) * draw.random(),
        wide: 0.5 + 0.6 * draw.random(),
        part: waiting(draw) + 0.3,
      }));
      const all = waves.reduce((sum, wave) => sum + wave.part, 0);
      const length = Math.ceil(own.pickDays! / warm[opens]!);
      let [hanging, last] = [0, opens];
      const before = picks.length;
      for (let day = opens - 1; day <= opens + length + 4; day++) {
        for (const { height, wide, part: ofWave } of waves) {
          const ripens = Math.exp(-0.5 * ((day - height) / wide) ** 2) / (wide * Math.sqrt(2 * Math.PI));
          hanging += ((given * failed * ofWave) / all) * ripens;
        }
        const isEnd = day >= opens + length;
        if (day >= DAYS || isClosed(day) || hanging < 0.02 * given) continue;
        if (!isEnd && draw.random() < 1 / 6) continue;
        const twice = hanging > 12 && draw.random() < 0.15;
        for (const half of twice ? [0.6, 0.4] : [1]) {
          const who = draw.of(PICKERS);
          const taken = hanging * half * draw.factor(0.3 * scatter * who.rough);
          const mass = steps(taken, STEP[who.scale]!);
          if (mass <= 0) continue;
          const date = FIRST_DAY + day;
          picks.push({
            pick: {
              ...NOTHING,
              lot: label,
              date,
              mass,
              flush: draw.random() < 0.12 ? undefined : flush,
              blocks: undefined,
              picker: draw.random() < 0.1 ? '' : who.name,
              scale: who.scale,
            },
            flush,
            typed: date + (draw.random() < 0.02 ? 1 : 0),
          });
        }
        hanging = 0;
        last = day;
      }
      if (picks.length === before) unweighed.add(label);
      opens = Math.max(last + 3, after(opens, own.flushGap! + 1.2 * draw.normal()));
    }
  };

  let number = 400;
  for (let day = 0; day < DAYS; day += 7) {
    const mix = 0.4 * scatter * draw.normal();
    const wet = 0.012 * draw.normal();
    for (let n = draw.whole(1, 2); n > 0; n--) {
      const own = draw.of(STRAINS);
      const blocks = draw.random() < 0.3 ? draw.whole(100, 200) : draw.whole(12, 60);
      const blockMass = draw.random() < 0.1 ? 15 - own.blockMass : own.blockMass;
      const moisture = own.moisture + wet;
      const label = `G${++number}`;
      const load = day + draw.whole(0, 3);
      lots.push({
        lot: label,
        strain: own.label,
        blocks,
        blockMass,
        moisture: draw.random() < 0.25 ? undefined : Number(moisture.toFixed(2)),
        inoculated: FIRST_DAY + load - Math.max(own.earliest!, own.best + draw.whole(-2, 7)),
        loaded: FIRST_DAY + load,
        total: undefined,
      });
      const worth =
        blocks * blockMass * (1 - moisture) * own.efficiency! * Math.exp(mix) * draw.factor(0.9 * scatter);
      grow(label, own, worth, load);
    }
  }
  const written = picks.sort((a, b) => a.typed - b.typed || (a.pick.lot < b.pick.lot ? -1 : 1));
  const book = bookOf(
    [],
    lots,
    STRAINS,
    'lb',
    1.5,
    written.map(({ pick }) => pick),
  );
  return { ...book, unweighed, flushOf: new Map(written.map(({ flush }, i) => [book.picks[i]!.row, flush])) };
}
