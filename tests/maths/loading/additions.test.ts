import { expect, test } from '@jest/globals';
import { withAdditions } from '../../../src/maths/loading/additions';
import { instance, START } from './instances';

const farm = instance(1, { lots: 3, days: 7, rooms: 2, strains: 2, products: 2 });

test('withAdditions(problem, additions): ripe blocks are of the lot that they are like, and ripe on that day alone', () => {
  for (const like of farm.lots) {
    const addition = { of: 'ripe blocks', like: like.lot.toLowerCase(), day: START + 2, blocks: 5 } as const;
    const { lots } = withAdditions(farm, [addition]);
    const { lot, ...added } = lots.at(-1)!;
    const { lot: _lot, ...own } = like;
    const days = { earliest: START + 2, best: START + 2, latest: START + 2 };
    expect(added).toEqual({ ...own, ...days, notBefore: undefined, notAfter: undefined, blocks: 5 });
    expect(farm.lots.map((one) => one.lot)).not.toContain(lot);
    expect(lots.slice(0, -1)).toEqual(farm.lots);
  }
});

test('withAdditions(problem, additions) changes the one room, the one day and the one order that are named, and nothing else', () => {
  const [first, second] = farm.rooms;
  const { rooms } = withAdditions(farm, [{ of: 'places', room: second!.room, shelves: 2 }]);
  expect(rooms).toEqual([first, { ...second, places: second!.places + 2 * second!.blocksPerShelf }]);
  const limits = withAdditions(farm, [
    { of: 'picking', day: START + 1, mass: 3 },
    { of: 'loading', day: START + 2, blocks: 4 },
  ]);
  const [before, after] = [farm, limits].map((one) =>
    [0, 1, 2, 3].map((day) => one.limitsOn(START + day)),
  ) as [ReturnType<typeof farm.limitsOn>[], ReturnType<typeof farm.limitsOn>[]];
  expect(after.map(({ pick }, day) => pick - before[day]!.pick)).toEqual([0, 3, 0, 0]);
  expect(after.map(({ load }, day) => (before[day]!.load === load ? 0 : load - before[day]!.load))).toEqual([
    0, 0, 4, 0,
  ]);
  const [order, ...others] = farm.orders;
  const given = withAdditions(farm, [{ of: 'given', order: order!, mass: 1 }]);
  expect(given.orders).toEqual([
    { ...order, mass: order!.mass - 1, given: (order!.given ?? 0) + 1 },
    ...others,
  ]);
});
