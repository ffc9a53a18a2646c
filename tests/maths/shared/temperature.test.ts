import { describe, expect, test } from '@jest/globals';
import {
  celsiusWithin,
  differenceToCelsius,
  fromCelsius,
  toCelsius,
} from '../../../src/maths/shared/temperature';
import { celsiusOf } from '../../../src/maths/shared/fault';
import { expectFault } from '../expectFault';

describe('toCelsius, fromCelsius and differenceToCelsius convert between °C and °F', () => {
  // The fixed points of the scale, and -40, where both read the same
  test.each([
    [32, 0],
    [212, 100],
    [-40, -40],
    [98.6, 37],
  ])('%p °F is %p °C', (fahrenheit, celsius) => {
    expect(toCelsius(fahrenheit, 'F')).toBeCloseTo(celsius, 12);
    expect(fromCelsius(celsius, 'F')).toBeCloseTo(fahrenheit, 12);
    expect(toCelsius(celsius, 'C')).toBe(celsius);
    expect(fromCelsius(celsius, 'C')).toBe(celsius);
  });

  test('a difference has no offset', () => {
    expect(differenceToCelsius(18, 'F')).toBe(10);
    expect(differenceToCelsius(18, 'C')).toBe(18);
  });

  test('celsiusWithin gives °C and carries the limits as temperatures', () => {
    expect(celsiusWithin('core', 212, 'F', 0, 100)).toBe(100);
    const limits = { from: celsiusOf(0), to: celsiusOf(100) };
    expectFault(
      () => celsiusWithin('core', 302, 'F', 0, 100),
      ['core', 'outside', { ...limits, given: celsiusOf(150) }],
    );
    expectFault(
      () => celsiusWithin('core', NaN, 'C', 0, 100),
      ['core', 'outside', { ...limits, given: celsiusOf(NaN) }],
    );
  });
});
