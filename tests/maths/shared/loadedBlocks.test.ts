import { expect, test } from '@jest/globals';
import { blocksLeft } from '../../../src/maths/shared/loadedBlocks';

// 46082 is 2026-03-01; from 30,000 on a figure is a date.
test.each([
  ['nothing loaded', undefined, undefined, 40],
  ['a date', 46082, undefined, 0],
  ['a date that is the last day', 46082.5, 46082, 0],
  ['a date after the last day', 46083, 46082, 40],
  ['a number of blocks', 15, 46082, 25],
  ['all blocks', 40, undefined, 0],
])('%s leaves the rest of 40 blocks', (_what, loaded, last, left) => {
  expect(blocksLeft({ blocks: 40, loaded }, last)).toBe(left);
});

test.each([41, 12.5, 29_999])('%d blocks of 40 are refused', (loaded) => {
  expect(() => blocksLeft({ blocks: 40, loaded })).toThrow('notLoaded');
});
