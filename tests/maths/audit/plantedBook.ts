import type { LotRecord, PickRecord, StrainFacts } from '../../../src/maths/audit/yieldRecords';
import { seeded } from '../../bench/measure';
import { normalDraw } from '../../normalDraw';

// An invented farm's book of picks, clean or with known slips. Efficiencies, flush shares and times are ordinary ones for
// supplemented sawdust (common practice, no source); nothing here was measured.

export interface Book {
  readonly picks: PickRecord[];
  readonly lots: LotRecord[];
  readonly strains: Map<string, StrainFacts>;
}

export interface PlantedSlip {
  readonly kind: string;
  /** `mass` for slips of unit and decimal. */
  readonly of: 'cannot be' | 'mass';
  readonly table: 'harvests' | 'lots';
  readonly row: number;
  readonly lot: string;
}

export const STRAINS: ReadonlyMap<
  string,
  StrainFacts & { readonly label: string; readonly best: number; readonly shares: number[] }
> = new Map(
  [
    {
      label: 'Alder-3',
      earliest: 63,
      best: 77,
      firstPick: 7,
      pickDays: 5,
      flushGap: 18,
      efficiency: 0.8,
      shares: [0.62, 0.26, 0.12],
    },
    {
      label: 'Birch-1',
      earliest: 14,
      best: 18,
      firstPick: 6,
      pickDays: 4,
      flushGap: 14,
      efficiency: 0.95,
      shares: [0.65, 0.35],
    },
    {
      label: 'Rowan-2',
      earliest: 50,
      best: 60,
      firstPick: 8,
      pickDays: 6,
      flushGap: 20,
      efficiency: 0.6,
      shares: [0.7, 0.3],
    },
  ].map((strain) => [strain.label.toLowerCase(), { ...strain, flushes: strain.shares.length }]),
);

export interface BookSize {
  readonly picks: number;
  /** Coefficient of variation of a pick about what the lot and flush would give it. */
  readonly spread: number;
  readonly seed: number;
  readonly flushesRecorded?: boolean;
}

/** A book without a slip: about `picks` rows in lots of 6 to 20 picks, lots differing by 15% in efficiency. */
export function cleanBook({ picks: wanted, spread, seed, flushesRecorded = true }: BookSize): Book {
  const random = seeded(seed);
  const sigma = Math.sqrt(Math.log(1 + spread * spread));
  const picks: PickRecord[] = [];
  const lots: LotRecord[] = [];
  const labels = [...STRAINS.values()];
  for (let number = 0; picks.length < wanted; number++) {
    const strain = labels[Math.floor(labels.length * random())]!;
    const loaded = 45_300 + Math.floor((number * 12) / 7);
    const lot = `${strain.label[0]}${String(10_000 + 7 * number)}`;
    const blocks = 40 + Math.floor(80 * random());
    const dry = blocks * 2.5 * 0.4;
    const efficiency = strain.efficiency! * Math.min(1.5, Math.max(0.5, 1 + 0.15 * normalDraw(random)));
    let total = 0;
    let start = Math.max(4, Math.round(strain.firstPick! * (1 + 0.15 * normalDraw(random))));
    strain.shares.forEach((share, f) => {
      const length = 3 + Math.floor(3 * random());
      for (let day = 0; day < length; day++) {
        const mass = Math.max(
          0.01,
          Number(((dry * efficiency * share * Math.exp(sigma * normalDraw(random))) / length).toFixed(2)),
        );
        total += mass;
        const flush = flushesRecorded ? f + 1 : undefined;
        picks.push({
          row: 0,
          lot,
          date: loaded + start + day,
          mass,
          flush,
          blocks: Math.round(blocks * 0.9),
        });
      }
      start += Math.max(length + 2, Math.round(strain.flushGap! * (1 + 0.1 * normalDraw(random))));
    });
    const run = Math.round(strain.best * (1 + 0.06 * normalDraw(random)));
    lots.push({
      row: number + 2,
      lot,
      strain: strain.label,
      blocks,
      blockMass: 2.5,
      moisture: 0.6,
      inoculated: loaded - Math.max(strain.earliest!, run),
      loaded,
      total: number % 2 ? undefined : Number(total.toFixed(2)),
    });
  }
  picks.sort((a, b) => (a.date as number) - (b.date as number));
  return { picks: picks.map((pick, i) => ({ ...pick, row: i + 2 })), lots, strains: new Map(STRAINS) };
}

