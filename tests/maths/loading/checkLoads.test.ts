import { describe, expect, test } from '@jest/globals';
import { checkLoads, type BrokenRule, type LoadsToCheck } from '../../../src/maths/loading/checkLoads';
import type { Lot, PlanRoom } from '../../../src/maths/loading/loadingProblem';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { pattern } from './patterns';

/** Picked on the seventh to tenth day after loading, 0.25 kg a block and day. */
const curve = pickCurve(pattern());
const lot = (over: Partial<Lot> = {}): Lot => ({
  lot: 'A-1',
  strain: 'Alder-3',
  product: 'Alder-3',
  blocks: 50,
  earliest: 100,
  best: 105,
  latest: 110,
  notBefore: undefined,
  notAfter: undefined,
  yieldPerBlock: 1,
  curve,
  cost: 0,
  ...over,
});
const room = (over: Partial<PlanRoom> = {}): PlanRoom => ({
  room: 'North',
  places: 60,
  blocksPerShelf: 12,
  closedFrom: undefined,
  closedTo: undefined,
  strains: undefined,
  ...over,
});
const unlimited = { pick: Infinity, load: Infinity };
const farm = (over: Partial<LoadsToCheck> = {}): LoadsToCheck => ({
  loads: [{ lot: 'A-1', room: 'North', day: 104, blocks: 40 }],
  lots: [lot()],
  rooms: [room()],
  orders: [{ product: 'Alder-3', mass: 40, from: 110, due: 116, price: 1 }],
  standing: [],
  limitsOn: () => unlimited,
  settings: { turnRound: 0, margin: 0 },
  ...over,
});
const standing = (blocks: number): LoadsToCheck['standing'][number] => ({
  room: 'North',
  strain: 'Alder-3',
  product: 'Alder-3',
  loaded: 102,
  blocks,
  yieldPerBlock: 1,
  curve,
});

describe('checkLoads(check) names every rule that is broken', () => {
  test('a plan that keeps all rules breaks none', () => {
    expect(checkLoads(farm())).toEqual([]);
  });

  const load = { lot: 'A-1', room: 'North', day: 104, blocks: 40 };
  const closed = { closedFrom: 113, closedTo: 120 };
  const cases: readonly (readonly [over: Partial<LoadsToCheck>, broken: BrokenRule])[] = [
    [
      { loads: [load, { ...load, lot: 'B-2', blocks: 1 }] },
      { rule: 'lot not known', day: 104, subject: 'B-2', found: 1, allowed: 0 },
    ],
    [
      { loads: [{ ...load, room: 'East' }] },
      { rule: 'room not known', day: 104, subject: 'East', found: 40, allowed: 0 },
    ],
    [
      { loads: [load, { ...load, day: 105, blocks: 11 }], orders: [] },
      { rule: 'more blocks than the lot has', day: undefined, subject: 'A-1', found: 51, allowed: 50 },
    ],
    [
      { loads: [{ ...load, day: 99 }], orders: [] },
      { rule: 'opened too early', day: 99, subject: 'A-1', found: 99, allowed: 100 },
    ],
    [
      { lots: [lot({ notBefore: 106 })] },
      { rule: 'opened too early', day: 104, subject: 'A-1', found: 104, allowed: 106 },
    ],
    [
      { loads: [{ ...load, day: 111 }], orders: [] },
      { rule: 'opened too late', day: 111, subject: 'A-1', found: 111, allowed: 110 },
    ],
    [
      { lots: [lot({ notAfter: 103 })] },
      { rule: 'opened too late', day: 104, subject: 'A-1', found: 104, allowed: 103 },
    ],
    [
      { rooms: [room({ strains: ['Birch-1'] })] },
      {
        rule: 'strain not allowed in the room',
        day: 104,
        subject: 'North',
        found: 40,
        allowed: 0,
        strain: 'Alder-3',
      },
    ],
    // Loaded on 104 and picked until 114, so inside on the first two days of the closure.
    [
      { rooms: [room(closed)] },
      { rule: 'room shut', day: 113, subject: 'North', found: 40, allowed: 0, days: 2 },
    ],
    // 25 blocks loaded on 102 are picked until 112: nine days with 65.
    [
      { standing: [standing(25)] },
      { rule: 'room over-full', day: 104, subject: 'North', found: 65, allowed: 60, days: 9 },
    ],
    [
      { limitsOn: () => ({ pick: Infinity, load: 39 }) },
      { rule: 'too many blocks to load', day: 104, subject: 'loading', found: 40, allowed: 39 },
    ],
    [
      { limitsOn: () => ({ pick: Infinity, load: 0 }) },
      { rule: 'too many blocks to load', day: 104, subject: 'loading', found: 40, allowed: 0 },
    ],
    [
      { loads: [{ ...load, blocks: 30 }] },
      { rule: 'order short', day: 116, subject: 'Alder-3', found: 30, allowed: 40 },
    ],
  ];
  test.each(cases.map(([over, broken]) => [broken.rule, over, broken] as const))('%s', (_, over, broken) => {
    const isMeant = ({ rule }: BrokenRule): boolean =>
      rule !== 'order short' || broken.rule === 'order short';
    expect(checkLoads(farm(over)).filter(isMeant)).toEqual([broken]);
  });

  test('orders are judged with the margin taken off, picking is not; places stay taken while they are cleaned', () => {
    // 40 blocks give 40 kg in all, 10 kg a day; 10% lower they fill 36 of 40.
    const asked = farm({
      limitsOn: () => ({ pick: 9.5, load: Infinity }),
      settings: { turnRound: 2, margin: 0.1 },
    });
    expect(checkLoads({ ...asked, rooms: [room({ closedFrom: 116, closedTo: 120 })] })).toMatchObject([
      { rule: 'room shut', day: 116 },
      { rule: 'too much to pick', day: 111, found: 10 },
      { rule: 'too much to pick', day: 112 },
      { rule: 'too much to pick', day: 113 },
      { rule: 'too much to pick', day: 114 },
      { rule: 'order short', found: 36, allowed: 40 },
    ]);
    expect(checkLoads({ ...farm(), rooms: [room({ closedFrom: 116, closedTo: 120 })] })).toEqual([]);
  });

  test('too much to pick: one line a day, standing loads included', () => {
    // 40 blocks give 10 a day on days 111 to 114; 8 blocks loaded on 102 give 2 on 109 to 112.
    const broken = checkLoads(
      farm({ standing: [standing(8)], limitsOn: () => ({ pick: 11, load: Infinity }) }),
    );
    expect(broken.map(({ rule, day, found }) => [rule, day, found])).toEqual([
      ['too much to pick', 111, 12],
      ['too much to pick', 112, 12],
    ]);
  });

  test('a limit that standing loads pass by themselves is not the plan’s fault until it adds to them', () => {
    const limitsOn = (): { pick: number; load: number } => ({ pick: 1, load: Infinity });
    expect(checkLoads(farm({ loads: [], standing: [standing(8)], orders: [], limitsOn }))).toEqual([]);
  });
});
