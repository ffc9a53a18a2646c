import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { dewPoint } from '../../../src/maths/climate/dewPoint';
import { humidityFromWetBulb } from '../../../src/maths/climate/humidityFromWetBulb';
import { humidityRatio } from '../../../src/maths/climate/humidityRatio';
import { saturatedVapourPressure, volumeOfDryKilogram, type Air } from '../../../src/maths/climate/moistAir';
import { vapourPressureDeficit } from '../../../src/maths/climate/vapourPressureDeficit';
import { wetBulb } from '../../../src/maths/climate/wetBulb';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

// Tables and examples are those of the ASHRAE Handbook – Fundamentals (2017), chapter 1.

describe('the properties of moist air are those of the handbook', () => {
  // Table 3: saturated vapour pressure; the equations are good to 3e-4 of it
  test.each([
    [-20, 103.24],
    [-5, 401.74],
    [5, 872.6],
    [25, 3169.7],
    [50, 12_351.3],
    [100, 101_418],
    [150, 476_101.4],
  ])('saturated vapour pressure at %p °C is %p Pa', (celsius, pascals) => {
    expect(Math.abs(saturatedVapourPressure(celsius) / pascals - 1)).toBeLessThan(3e-4);
  });

  // Table 2: saturated humidity ratio at sea level, with the enhancement factor the equation leaves out: 0.5%, 1% at 50 °C
  test.each([
    [-5, 0.0024863, 0.005],
    [5, 0.005425, 0.005],
    [25, 0.020173, 0.005],
    [50, 0.086863, 0.01],
  ])('saturated humidity ratio at %p °C is %p', (celsius, ratio, tolerance) => {
    expect(Math.abs(humidityRatio({ celsius, humidity: 1 }, 0) / ratio - 1)).toBeLessThan(tolerance);
  });

  // Example 1: 40 °C dry, 20 °C wet, 101.325 kPa, read off the chart: W 6.5 g/kg, dew point 7 °C, humidity 14%, volume
  // 0.896 m³/kg. Half a unit of what a chart shows, the dew point half a degree.
  test('Example 1: dry bulb 40 °C, wet bulb 20 °C', () => {
    const humidity = humidityFromWetBulb(40, 20, 0);
    const air = { celsius: 40, humidity };
    expect(humidity).toBeCloseTo(0.14, 2);
    expect(Math.abs(humidityRatio(air, 0) - 0.0065)).toBeLessThan(0.00015);
    expect(Math.abs(dewPoint(air) - 7)).toBeLessThan(0.5);
    expect(volumeOfDryKilogram(air, 101_325)).toBeCloseTo(0.896, 3);
    expect(wetBulb(air, 0)).toBeCloseTo(20, 9);
  });

  // Worked values of the PsychroLib project's own tests: wet bulb of 7 °C, 61%, 100 kPa, to its 0.001 °C; humidity ratio
  // from 30 °C dry, 25 °C wet at 95,461 Pa, and from −1 °C dry, −5 °C wet at the same, to its
  // 3e-4
  test('wet bulb of 7 °C at 61% and 100 kPa is 3.9267 °C', () => {
    const metresAt100kPa = (1 - (100_000 / 101_325) ** (1 / 5.25588)) / 2.25577e-5;
    expect(Math.abs(wetBulb({ celsius: 7, humidity: 0.61 }, metresAt100kPa) - 3.92667433781955)).toBeLessThan(
      0.001,
    );
  });

  test.each([
    [30, 25, 0.0192281274241096],
    [-1, -5, 0.00120399819933844],
  ])('%p °C dry and %p °C wet at 500 m hold %p kg/kg', (celsius, wet, ratio) => {
    const humidity = humidityFromWetBulb(celsius, wet, 500);
    expect(Math.abs(humidityRatio({ celsius, humidity }, 500) / ratio - 1)).toBeLessThan(3e-4);
  });

  // Oke (1987) 2.13a on Table 3: at 25 °C and 60% the deficit is 0.4 × 3.1697 kPa
  test('vapour pressure deficit of 25 °C at 60% is 1.268 kPa', () => {
    expect(vapourPressureDeficit({ celsius: 25, humidity: 0.6 })).toBeCloseTo(0.4 * 3.1697, 3);
  });
});

const airs = fc.record({
  celsius: fc.double({ min: -40, max: 60, noNaN: true }),
  humidity: fc.double({ min: 0.01, max: 1, noNaN: true }),
});
const altitudes = fc.double({ min: 0, max: 3000, noNaN: true });