type Slip = (pick: PickRecord, lot: LotRecord, book: Book) => Partial<PickRecord> | undefined;
const massOf = (pick: PickRecord): number => pick.mass as number;
const times =
  (factor: number): Slip =>
  (pick) => ({ mass: Number((massOf(pick) * factor).toPrecision(6)) });

const PICK_SLIPS: { kind: string; of: PlantedSlip['of']; slip: Slip }[] = [
  { kind: 'mass as text', of: 'cannot be', slip: (pick) => ({ mass: String(pick.mass) }) },
  { kind: 'mass left blank', of: 'cannot be', slip: () => ({ mass: undefined }) },
  { kind: 'mass negative', of: 'cannot be', slip: (pick) => ({ mass: -massOf(pick) }) },
  { kind: 'date left blank', of: 'cannot be', slip: () => ({ date: undefined }) },
  { kind: 'lot mistyped', of: 'cannot be', slip: (pick) => ({ lot: `${pick.lot.slice(0, -1)}x` }) },
  { kind: 'date a year early', of: 'cannot be', slip: (pick) => ({ date: (pick.date as number) - 365 }) },
  {
    kind: 'blocks above those loaded',
    of: 'cannot be',
    slip: (_pick, lot) => ({ blocks: 2 * (lot.blocks as number) }),
  },
  {
    kind: 'second flush with the first one’s date',
    of: 'cannot be',
    slip: (pick, _lot, book) => {
      if (pick.flush !== 2) return undefined;
      const first = book.picks.find(({ lot, flush }) => lot === pick.lot && flush === 1);
      return first && typeof first.date === 'number' ? { date: first.date } : undefined;
    },
  },
  ...[1 / 0.45359237, 0.45359237, 16, 1 / 16, 28.349523125, 1000].map((factor) => ({
    kind: `unit × ${Number(factor.toPrecision(3))}`,
    of: 'mass' as const,
    slip: times(factor),
  })),
  ...[10, 0.1, 100].map((factor) => ({
    kind: `decimal × ${factor}`,
    of: 'mass' as const,
    slip: times(factor),
  })),
];

const LOT_SLIPS: { kind: string; slip: (lot: LotRecord) => Partial<LotRecord> }[] = [
  { kind: 'loaded before inoculated', slip: (lot) => ({ inoculated: (lot.loaded as number) + 20 }) },
  {
    kind: 'total of other rows',
    slip: (lot) => ({ total: 1.2 * ((lot.total as number | undefined) ?? 10) + 3 }),
  },
];

/** The book with slips planted in about `share` of its picks, each kind as often, at most one slip a lot. */
export function plantSlips(book: Book, share: number, seed: number): { book: Book; slips: PlantedSlip[] } {
  const random = seeded(seed);
  const lots = new Map(book.lots.map((lot) => [lot.lot, lot]));
  const picks = [...book.picks];
  const slips: PlantedSlip[] = [];
  const taken = new Set<string>();
  const free = (): number | undefined => {
    for (let tries = 0; tries < 200; tries++) {
      const at = Math.floor(picks.length * random());
      if (!taken.has(picks[at]!.lot)) return at;
    }
    return undefined;
  };
  const wanted = Math.round(share * picks.length);
  for (let n = 0; slips.length < wanted && n < 50 * wanted; n++) {
    const at = free();
    if (at === undefined) break;
    const pick = picks[at]!;
    if (n % 10 === 9) {
      const { kind, slip } = LOT_SLIPS[Math.floor(LOT_SLIPS.length * random())]!;
      const lot = lots.get(pick.lot)!;
      lots.set(pick.lot, { ...lot, ...slip(lot) });
      taken.add(pick.lot);
      slips.push({ kind, of: 'cannot be', table: 'lots', row: lot.row, lot: pick.lot });
      continue;
    }
    const { kind, of, slip } = PICK_SLIPS[n % PICK_SLIPS.length]!;
    const changed = slip(pick, lots.get(pick.lot)!, book);
    if (!changed) continue;
    picks[at] = { ...pick, ...changed };
    taken.add(pick.lot).add(picks[at].lot);
    slips.push({ kind, of, table: 'harvests', row: pick.row, lot: pick.lot });
  }
  return { book: { ...book, picks, lots: [...lots.values()] }, slips };
}
