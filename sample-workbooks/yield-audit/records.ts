import { asTyped, type Typed } from '../../src/hosts/xlsx/describe';

// An invented farm's quarter, drawn from a seeded generator: nothing here was measured. Slips are planted in it on
// purpose; `planted` lists them.

function seeded(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const random = seeded(2026);
const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
const FIRST_LOAD = Date.UTC(2026, 0, 1) / 86_400_000;
const written = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);
const rounded = (value: number, places = 1): number => Number(value.toFixed(places));

export const strains = [
  {
    strain: 'Alder-3',
    earliest: 63,
    run: 77,
    first: 7,
    days: 5,
    gap: 18,
    efficiency: 0.8,
    shares: [0.62, 0.26, 0.12],
  },
  {
    strain: 'Birch-1',
    earliest: 14,
    run: 18,
    first: 6,
    days: 4,
    gap: 14,
    efficiency: 0.95,
    shares: [0.65, 0.35],
  },
  {
    strain: 'Rowan-2',
    earliest: 50,
    run: 60,
    first: 8,
    days: 6,
    gap: 20,
    efficiency: 0.72,
    shares: [0.7, 0.3],
  },
];

interface Pick {
  lot: string;
  day: number | undefined;
  mass: Typed;
  flush: number;
  blocks: number;
}

interface Lot {
  lot: string;
  strain: string;
  blocks: number;
  inoculated: number;
  loaded: number;
  total: number;
}

const lots: Lot[] = [];
const truePicks: (Pick & { day: number; mass: number })[] = [];
for (let number = 0; truePicks.length < 860; number++) {
  const strain = strains[Math.floor(strains.length * random())]!;
  const lot = `${strain.strain[0]}${201 + number}`;
  const loaded = FIRST_LOAD + Math.floor(number / 1.8);
  const blocks = 40 + 10 * Math.floor(6 * random());
  const efficiency = strain.efficiency * (1 + 0.12 * Math.max(-2, Math.min(2, normal())));
  let start = Math.max(4, Math.round(strain.first * (1 + 0.12 * normal())));
  let total = 0;
  strain.shares.forEach((share, i) => {
    const length = 3 + Math.floor(3 * random());
    for (let day = 0; day < length; day++) {
      const mass = rounded(((blocks * efficiency * share) / length) * Math.exp(0.16 * normal()));
      truePicks.push({ lot, day: loaded + start + day, mass, flush: i + 1, blocks });
      total += mass;
    }
    start += Math.max(length + 3, Math.round(strain.gap * (1 + 0.08 * normal())));
  });
  const run = Math.max(strain.earliest, Math.round(strain.run * (1 + 0.05 * normal())));
  lots.push({ lot, strain: strain.strain, blocks, inoculated: loaded - run, loaded, total: rounded(total) });
}
// The book keeps its lots by strain, so that a strain's lots are one range.
lots.sort((a, b) => (a.lot < b.lot ? -1 : 1));
truePicks.sort((a, b) => a.day - b.day || (a.lot < b.lot ? -1 : 1));

/** The picks once every slip is corrected: lot, date, mass. */
export const correctedRows: Typed[][] = truePicks.map(({ lot, day, mass }) => [lot, written(day), mass]);

const typedPicks: Pick[] = truePicks.map((pick) => ({ ...pick }));

interface Planted {
  readonly table: 'harvests' | 'lots';
  readonly row: number;
  readonly lot: string;
  readonly slip: string;
  readonly typed: Typed;
  readonly truth: Typed;
}

const plantedSlips: Planted[] = [];

/** Plants a slip in the first pick at or after a place for which `fits`; each lot gets one slip at most. */
function plant(
  place: number,
  slip: string,
  change: (pick: Pick, truth: number) => Typed,
  fits = (_: Pick): boolean => true,
): void {
  const taken = new Set(plantedSlips.map(({ lot }) => lot));
  for (let at = place; at < typedPicks.length; at++) {
    const pick = typedPicks[at]!;
    if (taken.has(pick.lot) || !fits(pick)) continue;
    const { lot, mass, day } = truePicks[at]!;
    const typed = change(pick, mass);
    const truth = slip.includes('date')
      ? written(day)
      : slip.includes('lot')
        ? lot
        : slip.includes('blocks')
          ? truePicks[at]!.blocks
          : slip.includes('number')
            ? truePicks[at]!.flush
            : mass;
    plantedSlips.push({ table: 'harvests', row: at + 2, lot, slip, typed, truth });
    return;
  }
}

const massTo =
  (typed: (mass: number) => Typed) =>
  (pick: Pick, mass: number): Typed =>
    (pick.mass = typed(mass));

