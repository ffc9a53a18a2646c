import { beforeAll, expect, test } from '@jest/globals';
import {
  isCellError,
  type Block,
  type Cell,
  type CellError,
  type Grid,
} from '../../src/worksheet/cells/cell';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { BACKPLAN } from '../../src/worksheet/loading/backPlan';
import { CHECKLOADS } from '../../src/worksheet/loading/checkLoads';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { PICKCALENDAR } from '../../src/worksheet/loading/pickCalendar';
import { SHELFUSE } from '../../src/worksheet/loading/shelfUse';
import { SPLITLOAD } from '../../src/worksheet/loading/splitLoad';
import { calendar, lots, orders, rooms, standing, START, strains } from './loadingFarm';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(LOADPLAN));

// What a grower reads where a table of the loading family is wrong: each sentence once, as the cell shows it.

type Argument = Cell | Grid | undefined;
type Call = readonly [WorksheetFunction, readonly Argument[]];

const gridsOf = (given: readonly Argument[]): (Grid | null)[] =>
  given.map((one) => (one === undefined ? null : Array.isArray(one) ? (one as Grid) : [[one as Cell]]));

function faultOf(f: WorksheetFunction, given: readonly Argument[]): CellError {
  const cell = evaluate(f, gridsOf(given)).rows[0]![0]!;
  if (!isCellError(cell)) throw new Error('no fault');
  return cell;
}

/** A table with one cell changed. Rows count as a message counts them, from the header row, 1. */
const changed = (table: Grid, row: number, header: string, cell: Cell): Grid =>
  table.map((cells, r) => cells.map((old, c) => (r === row - 1 && table[0]![c] === header ? cell : old)));
/** A table with a column more. */
const withColumn = (table: Grid, header: string, ...cells: Cell[]): Grid =>
  table.map((row, r) => [...row, r === 0 ? header : (cells[r - 1] ?? null)]);

const farm = { lots, strains, rooms, orders, calendar, standing, settings: undefined as Argument, days: 21 };
const plan = (change: Partial<Record<keyof typeof farm, Argument>>): Call => {
  const given = { ...farm, ...change };
  return [
    LOADPLAN,
    [
      given.lots,
      given.strains,
      given.rooms,
      given.orders,
      START,
      given.days,
      given.calendar,
      given.standing,
      given.settings,
    ],
  ];
};
const settings = (name: string, value: Cell, ...more: Cell[][]): Argument => [
  ['name', 'value'],
  [name, value],
  ...more,
];

const blockStrains = changed(
  withColumn(withColumn(strains, 'block mass', 2.5, 2.2), 'moisture', 0.6, 0.62),
  1,
  'none',
  null,
);
const steps: Grid = [
  ['step', 'makes', 'days', 'store days', 'strain'],
  ['grain bag', 12, 21, 3, null],
  ['block', null, 70, null, null],
];
const wanted: Grid = [
  ['product', 'mass', 'from', 'due'],
  ['Birch-1', 9, START + 8, START + 9],
];
const load: Grid = [
  ['loaded', 'strain', 'blocks', 'block mass', 'moisture', 'room'],
  [START, 'Alder-3', 60, 2.5, 0.6, 'North'],
];

const planned: Grid = [
  ['loaded', 'lot', 'room', 'blocks'],
  [START, 'A-01', 'North', 60],
];

