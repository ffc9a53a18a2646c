import { beforeAll, describe, expect, test } from '@jest/globals';
import { isFormatted, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { calendar, lots, orders, rooms, standing, START, strains } from './loadingFarm';
import { evaluate, prepared } from './prepared';

// The view board beside a recount of what the view plan loads. Days on the shelf by hand from the strains: Alder-3 is
// picked for the last time on day 7 + 14 + 4 − 1 = 24 after loading, so it stays 25 days; Birch-1 on day 6 + 3 − 1, 9.

const DAYS = 21;
const STAY: Readonly<Record<string, number>> = { 'Alder-3': 25, 'Birch-1': 9 };

beforeAll(() => prepared(LOADPLAN));

function farm(view: string, shut = rooms, settings: Grid | null = null): (Grid | null)[] {
  const cell = (one: Cell): Grid => [[one]];
  return [
    lots,
    strains,
    shut,
    orders,
    cell(START),
    cell(DAYS),
    calendar,
    standing,
    settings,
    null,
    cell(view),
  ];
}
const shown = (...given: Parameters<typeof farm>): Cell[][] =>
  plainValues(evaluate(LOADPLAN, farm(...given)));

interface Counted {
  readonly places: number;
  readonly closed: readonly [number, number];
  readonly blocks: number[];
  readonly taken: number[];
}

/** Blocks and taken places of each room by a plain loop over the rows of the plan and of what is standing. */
function recounted(shut: Grid, turnRound: number, settings: Grid | null): Map<Cell, Counted> {
  const loads = [
    ...shown('plan', shut, settings)
      .slice(1)
      .filter(([loaded]) => typeof loaded === 'number')
      .map(([loaded, , strain, room, blocks]) => [loaded, room, strain, blocks]),
    ...standing.slice(1),
  ];
  const found = new Map<Cell, Counted>();
  for (const [room, shelves, perShelf, from, to] of shut.slice(1)) {
    found.set(room!, {
      places: Number(shelves) * Number(perShelf),
      closed: [Number(from ?? Infinity), Number(to ?? -Infinity)],
      blocks: new Array<number>(DAYS).fill(0),
      taken: new Array<number>(DAYS).fill(0),
    });
  }
  for (const [loaded, room, strain, blocks] of loads) {
    for (let day = 0; day < DAYS; day++) {
      const after = START + day - Number(loaded);
      const stay = STAY[strain as string]!;
      if (after >= 0 && after < stay) found.get(room!)!.blocks[day]! += Number(blocks);
      if (after >= 0 && after < stay + turnRound) found.get(room!)!.taken[day]! += Number(blocks);
    }
  }
  return found;
}

/** The same farm with South shut inside the days of the plan, and one room shut throughout. */
const closures: Grid = [
  rooms[0]!,
  rooms[1]!,
  ['South', 14, 12, START + 14, START + 16, null],
  rooms[3]!,
  ['Vault', 3, 10, START - 30, START + 90, null],
];

describe.each([
  ['as it is', rooms, 0],
  ['with rooms shut', closures, 0],
  ['with two days of turn-round', rooms, 2],
] as const)('LOADPLAN’s view board of a farm %s', (_how, shut, turnRound) => {
  const settings: Grid | null =
    turnRound === 0
      ? null
      : [
          ['name', 'value'],
          ['turn-round days', turnRound],
        ];

  test('has the blocks on the shelves and the places free that a recount of the plan’s loads gives', () => {
    const counted = recounted(shut, turnRound, settings);
    const [head, ...rows] = shown('board', shut, settings);
    expect(head).toEqual([
      'what',
      'room',
      'places',
      ...Array.from({ length: DAYS }, (_, day) => START + day),
    ]);
    const wanted = ['on shelves', 'free'].flatMap((what) =>
      [...counted].map(
        ([
          room,
          {
            places,
            closed: [from, to],
            blocks,
            taken,
          },
        ]) => [
          what,
          room,
          places,
          ...blocks.map((count, day) => {
            const isShut = START + day >= from && START + day <= to;
            if (what === 'free') return isShut ? 'closed' : places - taken[day]!;
            return isShut && count === 0 ? 'closed' : count;
          }),
        ],
      ),
    );
    expect(rows).toEqual(wanted);
    expect(rows.flat().filter((cell) => typeof cell === 'number' && cell > 0).length).toBeGreaterThan(60);
  });
});

test('the days that head the view board are dates, and a board without a load is all free', () => {
  const empty = evaluate(LOADPLAN, [
    ...[[lots[0]!], strains, rooms, orders, [[START]], [[3]]],
    ...[null, null, null, null, [['board']]],
  ]);
  expect(empty.rows[0]!.slice(3)).toEqual([0, 1, 2].map((day) => ({ value: START + day, format: 'date' })));
  expect(empty.rows[0]!.filter(isFormatted).length).toBe(3);
  expect(empty.rows.slice(1).map((row) => row.slice(3))).toEqual([
    ...[0, 1, 2].map(() => [0, 0, 0]),
    [240, 240, 240],
    [168, 168, 168],
    [60, 60, 60],
  ]);
});

test('blocks that stand in a room while it is shut are still counted, and no place is free', () => {
  const shut: Grid = [rooms[0]!, ['North', 20, 12, START + 3, START + 4, null], ...rooms.slice(2)];
  const [, onShelves, , , free] = shown('board', shut);
  // 60 blocks of the first standing load, loaded six days before the start.
  expect(onShelves!.slice(6, 8)).toEqual([60, 60]);
  expect(free!.slice(6, 8)).toEqual(['closed', 'closed']);
});