plant(
  30,
  'grams typed for kilograms',
  massTo((mass) => rounded(1000 * mass)),
);
plant(
  70,
  'day and month of the date swapped',
  (pick) => {
    const [year, month, day] = written(pick.day!).split('-');
    return written((pick.day = Date.parse(`${year}-${day}-${month}`) / 86_400_000));
  },
  ({ day }) => {
    const [, month, ofMonth] = written(day!).split('-');
    return Number(ofMonth) <= 12 && ofMonth !== month;
  },
);
plant(
  110,
  'pounds typed for kilograms',
  massTo((mass) => rounded(mass / 0.45359237)),
);
plant(
  150,
  'decimal one to the right',
  massTo((mass) => rounded(10 * mass)),
);
plant(
  190,
  'decimal one to the left',
  massTo((mass) => rounded(mass / 10, 2)),
);
plant(
  230,
  'mass typed as text',
  massTo((mass) => asTyped(String(mass).replace('.', ','))),
);
plant(
  260,
  'mass left blank',
  massTo(() => null),
);
plant(
  290,
  'minus typed before the mass',
  massTo((mass) => -mass),
);
plant(
  320,
  'letter O for a nought in the lot',
  (pick) => (pick.lot = pick.lot.replace('0', 'O')),
  ({ lot }) => lot.includes('0'),
);
plant(350, 'a digit too many in the lot', (pick) => (pick.lot = `${pick.lot}7`));
plant(380, 'date of the year before', (pick) => written((pick.day = pick.day! - 365)));
plant(410, 'date of the year after', (pick) => written((pick.day = pick.day! + 365)));
plant(440, 'date left blank', (pick) => ((pick.day = undefined), null));
plant(
  470,
  'second flush with the first one’s date',
  (pick) => {
    const first = truePicks.find(({ lot, flush }) => lot === pick.lot && flush === 1)!;
    return written((pick.day = first.day));
  },
  ({ flush }) => flush === 2,
);
plant(520, 'more blocks than were loaded', (pick) => (pick.blocks += 60));
plant(
  560,
  'grams typed for kilograms',
  massTo((mass) => rounded(1000 * mass)),
);
plant(
  600,
  'decimal one to the right',
  massTo((mass) => rounded(10 * mass)),
);
plant(
  640,
  'mass typed as text',
  massTo((mass) => asTyped(`${mass} kg`)),
);
plant(
  680,
  'pounds typed for kilograms',
  massTo((mass) => rounded(mass / 0.45359237)),
);
plant(
  720,
  'number of another flush',
  (pick) => (pick.flush = 1),
  ({ flush }) => flush === 2,
);

/** A slip in a lot that has none so far. */
function plantInLot(place: number, slip: string, change: (lot: Lot) => [typed: Typed, truth: Typed]): void {
  const taken = new Set(plantedSlips.map(({ lot }) => lot));
  const at = lots.findIndex(({ lot }, i) => i >= place && !taken.has(lot));
  const [typed, truth] = change(lots[at]!);
  plantedSlips.push({ table: 'lots', row: at + 2, lot: lots[at]!.lot, slip, typed, truth });
}

plantInLot(12, 'loaded before it was inoculated', (lot) => {
  const truth = written(lot.inoculated);
  lot.inoculated = lot.loaded + 9;
  return [written(lot.inoculated), truth];
});
plantInLot(33, 'total summed wrongly', (lot) => {
  const truth = lot.total;
  lot.total = rounded(truth + 18);
  return [lot.total, truth];
});

const doubled = typedPicks.findIndex(
  ({ lot }, i) => i >= 760 && !plantedSlips.some((slip) => slip.lot === lot),
);
typedPicks.push({ ...typedPicks[doubled]! });
plantedSlips.push({
  table: 'harvests',
  row: typedPicks.length + 1,
  lot: typedPicks[doubled]!.lot,
  slip: 'the same pick typed twice',
  typed: typedPicks[doubled]!.mass,
  truth: 'no such row',
});

/** The picks as they were typed: lot, date, mass, flush, blocks. */
export const pickRows: Typed[][] = typedPicks.map(({ lot, day, mass, flush, blocks }) => [
  lot,
  day === undefined ? null : written(day),
  mass,
  flush,
  blocks,
]);

export const lotRows: Typed[][] = lots.map(({ lot, strain, blocks, inoculated, loaded, total }) => [
  lot,
  strain,
  blocks,
  2.5,
  0.6,
  written(inoculated),
  written(loaded),
  total,
]);

const shown = (value: Typed): Typed =>
  asTyped(
    typeof value === 'object' && value !== null ? value.asTyped : value === null ? '(blank)' : String(value),
  );

export const plantedRows: Typed[][] = plantedSlips.map(({ table, row, lot, slip, typed, truth }) => [
  table,
  row,
  lot,
  slip,
  shown(typed),
  shown(truth),
]);

/** Row of the header and last row of a table that starts in row 5. */
export const pickEnd = 5 + pickRows.length;
export const correctedEnd = 5 + correctedRows.length;
export const lotCount = lots.length;
export const lotsOf = (strain: string): number => lots.filter((lot) => lot.strain === strain).length;