const faults: readonly (readonly [call: Call, code: CellError['code'], reason: string])[] = [
  [
    plan({ lots: changed(lots, 4, 'lot', 'a-01') }),
    '#VALUE!',
    'lot in lots: "a-01" must be in one row of lots; it is in rows 2 and 4 (row 4 of lots)',
  ],
  [
    plan({ lots: changed(lots, 4, 'inoculated', null) }),
    '#N/A',
    'inoculated in lots is blank, and so is earliest: fill in one of the two (row 4 of lots)',
  ],
  [
    plan({ strains: changed(strains, 3, 'latest', null) }),
    '#N/A',
    'strain in lots: "latest" in strains is blank for "Birch-1" (row 5 of lots)',
  ],
  [
    plan({ strains: changed(strains, 3, 'latest', 65) }),
    '#VALUE!',
    'latest in lots must not be before best (2026-05-01); it is 2026-04-26 (row 5 of lots)',
  ],
  [
    plan({ lots: withColumn(withColumn(lots, 'not before', START + 9), 'not after', START + 2) }),
    '#VALUE!',
    'not after in lots must not be before not before (2026-05-13); it is 2026-05-06 (row 2 of lots)',
  ],
  ...[
    plan({ standing: withColumn(standing, 'first picked', START - 6) }),
    [
      CHECKLOADS,
      [planned, lots, strains, rooms, orders, undefined, withColumn(standing, 'first picked', START - 6)],
    ] as const,
  ].map(
    (call) =>
      [
        call,
        '#VALUE!',
        'first picked in standing must be after loaded (2026-04-28); it is 2026-04-28 (row 2 of standing)',
      ] as const,
  ),
  [
    // Typed in grams: 60 blocks of 2.5 kg cannot give 12,000 kg.
    plan({ standing: withColumn(standing, 'picked', 12_000) }),
    '#VALUE!',
    'picked in standing must be at most 150, the mass of its blocks; it is 12000 (row 2 of standing)',
  ],
  [
    plan({ rooms: changed(rooms, 3, 'room', 'north') }),
    '#VALUE!',
    'room in rooms: "north" must be in one row of rooms; it is in rows 2 and 3 (row 3 of rooms)',
  ],
  [
    // Its places would count twice. Said the same whatever the order of the rows.
    [SHELFUSE, [load, [...rooms, rooms[1]!], strains]],
    '#VALUE!',
    'room in rooms: "North" must be in one row of rooms; it is in rows 2 and 5 (row 5 of rooms)',
  ],
  [
    [SHELFUSE, [load, [rooms[0]!, rooms[1]!, rooms[1]!, rooms[2]!], strains]],
    '#VALUE!',
    'room in rooms: "North" must be in one row of rooms; it is in rows 2 and 3 (row 3 of rooms)',
  ],
  ...[
    plan({ rooms: changed(rooms, 3, 'closed to', START + 20) }),
    [SHELFUSE, [load, changed(rooms, 3, 'closed to', START + 20), strains]] as const,
    [CHECKLOADS, [planned, lots, strains, changed(rooms, 3, 'closed to', START + 20), orders]] as const,
  ].map(
    (call) =>
      [
        call,
        '#VALUE!',
        'closed to in rooms must not be before closed from (2026-05-28); it is 2026-05-24 (row 3 of rooms)',
      ] as const,
  ),
  [
    plan({ rooms: changed(rooms, 4, 'strains', 'Birch-1, Birch') }),
    '#N/A',
    'strains in rooms: "Birch" is not in strains (row 4 of rooms)',
  ],
  [
    plan({ orders: withColumn(orders, 'from', START - 400) }),
    '#VALUE!',
    'from in orders must be at most 366 days before due (2026-05-14); it is 2025-03-30 (row 2 of orders)',
  ],
  [
    plan({ standing: changed(standing, 3, 'room', 'East') }),
    '#N/A',
    'room in standing: "East" is not in rooms (row 3 of standing)',
  ],
  [
    plan({ calendar: changed(calendar, 3, 'day', 'sat') }),
    '#VALUE!',
    'day in calendar: Saturday must be in one row; it is in rows 2 and 3 (row 3 of calendar)',
  ],
  [
    plan({ calendar: changed(calendar, 3, 'day', 'Sonntag') }),
    '#VALUE!',
    'day in calendar must be a date, a weekday (Monday), weekend, work days or every day; it is "Sonntag" (row 3 of calendar)',
  ],
  [
    plan({ settings: settings('margin', 2) }),
    '#VALUE!',
    'value in settings must be a share below 100% or none for margin; it is 2 (row 2 of settings)',
  ],
  [
    plan({ settings: settings('early cost', 'yes') }),
    '#VALUE!',
    'value in settings must be a cost or none for early cost; it is "yes" (row 2 of settings)',
  ],
  [
    plan({ settings: settings('freeze days', 2.5) }),
    '#VALUE!',
    'value in settings must be a whole number of days up to 366, or none for freeze days; it is 2.5 (row 2 of settings)',
  ],
  [
    plan({ settings: settings('freeze days', 367) }),
    '#VALUE!',
    'value in settings must be a whole number of days up to 366, or none for freeze days; it is 367 (row 2 of settings)',
  ],
  [
    plan({ settings: settings('scenarios', 65) }),
    '#VALUE!',
    'value in settings must be a whole number up to 64 for scenarios; it is 65 (row 2 of settings)',
  ],
  [
    plan({ settings: settings('smallest load', 1.5) }),
    '#VALUE!',
    'value in settings must be a whole number of blocks, or none for smallest load; it is 1.5 (row 2 of settings)',
  ],
  [
    // Zero comfort days and the usual two would look alike.
    plan({ settings: settings('comfort days', 0) }),
    '#VALUE!',
    'value in settings must be a number, none, yes or no; it is blank or 0 (row 2 of settings)',
  ],
  [
    plan({ settings: settings('whole shelves', 1) }),
    '#VALUE!',
    'value in settings must be yes or no for whole shelves; it is 1 (row 2 of settings)',
  ],
  [
    plan({ settings: settings('margin', 'maybe') }),
    '#VALUE!',
    'value in settings must be a number, none, yes or no; it is "maybe" (row 2 of settings)',
  ],
  [
    plan({ settings: settings('margin', 0.1, ['Margin', 0.2]) }),
    '#VALUE!',
    'name in settings must hold "Margin" once (row 3 of settings)',
  ],
  [
    [BACKPLAN, [wanted, blockStrains, steps, undefined, undefined, settings('margin', 0.1)]],
    '#VALUE!',
    'name in settings must be one of confidence, chain confidence; it is "margin" (row 2 of settings)',
  ],
  [
    [
      BACKPLAN,
      [wanted, blockStrains, steps, undefined, undefined, settings('confidence', 0.9, ['confidence', 0.8])],
    ],
    '#VALUE!',
    'name in settings must hold "confidence" once (row 3 of settings)',
  ],
  [
    [BACKPLAN, [wanted, blockStrains, steps, undefined, undefined, settings('confidence', 90)]],
    '#VALUE!',
    'value in settings must be a share below 100% or none for confidence; it is 90 (row 2 of settings)',
  ],
  [
    [BACKPLAN, [wanted, changed(blockStrains, 3, 'best', null), steps]],
    '#N/A',
    'product in orders: "best" in strains is blank for "Birch-1" (row 2 of orders)',
  ],
  [
    [
      BACKPLAN,
      [wanted, blockStrains, changed(changed(steps, 2, 'strain', 'Alder-3'), 3, 'strain', 'Alder-3')],
    ],
    '#N/A',
    'steps has no rows for Birch-1, and none for all strains',
  ],
  [
    [BACKPLAN, [wanted, blockStrains, changed(steps, 2, 'makes', null)]],
    '#N/A',
    'makes in steps is blank for grain bag: fill in how many units of the next step one unit makes (row 2 of steps)',
  ],
  [
    [
      BACKPLAN,
      [
        wanted,
        blockStrains,
        steps,
        [
          ['units', 'strain', 'step', 'ready'],
          [5, 'Birch-1', 'slant', START],
        ],
      ],
    ],
    '#N/A',
    'step in stock: "slant" is not in steps (row 2 of stock)',
  ],
  [
    [SPLITLOAD, [10_000, 0.5, 0.5, 'Alder-3', strains]],
    '#VALUE!',
    'daily limit is too low: the blocks would need 1667 loads, more than 1000',
  ],
  [
    [PICKCALENDAR, [load, strains, START, START + 4000]],
    '#VALUE!',
    'to must be at most 3660 days from the first day shown; it is 4001',
  ],
  [[PICKCALENDAR, [[load[0]!], strains]], '#VALUE!', 'loads has no row with a date under loaded'],
  [
    [SHELFUSE, [load, rooms, changed(strains, 2, 'flush 1', 0.8)]],
    '#VALUE!',
    'strains: the flush shares of Alder-3 must add up to above 0% and at most 100%; they add up to 115% (row 2 of strains)',
  ],
  [
    [SHELFUSE, [load, rooms, changed(strains, 2, 'flush 1', null)]],
    '#N/A',
    'strains: Alder-3 is kept for 2 flushes, but its share under flush 1 is blank (row 2 of strains)',
  ],
  ...(
    [
      [plan({ lots: changed(lots, 3, 'lot', null) }), 'lots', 'lot', 'strain', 3],
      [plan({ orders: changed(orders, 3, 'product', null) }), 'orders', 'product', 'mass', 3],
      [plan({ rooms: changed(rooms, 3, 'room', null) }), 'rooms', 'room', 'shelves', 3],
      [plan({ standing: changed(standing, 3, 'loaded', null) }), 'standing', 'loaded', 'room', 3],
      [plan({ calendar: changed(calendar, 3, 'day', null) }), 'calendar', 'day', 'pick limit', 3],
      [plan({ settings: settings('', 0.1) }), 'settings', 'name', 'value', 2],
      [[PICKCALENDAR, [changed(load, 2, 'loaded', null), strains]], 'loads', 'loaded', 'strain', 2],
      [[SHELFUSE, [changed(load, 2, 'loaded', null), rooms, strains]], 'loads', 'loaded', 'strain', 2],
      [
        [CHECKLOADS, [changed(planned, 2, 'loaded', null), lots, strains, rooms, orders]],
        'loads',
        'loaded',
        'lot',
        2,
      ],
      [[BACKPLAN, [wanted, blockStrains, changed(steps, 2, 'step', null)]], 'steps', 'step', 'makes', 2],
    ] as const satisfies readonly (readonly [Call, string, string, string, number])[]
  ).map(
    ([call, table, key, header, row]) =>
      [
        call,
        '#VALUE!',
        `${key} is blank, but "${header}" is not: fill it in or clear the row (row ${row} of ${table})`,
      ] as const,
  ),
  [
    [SHELFUSE, [load, rooms, changed(strains, 2, 'flush gap', null)]],
    '#N/A',
    'strains: Alder-3 is kept for 2 flushes, but its flush gap is blank (row 2 of strains)',
  ],
  [
    [SHELFUSE, [load, rooms, changed(strains, 2, 'first pick', 1200)]],
    '#VALUE!',
    'last pick in strains must be at most 1000 days, counted from loading; it is 1218 (row 2 of strains)',
  ],
];

