import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { picksAfterLoading, pickCurve, type FlushPattern } from '../../../src/maths/loading/pickCurve';
import { shareOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';
import { pattern, patterns } from './patterns';

describe('pickCurve(pattern) spreads a block’s yield over the days after loading', () => {
  // Royse, D. J. & Sanchez, J. E. (2007): a crop of 87 days is 21 + 28 days of run and browning and 38 days of
  // picking in 3 breaks, 12.7 days a break. With breaks 12.7 days apart the third starts 25.4 days after the first.
  test('three breaks 12.7 days apart start on whole days', () => {
    const { shares, stay } = pickCurve(
      pattern({ firstPick: 0, pickDays: 12.6, flushGap: 12.7, flushes: 3, shares: [0.5, 0.3, 0.2] }),
    );
    expect(stay).toBe(38);
    expect(shares[12]).toBeCloseTo(0.5 / 13, 12);
    expect(shares[25]).toBeCloseTo((0.3 + 0.2) / 13, 12);
    expect(shares[37]).toBeCloseTo(0.2 / 13, 12);
  });

  test('one flush without shares is the whole yield', () => {
    expect(pickCurve(pattern()).shares).toEqual([0, 0, 0, 0, 0, 0, 0, 0.25, 0.25, 0.25, 0.25]);
  });

  test('left out, the number of flushes is that of the shares', () => {
    const curve = pickCurve(pattern({ flushes: undefined, flushGap: 10, shares: [0.7, 0.3, undefined] }));
    expect(curve.stay).toBe(7 + 10 + 4);
  });

  test('every share falls in its flush’s days, and nothing is lost', () => {
    fc.assert(
      fc.property(patterns, (given) => {
        const { shares, stay, firstPick } = pickCurve(given);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        expect(firstPick).toBe(given.firstPick);
        expect(shares.slice(0, firstPick).every((share) => share === 0)).toBe(true);
        expect(shares).toHaveLength(stay);
        expect(shares[stay - 1]).toBeGreaterThan(0);
      }),
    );
  });

  const strain = 'Alder-3';
  const at = { at: 4 };
  test.each<[Partial<FlushPattern>, Refusal]>([
    [{ firstPick: -1 }, ['strains, first pick', 'outside', { from: 0, given: -1 }, at]],
    [{ pickDays: 0 }, ['strains, pick days', 'outside', { above: 0, given: 0 }, at]],
    [{ flushes: 1.5 }, ['strains, flushes', 'outside', { from: 1, whole: true, given: 1.5 }, at]],
    [{ flushes: 2 }, ['strains', 'noFlushGap', { strain, flushes: 2 }, at]],
    [
      { flushes: 2, flushGap: 9, shares: [0.6] },
      ['strains', 'noFlushShare', { strain, flushes: 2, flush: 2 }, at],
    ],
    // All would fall on the first flush, or a flush would be lost, if a blank share were passed over.
    [
      { flushes: undefined, flushGap: 9, shares: [undefined, 0.4] },
      ['strains', 'noFlushShare', { strain, flushes: 2, flush: 1 }, at],
    ],
    [
      { flushes: undefined, flushGap: 9, shares: [0.5, undefined, 0.2] },
      ['strains', 'noFlushShare', { strain, flushes: 3, flush: 2 }, at],
    ],
    [
      { flushes: 1, shares: [undefined, 0.4] },
      ['strains', 'noFlushShare', { strain, flushes: 1, flush: 1 }, at],
    ],
    // An array of the flushes alone would not fit into memory.
    [
      { flushes: 1e15, flushGap: 1e-13, shares: [0.6] },
      ['strains', 'noFlushShare', { strain, flushes: 1e15, flush: 2 }, at],
    ],
    [
      { flushes: 2, flushGap: 9, shares: [0.6, 0.5] },
      ['strains', 'flushShares', { strain, total: shareOf(1.1) }, at],
    ],
    [{ shares: [0] }, ['strains', 'flushShares', { strain, total: shareOf(0) }, at]],
    [
      { firstPick: 1000 },
      ['strains, last pick', 'outside', { to: 1000, given: 1004, what: 'counted from loading' }, at],
    ],
    [{ firstPick: NaN }, ['strains, first pick', 'outside', { from: 0, given: NaN }, at]],
  ])('refuses %p', (wrong, refusal) => {
    expectFault(() => pickCurve(pattern({ ...wrong, at: 4 })), refusal);
  });
});

test('picksAfterLoading(curve, mass) gives the picking days with their masses, which add up to the shares picked', () => {
  // 60% over two days from day 5, 30% over two days from day 15; 10% is never picked.
  const curve = pickCurve(
    pattern({ firstPick: 5, pickDays: 2, flushGap: 10, flushes: 2, shares: [0.6, 0.3] }),
  );
  const picks = picksAfterLoading(curve, 10);
  expect(picks.map(([day]) => day)).toEqual([5, 6, 15, 16]);
  expect(picks.map(([, mass]) => mass)).toEqual([3, 3, 1.5, 1.5]);
});

// By hand: the second flush starts on day 7 + 14, its fourth and last day is the 24th after loading, the 25th on the shelf.
test.each([
  [{ flushGap: 14, flushes: 2, shares: [0.6, 0.4] }, 25],
  [{ flushes: undefined }, 11],
  [{ flushGap: 14, flushes: undefined, shares: [0.6, 0.4] }, 25],
])('pickCurve(pattern) says how long blocks stay: %#', (over, stay) => {
  const curve = pickCurve({ ...pattern(), ...over });
  expect([curve.stay, curve.shares.length]).toEqual([stay, stay]);
});
