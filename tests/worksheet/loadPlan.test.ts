import { beforeAll, describe, expect, jest, test } from '@jest/globals';
import { type Cell, type Grid, isCellError, plainValues } from '../../src/worksheet/cells/cell';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { BACKPLAN } from '../../src/worksheet/loading/backPlan';
import { CHECKLOADS } from '../../src/worksheet/loading/checkLoads';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { PICKCALENDAR } from '../../src/worksheet/loading/pickCalendar';
import { SHELFUSE } from '../../src/worksheet/loading/shelfUse';
import { loadTools, type Tools } from '../../src/worksheet/tools';
import { calendar, lots, orders, rooms, standing, START, strains } from './loadingFarm';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(LOADPLAN));

type Argument = Cell | Grid | undefined;
const grids = (given: readonly Argument[]): (Grid | null)[] =>
  given.map((one) => (one === undefined ? null : Array.isArray(one) ? (one as Grid) : [[one as Cell]]));

/** The cells that a call of a function gives. */
const cells = (f: WorksheetFunction, ...given: Argument[]): Cell[][] =>
  plainValues(evaluate(f, grids(given)));

/** A cell's text; nothing for a number. */
const words = (cell: Cell): string => (typeof cell === 'string' ? cell : '');

/** A table's rows as records, its header row as the names. */
function records(rows: readonly (readonly Cell[])[]): Record<string, Cell>[] {
  const fault = rows[0]![0];
  if (isCellError(fault)) throw new Error(fault.reason);
  return rows
    .slice(1)
    .map((row) => Object.fromEntries(rows[0]!.map((header, i) => [words(header), row[i]!])));
}
const sum = (rows: readonly Record<string, Cell>[], header: string): number =>
  rows.reduce((total, row) => total + Number(row[header]), 0);

describe('LOADPLAN solves a published production schedule', () => {
  // Hillier, F. S. & Lieberman, G. J., Introduction to Operations Research: Northern Airplane Co., four months of
  // engines. From memory, unverified: the least cost 77.3 (in millions). A month is a day here, an engine a block
  // that gives one unit the day after it is loaded, storage is the cost of opening a block late.
  test('four months of engines cost 77.3', () => {
    const start = 46146;
    const made = [
      [25, 1.08],
      [35, 1.11],
      [30, 1.1],
      [10, 1.13],
    ];
    const lots = made.map(([blocks, cost], month) => {
      const ripe = start + month;
      return [`Month ${month + 1}`, 'Engine', blocks!, 2, 0.5, ripe, ripe, start + 100, cost!];
    });
    const summary = cells(
      LOADPLAN,
      [['lot', 'strain', 'blocks', 'block mass', 'moisture', 'earliest', 'best', 'latest', 'cost'], ...lots],
      [
        ['strain', 'first pick', 'pick days', 'efficiency'],
        ['Engine', 1, 1, 1],
      ],
      [
        ['room', 'shelves', 'blocks per shelf'],
        ['Hangar', 100, 10],
      ],
      [
        ['product', 'mass', 'from', 'due'],
        ...[10, 15, 25, 20].map((mass, month) => ['Engine', mass, start + month + 1, start + month + 1]),
      ],
      start,
      4,
      undefined,
      undefined,
      [
        ['name', 'value'],
        ['late cost', 0.015],
        ['comfort days', 'none'],
        ['waiting cost', 'none'],
        ['surplus cost', 'none'],
        ['peak cost', 'none'],
        ['load cost', 'none'],
      ],
      undefined,
      'summary',
    );
    const value = (what: string): Cell => records(summary).find((row) => row['what'] === what)!['value']!;
    expect(value('cost of blocks loaded')).toBeCloseTo(77.3, 9);
    expect(value('mass short')).toBe(0);
  });
});

const view = (name: string | undefined, previous?: Grid, settings?: Grid): Cell[][] =>
  cells(LOADPLAN, lots, strains, rooms, orders, START, 21, calendar, standing, settings, previous, name);