test.each(faults.map(([call, code, reason]) => [reason, code, call] as const))(
  '%s',
  (reason, code, [f, given]) => {
    expect(faultOf(f, given)).toMatchObject({ code, reason });
  },
);

test('settings are taken up to their highest', () => {
  const [f, given] = plan({
    settings: settings('scenarios', 64, ['freeze days', 366], ['smallest load', 400], ['margin', 0.99]),
  });
  expect(evaluate(f, gridsOf(given)).rows.flat().filter(isCellError)).toEqual([]);
});

test('BACKPLAN plans the good orders as without the others, and tells of each that it leaves out', () => {
  const orders: Grid = [
    wanted[0]!,
    ['box', 20, null, START + 9],
    wanted[1]!,
    ['Birch 1', 4, null, START + 7],
    ['Birch-1', 'some', null, START + 7],
    [null, 3, null, START + 7],
    ['Birch-1', 3, START + 9, START + 7],
  ];
  const [, ...rows] = evaluate(BACKPLAN, [orders, blockStrains, steps]).rows;
  const [, ...alone] = evaluate(BACKPLAN, [wanted, blockStrains, steps]).rows;
  const leftOut = rows.filter(([, task]) => task === 'order left out');
  expect(rows.filter((row) => !leftOut.includes(row))).toEqual(alone);
  expect(leftOut.map(([, , , strain, , , , , note]) => [strain, note])).toEqual([
    ['Birch 1', 'product in orders: "Birch 1" is not in strains; did you mean "Birch-1"? (row 4 of orders)'],
    ['box', 'product in orders: "box" is not in strains (row 2 of orders)'],
    ['Birch-1', expect.stringMatching(/^mass in orders must be .*; it is "some" \(row 5 of orders\)$/)],
    ['', 'product is blank, but "mass" is not: fill it in or clear the row (row 6 of orders)'],
    ['Birch-1', expect.stringMatching(/^due in orders must not be before from .* \(row 7 of orders\)$/)],
  ]);
});

