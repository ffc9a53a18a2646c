import type { LotRecord } from '../../../../src/maths/audit/yieldRecords';
import { bookOf, Draw, FIRST_DAY, NOTHING, steps, strain, type Book, type Picked } from './farms';

// Further invented farms, each written before what it judges was changed and run once: nothing was set by them.

/** A gamma draw of mean 1 that varies by this share (Marsaglia and Tsang, 2000). */
function gammaFactor(draw: Draw, spread: number): number {
  const shape = 1 / spread ** 2;
  const d = shape - 1 / 3;
  for (;;) {
    const x = draw.normal();
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(draw.random()) < 0.5 * x * x + d * (1 - v + Math.log(v))) return (d * v) / shape;
  }
}

/** Student's draw of 4 degrees, of the spread given. */
function heavyTail(draw: Draw, spread: number): number {
  const chi = Array.from({ length: 4 }, () => draw.normal() ** 2).reduce((sum, one) => sum + one, 0);
  return (spread * draw.normal()) / Math.sqrt(chi / 2);
}

/**
 * Three rooms of unlike worth and good and bad weeks of weather; 120 lots of five strains, heavy-tailed; picks scatter as
 * gamma and are rounded to half kilograms; five pickers; one lot in ten has no flush numbers and one flush in twelve was
 * never weighed; no moistures and no inoculations on record; rows in the order of the walk through the rooms, three in a
 * hundred a day late.
 */
export function roomFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x1b873593);
  const strains = (
    [
      ['Elm-4', 20, 26, 6, 4, 11, 0.85, [0.6, 0.4], 3.5, 0.64],
      ['Reed-6', 15, 19, 5, 3, 8, 0.7, [0.5, 0.3, 0.2], 3.5, 0.66],
      ['Moss-3', 45, 55, 10, 6, 21, 0.65, [0.65, 0.35], 3, 0.6],
      ['Dune-9', 30, 38, 8, 5, 16, 0.75, [0.55, 0.3, 0.15], 3, 0.62],
      ['Fen-2', 60, 72, 9, 7, 24, 0.6, [0.7, 0.3], 4, 0.58],
    ] as const
  ).map(strain);
  const rooms = [-0.2, 0, 0.25];
  let weather = 0;
  const weeks = Array.from({ length: 80 }, () => (weather = 0.7 * weather + 0.12 * draw.normal()));
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: (Picked & { readonly place: number; readonly typed: number })[] = [];
  const numbers = [0, 0, 0];
  const unweighed = new Set<string>();
  for (let number = 0; number < 120; number++) {
    const own = draw.of(strains);
    const room = draw.whole(0, 2);
    const lot = `R${room + 1}-${String(++numbers[room]!).padStart(3, '0')}`;
    const loaded = FIRST_DAY + Math.floor(number * 2.6) + draw.whole(0, 2);
    const blocks = draw.of([24, 36, 48, 60, 72]);
    const yields =
      blocks *
      own.blockMass *
      (1 - own.moisture) *
      own.efficiency! *
      Math.exp(heavyTail(draw, 0.8 * scatter) + rooms[room]!);
    const isNumbered = draw.random() >= 0.1;
    const place = room + draw.random();
    let start = loaded + Math.max(3, Math.round(own.firstPick! * gammaFactor(draw, 0.12)));
    own.shares.forEach((share, f) => {
      const length = draw.whole(2, own.pickDays!);
      const isWeighed = f === 0 || draw.random() >= 1 / 12;
      if (!isWeighed) unweighed.add(lot);
      for (let day = 0; day < length && isWeighed; day++) {
        // A day without enough ripe ones is left to the next.
        if (day > 0 && day < length - 1 && draw.random() < 0.12) continue;
        const date = start + day;
        const week = Math.exp(weeks[Math.min(79, Math.floor((date - FIRST_DAY) / 7))]!);
        const mass = ((yields * share) / length) * week * gammaFactor(draw, 0.7 * scatter);
        picks.push({
          ...NOTHING,
          lot,
          date,
          mass: Math.max(0.5, steps(mass, 0.5)),
          flush: isNumbered ? f + 1 : undefined,
          blocks: undefined,
          picker: draw.of(['Gus', 'Hal', 'Ida', 'Jo', 'Kit']),
          place,
          typed: date + (draw.random() < 0.03 ? 1 : 0),
        });
      }
      start += Math.max(length + 3, Math.round(own.flushGap! * gammaFactor(draw, 0.12)));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture: undefined,
      inoculated: undefined,
      loaded,
      total: undefined,
    });
  }
  const order = [...picks].sort((a, b) => a.typed - b.typed || a.place - b.place);
  return { ...bookOf(picks, lots, strains, 'kg', 1.5, order), unweighed };
}

/**
 * A tunnel of logs and totems: 100 small lots of three strains, kept lot by lot and not day by day, one weighing
 * a week and flush or two, no picker, mild and long seasons, masses log-normal with a tenth of them half as much, lots
 * named after the month and a letter, moistures that differ from lot to lot.
 */
