import type { LotRecord, PickRecord } from '../../../../src/maths/audit/yieldRecords';
import { serialOf, utcDay } from '../../../../src/maths/shared/serial';
import { seeded } from '../../../bench/measure';
import type { Book } from './farms';

/** A slip planted in a book, and what a finding must say to have found it. */
export interface PlantedSlip {
  readonly kind: SlipKind;
  readonly table: 'harvests' | 'lots';
  /** The rows slipped; one of them must be named. */
  readonly rows: readonly number[];
  /** What the cell should hold; undefined where the slip has no one figure. */
  readonly truth: number | string | undefined;
}

export type SlipKind =
  | 'decimal × 10'
  | 'decimal ÷ 10'
  | 'grams'
  | 'kilograms for grams'
  | 'pounds or kilograms'
  | 'ounces for pounds'
  | 'day and month swapped'
  | 'label unknown'
  | 'label of another lot'
  | 'row typed twice'
  | 'wrong flush number'
  | 'wrong block mass'
  | 'block mass of another strain'
  | 'wrong moisture'
  | 'flush missing'
  | 'last flush missing'
  | 'load date wrong'
  | 'crate not taken off'
  | 'blocks counted twice'
  | 'a picker’s day off by a factor'
  | 'a picker off by a factor'
  | 'a picker’s crate never taken off';

const POUNDS = 1 / 0.45359237;
/** What a mass in the book's unit reads on a scale that is set to the unit it is taken for: pounds, kilograms, ounces. */
const OTHER_SCALE = { kg: POUNDS, lb: 1 / POUNDS, g: (16 * POUNDS) / 1000 } as const;
/** Nobody weighs more in ounces; a scale shows whole ones, or tenths of a few. */
const MOST_POUNDS = 25;
const ounces = (pounds: number): number => Number((16 * pounds).toFixed(pounds < 2 ? 1 : 0));
/** Block masses nearer than this, on the scale of natural logarithms, are as good as the same. */
const LIKE_BLOCKS = 0.25;
const rounded = (mass: number): number => Number(mass.toPrecision(4));

/** Day and month the other way round; undefined where that is no other date. */
export function swapped(serial: number): number | undefined {
  const date = utcDay(serial, 1900);
  const [month, day] = [date.getUTCMonth() + 1, date.getUTCDate()];
  if (day > 12 || day === month) return undefined;
  return serialOf(date.getUTCFullYear(), day, month);
}

/** The same day of a month before or after; undefined where that month has no such day. */
function otherMonth(serial: number, months: number): number | undefined {
  const date = utcDay(serial, 1900);
  const moved = serialOf(date.getUTCFullYear(), date.getUTCMonth() + 1 + months, date.getUTCDate());
  return utcDay(moved, 1900).getUTCDate() === date.getUTCDate() ? moved : undefined;
}

/** The same day of another year. */
function otherYear(serial: number, years: number): number {
  const date = utcDay(serial, 1900);
  return serialOf(date.getUTCFullYear() + years, date.getUTCMonth() + 1, date.getUTCDate());
}

class Planter {
  readonly picks: PickRecord[];
  readonly lots: LotRecord[];
  readonly slips: PlantedSlip[] = [];
  private readonly taken = new Set<string>();
  readonly random: () => number;

  constructor(
    readonly book: Book,
    seed: number,
  ) {
    this.picks = [...book.picks];
    this.lots = [...book.lots];
    this.random = seeded(seed);
  }

  of<T>(things: readonly T[]): T {
    return things[Math.floor(things.length * this.random())]!;
  }

  /** Tries places at random, lots without a slip so far, until `change` plants one. */
  inPick(
    kind: SlipKind,
    change: (
      pick: PickRecord & { mass: number; date: number },
    ) => [Partial<PickRecord>, PlantedSlip['truth']] | undefined,
  ): void {
    for (let tries = 0; tries < 300; tries++) {
      const at = Math.floor(this.random() * this.picks.length);
      const pick = this.picks[at]!;
      if (this.taken.has(pick.lot) || typeof pick.mass !== 'number' || typeof pick.date !== 'number')
        continue;
      const made = change(pick as PickRecord & { mass: number; date: number });
      if (!made) continue;
      this.picks[at] = { ...pick, ...made[0] };
      this.taken.add(pick.lot).add(this.picks[at].lot);
      this.slips.push({ kind, table: 'harvests', rows: [pick.row], truth: made[1] });
      return;
    }
  }