test('a share of a flush stays with its number where the flush before has no column', () => {
  const without = [strains[0]!, ...strains.slice(1)].map((row) =>
    row.filter((_, at) => strains[0]![at] !== 'flush 1'),
  );
  const load = [
    ['loaded', 'strain', 'blocks', 'block mass', 'moisture'],
    [START, 'Alder-3', 20, 2.5, 0.6],
  ];
  expect(strains[0]).toContain('flush 2');
  expect(faultOf(PICKCALENDAR, [load, without])).toMatchObject({
    reason: expect.stringContaining('its share under flush 1 is blank'),
  });
});

test('BACKPLAN grows an order by product word from the one strain that is sold as it, and refuses one of several', () => {
  const header = [...blockStrains[0]!, 'product'];
  const soldAs = (product: string): Grid => [
    header,
    ...blockStrains.slice(1).map((row) => [...row, row[0] === 'Birch-1' ? product : null]),
  ];
  const call = (strainsGiven: Grid, product: string): Block['rows'] =>
    evaluate(BACKPLAN, [[wanted[0]!, [product, ...wanted[1]!.slice(1)]], strainsGiven, steps]).rows;
  const byStrain = evaluate(BACKPLAN, [wanted, blockStrains, steps]).rows;
  expect(call(soldAs('Oyster'), 'Oyster')).toEqual(byStrain);
  expect(call(soldAs('Oyster'), ' oyster ')).toEqual(byStrain);
  expect(call(soldAs('Oyster'), 'Birch-1')).toEqual(byStrain);
  const birch = soldAs('Oyster').find(([strain]) => strain === 'Birch-1')!;
  const both: Grid = [...soldAs('Oyster'), ['Birch-2', ...birch.slice(1)]];
  const oneLeft = [wanted[0]!, wanted[1]!, ['Oyster', ...wanted[1]!.slice(1)]];
  const [, ...rows] = evaluate(BACKPLAN, [oneLeft, both, steps]).rows;
  expect(rows.filter(([, task]) => task === 'order left out').map((row) => row.at(-1))).toEqual([
    'product in orders: "Oyster" is the product of Birch-1 and Birch-2 in strains: order one of them (row 3 of orders)',
  ]);
});