export function logFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x7feb352d);
  const strains = (
    [
      ['Oak-1', 90, 120, 12, 9, 35, 0.3, [0.4, 0.35, 0.25], 4.2, 0.45],
      ['Ash-2', 70, 95, 10, 6, 28, 0.4, [0.6, 0.4], 3.8, 0.5],
      ['Lime-5', 40, 60, 14, 8, 30, 0.5, [0.5, 0.3, 0.2], 5, 0.52],
    ] as const
  ).map(strain);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: Picked[] = [];
  for (let number = 0; number < 100; number++) {
    const own = draw.of(strains);
    const month = 1 + Math.floor(number / 8);
    const lot = `${own.label[0]}${String(month).padStart(2, '0')}${'ABCDEFGH'[number % 8]!}`;
    const loaded = FIRST_DAY + 4 * number + draw.whole(0, 3);
    const blocks = draw.whole(5, 25);
    const moisture = Number((own.moisture + 0.02 * draw.normal()).toFixed(2));
    const poor = draw.random() < 0.1 ? 0.5 : 1;
    const yields = blocks * own.blockMass * (1 - moisture) * own.efficiency! * draw.factor(scatter) * poor;
    let start = loaded + Math.max(5, Math.round(own.firstPick! + 2.5 * draw.normal()));
    own.shares.forEach((share, f) => {
      const length = draw.whole(1, 3);
      for (let day = 0; day < length; day++) {
        const mass = ((yields * share) / length) * draw.factor(0.8 * scatter);
        picks.push({
          ...NOTHING,
          lot,
          date: start + 3 * day,
          mass: Math.max(0.01, steps(mass, 0.01)),
          flush: f + 1,
          blocks: undefined,
        });
      }
      start += Math.max(3 * length + 4, Math.round(own.flushGap! + 3 * draw.normal()));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: loaded - Math.max(own.earliest!, Math.round(own.best * draw.factor(0.08))),
      loaded,
      total: undefined,
    });
  }
  return bookOf(picks, lots, strains, 'kg', 0.3, picks);
}

/**
 * A cellar: 130 lots of four strains in six bays, named after the day of loading and the bay; newest rows first. Substrate
 * is good or bad by the batch, which several lots share, and lots differ from it as Laplace; a flush begins with its best
 * day and fades; one day in four is left out; three pickers, each mostly in two bays; one mass in fifty honestly near
 * double; three flush numbers in a hundred left blank. The strains table is two days too early throughout.
 */
export function cellarFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x165667b1);
  const strains = (
    [
      ['Plum-1', 14, 19, 5, 5, 12, 0.75, [0.5, 0.3, 0.2], 6, 0.67],
      ['Sloe-2', 21, 27, 7, 6, 15, 0.9, [0.6, 0.4], 6, 0.64],
      ['Whin-7', 35, 45, 9, 5, 19, 0.6, [0.65, 0.35], 4.5, 0.62],
      ['Gorse-4', 12, 15, 4, 4, 9, 0.55, [0.45, 0.35, 0.2], 6, 0.68],
    ] as const
  ).map(strain);
  const laplace = (): number => {
    const side = draw.random() - 0.5;
    return (-Math.sign(side) * Math.log(1 - 2 * Math.abs(side))) / Math.SQRT2;
  };
  const pickers = ['Lou', 'Mia', 'Ned'];
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: Picked[] = [];
  let [batch, loaded] = [0, FIRST_DAY];
  for (let number = 0; number < 130; number++) {
    const own = draw.of(strains);
    if (number % 5 === 0) batch = 0.6 * scatter * draw.normal();
    loaded += draw.whole(0, 4);
    const bay = draw.whole(0, 5);
    const day = new Date((loaded - 25_569) * 86_400_000);
    const lot = `${String(100 * (day.getUTCMonth() + 1) + day.getUTCDate()).padStart(4, '0')}${'ABCDEF'[bay]!}`;
    if (lots.some((other) => other.lot === lot)) continue;
    const blocks = 5 * draw.whole(4, 20);
    const moisture = Number((own.moisture + 0.01 * draw.normal()).toFixed(3));
    const yields =
      blocks * own.blockMass * (1 - moisture) * own.efficiency! * Math.exp(batch + 0.8 * scatter * laplace());
    let start = loaded + Math.max(2, own.firstPick! + 2 + Math.round(1.6 * laplace()));
    own.shares.forEach((share, f) => {
      const length = Math.max(2, own.pickDays! + draw.whole(-2, 2));
      const profile = Array.from({ length }, (_, at) => 0.75 ** at);
      const whole = profile.reduce((sum, part) => sum + part, 0);
      const ofFlush = yields * share * draw.factor(0.2);
      profile.forEach((part, at) => {
        if (at > 0 && draw.random() < 0.25) return;
        const honestlyMuch = draw.random() < 0.02 ? 1.8 : 1;
        const mass = ((ofFlush * part) / whole) * draw.factor(0.65 * scatter) * honestlyMuch;
        picks.push({
          ...NOTHING,
          lot,
          date: start + at,
          mass: Math.max(0.1, steps(mass, 0.1)),
          flush: draw.random() < 0.03 ? undefined : f + 1,
          blocks: undefined,
          picker: draw.random() < 0.8 ? pickers[Math.floor(bay / 2)]! : draw.of(pickers),
        });
      });
      start += Math.max(length + 2, own.flushGap! + 2 + Math.round(1.4 * laplace()));
    });
    lots.push({
      lot,
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: loaded - Math.max(own.earliest!, Math.round(own.best * draw.factor(0.06))),
      loaded,
      total: undefined,
    });
  }
  const order = [...picks].sort((a, b) => b.date - a.date || (a.lot < b.lot ? -1 : 1));
  return bookOf(picks, lots, strains, 'kg', 0.8, order);
}
