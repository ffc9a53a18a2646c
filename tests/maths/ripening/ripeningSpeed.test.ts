import { describe, expect, test } from '@jest/globals';
import { ripeningSpeed } from '../../../src/maths/ripening/ripeningSpeed';

const response = { observedAt: 20, min: 5, best: 25, max: 33 };

describe('ripeningSpeed(temperature, response) gives observed days passed per day', () => {
  test.each([
    // Rates by hand from Rosso et al. (1993) with 5, 25 and 33: 0.45 at 15, 0.8125 at 20, 1 at 25.
    [20, 1],
    [15, 0.45 / 0.8125],
    [25, 1 / 0.8125],
    [5, 0],
    [40, 0],
  ])('at %p, observed at 20, it is %p', (temperature, speed) => {
    expect(ripeningSpeed(temperature, response)).toBeCloseTo(speed, 12);
  });

  test.each([
    [NaN, response, 'temperature: a number needed, got NaN'],
    [20, { ...response, observedAt: undefined }, 'strain: no "observed at" in strains'],
    [20, { ...response, min: undefined }, 'strain: no "min temp" in strains (0 reads as blank'],
    [20, { ...response, best: undefined }, 'strain: no "best temp" in strains'],
    [20, { ...response, max: undefined }, 'strain: no "max temp" in strains'],
    [20, { ...response, max: 4 }, 'max temp: more than min temp (5) needed, got 4'],
    [
      20,
      { ...response, best: 19 },
      'best temp: more than the middle of min temp and max temp (19) needed, got 19',
    ],
    [
      20,
      { ...response, observedAt: 34 },
      'observed at: the strain does not grow at 34, by its own min temp and max temp',
    ],
  ])('refuses (%p, %p)', (temperature, given, message) => {
    expect(() => ripeningSpeed(temperature, given)).toThrow(message);
  });
});
