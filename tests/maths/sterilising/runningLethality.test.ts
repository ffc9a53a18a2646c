import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { lethalRate, SPORES } from '../../../src/maths/sterilising/lethalRate';
import { runningLethality } from '../../../src/maths/sterilising/runningLethality';
import { expectFault, type Refusal } from '../expectFault';

const total = (minutes: readonly number[], core: readonly number[], resistance = SPORES): number =>
  runningLethality(minutes, core, resistance).at(-1)!;

/** A log of 2 to 60 readings between -20 and 135 °C. */
const logs = fc
  .array(
    fc.record({
      step: fc.double({ min: 0.01, max: 30, noNaN: true }),
      core: fc.double({ min: -20, max: 135, noNaN: true }),
    }),
    { minLength: 2, maxLength: 60 },
  )
  .map((readings) => {
    let minute = 0;
    return {
      minutes: readings.map(({ step }) => (minute += step)),
      core: readings.map(({ core }) => core),
    };
  });

describe('runningLethality(minutes, temperaturesC, resistance) gives the integral of the lethal rate', () => {
  test.each([
    // Worked sums of pharmaceutical text books, reference 121 °C: 15 min at 111 °C are 1.5 min, at 121 °C 15 min
    { minutes: [0, 15], core: [111, 111], referenceC: 121, expected: 1.5, digits: 10 },
    { minutes: [0, 15], core: [121, 121], referenceC: 121, expected: 15, digits: 10 },
    // Worked through by hand: 15 × 10^0.3 and 15 × 10^0.289
    { minutes: [0, 15], core: [124, 124], referenceC: 121, expected: 29.93, digits: 2 },
    { minutes: [0, 15], core: [124, 124], referenceC: 121.11, expected: 29.18, digits: 2 },
    // One step of 5 minutes from 100 to 121.1 °C: 5 (1 − 10^−2.11) / ln 10^2.11 = 1.021; the trapezoid gives 2.52
    { minutes: [0, 5], core: [100, 121.1], referenceC: 121.1, expected: 1.021, digits: 3 },
  ])('$minutes min at $core °C, reference $referenceC °C, are $expected min', (row) => {
    const { minutes, core, referenceC, expected, digits } = row;
    expect(total(minutes, core, { zC: 10, referenceC })).toBeCloseTo(expected, digits);
  });

  // Warne, D. (1988) FAO Fisheries Technical Paper 285, worked example: five-minute readings whose lethal rates sum to
  // 2.925 give F0 = 14.6. Its temperatures could not be read: these rates are made up to the same sum. The paper's rule
  // is the rectangle; with ends near 0 the trapezoid is the same sum, and so is the integral along straight rates.
  test('refined steps come to the published sum of 5-minute lethal rates', () => {
    const rates = [0.01, 0.3, 0.776, 0.9, 0.62, 0.3, 0.019];
    const published = 5 * rates.reduce((sum, rate) => sum + rate, 0);
    expect(published).toBeCloseTo(14.6, 1);
    const minutes: number[] = [];
    const core: number[] = [];
    const padded = [1e-9, ...rates, 1e-9];
    padded.slice(1).forEach((rate, step) => {
      for (let part = 0; part < 200; part++) {
        const share = part / 200;
        minutes.push(5 * (step + share));
        core.push(121.1 + 10 * Math.log10(padded[step]! * (1 - share) + rate * share));
      }
    });
    expect(total(minutes, core)).toBeCloseTo(published, 1);
  });

  test('a come-up that alone kills counts in full', () => {
    // 20 to 121.1 °C at 1 °C a minute: z / ln 10 × (1 − 10^−10.11) minutes, and nothing was held.
    expect(total([0, 101.1], [20, 121.1])).toBeCloseTo(4.342944818695, 9);
  });

  test('equals the closed form on any straight ramp', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 135, noNaN: true }),
        fc.double({ min: 20, max: 135, noNaN: true }),
        fc.double({ min: 0.1, max: 300, noNaN: true }),
        fc.integer({ min: 1, max: 40 }),
        (from, to, duration, steps) => {
          const shares = Array.from({ length: steps + 1 }, (_, i) => i / steps);
          const core = shares.map((share) => from + share * (to - from));
          const minutes = shares.map((share) => share * duration);
          const middle = lethalRate((from + to) / 2, SPORES);
          const x = (Math.LN10 / 10) * (to - from);
          const mean = middle * (x === 0 ? 1 : Math.sinh(x / 2) / (x / 2));
          expect(total(minutes, core) / (duration * mean)).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  test('adds up over any split of the log', () => {
    fc.assert(
      fc.property(logs, fc.nat(), ({ minutes, core }, cut) => {
        fc.pre(minutes.length > 2);
        const at = 1 + (cut % (minutes.length - 2));
        const parts =
          total(minutes.slice(0, at + 1), core.slice(0, at + 1)) + total(minutes.slice(at), core.slice(at));
        expect(parts / total(minutes, core)).toBeCloseTo(1, 12);
      }),
    );
  });

  test('a reading put in on the straight line between two changes nothing', () => {
    fc.assert(
      fc.property(logs, fc.double({ min: 0.05, max: 0.95, noNaN: true }), ({ minutes, core }, share) => {
        const between = (values: readonly number[]): number[] => [
          values[0]!,
          values[0]! + share * (values[1]! - values[0]!),
          ...values.slice(1),
        ];
        expect(total(between(minutes), between(core)) / total(minutes, core)).toBeCloseTo(1, 10);
      }),
    );
  });

  test('never falls, and a hotter log is never worth less', () => {
    fc.assert(
      fc.property(logs, ({ minutes, core }) => {
        const running = [...runningLethality(minutes, core)];
        running.slice(1).forEach((sum, i) => expect(sum).toBeGreaterThanOrEqual(running[i]!));
        const hotter = core.map((reading) => reading + 0.5);
        expect(total(minutes, hotter) / running.at(-1)!).toBeCloseTo(10 ** 0.05, 9);
      }),
    );
  });

  test('agrees with brute integration of a whole run', () => {
    // Readings each minute; 20,000 midpoints a minute on the same straight lines.
    const core = [100, 105, 110, 115, 118, 120, 121, 121, 121, 121, 121, 118, 112, 105];
    const minutes = core.map((_, i) => i);
    let brute = 0;
    const points = 20_000;
    for (let i = 1; i < core.length; i++) {
      for (let k = 0; k < points; k++) {
        const share = (k + 0.5) / points;
        brute += 10 ** ((core[i - 1]! + share * (core[i]! - core[i - 1]!) - 121.1) / 10) / points;
      }
    }
    expect(total(minutes, core)).toBeCloseTo(brute, 7);
    expect(brute).toBeCloseTo(6.99627, 5);
  });

  const range = { from: celsiusOf(-40), to: celsiusOf(160) };
  test.each<[number[], number[], Refusal]>([
    [
      [0, 10, 10],
      [100, 121, 121],
      ['times', 'notLater', { before: 10, given: 10 }, { index: 2 }],
    ],
    [
      [0, 10, 5],
      [100, 121, 121],
      ['times', 'notLater', { before: 10, given: 5 }, { index: 2 }],
    ],
    [
      [0, NaN, 5],
      [100, 121, 121],
      ['times', 'notLater', { before: 0, given: NaN }, { index: 1 }],
    ],
    [
      [NaN, 5],
      [100, 121],
      ['times', 'outside', { given: NaN }, { index: 0 }],
    ],
    [
      [0, 10, 20],
      [100, -242, 121],
      ['temperatures', 'outside', { ...range, given: celsiusOf(-242) }, { index: 1 }],
    ],
    [
      [0, 10, 20],
      [100, 121, NaN],
      ['temperatures', 'noReading', {}, { index: 2 }],
    ],
    [[0], [121], ['times', 'tooFew', { least: 2, things: 'readings', found: 1 }]],
    [[0, 1], [121], ['temperatures', 'notAsLong', { other: 'times', length: 2, found: 1 }]],
  ])('refuses %p min at %p °C', (minutes, core, refusal) => {
    expectFault(() => runningLethality(minutes, core), refusal);
  });
});
