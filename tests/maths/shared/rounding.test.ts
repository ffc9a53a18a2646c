import { expect, test } from '@jest/globals';
import { wholeUnitsFor, wholeUnitsIn } from '../../../src/maths/shared/rounding';

// By hand; 0.7 × 30 and 0.1 × 30 and the like miss a whole number by their last digits. The allowance is 1e-9 of the
// value, so 0.002 of three million, and 1e-9 itself below 1.
test.each([
  [0, 0, 0],
  [11.5, 12, 11],
  [12, 12, 12],
  [12.000000000000002, 12, 12],
  [11.999999999999998, 12, 12],
  [12.001, 13, 12],
  [11.999, 12, 11],
  [0.5, 1, 0],
  [5e-10, 0, 0],
  [3_000_000.002, 3_000_000, 3_000_000],
  [2_999_999.998, 3_000_000, 3_000_000],
  [3_000_000.01, 3_000_001, 3_000_000],
  [2_999_999.99, 3_000_000, 2_999_999],
])('%d takes %d whole units and holds %d', (value, needed, held) => {
  expect([wholeUnitsFor(value), wholeUnitsIn(value)]).toEqual([needed, held]);
});
