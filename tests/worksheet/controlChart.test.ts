import { beforeAll, expect, test } from '@jest/globals';
import { plainValues } from '../../src/worksheet/cells/cell';
import { CONTROLCHART } from '../../src/worksheet/audit/controlChart';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(CONTROLCHART));

test('CONTROLCHART draws what its kind says: the readings themselves, or the distance of each from the one before', () => {
  const readings = [10, 12, 9, 13].map((reading) => [reading]);
  const drawn = (kind: string | null) =>
    plainValues(evaluate(CONTROLCHART, [readings, kind === null ? null : [[kind]]])).map(
      ([plotted, centre]) => [plotted, centre],
    );
  // By hand: the mean of the readings is 11, that of the distances 2, 3 and 4 is 3.
  expect(drawn(null)).toEqual([10, 12, 9, 13].map((reading) => [reading, 11]));
  expect(drawn('individuals')).toEqual(drawn(null));
  expect(drawn('moving range')).toEqual(['', 2, 3, 4].map((distance) => [distance, 3]));
});