describe('the views of LOADPLAN are one plan', () => {
  const plan = (): Cell[][] => view('plan');

  test('CHECKLOADS finds nothing broken but the orders that the plan itself calls short', () => {
    const planned = records(view('orders')).filter((row) => typeof row['planned'] === 'number');
    const open: Grid = [orders[0]!, ...orders.slice(1, 6)];
    const broken = records(cells(CHECKLOADS, plan(), lots, strains, rooms, open, calendar, standing));
    expect(broken.filter(({ rule }) => rule !== 'order short')).toEqual(
      broken.length === 1 && broken[0]!['rule'] === 'none broken' ? broken : [],
    );
    const short = broken.filter(({ rule }) => rule === 'order short');
    const shortMass = sum(short, 'allowed') - sum(short, 'found');
    expect(shortMass).toBeCloseTo(sum(planned, 'short'), 6);
    expect(shortMass).toBeGreaterThan(0);
  });

  test('with a margin the plan says so, and CHECKLOADS given the same settings finds the same orders short', () => {
    const settings: Grid = [
      ['name', 'value'],
      ['margin', 0.1],
    ];
    const open: Grid = [orders[0]!, ...orders.slice(1, 6)];
    const check = (...given: Grid[]): Record<string, Cell>[] =>
      records(
        cells(
          CHECKLOADS,
          view('plan', undefined, settings),
          lots,
          strains,
          rooms,
          open,
          calendar,
          standing,
          ...given,
        ),
      ).filter(({ rule }) => rule === 'order short');
    const planned = records(view('orders', undefined, settings)).filter((row) => Number(row['short']) > 0);
    const judged = check(settings);
    expect(sum(judged, 'allowed') - sum(judged, 'found')).toBeCloseTo(sum(planned, 'short'), 6);
    expect(judged.map((row) => words(row['in words']!).endsWith('with yields taken 10% lower'))).toEqual(
      planned.map(() => true),
    );
    const full = check();
    expect(sum(full, 'allowed') - sum(full, 'found')).toBeLessThan(sum(planned, 'short') - 1);
    const summary = records(view('summary', undefined, settings));
    expect(summary.find(({ what }) => what === 'margin')!['value']).toBe('10%');
  });

  test('the distance from the bound is money, and its note says what share of the orders’ value that is', () => {
    const summary = records(view('summary'));
    const row = (name: string): Record<string, Cell> => summary.find(({ what }) => what === name)!;
    const share = Number(row('distance from the bound')['value']) / Number(row('order value')['value']);
    expect(row('distance from the bound')['note']).toBe(
      `${(100 * share).toFixed(2)}% of the order value more than the best plan that may split blocks`,
    );
    expect(share).toBeGreaterThan(0);
    expect(share).toBeLessThan(0.02);
  });

  test('the picks are those PICKCALENDAR makes of the plan’s own rows', () => {
    const picks = records(view('picks'));
    const calendarOf = records(
      cells(PICKCALENDAR, plan(), strains, START, START + picks.length - 1, 'strain'),
    );
    picks.forEach((row, day) => {
      expect(row['from plan']).toBeCloseTo(Number(calendarOf[day]!['total']), 9);
      expect(Number(row['from standing']) + Number(row['from plan'])).toBeCloseTo(Number(row['expected']), 9);
      expect(Number(row['Alder-3']) + Number(row['Birch-1'])).toBeCloseTo(Number(row['expected']), 9);
      expect(row['limit'] === 'none' ? 0 : row['spare']).toBeGreaterThanOrEqual(-1e-6);
    });
    expect(sum(picks, 'from plan')).toBeGreaterThan(50);
  });

  test('SHELFUSE finds no room over-full, with what stands counted in', () => {
    const rows = [
      ...plan().slice(1),
      ...standing.slice(1).map((row) => [row[0]!, '', row[2]!, row[1]!, row[3]!]),
    ];
    const all = [
      plan()[0]!,
      ...rows.map((row) => [...row, ...new Array<Cell>(plan()[0]!.length - row.length).fill(null)]),
    ];
    const use = records(cells(SHELFUSE, all, rooms, strains, START));
    expect(use.every(({ note }) => note === '' || note === 'shut')).toBe(true);
  });

  test('orders and lots add up', () => {
    const all = records(view('orders'));
    const planned = all.filter((row) => typeof row['planned'] === 'number');
    expect(all.filter((row) => !planned.includes(row)).map(({ cause }) => cause)).toEqual([
      'past',
      'after this plan',
    ]);
    for (const row of planned) {
      expect(Number(row['planned']) + Number(row['short'])).toBeCloseTo(Number(row['mass']), 9);
      expect(row['cause'] === '').toBe(row['short'] === 0);
    }
    for (const row of records(view('lots'))) {
      expect(Number(row['loaded']) + Number(row['waiting']) + Number(row['going over age'])).toBe(
        row['blocks'],
      );
    }
  });

  test('the parts of the shortage add up to it in the summary', () => {
    const summary = records(view('summary'));
    const parts = summary.filter(({ what }) => words(what!).startsWith('short for'));
    const short = summary.find(({ what }) => what === 'mass short')!['value'];
    expect(parts).toHaveLength(6);
    expect(sum(parts, 'value')).toBeCloseTo(Number(short), 6);
  });

  test('all views share one solution', async () => {
    const { solver, planning } = (await loadTools(['solver', 'planning'])) as Tools;
    const spies = (['open', 'solve', 'solveWhole'] as const).map((method) => jest.spyOn(solver!, method));
    const calls = (): number => spies.reduce((sum, { mock }) => sum + mock.calls.length, 0);
    const view = (name: string | undefined, settings: Grid): unknown => {
      const given = [lots, strains, rooms, orders, START, 21, calendar, standing, settings, undefined, name];
      return LOADPLAN.evaluate(grids(given), { tools: { solver, planning } });
    };
    try {
      const settings: Grid = [
        ['name', 'value'],
        ['comfort days', 3],
      ];
      view('plan', settings);
      const once = calls();
      expect(once).toBeGreaterThan(0);
      for (const name of ['picks', 'lots', 'plan', undefined]) view(name, settings);
      expect(calls()).toBe(once);
      view('summary', settings);
      // The causes: eight programmes with limits set free, and two that tell picking from loading.
      expect(calls()).toBe(once + 10);
      view('orders', settings);
      const all = calls();
      for (const name of ['orders', 'summary', 'plan']) view(name, settings);
      expect(calls()).toBe(all);
    } finally {
      spies.forEach((spy) => spy.mockRestore());
    }
  });

  test('without a solver a rule of thumb makes the plan, which is not kept for the call that has one', async () => {
    const { solver, planning } = (await loadTools(['solver', 'planning'])) as Tools;
    const settings: Grid = [
      ['name', 'value'],
      ['comfort days', 4],
    ];
    const method = (tools: Partial<Tools>): unknown => {
      const given = [
        lots,
        strains,
        rooms,
        orders,
        START,
        21,
        calendar,
        standing,
        settings,
        undefined,
        'summary',
      ];
      return plainValues(LOADPLAN.evaluate(grids(given), { tools })).find(([what]) => what === 'method')![1];
    };
    expect(method({ solver: null, planning })).toBe('rule of thumb');
    expect(method({ solver, planning })).toBe('linear programme');
  });

  test('the plan given back as the previous one moves no block', () => {
    const again = view('summary', plan());
    expect(records(again).find(({ what }) => what === 'blocks moved')!['value']).toBe(0);
    expect(view('plan', plan())).toEqual(plan());
  });

  test('blocks that the plan before opens on a day and this plan does not count as moved', () => {
    // A-03 is ripe for the first time 78 days after inoculation and later: nothing of it is opened on the first day.
    // Loads of days before the start or behind the end are no part of this plan.
    const [header] = plan();
    const load = (loaded: number, blocks: number): Cell[] =>
      header!.map((name) => ({ loaded, lot: 'A-03', strain: 'Alder-3', room: 'North', blocks })[words(name)] ?? null); // prettier-ignore
    const summary = records(
      view('summary', [header!, load(START - 3, 5), load(START, 7), load(START + 30, 9)]),
    );
    expect(summary.find(({ what }) => what === 'blocks moved')!['value']).toBe(7);
  });

  test('headers in another case and order, rows turned round and blank rows change nothing', () => {
    const turned = (table: Grid): Grid =>
      [
        table[0]!.map((header) => words(header).toUpperCase()),
        ...[...table.slice(1)].reverse(),
        table[0]!.map(() => null),
      ].map((row) => [...row].reverse());
    const other = cells(
      LOADPLAN,
      ...[lots, strains, rooms, orders].map(turned),
      START,
      21,
      turned(calendar),
      turned(standing),
    );
    expect(other).toEqual(plan());
  });
});

