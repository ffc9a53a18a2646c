import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { heatingFit } from '../../../src/maths/sterilising/heatingFit';
import { expectFault, type Refusal } from '../expectFault';

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

  test('each reading weighs as the square of its gap: a thermometer’s error moves a small gap’s logarithm more', () => {
    const noise = seeded(7);
    const minutes = everyMinute(120);
    const core = minutes.map((t) =>
      Math.max(START, MEDIUM - 1.4 * (MEDIUM - START) * 10 ** (-t / 40) + 0.3 * noise()),
    );
    const fit = heatingFit(minutes, core, MEDIUM);
    // The normal equations of a weighted straight line (Draper & Smith, Applied Regression Analysis, on weighted least
    // squares), over the readings of the straight part.
    let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
    for (let x = fit.first; x <= fit.last; x++) {
      const gap = MEDIUM - core[x]!;
      const y = Math.log10(gap);
      w += gap ** 2;
      wx += gap ** 2 * x;
      wy += gap ** 2 * y;
      wxx += gap ** 2 * x * x;
      wxy += gap ** 2 * x * y;
    }
    const slope = (w * wxy - wx * wy) / (w * wxx - wx * wx);
    expect(fit.last - fit.first).toBeGreaterThan(30);
    expect(fit.minutesPerTenth).toBeCloseTo(-1 / slope, 8);
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

  // The standard error of a weighted slope, in full for every run: Draper & Smith, Applied Regression Analysis, 3rd ed.,
  // chapter 9; degrees of freedom: readings less the two figures of a line.
  test.each([[11], [12], [13], [15]])(
    'of all runs the one with the most certain slope is taken (seed %p)',
    (seed) => {
      const noise = seeded(seed);
      const minutes = everyMinute(40).map((t) => 4 * t);
      const core = minutes.map(
        (t) => Math.max(START, MEDIUM - 1.6 * (MEDIUM - START) * 10 ** (-t / 60)) + noise(),
      );
      const { first, last } = heatingFit(minutes, core, MEDIUM);
      const relativeError = (from: number): number => {
        const at = Array.from({ length: last - from + 1 }, (_, k) => from + k);
        const weights = at.map((i) => (MEDIUM - core[i]!) ** 2);
        const mean = (of: (i: number) => number): number =>
          at.reduce((sum, i, k) => sum + weights[k]! * of(i), 0) / weights.reduce((sum, w) => sum + w, 0);
        const y = (i: number): number => Math.log10(MEDIUM - core[i]!);
        const [tm, ym] = [mean((i) => minutes[i]!), mean(y)];
        const sum = (of: (i: number) => number): number =>
          at.reduce((all, i, k) => all + weights[k]! * of(i), 0);
        const sxx = sum((i) => (minutes[i]! - tm) ** 2);
        const slope = sum((i) => (minutes[i]! - tm) * (y(i) - ym)) / sxx;
        const residual = sum((i) => (y(i) - ym - slope * (minutes[i]! - tm)) ** 2);
        return Math.sqrt(residual / (at.length - 2) / sxx) / Math.abs(slope);
      };
      const fall = (from: number): number => Math.log10((MEDIUM - core[from]!) / (MEDIUM - core[last]!));
      const runs = Array.from({ length: last - 3 }, (_, from) => from).filter((from) => fall(from) >= 0.5);
      const best = runs.reduce((one, other) => (relativeError(other) < relativeError(one) ? other : one));
      expect(first).toBe(best);
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

  test('a core that holds its peak has the same line, and is hottest from the first reading of it to the last', () => {
    const minutes = everyMinute(240);
    const heating = (t: number): number =>
      Math.max(START, MEDIUM - 1.41 * (MEDIUM - START) * 10 ** (-t / 60));
    const fit = heatingFit(
      minutes,
      minutes.map((t) => heating(Math.min(t, 100))),
      MEDIUM,
    );
    expect(fit.minutesPerTenth).toBeCloseTo(60, 6);
    expect([fit.hottest, fit.lastHottest]).toEqual([100, 240]);
  });

  const ramp = everyMinute(180);
  // 180 minutes at 0.05 °C a minute end at 34 °C; half a power of ten is 1 − 10^−0.5 of the gap, 68.4%.
  test.each<[number[], number[], number, Refusal]>([
    [ramp, ramp.map((t) => 25 + t / 2), MEDIUM, ['temperatures', 'curveBends', { most: 0.1 }]],
    [
      ramp,
      ramp.map((t) => 25 + t / 20),
      MEDIUM,
      [
        'temperatures',
        'gapStaysOpen',
        { closed: 1 - (MEDIUM - 34) / (MEDIUM - START), least: 1 - 10 ** -0.5 },
      ],
    ],
    // A gap of 100, 100, 100, 100, 10: the first half of the fall has no slope at all.
    [[0, 10, 20, 30, 40], [20, 20, 20, 20, 110], 120, ['temperatures', 'curveBends', { most: 0.1 }]],
    [
      [0, 60, 120],
      [25, 110, 118],
      MEDIUM,
      ['temperatures', 'tooFew', { least: 5, things: 'readings on the way to the medium', found: 3 }],
    ],
    [
      [0, 1, 2],
      [25, 110, 118],
      20,
      ['medium', 'outside', { from: celsiusOf(40), to: celsiusOf(160), given: celsiusOf(20) }],
    ],
    [
      [0, 1, 2],
      [60, 110, 118],
      50,
      ['medium', 'outside', { above: celsiusOf(60), given: celsiusOf(50), what: 'the first reading' }],
    ],
    [[0, 1, 1], [25, 110, 118], MEDIUM, ['times', 'notLater', { before: 1, given: 1 }, { index: 2 }]],
  ])('refuses %# and says why', (minutes, core, medium, refusal) => {
    expectFault(() => heatingFit(minutes, core, medium), refusal);
  });

  test('refuses readings that scatter', () => {
    const noise = seeded(3);
    const core = ramp.map((t) => Math.min(119, MEDIUM - (MEDIUM - START) * 10 ** (-t / 60) + 10 * noise()));
    expectFault(() => heatingFit(ramp, core, MEDIUM), ['temperatures', 'readingsScatter', { least: 0.98 }]);
  });
});
