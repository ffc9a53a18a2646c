import type { LotRecord } from '../../../../src/maths/audit/yieldRecords';
import { bookOf, Draw, FIRST_DAY, NOTHING, steps, strain, type Book, type Picked } from './farms';

// A farm played day by day: mushrooms ripen with the weather and people pick what they get round to. Written before its
// author had read how the audit weighs anything, and scored once before any change. Invented; nothing here was measured.

const DAYS = 420;
/** Days from the first on which nobody picks, beside Sundays. */
const CLOSED = new Set([59, 60, 122, 178, 179, 240, 301, 358]);

const STRAINS = (
  [
    ['Larch-4', 40, 50, 8, 5, 14, 0.9, [0.55, 0.3, 0.15], 3, 0.61],
    ['Elder-2', 12, 16, 5, 3, 11, 1, [0.7, 0.3], 2.2, 0.65],
    ['Juniper-6', 60, 75, 9, 7, 21, 0.75, [0.35, 0.28, 0.22, 0.15], 4, 0.57],
    ['Sorrel-1', 20, 26, 11, 4, 14, 1.2, [1], 1.2, 0.66],
    ['Bracken-8', 30, 36, 7, 4, 13, 0.8, [0.45, 0.4, 0.15], 2.5, 0.6],
  ] as const
).map(strain);

interface Picker {
  readonly name: string;
  /** Weekdays off, Sunday being 1 as serials count. */
  readonly off: readonly number[];
  readonly step: number;
  /** How heavy the mushrooms are trimmed. */
  readonly trim: number;
  readonly writesFlush: boolean;
  /** Copies a week's notes into the book on this weekday. */
  readonly copiesOn?: number;
}
const CREW: readonly Picker[] = [
  { name: 'Ida', off: [6, 0], step: 0.05, trim: 1, writesFlush: true },
  { name: 'Noor', off: [2, 3], step: 0.1, trim: 0.96, writesFlush: true },
  { name: 'Per', off: [0, 4], step: 0.5, trim: 1.05, writesFlush: true },
  { name: 'Sol', off: [2, 5, 6], step: 0.1, trim: 0.93, writesFlush: false, copiesOn: 0 },
];

/** A lot as the farm knows it, of which the book tells only some. */
interface Growing {
  readonly label: string;
  readonly own: (typeof STRAINS)[number];
  readonly bay: number;
  readonly loaded: number;
  readonly blocks: number;
  /** What all its blocks would give over all flushes. */
  readonly worth: number;
  /** Share of the blocks that is still clean. */
  clean: number;
  flush: number;
  /** Day on which the flush opens, and how much has ripened of it. */
  opens: number;
  length: number;
  ofFlush: number;
  ripe: number;
  /** Ripened so far in this flush. */
  came: number;
  visited: number;
}

/** A draw with heavy tails: Student's t of four degrees, of unit variance, cut at four spreads. */
const heavy = (draw: Draw): number => {
  const ofFour = [1, 2, 3, 4].reduce((sum) => sum + draw.normal() ** 2, 0);
  const t = draw.normal() / Math.sqrt(ofFour / 4) / Math.SQRT2;
  return Math.max(-4, Math.min(4, t));
};

/**
 * A mixed farm of some ninety lots from 4 to 400 blocks, five strains of one to four flushes, four pickers with days off
 * and scales of their own, one of whom writes no flush and copies her notes once a week; Sundays and holidays, a run of
 * weather, contamination, crops thrown out, sheets copied late, blank moistures and inoculations. It ends mid-season.
 */
