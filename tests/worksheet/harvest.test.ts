import { expect, test } from '@jest/globals';
import { plainValues } from '../../src/worksheet/cells/cell';
import { BIOEFFICIENCY } from '../../src/worksheet/harvest/bioEfficiency';
import { EXPECTEDYIELD } from '../../src/worksheet/harvest/expectedYield';
import { evaluate } from './prepared';

test('BIOEFFICIENCY refuses a blank number of blocks in its own row, and takes none for a failed crop', () => {
  const given = [[[24], [24], ['none']], [[2]], [[0.6]], [[30], [null], [30]]];
  expect(plainValues(evaluate(BIOEFFICIENCY, given))).toEqual([
    [1],
    [expect.objectContaining({ code: '#VALUE!', place: { argument: 'blocks', row: 2 } })],
    [0],
  ]);
});

test('EXPECTEDYIELD takes a share of 0 as 0', () => {
  const given = [[[100]], [[2]], [[0.5]], [[0.8]], null, [[0.7], [0.3], [0]]];
  const masses = plainValues(evaluate(EXPECTEDYIELD, given)).flat() as number[];
  [56, 24, 0].forEach((mass, i) => expect(masses[i]).toBeCloseTo(mass, 10));
});
