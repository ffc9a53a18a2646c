import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { saturationPressure, saturationTemperature } from '../../../src/maths/sterilising/saturation';
import { expectFault } from '../expectFault';

describe('saturationPressure(kelvin) and saturationTemperature(megapascals) are IAPWS-IF97 region 4', () => {
  // IAPWS R7-97(2012) Table 35, all nine printed digits
  test.each([
    [300, '3.53658941e-3'],
    [500, '2.63889776e+0'],
    [600, '1.23443146e+1'],
  ])('%p K: %p MPa', (kelvin, printed) => {
    expect(saturationPressure(kelvin).toExponential(8)).toBe(printed);
  });

  // IAPWS R7-97(2012) Table 36, all nine printed digits
  test.each([
    [0.1, '3.72755919e+2'],
    [1, '4.53035632e+2'],
    [10, '5.84149488e+2'],
  ])('%p MPa: %p K', (megapascals, printed) => {
    expect(saturationTemperature(megapascals).toExponential(8)).toBe(printed);
  });

  test('undo each other and rise over the whole saturation line', () => {
    fc.assert(
      fc.property(fc.double({ min: 273.2, max: 646.9, noNaN: true }), (kelvin) => {
        expect(saturationTemperature(saturationPressure(kelvin))).toBeCloseTo(kelvin, 6);
        expect(saturationPressure(kelvin + 0.1)).toBeGreaterThan(saturationPressure(kelvin));
      }),
    );
  });

  test.each([[273], [648], [NaN]])('refuses %p K', (kelvin) => {
    const limits = { from: 273.15, to: 647.096, unit: 'K' };
    expectFault(() => saturationPressure(kelvin), ['temperature', 'outside', { ...limits, given: kelvin }]);
  });

  test.each([[0.0006], [23], [NaN]])('refuses %p MPa', (megapascals) => {
    const details = { from: 0.000611213, to: 22.064, unit: 'MPa absolute', given: megapascals };
    expectFault(() => saturationTemperature(megapascals), ['pressure', 'outside', details]);
  });
});
