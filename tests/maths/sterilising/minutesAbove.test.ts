import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { minutesAbove } from '../../../src/maths/sterilising/minutesAbove';
import { expectFault, type Refusal } from '../expectFault';

/** A log of 2 to 40 readings between 15 and 101 °C. */
const logs = fc
  .array(
    fc.record({
      step: fc.double({ min: 0.5, max: 30, noNaN: true }),
      core: fc.oneof(fc.double({ min: 15, max: 101, noNaN: true }), fc.integer({ min: 60, max: 100 })),
    }),
    { minLength: 2, maxLength: 40 },
  )
  .map((readings) => {
    let minute = 0;
    return {
      minutes: readings.map(({ step }) => (minute += step)),
      core: readings.map(({ core }) => core),
    };
  });
const thresholds = fc.integer({ min: 50, max: 100 });

describe('minutesAbove(minutes, temperaturesC, thresholdC)', () => {
  // Worked by hand from the straight lines between readings.
  test.each([
    { what: 'all of it', minutes: [0, 60], core: [95, 95], at: 95, gives: [60, 60, 0] },
    { what: 'none of it', minutes: [0, 60], core: [94, 94], at: 95, gives: [0, 0, 0] },
    { what: 'a rise', minutes: [0, 40], core: [80, 100], at: 95, gives: [10, 10, 1] },
    { what: 'a fall', minutes: [0, 40], core: [100, 80], at: 95, gives: [10, 10, 0] },
    { what: 'a touch', minutes: [0, 10, 20], core: [80, 95, 80], at: 95, gives: [0, 0, 1] },
    { what: 'a touch from above', minutes: [0, 10, 20], core: [99, 95, 99], at: 95, gives: [20, 20, 0] },
    { what: 'a peak', minutes: [0, 10, 20], core: [90, 100, 90], at: 95, gives: [10, 10, 1] },
    {
      what: 'two spells',
      minutes: [0, 30, 60, 90, 120],
      core: [90, 100, 90, 100, 100],
      at: 95,
      gives: [75, 45, 1],
    },
  ])('counts $what', ({ minutes, core, at, gives }) => {
    const { minutes: total, longest, hottest } = minutesAbove(minutes, core, at);
    expect([total, longest, hottest]).toEqual(gives);
  });

  test('agrees with steps of a hundredth of a reading', () => {
    fc.assert(
      fc.property(logs, thresholds, ({ minutes, core }, at) => {
        const PARTS = 100;
        let stepped = 0;
        for (let i = 1; i < minutes.length; i++) {
          const step = (minutes[i]! - minutes[i - 1]!) / PARTS;
          for (let part = 0; part < PARTS; part++) {
            const middle = core[i - 1]! + ((part + 0.5) / PARTS) * (core[i]! - core[i - 1]!);
            if (middle >= at) stepped += step;
          }
        }
        const longestStep = Math.max(...minutes.slice(1).map((minute, i) => minute - minutes[i]!));
        const off = Math.abs(minutesAbove(minutes, core, at).minutes - stepped);
        expect(off).toBeLessThanOrEqual((longestStep / PARTS) * minutes.length);
      }),
      { numRuns: 200 },
    );
  });

  test('is the length of the log less the minutes below, turned upside down', () => {
    fc.assert(
      fc.property(logs, thresholds, ({ minutes, core }, at) => {
        const above = minutesAbove(minutes, core, at + 0.001).minutes;
        const below = minutesAbove(
          minutes,
          core.map((reading) => -reading / 4),
          -(at + 0.001) / 4,
        ).minutes;
        // A flat run on the threshold counts in both.
        expect(above + below).toBeCloseTo(minutes.at(-1)! - minutes[0]!, 6);
      }),
    );
  });

  test('never rises with the threshold, nor is a spell longer than all of them or all than the log', () => {
    fc.assert(
      fc.property(logs, thresholds, ({ minutes, core }, at) => {
        const [lower, higher] = [minutesAbove(minutes, core, at), minutesAbove(minutes, core, at + 1)];
        expect(higher.minutes).toBeLessThanOrEqual(lower.minutes + 1e-9);
        expect(lower.longest).toBeLessThanOrEqual(lower.minutes + 1e-9);
        expect(lower.minutes).toBeLessThanOrEqual(minutes.at(-1)! - minutes[0]! + 1e-9);
        expect(lower.longest > 0 || lower.minutes === 0).toBe(true);
      }),
    );
  });

  test('is the same with readings put in along the line, and with the log run backwards', () => {
    fc.assert(
      fc.property(logs, thresholds, ({ minutes, core }, at) => {
        const { minutes: total, longest } = minutesAbove(minutes, core, at);
        const halved = <T extends number>(list: readonly T[]): number[] =>
          list.flatMap((one, i) => (i === 0 ? [one] : [(list[i - 1]! + one) / 2, one]));
        const finer = minutesAbove(halved(minutes), halved(core), at);
        expect(finer.minutes).toBeCloseTo(total, 6);
        expect(finer.longest).toBeCloseTo(longest, 6);
        const end = minutes.at(-1)!;
        const back = minutesAbove([...minutes].reverse().map((minute) => end - minute), [...core].reverse(), at); // prettier-ignore
        expect(back.minutes).toBeCloseTo(total, 6);
        expect(back.longest).toBeCloseTo(longest, 6);
      }),
    );
  });

  test.each<[minutes: number[], core: number[], at: number, refusal: Refusal]>([
    [[0], [95], 95, ['times', 'tooFew', { least: 2, things: 'readings', found: 1 }]],
    [[0, 0], [95, 95], 95, ['times', 'notLater', { before: 0, given: 0 }, { index: 1 }]],
    [[0, 5], [95, NaN], 95, ['temperatures', 'noReading', {}, { index: 1 }]],
    [[0, 5], [95, 850], 95, ['temperatures', 'outside', { from: celsiusOf(-40), to: celsiusOf(160), given: celsiusOf(850) }, { index: 1 }]], // prettier-ignore
    [[0, 5], [95, 95], 203, ['threshold', 'outside', { from: celsiusOf(-40), to: celsiusOf(160), given: celsiusOf(203) }]], // prettier-ignore
  ])('refuses %p at %p °C from %p °C', (minutes, core, at, refusal) => {
    expectFault(() => minutesAbove(minutes, core, at), refusal);
  });
});