test('what an order has been given from the cold store is not planned again', () => {
  const given = (mass: number): Grid => [
    [...orders[0]!, 'given'],
    ...orders.slice(1, 6).map((row, n) => [...row, n === 0 ? mass : null]),
  ];
  const table = (view: string, mass: number): Record<string, Cell>[] =>
    records(
      cells(
        LOADPLAN,
        lots,
        strains,
        rooms,
        given(mass),
        START,
        21,
        calendar,
        standing,
        undefined,
        undefined,
        view,
      ),
    );
  const order = (mass: number): Record<string, Cell> => table('orders', mass)[0]!;
  expect([order(12)['mass'], order(12)['given']]).toEqual([30, 12]);
  expect(Number(order(12)['planned']) + Number(order(12)['short'])).toBeCloseTo(18, 9);
  expect(Number(order(30)['planned']) + Number(order(30)['short'])).toBe(0);
  expect(order(0)['given']).toBeUndefined();
  const value = (mass: number): number =>
    Number(table('summary', mass).find(({ what }) => what === 'order value')!['value']);
  expect(value(0) - value(12)).toBeCloseTo(12 * 12, 9);
});

test('strains that say their spread get chances, the mass that one day in ten exceeds, and what it costs', () => {
  const spread: Grid = strains.map((row, n) =>
    n === 0 ? [...row, 'yield spread', 'pick spread', 'ready spread'] : [...row, 0.25, 1.2, 2],
  );
  const settings: Grid = [
    ['name', 'value'],
    ['scenarios', 8],
  ];
  const table = (view: string): Record<string, Cell>[] =>
    records(
      cells(LOADPLAN, lots, spread, rooms, orders, START, 21, calendar, standing, settings, undefined, view),
    );
  for (const { chance, planned } of table('orders')) {
    if (typeof planned !== 'number') continue;
    expect(Number(chance) * 8).toBeCloseTo(Math.round(Number(chance) * 8), 9);
  }
  const picks = table('picks');
  expect(sum(picks, 'one in ten')).toBeGreaterThan(1.2 * sum(picks, 'expected'));
  const said = table('summary').map(({ what }) => what);
  expect(said).toContain('possible seasons');
  expect(said).toContain('days over by a tenth in the mean');
  expect(records(view('orders'))[0]).not.toHaveProperty('chance');
});