describe('dew point, wet bulb and humidity agree with each other', () => {
  test('the air saturated at the dew point holds the same vapour', () => {
    fc.assert(
      fc.property(airs, (air) => {
        const vapour = air.humidity * saturatedVapourPressure(air.celsius);
        // Across the triple point the equations over ice and over water meet within 2e-5.
        expect(Math.abs(saturatedVapourPressure(dewPoint(air)) / vapour - 1)).toBeLessThan(2e-5);
      }),
    );
  });

  test('the wet bulb gives the humidity back', () => {
    fc.assert(
      fc.property(airs, altitudes, (air, altitude) => {
        expect(humidityFromWetBulb(air.celsius, wetBulb(air, altitude), altitude)).toBeCloseTo(
          air.humidity,
          8,
        );
      }),
      { numRuns: 500 },
    );
  });

  test('the wet bulb is the one PsychroLib finds, where no bulb is near freezing', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    fc.assert(
      fc.property(airs, (air) => {
        const ratio = humidityRatio(air, 0);
        const theirs = psychrolib.GetTWetBulbFromHumRatio(air.celsius, ratio, 101_325);
        fc.pre(Math.abs(theirs) > 1);
        expect(Math.abs(wetBulb(air, 0) - theirs)).toBeLessThan(0.001);
      }),
    );
  });

  test('no call leaves another unit mode behind', () => {
    psychrolib.SetUnitSystem(psychrolib.IP);
    wetBulb({ celsius: 20, humidity: 0.5 }, 0);
    dewPoint({ celsius: 20, humidity: 0.5 });
    expect(psychrolib.GetUnitSystem()).toBe(psychrolib.IP);
    expectFault(() => dewPoint({ celsius: 20, humidity: 0 }), ['humidity', 'noDewPoint']);
    expect(psychrolib.GetUnitSystem()).toBe(psychrolib.IP);
  });

  test('air drier than the least humidity ratio of PsychroLib is not moistened to it', () => {
    expect(humidityRatio({ celsius: -40, humidity: 0.001 }, 0)).toBeCloseTo(7.9e-8, 9);
    expect(humidityRatio({ celsius: 20, humidity: 0 }, 0)).toBe(0);
  });
});

describe('the whole range of rooms and outside air has an answer and no jump', () => {
  const steps = (low: number, high: number, step: number): number[] =>
    Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => low + i * step);

  test.each([[0], [1000], [2000], [3000]])('at %p m', (altitude) => {
    let [lowest, frozenJump, jump] = [Infinity, 0, 0];
    for (const celsius of steps(-20, 60, 1)) {
      let before: { wet: number; dew: number; ratio: number } | undefined;
      for (const percent of steps(1, 100, 0.25)) {
        const air = { celsius, humidity: percent / 100 };
        const now = { wet: wetBulb(air, altitude), dew: dewPoint(air), ratio: humidityRatio(air, altitude) };
        if (before !== undefined) {
          lowest = Math.min(lowest, now.wet - before.wet, now.dew - before.dew, now.ratio - before.ratio);
          const step = now.wet - before.wet;
          if (before.wet < 0 && now.wet >= 0) frozenJump = Math.max(frozenJump, step);
          else jump = Math.max(jump, step);
        }
        before = now;
      }
    }
    // Everything rises with humidity; a quarter of a per cent moves the wet bulb by 0.3 °C at most, but for the bulb
    // that melts, where the equations over ice and over water part.
    expect(lowest).toBeGreaterThan(0);
    expect(jump).toBeLessThan(0.35);
    expect(frozenJump).toBeLessThan(0.9);
  });

  test('everything moves smoothly with temperature', () => {
    let [wetJump, dewJump] = [0, 0];
    for (const humidity of [0.01, 0.2, 0.5, 0.8, 1]) {
      let before: { wet: number; dew: number } | undefined;
      for (const celsius of steps(-20, 60, 0.05)) {
        const now = { wet: wetBulb({ celsius, humidity }, 0), dew: dewPoint({ celsius, humidity }) };
        if (before !== undefined) {
          if (!(before.wet < 0 && now.wet >= 0)) wetJump = Math.max(wetJump, Math.abs(now.wet - before.wet));
          dewJump = Math.max(dewJump, Math.abs(now.dew - before.dew));
        }
        before = now;
      }
    }
    expect(wetJump).toBeLessThan(0.06);
    expect(dewJump).toBeLessThan(0.06);
  });
});

describe('what is not air is refused', () => {
  const degrees = { from: celsiusOf(-40), to: celsiusOf(60) };
  test.each<[Air, Refusal]>([
    [{ celsius: 61, humidity: 0.5 }, ['temperature', 'outside', { ...degrees, given: celsiusOf(61) }]],
    [{ celsius: NaN, humidity: 0.5 }, ['temperature', 'outside', { ...degrees, given: celsiusOf(NaN) }]],
    [{ celsius: 20, humidity: 1.01 }, ['humidity', 'outside', { from: 0, to: 1, given: 1.01 }]],
    [{ celsius: 20, humidity: NaN }, ['humidity', 'outside', { from: 0, to: 1, given: NaN }]],
  ])('%p', (air, refusal) => {
    expectFault(() => dewPoint(air), refusal);
    expectFault(() => wetBulb(air, 0), refusal);
    expectFault(() => humidityRatio(air, 0), refusal);
    expectFault(() => vapourPressureDeficit(air), refusal);
  });

  test('perfectly dry air has no dew point', () => {
    const lowest = celsiusOf(-100);
    expectFault(() => dewPoint({ celsius: 20, humidity: 0 }), ['humidity', 'noDewPoint', { lowest }]);
  });

  const dryBulb = { to: celsiusOf(20), what: 'the dry bulb' };
  test.each<[number, number, Refusal]>([
    [20, 21, ['wet bulb', 'outside', { ...dryBulb, given: celsiusOf(21) }]],
    [20, NaN, ['wet bulb', 'outside', { ...dryBulb, given: celsiusOf(NaN) }]],
    [40, 10, ['wet bulb', 'belowDryAir']],
    [40, -200, ['wet bulb', 'belowDryAir']],
    [80, 10, ['temperature', 'outside', { ...degrees, given: celsiusOf(80) }]],
  ])('dry bulb %p °C beside wet bulb %p °C', (celsius, wet, refusal) => {
    expectFault(() => humidityFromWetBulb(celsius, wet, 0), refusal);
  });
});
