import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { celsiusOf, metresOf, pascalsOf } from '../../../src/maths/shared/fault';
import { boilingPoint } from '../../../src/maths/sterilising/boilingPoint';
import { steamGaugePressure } from '../../../src/maths/sterilising/steamGaugePressure';
import { steamTemperature } from '../../../src/maths/sterilising/steamTemperature';
import { expectFault, type Refusal } from '../expectFault';

const PSI = 6894.757293168361;
const FOOT = 0.3048;

describe('steamTemperature(gaugePa, altitudeM) gives the temperature of air-free steam behind a gauge', () => {
  // USDA Complete Guide to Home Canning, dial gauges for 240 °F: 10 psi at sea level, half a psi more each 1,000 ft.
  // Its whole and half psi stand for 239.3 to 240.3 °F: 0.8 °F.
  test.each([
    [10, 0],
    [11, 2000],
    [12, 4000],
    [13, 6000],
    [14, 8000],
    [15, 10_000],
  ])('%p psi at %p ft is 240 °F', (psi, feet) => {
    const fahrenheit = steamTemperature(psi * PSI, feet * FOOT) * 1.8 + 32;
    expect(Math.abs(fahrenheit - 240)).toBeLessThan(0.8);
  });

  // Steam tables (saturation at 2 atmospheres absolute): 120.6 °C; from memory, unverified
  test('a gauge at one atmosphere is 120.6 °C', () => {
    expect(steamTemperature(101_325, 0)).toBeCloseTo(120.6, 1);
  });

  test('steamGaugePressure undoes it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20_000, max: 900_000, noNaN: true }),
        fc.double({ min: -400, max: 3000, noNaN: true }),
        (gauge, altitude) => {
          expect(steamGaugePressure(steamTemperature(gauge, altitude), altitude) - gauge).toBeCloseTo(0, 2);
        },
      ),
    );
  });

  test('the same gauge is colder higher up', () => {
    expect(steamTemperature(1e5, 1500)).toBeLessThan(steamTemperature(1e5, 0));
  });

  test('gives an answer down to 1,000 Pa inside, on a mountain too', () => {
    // Steam tables: saturation at 1 kPa absolute is 6.97 °C; from memory, unverified
    expect(steamTemperature(1000 - 101_325, 0)).toBeCloseTo(6.97, 2);
  });

  test.each<[number, number, Refusal]>([
    [2e6, 0, ['gauge pressure', 'outside', { to: pascalsOf(1e6), given: pascalsOf(2e6) }]],
    [NaN, 0, ['gauge pressure', 'outside', { to: pascalsOf(1e6), given: pascalsOf(NaN) }]],
    [-100_326, 0, ['gauge pressure', 'nearVacuum', { given: pascalsOf(-100_326) }]],
    [-85_000, 2000, ['gauge pressure', 'nearVacuum', { given: pascalsOf(-85_000) }]],
    [1e5, 20_000, ['altitude', 'outside', { to: metresOf(11_000), given: metresOf(20_000) }]],
  ])('refuses (%p, %p)', (gauge, altitude, refusal) => {
    expectFault(() => steamTemperature(gauge, altitude), refusal);
  });
});

describe('steamGaugePressure(temperatureC, altitudeM) gives what the gauge shows', () => {
  // ps(121.1 °C) = 205.685 kPa and ps(100 °C) = 101.418 kPa in steam tables; sea level is 101.325 kPa
  test.each([
    [121.1, 205_685 - 101_325, 1],
    [100, 101_418 - 101_325, 1],
  ])('%p °C is %p Pa', (temperature, pascals, within) => {
    expect(Math.abs(steamGaugePressure(temperature, 0) - pascals)).toBeLessThan(within);
  });

  test.each([[5], [250], [NaN]])('refuses %p °C', (temperature) => {
    const details = { from: celsiusOf(10), to: celsiusOf(185), given: celsiusOf(temperature) };
    expectFault(() => steamGaugePressure(temperature, 0), ['temperature', 'outside', details]);
  });
});

describe('boilingPoint(altitudeM) gives the temperature at which water boils', () => {
  // USDA Complete Guide to Home Canning, boiling point by altitude; its equal steps of 0.98 °C are
  // a straight line through a curve: 0.2 °C
  test.each([
    [1000, 99.01],
    [2000, 98.03],
    [3000, 97.05],
    [4000, 96.08],
  ])('at %p ft it is %p °C', (feet, celsius) => {
    expect(Math.abs(boilingPoint(feet * FOOT) - celsius)).toBeLessThan(0.2);
  });

  test('at sea level it is 99.97 °C', () => {
    // The scale of 1990 puts boiling at one atmosphere at 99.974 °C
    expect(boilingPoint(0)).toBeCloseTo(99.974, 3);
  });
});