test('a service level is told in the summary: kept, out of reach, or without spreads of no effect', () => {
  const spread: Grid = strains.map((row, n) => (n === 0 ? [...row, 'yield spread'] : [...row, 0.25]));
  const doubled = orders.map((row, n) => (n === 0 ? row : [row[0]!, 2 * Number(row[1]), ...row.slice(2)]));
  const told = (level: number, given: Grid, wanted: Grid = orders): unknown[] => {
    const settings: Grid = [
      ['name', 'value'],
      ['scenarios', 8],
      ['service level', level],
      ['overtime cost', 'none'],
    ];
    const rows = records(
      cells(
        LOADPLAN,
        lots,
        given,
        rooms,
        wanted,
        START,
        21,
        calendar,
        standing,
        settings,
        undefined,
        'summary',
      ),
    );
    expect(rows.every(({ value }) => typeof value !== 'number' || Number.isFinite(value))).toBe(true);
    const line = rows.find(({ what }) => what === 'orders filled in the mean')!;
    return [line['value'], line['note']];
  };
  const share = Number.parseFloat(String(told(0.5, spread)[0])) / 100;
  expect(share).toBeGreaterThan(0.5);
  expect(told(0.5, spread)[1]).toBe('of their value: the service level of 50% is kept');
  expect(told(0.999, spread, doubled)[1]).toBe(
    'of their value: the service level of 99.9% is missed; the view worth says what would help',
  );
  expect(told(0.9, strains)).toEqual([
    '',
    'a service level counts only where strains have a yield spread, pick spread or ready spread',
  ]);
});