  inLot(
    kind: SlipKind,
    change: (lot: LotRecord) => [Partial<LotRecord>, PlantedSlip['truth']] | undefined,
  ): void {
    for (let tries = 0; tries < 300; tries++) {
      const at = Math.floor(this.random() * this.lots.length);
      const lot = this.lots[at]!;
      if (this.taken.has(lot.lot)) continue;
      const made = change(lot);
      if (!made) continue;
      this.lots[at] = { ...lot, ...made[0] };
      this.taken.add(lot.lot);
      this.slips.push({ kind, table: 'lots', rows: [lot.row], truth: made[1] });
      return;
    }
  }

  masses(kind: SlipKind, factor: number): void {
    this.inPick(kind, ({ mass }) => [{ mass: rounded(mass * factor) }, mass]);
  }

  /** All picks that `belongs` names, changed alike. */
  group(kind: SlipKind, belongs: (pick: PickRecord) => boolean, change: (mass: number) => number): void {
    const rows: number[] = [];
    this.picks.forEach((pick, at) => {
      if (!belongs(pick) || typeof pick.mass !== 'number') return;
      this.picks[at] = { ...pick, mass: rounded(change(pick.mass)) };
      rows.push(pick.row);
    });
    if (rows.length) this.slips.push({ kind, table: 'harvests', rows, truth: undefined });
  }

  done(): { book: Book; slips: PlantedSlip[] } {
    return { book: { ...this.book, picks: this.picks, lots: this.lots }, slips: this.slips };
  }
}

const LETTERS = 'abcdefghjkmnprstuvwxyz0123456789';

/** A label with one slip of the fingers in it. */
function slipped(label: string, of: <T>(things: readonly T[]) => T, random: () => number): string {
  const at = Math.floor(random() * label.length);
  const [before, own, after] = [label.slice(0, at), label[at]!, label.slice(at + 1)];
  switch (of(['changed', 'left out', 'doubled', 'swapped'])) {
    case 'changed':
      return before + of([...(/\d/.test(own) ? '0123456789' : LETTERS)]) + after;
    case 'left out':
      return before + after;
    case 'doubled':
      return before + own + own + after;
    default:
      return before + after.slice(0, 1) + own + after.slice(1);
  }
}

/** `each` single slips of every kind, each in a lot of its own. */
export function plantSingles(clean: Book, each: number, seed: number): { book: Book; slips: PlantedSlip[] } {
  const planter = new Planter(clean, seed);
  const { of, random } = { of: planter.of.bind(planter), random: planter.random };
  const other = OTHER_SCALE[clean.unit];
  const labels = new Map(clean.lots.map(({ lot }) => [lot.toLowerCase(), lot]));
  for (let n = 0; n < each; n++) {
    planter.inLot('load date wrong', (lot) => {
      const load = lot.loaded as number;
      const wrong = of([swapped(load), otherYear(load, of([1, -1])), otherMonth(load, of([1, -1]))]);
      return wrong === undefined ? undefined : [{ loaded: wrong }, load];
    });
    planter.inLot('wrong moisture', ({ moisture }) => {
      if (typeof moisture !== 'number') return undefined;
      const turned = Number(`0.${[...moisture.toFixed(2).slice(2)].reverse().join('')}`);
      const wrong = of([Number((1 - moisture).toFixed(2)), turned, moisture / 10]);
      return Math.abs(wrong - moisture) < 0.1
        ? undefined
        : [{ moisture: Number(wrong.toFixed(3)) }, moisture];
    });
    planter.inLot('wrong block mass', (lot) => {
      const mass = lot.blockMass as number;
      const wrong = of([10 * mass, mass / 10, mass * other, clean.unit === 'g' ? mass / 1000 : mass * 1000]);
      return [{ blockMass: rounded(wrong) }, mass];
    });
    planter.inLot('blocks counted twice', (lot) => [{ blocks: 2 * (lot.blocks as number) }, lot.blocks]);
    planter.inPick('label of another lot', ({ lot }) => {
      const other = labels.get(slipped(lot, of, random).toLowerCase());
      return other === undefined || other === lot ? undefined : [{ lot: other }, lot];
    });
  }
  for (let n = 0; n < each; n++) {
    planter.masses('decimal × 10', 10);
    planter.masses('decimal ÷ 10', 0.1);
    if (clean.unit === 'g') planter.masses('kilograms for grams', 0.001);
    else {
      planter.masses('grams', clean.unit === 'kg' ? 1000 : 453.59237);
      planter.masses('pounds or kilograms', other);
    }
    planter.inPick('crate not taken off', ({ mass }) => [{ mass: rounded(mass + clean.crate) }, mass]);
    planter.inPick('day and month swapped', ({ date }) => {
      const wrong = swapped(date);
      return wrong === undefined ? undefined : [{ date: wrong }, date];
    });
    planter.inPick('label unknown', ({ lot }) => {
      const wrong = slipped(lot, of, random);
      return labels.has(wrong.toLowerCase()) || wrong === '' ? undefined : [{ lot: wrong }, lot];
    });
    planter.inPick('wrong flush number', ({ lot, flush }) => {
      if (typeof flush !== 'number') return undefined;
      const strain = clean.lots.find((one) => one.lot === lot)!.strain.toLowerCase();
      const wrong = 1 + Math.floor(random() * clean.strains.get(strain)!.flushes);
      return wrong === flush ? undefined : [{ flush: wrong }, flush];
    });
    planter.inPick('row typed twice', (pick) => {
      planter.picks.push({ ...pick, row: planter.picks.length + 2 });
      return [{}, undefined];
    });
    const copied = planter.slips.at(-1)!;
    if (copied.kind === 'row typed twice') {
      // Either row may be named.
      planter.slips[planter.slips.length - 1] = {
        ...copied,
        rows: [...copied.rows, planter.picks.at(-1)!.row],
      };
    }
  }
  for (let n = 0; clean.unit === 'lb' && n < each; n++) {
    planter.inPick('ounces for pounds', ({ mass }) =>
      mass > MOST_POUNDS ? undefined : [{ mass: ounces(mass) }, mass],
    );
  }
  for (let n = 0; n < each; n++) {
    planter.inLot('block mass of another strain', ({ strain, blockMass }) => {
      const other = planter.of(clean.lots);
      const isLike = Math.abs(Math.log(Number(other.blockMass) / Number(blockMass))) < LIKE_BLOCKS;
      return other.strain === strain || isLike ? undefined : [{ blockMass: other.blockMass }, blockMass];
    });
  }
  return planter.done();
}

