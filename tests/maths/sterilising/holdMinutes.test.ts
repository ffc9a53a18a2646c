import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { holdMinutes } from '../../../src/maths/sterilising/holdMinutes';
import { runningLethality } from '../../../src/maths/sterilising/runningLethality';
import { expectFault, type Refusal } from '../expectFault';

describe('holdMinutes(target, temperatureC, resistance) gives the minutes of a steady hold', () => {
  // Pharmaceutical text books, reference 121 °C: 15 min at 111 °C are worth 1.5 min
  test('1.5 min at 121 °C take 15 min at 111 °C', () => {
    expect(holdMinutes(1.5, 111, { zC: 10, referenceC: 121 })).toBeCloseTo(15, 10);
  });

  test('a log of that hold has the lethality wanted', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.double({ min: 90, max: 140, noNaN: true }),
        fc.record({
          zC: fc.double({ min: 5, max: 20, noNaN: true }),
          referenceC: fc.double({ min: 100, max: 135, noNaN: true }),
        }),
        (target, core, resistance) => {
          const minutes = holdMinutes(target, core, resistance);
          const lethality = runningLethality([0, minutes], [core, core], resistance).at(-1)!;
          expect(lethality / target).toBeCloseTo(1, 10);
        },
      ),
    );
  });

  const range = { from: celsiusOf(50), to: celsiusOf(160) };
  test.each<[number, number, Refusal]>([
    [-1, 121, ['target', 'outside', { from: 0, given: -1 }]],
    [15, 250, ['temperature', 'outside', { ...range, given: celsiusOf(250) }]],
    [15, NaN, ['temperature', 'outside', { ...range, given: celsiusOf(NaN) }]],
  ])('refuses (%p, %p)', (target, core, refusal) => {
    expectFault(() => holdMinutes(target, core), refusal);
  });
});
