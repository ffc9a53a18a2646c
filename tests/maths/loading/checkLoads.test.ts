import { describe, expect, test } from '@jest/globals';
import { checkLoads, type LoadsToCheck } from '../../../src/maths/loading/checkLoads';
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
  test.each<[string, Partial<LoadsToCheck>, string]>([
    ['lot not known', { loads: [load, { ...load, lot: 'B-2', blocks: 1 }] }, 'B-2 is not in lots'],
    ['room not known', { loads: [{ ...load, room: 'East' }] }, 'East is not in rooms'],
    [
      'more blocks than the lot has',
      { loads: [load, { ...load, day: 105, blocks: 11 }], orders: [] },
      'A-1 has 50 blocks, 51 are loaded',
    ],
    [
      'opened too early',
      { loads: [{ ...load, day: 99 }], orders: [] },
      'A-1 is opened 1 day before it may be',
    ],
    ['opened too early', { lots: [lot({ notBefore: 106 })] }, 'A-1 is opened 2 days before it may be'],
    [
      'opened too late',
      { loads: [{ ...load, day: 111 }], orders: [] },
      'A-1 is opened 1 day after its last day',
    ],
    ['opened too late', { lots: [lot({ notAfter: 103 })] }, 'A-1 is opened 1 day after its last day'],
    [
      'strain not allowed in the room',
      { rooms: [room({ strains: ['Birch-1'] })] },
      'North does not take Alder-3',
    ],
    [
      'room shut',
      { rooms: [room({ closedFrom: 113, closedTo: 120 })] },
      'North is shut with up to 40 blocks inside for 2 days',
    ],
    [
      'room over-full',
      { standing: [standing(25)], limitsOn: () => unlimited },
      'North has 60 places and holds up to 65 blocks for 9 days',
    ],
    [
      'too many blocks to load',
      { limitsOn: () => ({ pick: Infinity, load: 39 }) },
      '40 blocks are planned, 39 can be loaded',
    ],
    [
      'too many blocks to load',
      { limitsOn: () => ({ pick: Infinity, load: 0 }) },
      'no loading is done on this day, 40 blocks are planned',
    ],
    ['order short', { loads: [{ ...load, blocks: 30 }] }, '30 of 40 is filled, 10 short'],
  ])('%s', (rule, over, sentence) => {
    const broken = checkLoads(farm(over));
    expect(broken.filter((one) => one.rule !== 'order short' || rule === 'order short')).toMatchObject([
      { rule, sentence },
    ]);
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
      { rule: 'order short', found: 36, sentence: '36 of 40 is filled, 4 short with yields taken 10% lower' },
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
