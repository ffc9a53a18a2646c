import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { lotCrop, type CroppedBlocks, type Pick } from '../../../src/maths/harvest/lotCrop';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

const lot = { blocks: 1, blockMass: 1000, moisture: 0.6, loadedSerial: 46000 };
const pick = (day: number, mass: number, flush?: number) => ({ dateSerial: 46000 + day, mass, flush });

describe('lotCrop(picks, lot) gives mass by flush, efficiency and days', () => {
  test('a crop that failed gives nothing, and took its shelves until then', () => {
    const failed = lotCrop([pick(30, 0)], lot);
    expect([failed.total, failed.efficiency, failed.days, failed.efficiencyPerDay]).toEqual([0, 0, 30, 0]);
  });

  // Fresh masses and efficiencies as published; dry masses as the papers' own pairs of figures imply
  test.each([
    // PMC11657188 (2024), Pleurotus ostreatus: 5% beeswax waste, and control
    { fresh: [1478.96], dry: 1600, percent: 92.43 },
    { fresh: [1420.15], dry: 1600, percent: 88.76 },
    // Wu, Liang, Liang (2020) Agronomy, Auricularia polytricha, two flushes together (split here by hand)
    { fresh: [150.4, 85], dry: 400, percent: 58.85 },
    // PMC5866258 (2018), Grifola frondosa, first flush
    { fresh: [134.72], dry: 300, percent: 44.91 },
  ])('$fresh g from $dry g dry is $percent%', ({ fresh, dry, percent }) => {
    const picks = fresh.map((mass, i) => pick(10 + i, mass, i + 1));
    const { efficiency } = lotCrop(picks, { ...lot, blockMass: dry / 0.4 });
    expect(100 * efficiency).toBeCloseTo(percent, 2);
  });

  test('by hand: two flushes of ten blocks, one pick without a flush', () => {
    const crop = lotCrop([pick(9, 3, 1), pick(7, 4, 1), pick(30, 2, 2), pick(31, 1)], {
      blocks: 10,
      blockMass: 2.5,
      moisture: 0.6,
      loadedSerial: 46000,
    });
    // 10 kg from 10 kg dry in 31 days
    expect(crop).toEqual({
      byFlush: [7, 2],
      unassigned: 1,
      total: 10,
      perBlock: 1,
      efficiency: 1,
      days: 31,
      efficiencyPerDay: 1 / 31,
    });
  });

  test('a flush that nothing was picked from has mass 0, and unknown load no days', () => {
    const crop = lotCrop([pick(9, 3, 1), pick(40, 1, 3)], { ...lot, loadedSerial: undefined });
    expect(crop).toMatchObject({ byFlush: [3, 0, 1], days: undefined, efficiencyPerDay: undefined });
  });

  test('picks of which no flush was recorded make no flush', () => {
    expect(lotCrop([pick(9, 3), pick(12, 1)], lot)).toMatchObject({ byFlush: [], unassigned: 4, total: 4 });
  });

  test('times of day do not lengthen the days', () => {
    expect(lotCrop([pick(9.9, 3, 1)], { ...lot, loadedSerial: 46000.2 }).days).toBe(9);
  });

  const somePicks = fc.array(
    fc.record({
      dateSerial: fc.integer({ min: 46001, max: 46100 }),
      mass: fc.double({ min: 0.01, max: 50, noNaN: true }),
      flush: fc.option(fc.integer({ min: 1, max: 5 }), { nil: undefined }),
    }),
    { minLength: 1, maxLength: 40 },
  );

  test('flushes and unassigned sum to the total, in any order of picks', () => {
    fc.assert(
      fc.property(somePicks, (picks) => {
        const crop = lotCrop(picks, lot);
        const sum = crop.byFlush.reduce((a, b) => a + b, crop.unassigned);
        expect(sum / crop.total).toBeCloseTo(1, 12);
        expect(lotCrop([...picks].reverse(), lot).total).toBeCloseTo(crop.total, 10);
      }),
    );
  });

  test.each<[Pick[], CroppedBlocks, Refusal]>([
    [
      [pick(8, 1, 1), { ...pick(9, -1, 1), at: 5 }],
      lot,
      ['harvests, mass', 'outside', { from: 0, given: -1 }, { at: 5 }],
    ],
    [[pick(9, NaN, 1)], lot, ['harvests, mass', 'outside', { from: 0, given: NaN }]],
    [
      [pick(9, 3, 2), { ...pick(0, 3, 1), at: 3 }],
      lot,
      ['harvests, date', 'after', { other: 'loaded', date: dateOf(46000), given: dateOf(46000) }, { at: 3 }],
    ],
    [
      [pick(9, 3, 1)],
      { ...lot, moisture: 1, at: 2 },
      ['lots, moisture', 'outside', { from: 0, below: 1, given: 1 }, { at: 2 }],
    ],
    [[pick(9, 3, 1)], { ...lot, blockMass: 0 }, ['lots, block mass', 'outside', { above: 0, given: 0 }]],
    [
      [pick(9, 3, 1)],
      { ...lot, blocks: 1.5 },
      ['lots, blocks', 'outside', { from: 1, whole: true, given: 1.5 }],
    ],
  ])('refuses %p from %p', (picks, blocks, refusal) => {
    expectFault(() => lotCrop(picks, blocks), refusal);
  });
});
