import { describe, expect, test } from '@jest/globals';
import { COMPARE } from '../../src/worksheet/audit/compare';
import { catalogue } from '../../src/worksheet/catalogue';
import { plainValues, type Cell } from '../../src/worksheet/cells/cell';
import { evaluate, prepared } from './prepared';

const compare = async (rows: readonly (readonly [string, Cell])[]) => {
  await prepared(catalogue.find(({ name }) => name === COMPARE.name)!);
  return plainValues(evaluate(COMPARE, [rows.map(([group]) => [group]), rows.map(([, value]) => [value])]));
};

const trial = [
  ['Alder-3', 0.8],
  ['Alder-3', 0.7],
  ['Birch-1', 0.6],
  ['Birch-1', 0.5],
] as const;

describe('COMPARE', () => {
  test('leaves totals rows out and says how many', async () => {
    const plain = await compare(trial);
    expect(await compare([...trial, ['Total', 2.6], ['Subtotal', 1.5]])).toEqual([
      ...plain,
      ['totals rows', 2, '', '', '', '', '', '', 'left out'],
    ]);
  });

  test('tells how many rows had no value, a blank and a 0 alike', async () => {
    const plain = await compare(trial);
    expect(await compare([['Alder-3', null], ...trial, ['Birch-1', 0], ['Birch-1', '']])).toEqual([
      ...plain,
      ['rows without a value', 3, '', '', '', '', '', '', 'left out; for a crop that failed write none'],
    ]);
  });

  test('counts a crop that failed as 0', async () => {
    const rows = await compare([...trial, ['Birch-1', 'none']]);
    expect(rows[2]!.slice(0, 2)).toEqual(['Birch-1', 3]);
    expect(rows[2]![2]).toBeCloseTo(1.1 / 3, 12);
  });

  test('refuses groups that look the same but are not', async () => {
    const reason = 'groups: "Alder-3" and "Alder 3" look the same';
    expect(await compare([...trial, ['Alder 3', 0.8]])).toEqual([
      [expect.objectContaining({ code: '#VALUE!', reason: expect.stringContaining(reason) })],
    ]);
  });

  test('names in each test the number of values that it weighs', async () => {
    const rows = await compare([...trial, ['Cedar-2', 0.4]]);
    const counts = rows
      .filter(([what]) => typeof what === 'string' && what.startsWith('all equal?'))
      .map(([, n]) => n);
    expect(counts).toEqual([4, 5]);
    expect(rows[3]).toEqual(['Cedar-2', 1, 0.4, '', '', '', '', '', 'one value: no interval']);
  });
});
