import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { fogWater } from '../../../src/maths/climate/fogWater';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

describe('fogWater(airflow, outside, room, altitudeM) gives the water outside air needs', () => {
  // Worked by hand with the handbook's equations: W 4.31406 and 10.21054 g/kg, volume 0.832576 m³/kg: 3.5411 kg/h
  test('500 m³/h from 5 °C at 80% to 16 °C at 90% need 3.5411 kg/h', () => {
    const water = fogWater(500, { celsius: 5, humidity: 0.8 }, { celsius: 16, humidity: 0.9 }, 0);
    expect(water).toBeCloseTo((500 / 0.832576) * (0.01021054 - 0.00431406), 4);
  });

  // The handbook's table of saturated air at sea level (2017, chapter 1, Table 2): W 5.425 g/kg at 5 °C, 20.173 at
  // 25 °C, volume 0.8720 m³/kg at 25 °C (from memory, unverified). 1%, for the enhancement factor.
  test('saturated air of 5 °C into saturated air of 25 °C', () => {
    const water = fogWater(100, { celsius: 5, humidity: 1 }, { celsius: 25, humidity: 1 }, 0);
    expect(Math.abs(water / ((100 / 0.872) * (0.020173 - 0.005425)) - 1)).toBeLessThan(0.01);
  });

  test('is in proportion to the airflow, and nothing where the air is the same', () => {
    const air = fc.record({
      celsius: fc.double({ min: -20, max: 40, noNaN: true }),
      humidity: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(air, air, (outside, room) => {
        expect(fogWater(300, outside, room, 500)).toBeCloseTo(3 * fogWater(100, outside, room, 500), 9);
        expect(fogWater(300, room, room, 500)).toBe(0);
      }),
    );
  });

  test('outside air that brings too much water gives a negative figure', () => {
    expect(fogWater(500, { celsius: 25, humidity: 0.8 }, { celsius: 16, humidity: 0.9 }, 0)).toBeLessThan(0);
  });

  const degrees = { from: celsiusOf(-40), to: celsiusOf(60) };
  test.each<[number, number, number, number, number, Refusal]>([
    [-1, 5, 0.8, 16, 0.9, ['airflow', 'outside', { from: 0, given: -1 }]],
    [1, 75, 0.8, 16, 0.9, ['outside temperature', 'outside', { ...degrees, given: celsiusOf(75) }]],
    [1, 5, 1.8, 16, 0.9, ['outside humidity', 'outside', { from: 0, to: 1, given: 1.8 }]],
    [1, 5, 0.8, NaN, 0.9, ['room temperature', 'outside', { ...degrees, given: celsiusOf(NaN) }]],
    [1, 5, 0.8, 16, NaN, ['room humidity', 'outside', { from: 0, to: 1, given: NaN }]],
  ])('refuses (%p, %p, %p, %p, %p)', (airflow, outC, outH, roomC, roomH, refusal) => {
    expectFault(
      () => fogWater(airflow, { celsius: outC, humidity: outH }, { celsius: roomC, humidity: roomH }, 0),
      refusal,
    );
  });
});