test('what a load has given corrects what it will give', () => {
  const told = (first: Cell, picked: Cell): Cell[] => {
    const standing: Grid = [
      ['loaded', 'room', 'strain', 'blocks', 'block mass', 'moisture', 'first picked', 'picked'],
      [START - 12, 'South', 'Alder-3', 50, 2.5, 0.6, first, picked],
    ];
    const plan = cells(
      LOADPLAN,
      lots,
      strains,
      rooms,
      orders,
      START,
      21,
      calendar,
      standing,
      undefined,
      undefined,
      'picks',
    );
    return records(plan).map((row) => row['from standing']!);
  };
  const days = (masses: Cell[]): number[] => masses.flatMap((mass, day) => (Number(mass) > 0 ? [day] : []));
  const total = (masses: Cell[]): number => masses.reduce<number>((all, mass) => all + Number(mass), 0);
  expect(days(told(null, null))).toEqual([9, 10, 11, 12]);
  // Two days late: the last day of the first flush is still to come.
  expect(days(told(START - 3, null))).toEqual([0, 11, 12, 13, 14]);
  // 65% of 38.8 kg is picked in the first flush: 12.6 is half of it.
  expect(total(told(null, 12.61)) / total(told(null, null))).toBeCloseTo(1 - 0.5 * (0.65 / 0.8), 3);
});

test('frozen loads that would break a rule by now are cut down, and the summary says which and why', () => {
  const before: Grid = [
    ['loaded', 'lot', 'room', 'blocks'],
    [START, 'A-01', 'North', 90],
    [START, 'B-03', 'North', 20],
    [START + 1, 'A-01', 'North', 50],
    [START + 1, 'B-09', 'North', 5],
    [START + 2, 'A-01', 'Annex', 10],
    [START + 6, 'A-01', 'North', 10],
  ];
  const settings: Grid = [
    ['name', 'value'],
    ['freeze days', 7],
  ];
  const freely: Grid = [
    ['day', 'pick limit', 'load limit'],
    ['Sunday', 'none', 'off'],
  ];
  const given = [lots, strains, rooms, orders, START, 21, freely, standing, settings, before];
  const summary = records(cells(LOADPLAN, ...given, 'summary'));
  const line = summary.find(({ what }) => what === 'frozen blocks not kept')!;
  // A-01 has 120 blocks, B-03 is ripe later, B-09 is no lot, Annex is for Birch-1, nothing is loaded on a Sunday.
  expect(line).toEqual({
    what: 'frozen blocks not kept',
    value: 20 + 20 + 5 + 10 + 10,
    note:
      '20 of B-03 in North: not ripe, or over age; 20 of A-01 in North: too few blocks in the lot; ' +
      '5 of B-09 in North: lot not known; 10 of A-01 in Annex: strain not allowed in the room; ' +
      '10 of A-01 in North: too many blocks to load',
  });
  const broken = records(
    cells(CHECKLOADS, cells(LOADPLAN, ...given, 'plan'), lots, strains, rooms, orders, freely, standing),
  );
  expect(broken.filter(({ rule }) => rule !== 'order short' && rule !== 'none broken')).toEqual([]);
});

test('an order for a product that nobody grows is told so, and not to plan more days, however late it is due', () => {
  const late: Grid = [orders[0]!, ['Hazel-9', 20, START + 60, null, 12], ['box', 20, START + 60, null, 12]];
  const told = records(
    cells(
      LOADPLAN,
      lots,
      strains,
      rooms,
      late,
      START,
      21,
      calendar,
      standing,
      undefined,
      undefined,
      'orders',
    ),
  );
  expect(told.map(({ product, cause, ...row }) => [product, cause, row['what would close it']])).toEqual([
    ['Hazel-9', 'no lot for it', 'no lot in lots is of this product or strain'],
    ['box', 'after this plan', 'loads after the last day of this plan can still fill it: plan more days'],
  ]);
});

