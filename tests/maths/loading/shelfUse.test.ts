import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { isShut, shelfUse, type Room } from '../../../src/maths/loading/shelfUse';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault } from '../expectFault';

const room = (name: string, over: Partial<Room> = {}): Room => ({
  room: name,
  places: 100,
  closedFrom: undefined,
  closedTo: undefined,
  ...over,
});
const rooms = [room('North'), room('South', { places: 40, closedFrom: 20, closedTo: 25 })];

describe('shelfUse(loads, rooms, from, to) counts the blocks on the shelves', () => {
  test('a load takes places from its day to that of its last pick, both included', () => {
    const use = shelfUse([{ loaded: 10, room: 'north ', blocks: 30, stay: 3 }], rooms, 9, 13);
    expect(use.filter(({ room: name }) => name === 'North').map(({ blocks }) => blocks)).toEqual([
      0, 30, 30, 30, 0,
    ]);
    // Times of day make no other days.
    expect(shelfUse([{ loaded: 10.6, room: 'north ', blocks: 30, stay: 3 }], rooms, 9.7, 13.9)).toEqual(use);
  });

  test('a room shut from one day to another has no places on those days', () => {
    const use = shelfUse([{ loaded: 10, room: 'South', blocks: 1, stay: 20 }], rooms);
    const shut = use
      .filter(({ room: name, places }) => name === 'South' && places === 0)
      .map(({ day }) => day);
    expect(shut).toEqual([20, 21, 22, 23, 24, 25]);
  });

  test.each([
    [{}, false],
    [{ closedFrom: 50 }, true],
    [{ closedTo: 50 }, true],
    [{ closedFrom: 51 }, false],
    [{ closedFrom: 50.9, closedTo: 50.1 }, true],
  ])('a room with %p is shut on day 50: %p', (closed, shut) => {
    expect(isShut(room('North', closed), 50)).toBe(shut);
  });

  test('every room and day is the count of loads that stand there', () => {
    const loads = fc.array(
      fc.record({
        loaded: fc.integer({ min: 1, max: 30 }),
        room: fc.constantFrom('North', 'South'),
        blocks: fc.integer({ min: 1, max: 50 }),
        stay: fc.integer({ min: 1, max: 20 }),
      }),
      { minLength: 1, maxLength: 10 },
    );
    fc.assert(
      fc.property(loads, (given) => {
        for (const { day, room: name, blocks } of shelfUse(given, rooms)) {
          const standing = given.filter(
            (load) => load.room === name && day - load.loaded >= 0 && day - load.loaded < load.stay,
          );
          expect(blocks).toBe(standing.reduce((sum, load) => sum + load.blocks, 0));
        }
      }),
    );
  });

  test('refuses no loads, a room that is not there and days that go backwards', () => {
    const load = { loaded: 1, room: 'East', blocks: 1, stay: 1, at: 5 };
    expectFault(() => shelfUse([], rooms), ['loads', 'noLoads']);
    expectFault(
      () => shelfUse([load], rooms),
      ['loads, room', 'notIn', { label: 'East', table: 'rooms' }, { at: 5 }],
    );
    expectFault(
      () => shelfUse([load], rooms, 10, 9),
      ['to', 'notBefore', { other: 'from', date: dateOf(10), given: dateOf(9) }],
    );
  });
});
