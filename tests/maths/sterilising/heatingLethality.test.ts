import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { heatingLethality } from '../../../src/maths/sterilising/heatingLethality';
import { runningLethality } from '../../../src/maths/sterilising/runningLethality';
import { expectFault, type Refusal } from '../expectFault';

describe('heatingLethality(fit, startC, mediumC, minutes, resistance) gives the kill of the heating part', () => {
  // Ball's heating part in exponential integrals, medium 121.1 °C, start 25 °C, f 60 min, j 1.41, 180 min:
  // 76.1163221834 by a million steps of the same curve (no published worked figure was found)
  test('is 76.1163 min for f 60, j 1.41 after 180 min', () => {
    expect(heatingLethality({ minutesPerTenth: 60, lagFactor: 1.41 }, 25, 121.1, 180)).toBeCloseTo(
      76.1163221834,
      8,
    );
  });

  test('agrees with brute integration of the curve', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 90, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        fc.double({ min: 105, max: 135, noNaN: true }),
        fc.double({ min: 30, max: 240, noNaN: true }),
        (f, j, medium, duration) => {
          // Both leave out the lag, where the line lies below -40 °C and kills nothing.
          const steps = 20_000;
          const minutes = Array.from({ length: steps + 1 }, (_, i) => (i / steps) * duration);
          const core = minutes.map((t) => Math.max(-40, medium - j * (medium - 25) * 10 ** (-t / f)));
          const brute = runningLethality(minutes, core).at(-1)!;
          const closed = heatingLethality({ minutesPerTenth: f, lagFactor: j }, 25, medium, duration);
          expect(Math.abs(closed - brute)).toBeLessThan(1e-5 * brute + 1e-12);
        },
      ),
      { numRuns: 30 },
    );
  });

  const tooCold = { above: celsiusOf(25), to: celsiusOf(160), given: celsiusOf(20) };
  test.each<[number, number, number, number, number, Refusal]>([
    [0, 1.41, 25, 121.1, 180, ['heating rate', 'outside', { above: 0, given: 0 }]],
    [60, NaN, 25, 121.1, 180, ['lag factor', 'outside', { above: 0, given: NaN }]],
    [60, 1.41, 25, 20, 180, ['medium', 'outside', tooCold]],
    [60, 1.41, 25, 25, 180, ['medium', 'outside', { ...tooCold, given: celsiusOf(25) }]],
    [60, 1.41, 25, 121.1, -1, ['minutes', 'outside', { from: 0, given: -1 }]],
  ])('refuses (%p, %p, %p, %p, %p)', (minutesPerTenth, lagFactor, start, medium, minutes, refusal) => {
    expectFault(() => heatingLethality({ minutesPerTenth, lagFactor }, start, medium, minutes), refusal);
  });
});