/** `each` flushes whose picks were never typed, of those before a lot's last flush and of last ones. */
export function plantMissing(clean: Book, each: number, seed: number): { book: Book; slips: PlantedSlip[] } {
  const planter = new Planter(clean, seed);
  for (const kind of Array.from(
    { length: each },
    () => ['flush missing', 'last flush missing'] as const,
  ).flat()) {
    planter.inLot(kind, ({ lot }) => {
      const own = planter.picks
        .filter((pick) => pick.lot === lot)
        .sort((a, b) => (a.date as number) - (b.date as number));
      const days = own.map(({ date }) => date as number);
      // Flushes as runs of days, since not every book records their numbers.
      const starts = days.filter(
        (day, i) =>
          i === 0 ||
          (clean.flushOf
            ? clean.flushOf.get(own[i]!.row) !== clean.flushOf.get(own[i - 1]!.row)
            : day - days[i - 1]! > 3),
      );
      if (starts.length < 2) return undefined;
      const gone =
        kind === 'flush missing' ? Math.floor(planter.random() * (starts.length - 1)) : starts.length - 1;
      const [from, to] = [starts[gone]!, starts[gone + 1] ?? Infinity];
      const kept = planter.picks.filter(
        (pick) => pick.lot !== lot || (pick.date as number) < from || (pick.date as number) >= to,
      );
      planter.picks.splice(0, planter.picks.length, ...kept);
      return [{}, undefined];
    });
  }
  return planter.done();
}

/** A picker who never takes the crate off; nothing where the book has no pickers. */
export function plantTare(clean: Book, seed: number): { book: Book; slips: PlantedSlip[] } {
  const planter = new Planter(clean, seed);
  const { picker } = planter.of(clean.picks);
  if (picker !== '') {
    planter.group(
      'a picker’s crate never taken off',
      (pick) => pick.picker === picker,
      (mass) => mass + clean.crate,
    );
  }
  return planter.done();
}

/** One picker's picks of one day (where there are pickers; all picks of the day where not), or of always, in another unit. */
export function plantGroup(clean: Book, whole: boolean, seed: number): { book: Book; slips: PlantedSlip[] } {
  const planter = new Planter(clean, seed);
  const factor = planter.of([OTHER_SCALE[clean.unit], 0.1, 10]);
  if (whole) {
    const picker = planter.of(clean.picks).picker;
    if (picker !== '') {
      planter.group(
        'a picker off by a factor',
        (pick) => pick.picker === picker,
        (mass) => mass * OTHER_SCALE[clean.unit],
      );
    }
    return planter.done();
  }
  for (let tries = 0; tries < 500; tries++) {
    const { date, picker } = planter.of(clean.picks);
    const belongs = (pick: PickRecord): boolean => pick.date === date && pick.picker === picker;
    if (clean.picks.filter((pick) => belongs(pick) && typeof pick.mass === 'number').length < 5) continue;
    planter.group('a picker’s day off by a factor', belongs, (mass) => mass * factor);
    break;
  }
  return planter.done();
}
