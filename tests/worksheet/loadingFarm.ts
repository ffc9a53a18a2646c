import type { Cell, Grid } from '../../src/worksheet/cells/cell';

// An invented farm's tables: six lots of two strains, three rooms (one shut for four days, one for a single strain),
// no work on Sundays, seven orders of which one is past and one lies beyond a plan of three weeks.

/** 4 May 2026, a Monday. */
export const START = 46146;
export const strains: Grid = [
  [
    'strain',
    'earliest',
    'best',
    'latest',
    'first pick',
    'pick days',
    'flush gap',
    'flush 1',
    'flush 2',
    'efficiency',
    'loss',
  ],
  ['Alder-3', 80, 90, 104, 7, 4, 14, 0.65, 0.35, 0.8, 0.03],
  ['Birch-1', 60, 70, 82, 6, 3, null, 1, null, 0.6, 0.05],
];
export const lots: Grid = [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated', 'product'],
  ['A-01', 'Alder-3', 120, 2.5, 0.6, START - 92, null],
  ['A-02', 'Alder-3', 120, 2.5, 0.6, START - 85, null],
  ['A-03', 'Alder-3', 110, 2.5, 0.6, START - 78, null],
  ['B-01', 'Birch-1', 90, 2.2, 0.62, START - 73, 'box'],
  ['B-02', 'Birch-1', 90, 2.2, 0.62, START - 64, 'box'],
  ['B-03', 'Birch-1', 60, 2.2, 0.62, START - 57, 'box'],
];
export const rooms: Grid = [
  ['room', 'shelves', 'blocks per shelf', 'closed from', 'closed to', 'strains'],
  ['North', 20, 12, null, null, null],
  ['South', 14, 12, START + 24, START + 27, null],
  ['Annex', 6, 10, null, null, 'Birch-1'],
];
export const orders: Grid = [
  ['product', 'mass', 'due', 'keep days', 'price'],
  ['Alder-3', 30, START + 10, 4, 12],
  ['Alder-3', 42, START + 17, 4, 12],
  ['box', 22, START + 12, 4, 14],
  ['box', 38, START + 19, 4, 14],
  ['any', 45, START + 24, null, 9],
  ['Alder-3', 20, START - 2, null, 12],
  ['box', 20, START + 60, null, 12],
];
export const calendar: Grid = [
  ['day', 'pick limit', 'load limit'],
  ['Saturday', 8, 40],
  ['Sunday', 'off', 'off'],
  ['Monday', 17, 120],
  ['Tuesday', 17, 120],
  ['Wednesday', 17, 120],
  ['Thursday', 17, 120],
  ['Friday', 17, 120],
];
export const standing: Grid = [
  ['loaded', 'room', 'strain', 'blocks', 'block mass', 'moisture'],
  [START - 6, 'North', 'Alder-3', 60, 2.5, 0.6],
  [START - 12, 'South', 'Alder-3', 50, 2.5, 0.6],
];

/** LOADPLAN's arguments for the same farm with many more lots and weeks: a plan that takes seconds. */
export function largeFarm(lotCount: number, days: number): (Grid | null)[] {
  const [, ...someLots] = lots;
  const ripeAge = new Map([
    ['Alder-3', 90],
    ['Birch-1', 70],
  ]);
  const manyLots = Array.from({ length: lotCount }, (_, n) => {
    const [, strain, blocks, mass, moisture] = someLots[n % someLots.length]!;
    const ripe = START + Math.floor((n * days) / lotCount);
    return [`L-${n}`, strain!, blocks!, mass!, moisture!, ripe - ripeAge.get(strain as string)!, null];
  });
  const manyOrders = Array.from({ length: 2 * Math.floor(days / 7) }, (_, n) => [
    n % 2 === 0 ? 'Alder-3' : 'Birch-1',
    150 + 13 * (n % 5),
    START + 10 + 7 * Math.floor(n / 2),
    4,
    12,
  ]);
  const manyRooms = ['North', 'South', 'East', 'West', 'Loft', 'Barn'].map((room) => [
    room,
    40,
    12,
    null,
    null,
    null,
  ]);
  const times = (cell: Cell, factor: number): Cell => (typeof cell === 'number' ? cell * factor : cell);
  const [calendarHeader, ...weekdays] = calendar;
  return [
    [lots[0]!, ...manyLots],
    strains,
    [rooms[0]!, ...manyRooms],
    [orders[0]!, ...manyOrders],
    [[START]],
    [[days]],
    [calendarHeader!, ...weekdays.map(([day, pick, load]) => [day!, times(pick!, 4), times(load!, 3)])],
    standing,
    null,
    null,
    [['plan']],
  ];
}
