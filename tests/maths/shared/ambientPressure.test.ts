import { describe, expect, test } from '@jest/globals';
import { ambientPressure } from '../../../src/maths/shared/ambientPressure';
import { metresOf } from '../../../src/maths/shared/fault';
import { expectFault } from '../expectFault';

describe('ambientPressure(altitudeM) gives the standard atmosphere', () => {
  // ASHRAE Handbook – Fundamentals (2017) chapter 1 Table 1, whole Pascals; ±1 as its own exponent is 5.2559
  test.each([
    [-500, 107_478],
    [0, 101_325],
    [500, 95_461],
    [1000, 89_875],
    [4000, 61_640],
    [10_000, 26_436],
    // ISO 2533:1975, foot of the tropopause (from memory, unverified)
    [11_000, 22_632],
  ])('at %p m it is %p Pa', (metres, pascals) => {
    expect(Math.abs(ambientPressure(metres) - pascals)).toBeLessThanOrEqual(1);
  });

  test.each([[-501], [11_001], [NaN]])('refuses %p m', (metres) => {
    const details = { from: metresOf(-500), to: metresOf(11_000), given: metresOf(metres) };
    expectFault(() => ambientPressure(metres), ['altitude', 'outside', details]);
  });
});
