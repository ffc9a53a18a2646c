import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { flushTimes } from '../../../src/maths/harvest/flushTimes';
import { lotCrop, type Pick } from '../../../src/maths/harvest/lotCrop';
import { strainRecord, type CroppedLot } from '../../../src/maths/harvest/strainRecord';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import { expectFault } from '../expectFault';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

const LOADED = 46000;
const lot = (...picks: readonly (readonly [day: number, mass: number, flush?: number])[]): CroppedLot => {
  const own = picks.map(([day, mass, flush]): Pick => ({ dateSerial: LOADED + day, mass, flush }));
  return {
    crop: lotCrop(own, { blocks: 1, blockMass: 2.5, moisture: 0.6, loadedSerial: LOADED }),
    times: flushTimes(own, LOADED),
  };
};

describe('flushTimes(picks, loaded) gives when flushes came', () => {
  test('by hand, from picks out of order', () => {
    const picks = [
      { dateSerial: 46027.4, mass: 1, flush: 2 },
      { dateSerial: 46007.3, mass: 1, flush: 1 },
      { dateSerial: 46010, mass: 1, flush: 1 },
      { dateSerial: 46030, mass: 1, flush: undefined },
    ];
    expect(flushTimes(picks, 46000.6)).toEqual({ firstPick: 7, lengths: [1, 4], gaps: [20] });
    expect(flushTimes(picks, undefined).firstPick).toBeUndefined();
  });

  test('a lost flush leaves no gap to tell', () => {
    const picks = [1, 3].map((flush) => ({ dateSerial: LOADED + 10 * flush, mass: 1, flush }));
    expect(flushTimes(picks, LOADED).gaps).toEqual([]);
  });
});

describe('strainRecord(lots, confidence) gives mean efficiency with interval, flush shares and times', () => {
  test('by hand: three lots of 1 kg dry matter', () => {
    const lots = [
      lot([7, 0.6, 1], [9, 0.1, 1], [25, 0.3, 2]),
      lot([8, 0.7, 1], [10, 0.1, 1], [30, 0.2, 2]),
      lot([6, 0.5, 1], [12, 0.1, 1], [24, 0.2, 2]),
    ];
    const record = strainRecord(lots, 0.95, distributions);
    // efficiencies 1, 1, 0.8: mean 0.93333, s 0.1154701, t(0.975, 2) = 4.302653: ± 0.286843
    expect(record.lots).toBe(3);
    expect(record.efficiency).toBeCloseTo(2.8 / 3, 12);
    expect(record.interval![0]).toBeCloseTo(2.8 / 3 - 0.286843, 5);
    expect(record.interval![1]).toBeCloseTo(2.8 / 3 + 0.286843, 5);
    // 2.1 of 2.8 kg in the first flush
    expect(record.shares).toEqual([expect.closeTo(0.75, 12), expect.closeTo(0.25, 12)]);
    // first picks 7, 8, 6; lengths 3, 1, 3, 1, 7, 1; gaps 18, 22, 18
    expect([record.firstPick, record.pickDays, record.flushGap]).toEqual([7, 2, 18]);
    // s 0.1154701 of 0.93333; first picks 7, 8, 6 have s 1
    expect(record.yieldSpread).toBeCloseTo(0.1154701 / 0.9333333, 6);
    expect(record.pickSpread).toBeCloseTo(1, 12);
  });

  test('one lot has no interval', () => {
    expect(strainRecord([lot([7, 0.6, 1])], 0.95, distributions).interval).toBeUndefined();
  });

  test('a lot with picks of unknown flush counts in the efficiency, not in the shares', () => {
    const record = strainRecord(
      [lot([7, 0.6, 1], [25, 0.2, 2]), lot([7, 0.6], [25, 0.6])],
      0.95,
      distributions,
    );
    expect(record.efficiency).toBeCloseTo(1, 12);
    expect(record.shares).toEqual([expect.closeTo(0.75, 12), expect.closeTo(0.25, 12)]);
    expect(strainRecord([lot([7, 0.6])], 0.95, distributions).shares).toEqual([]);
  });

  test('shares sum to 1 and the interval holds the mean', () => {
    const mass = fc.double({ min: 0.01, max: 5, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(mass, mass, mass), { minLength: 2, maxLength: 20 }), (masses) => {
        const lots = masses.map(([a, b, c]) => lot([7, a, 1], [25, b, 2], [45, c, 3]));
        const { shares, interval, efficiency } = strainRecord(lots, 0.9, distributions);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 10);
        expect(interval![0] <= efficiency && efficiency <= interval![1]).toBe(true);
      }),
    );
  });

  test('refuses no lot and a confidence out of range', () => {
    expectFault(() => strainRecord([], 0.95, distributions), ['lots', 'tooFew', { least: 1, found: 0 }]);
    expectFault(
      () => strainRecord([lot([7, 1, 1])], 95, distributions),
      ['confidence', 'outside', { from: 0.5, to: 0.9999, given: 95 }],
    );
  });
});