export function crewFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x2c1b3c6d);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: { pick: Picked; flush: number; copied: number; order: number }[] = [];
  const growing = new Set<Growing>();
  const labels = new Set<string>();
  let weather = 0;

  const load = (today: number, week: number): void => {
    const own = draw.of(STRAINS);
    const bay = draw.whole(1, 9);
    const label = `${own.label[0]}${10 + week}-${bay}`;
    if (labels.has(label)) return;
    labels.add(label);
    const blocks = Math.round(4 * 100 ** draw.random());
    const blockMass = draw.random() < 0.2 ? Number((own.blockMass * 0.9).toFixed(2)) : own.blockMass;
    const moisture = own.moisture + 0.01 * draw.normal();
    const poor = draw.random() < 0.03 ? 0.3 : 1;
    const worth =
      blocks * blockMass * (1 - moisture) * own.efficiency! * Math.exp(scatter * heavy(draw)) * poor;
    growing.add({
      ...{
        label,
        own,
        bay,
        loaded: today,
        blocks,
        worth,
        clean: 1,
        flush: 0,
        opens: 0,
        length: 0,
        ofFlush: 0,
      },
      ...{ ripe: 0, came: 0, visited: 0 },
    });
    lots.push({
      lot: label,
      strain: own.label,
      blocks,
      blockMass,
      moisture: draw.random() < 0.15 ? undefined : Number(moisture.toFixed(2)),
      inoculated: draw.random() < 0.4 ? undefined : today - own.best - draw.whole(-3, 4),
      loaded: today,
      total: undefined,
    });
  };

  /** Opens the lot's next flush, or ends it. */
  const next = (lot: Growing, today: number): void => {
    const { own } = lot;
    if (lot.flush > 0 && draw.random() < 0.12) lot.clean *= draw.of([0.8, 0.6, 0.4]);
    const isThrownOut = lot.flush > 0 && draw.random() < 0.12;
    if (lot.flush === own.shares.length || isThrownOut) {
      growing.delete(lot);
      return;
    }
    const wait = lot.flush === 0 ? own.firstPick! : own.flushGap! - lot.length;
    const slow = Math.round((1 - 0.06 * weather) * wait + 0.9 * draw.normal());
    lot.opens = (lot.flush === 0 ? lot.loaded : today) + Math.max(lot.flush === 0 ? 3 : 4, slow);
    lot.length = Math.max(1, own.pickDays! + draw.whole(-1, 1));
    lot.ofFlush =
      lot.worth * own.shares[lot.flush]! * lot.clean * Math.exp(0.08 * weather + 0.4 * scatter * heavy(draw));
    lot.flush++;
    lot.ripe = lot.came = 0;
  };

  /** A picker goes to a lot and writes down what was weighed. */
  const pick = (lot: Growing, who: Picker, mass: number, today: number, sheet: number): boolean => {
    const step = mass < 2 ? 0.05 : who.step;
    const weighed = steps(mass * who.trim, step);
    if (weighed <= 0) return false;
    const late = draw.random() < 0.02 ? draw.whole(1, 6) : 0;
    const weekday = today % 7;
    const notes = who.copiesOn === undefined ? 0 : (who.copiesOn - weekday + 7) % 7;
    picks.push({
      pick: {
        ...NOTHING,
        lot: lot.label,
        date: today,
        mass: weighed,
        flush: who.writesFlush ? lot.flush : undefined,
        blocks: undefined,
        picker: who.name,
      },
      flush: lot.flush,
      copied: today + Math.max(sheet, late, notes),
      order: 100 * CREW.indexOf(who) + lot.bay,
    });
    return true;
  };

  for (let day = 0; day < DAYS; day++) {
    const today = FIRST_DAY + day;
    const weekday = today % 7;
    weather = 0.88 * weather + 0.47 * heavy(draw);
    if (weekday === 3 || weekday === 6) {
      const often = 1 + Number(draw.random() < 0.5);
      for (let n = 0; n < often; n++) load(today, Math.floor(day / 7));
    }
    const crew = CREW.filter(({ off }) => !off.includes(weekday));
    const isClosed = weekday === 1 || CLOSED.has(day) || crew.length === 0;
    // A whole day's sheets may lie about before they are copied.
    const sheet = draw.random() < 0.05 ? draw.whole(2, 9) : 0;
    for (const lot of [...growing]) {
      if (lot.flush === 0) next(lot, today);
      if (today < lot.opens) continue;
      const age = today - lot.opens;
      if (age < lot.length) {
        const part = Math.sin((Math.PI * (age + 0.5)) / lot.length) + 0.25;
        const all = Array.from(
          { length: lot.length },
          (_, i) => Math.sin((Math.PI * (i + 0.5)) / lot.length) + 0.25,
        ).reduce((sum, one) => sum + one, 0);
        lot.ripe += ((lot.ofFlush * part) / all) * Math.exp(0.3 * scatter * heavy(draw));
        lot.came += part / all;
      }
      const isOver = age >= lot.length - 1;
      // Small lots wait until most of a flush is ripe; on Saturdays only what is well worth the way is picked.
      const share = lot.ripe / lot.ofFlush;
      const isWorthIt = lot.blocks < 15 ? share > 0.55 : share > (weekday === 0 ? 0.25 : 0.06);
      if (isClosed || !(isOver || isWorthIt)) continue;
      const mine = crew.find((one) => CREW.indexOf(one) === lot.bay % CREW.length);
      const who = mine && draw.random() < 0.7 ? mine : draw.of(crew);
      const taken = lot.ripe * (isOver ? 1 : Math.min(1, 0.92 + 0.35 * scatter * draw.normal()));
      // What is much is picked by two.
      const other = crew.find((one) => one !== who);
      const parts: [Picker, number][] =
        other && taken > 25 && draw.random() < 0.5
          ? [
              [who, 0.55 * taken],
              [other, 0.45 * taken],
            ]
          : [[who, taken]];
      for (const [picker, mass] of parts)
        if (taken > 0 && pick(lot, picker, mass, today, sheet)) lot.ripe -= mass;
      lot.ripe = Math.max(0, lot.ripe);
      if (isOver) next(lot, today);
    }
  }
  const copied = picks.sort((a, b) => a.copied - b.copied || a.pick.date - b.pick.date || a.order - b.order);
  const book = bookOf(
    [],
    lots,
    STRAINS,
    'kg',
    0.4,
    copied.map((one) => one.pick),
  );
  return { ...book, flushOf: new Map(copied.map(({ flush }, i) => [book.picks[i]!.row, flush])) };
}
