import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { flushNumbers, type ExpectedTimes } from '../../../src/maths/harvest/flushNumbers';
import { seeded } from '../../bench/measure';
import { normalDraw } from '../../normalDraw';
import { expectFault, type Refusal } from '../expectFault';

const STRAIN: ExpectedTimes = { firstPick: 7, pickDays: 6, flushGap: 18 };
const dated = (days: readonly number[]) => days.map((day) => ({ dateSerial: 46000 + day, flush: undefined }));

describe('flushNumbers(picks, loaded, times) gives the flush of each pick', () => {
  test.each([
    ['three flushes as the strain has them', [7, 8, 10, 25, 26, 28, 43, 44], [1, 1, 1, 2, 2, 2, 3, 3]],
    ['a lot that is five days late', [12, 13, 15, 30, 31], [1, 1, 1, 2, 2]],
    ['a first flush that was lost', [25, 26, 27, 43], [2, 2, 2, 3]],
    ['a second flush that was lost', [7, 8, 9, 43, 44], [1, 1, 1, 3, 3]],
    ['one pick', [8], [1]],
    ['days out of order', [26, 7, 25, 8], [2, 1, 2, 1]],
    ['a straggler three days after the flush', [7, 8, 9, 12, 15, 25, 26], [1, 1, 1, 1, 1, 2, 2]],
  ])('%s', (_what, days, flushes) => {
    expect(flushNumbers(dated(days), 46000, STRAIN)).toEqual(flushes);
  });

  test('without a day of load the first run is the first flush', () => {
    expect(flushNumbers(dated([25, 26, 43]), undefined, STRAIN)).toEqual([1, 1, 2]);
  });

  test('a flush on record stays, and pulls its neighbours with it', () => {
    const picks = dated([7, 8, 14, 15]);
    expect(flushNumbers(picks, 46000, STRAIN)).toEqual([1, 1, 1, 1]);
    const recorded = picks.map((pick, i) => ({ ...pick, flush: i === 2 ? 2 : undefined }));
    expect(flushNumbers(recorded, 46000, STRAIN)).toEqual([1, 1, 2, 2]);
  });

  test('no pick gives no flush', () => {
    expect(flushNumbers([], 46000, STRAIN)).toEqual([]);
  });

  interface Noise {
    /** Standard deviations: first pick and gap as shares of themselves, length in days; share of stragglers. */
    readonly first: number;
    readonly gap: number;
    readonly length: number;
    readonly stragglers: number;
  }

  /** Share of picks set right over 300 synthetic lots of three flushes. */
  function share(strain: ExpectedTimes, noise: Noise, knownLoad: boolean, seed: number): number {
    const random = seeded(seed);
    let right = 0;
    let all = 0;
    for (let lot = 0; lot < 300; lot++) {
      let start = Math.max(2, Math.round(strain.firstPick * (1 + noise.first * normalDraw(random))));
      const picks: { dateSerial: number; flush: undefined }[] = [];
      const truth: number[] = [];
      for (let flush = 1; flush <= 3; flush++) {
        const length = Math.max(2, Math.round(strain.pickDays + noise.length * normalDraw(random)));
        for (let day = 0; day < length; day++) {
          if (day > 0 && random() < 0.25) continue;
          const late = random() < noise.stragglers ? 1 + Math.floor(3 * random()) : 0;
          picks.push({ dateSerial: 46000 + start + day + late, flush: undefined });
          truth.push(flush);
        }
        start += Math.max(length + 1, Math.round(strain.flushGap! * (1 + noise.gap * normalDraw(random))));
      }
      const found = flushNumbers(picks, knownLoad ? 46000 : undefined, strain);
      found.forEach((flush, i) => {
        all++;
        if (flush === truth[i]) right++;
      });
    }
    return right / all;
  }

  // The promise: at least 97% of picks right at realistic noise, for flushes far apart and for flushes that nearly touch
  test.each([
    { what: 'flushes 18 days apart, load known', strain: STRAIN, knownLoad: true },
    { what: 'flushes 18 days apart, load unknown', strain: STRAIN, knownLoad: false },
    {
      what: 'flushes 10 days apart, load known',
      strain: { firstPick: 6, pickDays: 5, flushGap: 10 },
      knownLoad: true,
    },
  ])('sets 97 in 100 noisy synthetic picks right: $what', ({ what, strain, knownLoad }) => {
    const noise = { first: 0.25, gap: 0.15, length: 1, stragglers: 0.05 };
    const reached = share(strain, noise, knownLoad, 7);
    console.log(`FLUSHSPLIT, ${what}: ${(100 * reached).toFixed(1)}% of picks right`);
    expect(reached).toBeGreaterThanOrEqual(0.97);
  });

  test('never goes back in time, and follows the picks in any order', () => {
    const days = fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(days, (given) => {
        const found = flushNumbers(dated(given), 46000, STRAIN);
        const byDay = given.map((day, i) => [day, found[i]!] as const).sort(([a], [b]) => a - b);
        byDay.forEach(([, flush], i) => expect(i === 0 || flush >= byDay[i - 1]![1]).toBe(true));
        expect(flushNumbers(dated([...given].reverse()), 46000, STRAIN)).toEqual([...found].reverse());
      }),
      { numRuns: 50 },
    );
  });

  test.each<[ExpectedTimes, Refusal]>([
    [{ ...STRAIN, firstPick: 0 }, ['strains, first pick', 'outside', { above: 0, given: 0 }]],
    [{ ...STRAIN, pickDays: NaN }, ['strains, pick days', 'outside', { above: 0, given: NaN }]],
    [
      { ...STRAIN, flushGap: -1, at: 4 },
      ['strains, flush gap', 'outside', { above: 0, given: -1 }, { at: 4 }],
    ],
  ])('refuses %p', (times, refusal) => {
    expectFault(() => flushNumbers(dated([7]), 46000, times), refusal);
  });
});
