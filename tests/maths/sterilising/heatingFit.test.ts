import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { heatingFit } from '../../../src/maths/sterilising/heatingFit';

const MEDIUM = 121.1;
const START = 25;
const everyMinute = (minutes: number): number[] => Array.from({ length: minutes + 1 }, (_, i) => i);

/** Core of a sphere in a medium of one temperature (Carslaw & Jaeger, Conduction of Heat in Solids, §9.3): j is 2. */
function sphereCore(minute: number, minutesPerTenth: number): number {
  if (minute === 0) return START;
  const decay = (Math.LN10 / minutesPerTenth) * minute;
  let gap = 0;
  for (let n = 1; n < 200; n++) gap += (n % 2 ? 2 : -2) * Math.exp(-n * n * decay);
  return MEDIUM - (MEDIUM - START) * gap;
}

/** Middle of an infinite slab, the same source §3.3: j is 4/π. */
function slabCore(minute: number, minutesPerTenth: number): number {
  const decay = (Math.LN10 / minutesPerTenth) * minute;
  let gap = 0;
  for (let n = 0; n < 200; n++) {
    gap += ((n % 2 ? -4 : 4) / (Math.PI * (2 * n + 1))) * Math.exp(-((2 * n + 1) ** 2) * decay);
  }
  return minute === 0 ? START : MEDIUM - (MEDIUM - START) * gap;
}

/** Deviates of mean 0 from a seeded congruential generator (Park & Miller 1988), uniform on ±1. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return (2 * state) / 2_147_483_647 - 1;
  };
}

describe('heatingFit(minutes, temperaturesC, mediumC) gives f and j of the straight heating part', () => {
  test('a straight curve after a lag is found again to a thousandth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15, max: 90, noNaN: true }),
        fc.double({ min: 1, max: 2.2, noNaN: true }),
        fc.double({ min: 100, max: 135, noNaN: true }),
        (f, j, medium) => {
          const minutes = everyMinute(240);
          const core = minutes.map((t) => Math.max(START, medium - j * (medium - START) * 10 ** (-t / f)));
          const fit = heatingFit(minutes, core, medium);
          expect(Math.abs(fit.minutesPerTenth / f - 1)).toBeLessThan(0.001);
          expect(Math.abs(fit.lagFactor / j - 1)).toBeLessThan(0.001);
        },
      ),
    );
  });

  test.each([
    { body: 'sphere', core: sphereCore, f: 60, j: 2 },
    { body: 'sphere', core: sphereCore, f: 25, j: 2 },
    { body: 'slab', core: slabCore, f: 60, j: 4 / Math.PI },
    { body: 'slab', core: slabCore, f: 90, j: 4 / Math.PI },
  ])('a $body that heats by conduction, f $f min, is found to a thousandth', ({ core, f, j }) => {
    const minutes = everyMinute(180);
    const fit = heatingFit(
      minutes,
      minutes.map((t) => core(t, f)),
      MEDIUM,
    );
    expect(Math.abs(fit.minutesPerTenth / f - 1)).toBeLessThan(0.001);
    expect(Math.abs(fit.lagFactor / j - 1)).toBeLessThan(0.001);
    expect(fit.rSquared).toBeGreaterThan(0.9999);
  });

  test.each([[1], [2], [3], [4], [5]])(
    'a probe that errs by up to 0.3 °C (seed %p) costs a fiftieth at most',
    (seed) => {
      const noise = seeded(seed);
      const minutes = everyMinute(180);
      const core = minutes.map(
        (t) => Math.max(START, MEDIUM - 1.41 * (MEDIUM - START) * 10 ** (-t / 60)) + 0.3 * noise(),
      );
      const fit = heatingFit(minutes, core, MEDIUM);
      expect(Math.abs(fit.minutesPerTenth / 60 - 1)).toBeLessThan(0.02);
      expect(Math.abs(fit.lagFactor / 1.41 - 1)).toBeLessThan(0.02);
    },
  );

  test('cooling after the hottest reading does not count', () => {
    const minutes = everyMinute(240);
    const heating = (t: number): number => MEDIUM - 1.41 * (MEDIUM - START) * 10 ** (-t / 60);
    const core = minutes.map((t) => Math.max(START, t <= 150 ? heating(t) : heating(150) - (t - 150)));
    const fit = heatingFit(minutes, core, MEDIUM);
    expect(fit.minutesPerTenth).toBeCloseTo(60, 6);
    expect(fit.last).toBeLessThanOrEqual(150);
    expect(fit.hottest).toBe(150);
  });

  const ramp = everyMinute(180);
  test.each([
    [
      ramp,
      ramp.map((t) => 25 + t / 2),
      MEDIUM,
      'no straight part: the slope of log(medium − core) changes by',
    ],
    [ramp, ramp.map((t) => 25 + t / 20), MEDIUM, 'no straight part: the core closes only'],
    [
      [0, 60, 120],
      [25, 110, 118],
      MEDIUM,
      'no straight part: 5 or more readings on the way to the medium needed, got 3',
    ],
    [[0, 1, 2], [25, 110, 118], 20, 'medium: 40 to 160 °C needed, got 20'],
    [[0, 1, 2], [60, 110, 118], 50, 'medium: a temperature above the first reading (60 °C) needed, got 50'],
    [[0, 1, 1], [25, 110, 118], MEDIUM, 'times: a time later than the one before needed, got 1'],
  ])('refuses %# and says why', (minutes, core, medium, message) => {
    expect(() => heatingFit(minutes, core, medium)).toThrow(message);
  });

  test('refuses readings that scatter', () => {
    const noise = seeded(7);
    const core = ramp.map((t) => Math.min(119, MEDIUM - (MEDIUM - START) * 10 ** (-t / 60) + 30 * noise()));
    expect(() => heatingFit(ramp, core, MEDIUM)).toThrow('no straight part');
  });
});
