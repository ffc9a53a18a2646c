import { expect, test } from '@jest/globals';
import { newCaller } from '../../src/worksheet/call';

test('functions made ready at the same time each keep what they need', async () => {
  const caller = newCaller();
  const names = ['COMPARE', 'TODATES', 'YIELDAUDIT', 'CHEAPESTMIX', 'SHELFUSE'];
  await Promise.all(names.map((name) => caller.ready([name])));
  expect(names.filter((name) => !caller.isReady(name))).toEqual([]);
});