test('PICKCALENDAR heads one column for a product in any letter case', () => {
  const loads: Grid = [
    ['loaded', 'strain', 'blocks', 'block mass', 'moisture', 'product'],
    [START, 'Birch-1', 10, 2.2, 0.62, 'Box'],
    [START, 'Birch-1', 10, 2.2, 0.62, 'box'],
  ];
  expect(cells(PICKCALENDAR, loads, strains, undefined, undefined, 'product')[0]).toEqual([
    'date',
    'total',
    'Box',
  ]);
});

describe('dates in faults are written out', () => {
  const said = (f: WorksheetFunction, ...given: Argument[]): string => {
    const fault = cells(f, ...given)[0]![0];
    return isCellError(fault) ? fault.reason : 'no fault';
  };
  const late: Grid = [orders[0]!, ['Alder-3', 30, START + 10, null, 12]].map((row, n) => [
    ...row,
    n === 0 ? 'from' : START + 11,
  ]);
  const ripe: Grid = [
    ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'earliest', 'best', 'latest'],
    ['A-01', 'Alder-3', 120, 2.5, 0.6, START + 3, START, START + 9],
  ];
  const twice: Grid = [calendar[0]!, [START, 10, 'off'], [START, 12, 'none']];

  test('in LOADPLAN and SHELFUSE', () => {
    expect(said(LOADPLAN, lots, strains, rooms, late, START, 21)).toBe(
      'due in orders must not be before from (2026-05-15); it is 2026-05-14 (row 2 of orders)',
    );
    expect(said(LOADPLAN, ripe, strains, rooms, orders, START, 21)).toBe(
      'best in lots must not be before earliest (2026-05-07); it is 2026-05-04 (row 2 of lots)',
    );
    expect(said(LOADPLAN, lots, strains, rooms, orders, START, 21, twice)).toBe(
      'day in calendar: 2026-05-04 must be in one row; it is in rows 2 and 3 (row 3 of calendar)',
    );
    expect(said(SHELFUSE, standing, rooms, strains, START, START - 1)).toBe(
      'to must not be before from (2026-05-04); it is 2026-05-03',
    );
  });
});

describe('BACKPLAN is a list of things to do', () => {
  test('no line starts 0 units: where stock is all that is needed it says to use it', () => {
    const list = records(
      cells(
        BACKPLAN,
        [
          ['product', 'mass', 'from', 'due'],
          ['Birch-1', 9, START + 8, START + 9],
        ],
        [
          ['strain', 'best', 'first pick', 'pick days', 'efficiency', 'loss', 'block mass', 'moisture'],
          ['Birch-1', 70, 6, 2, 0.5, 0.1, 2.5, 0.6],
        ],
        [
          ['step', 'makes', 'days', 'loss'],
          ['grain bag', 12, 21, 0.03],
          ['block', null, 70, 0.04],
        ],
        [
          ['strain', 'step', 'units', 'ready'],
          ['Birch-1', 'block', 25, START - 3],
        ],
      ),
    );
    expect(list.map(({ date, task, step, units, good }) => [date, task, step, units, good])).toEqual([
      [START + 2, 'use stock', 'block', 20, 20],
      [START + 2, 'load', 'block', 20, 20],
    ]);
  });

  // By hand: a block gives 2.5 × 0.4 × 0.5 = 0.5 kg on two days. One of them is in time: 10 kg take 40 blocks, not 20.
  test('a load that is picked on other days too says so, since it takes more blocks', () => {
    const list = records(
      cells(
        BACKPLAN,
        [
          ['product', 'mass', 'from', 'due'],
          ['Birch-1', 10, START + 9, START + 9],
        ],
        [
          ['strain', 'best', 'first pick', 'pick days', 'efficiency', 'block mass', 'moisture'],
          ['Birch-1', 70, 6, 2, 0.5, 2.5, 0.6],
        ],
        [
          ['step', 'makes', 'days'],
          ['block', null, 70],
        ],
      ),
    );
    expect(list.map(({ task, units, note }) => [task, units, note])).toContainEqual([
      'load',
      40,
      '50% of its picking is outside the order’s days',
    ]);
  });
});
