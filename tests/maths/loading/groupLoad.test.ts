import { expect, test } from '@jest/globals';
import { addedUp, lotDayKey, slotKey } from '../../../src/maths/loading/groupLoad';

test('addedUp(loads) joins the loads of one slot, in the order in which slots first come', () => {
  const loads = [
    { lot: 1, day: 2, group: 0, blocks: 5 },
    { lot: 1, day: 2, group: 1, blocks: 7 },
    { lot: 1, day: 2, group: 0, blocks: 3 },
  ];
  expect(addedUp(loads)).toEqual([
    { lot: 1, day: 2, group: 0, blocks: 8 },
    { lot: 1, day: 2, group: 1, blocks: 7 },
  ]);
  expect(addedUp([])).toEqual([]);
});

test('slotKey(slot) differs where lot, day or group does, and does not see blocks', () => {
  const slot = { lot: 1, day: 12, group: 3 };
  const others = [
    { ...slot, lot: 11, day: 2 },
    { ...slot, day: 1 },
    { ...slot, group: 1 },
  ];
  expect(new Set([slot, ...others].map(slotKey)).size).toBe(4);
  expect(slotKey({ ...slot, ...{ blocks: 9 } })).toBe(slotKey(slot));
});

test('lotDayKey(load) reads labels as the worksheet does, and drops the time of day', () => {
  expect(lotDayKey({ lot: ' l-001', day: 46083.75 })).toBe(lotDayKey({ lot: 'L-001', day: 46083 }));
  expect(lotDayKey({ lot: 'L-001', day: 46083 })).not.toBe(lotDayKey({ lot: 'L-001', day: 46084 }));
});
