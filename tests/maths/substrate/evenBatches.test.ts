import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { evenBatches } from '../../../src/maths/substrate/evenBatches';
import { expectFault, type Refusal } from '../expectFault';

describe('evenBatches(blocks, capacity) splits blocks over the fewest runs', () => {
  test.each([
    [100, 48, [34, 33, 33]],
    [96, 48, [48, 48]],
    [1, 48, [1]],
    [97, 48, [33, 32, 32]],
  ])('%p blocks by %p: %p', (blocks, capacity, runs) => {
    expect(evenBatches(blocks, capacity)).toEqual(runs);
  });

  test('all blocks are run, none over capacity, the runs as few and as even as can be', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 500 }), (blocks, capacity) => {
        const runs = evenBatches(blocks, capacity);
        expect(runs.reduce((sum, run) => sum + run, 0)).toBe(blocks);
        expect(runs[0]).toBeLessThanOrEqual(capacity);
        expect(runs[0]! - runs.at(-1)!).toBeLessThanOrEqual(1);
        expect((runs.length - 1) * capacity).toBeLessThan(blocks);
      }),
    );
  });

  test.each<[number, number, Refusal]>([
    [0, 10, ['blocks', 'outside', { from: 1, whole: true, given: 0 }]],
    [10, 0.5, ['capacity', 'outside', { from: 1, whole: true, given: 0.5 }]],
    [10, NaN, ['capacity', 'outside', { from: 1, whole: true, given: NaN }]],
    [1e9, 1, ['capacity', 'tooManyRuns', { blocks: 1e9, most: 10_000, capacity: 1 }]],
  ])('refuses (%p, %p)', (blocks, capacity, refusal) => {
    expectFault(() => evenBatches(blocks, capacity), refusal);
  });
});
