import { describe, expect, test } from '@jest/globals';
import { ripeningSpeed, type TemperatureResponse } from '../../../src/maths/ripening/ripeningSpeed';
import { expectFault, type Refusal } from '../expectFault';

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

  const lacks = (header: string): Refusal => ['strain', 'noTemperature', { header, table: 'strains' }];
  test.each<[number, TemperatureResponse, Refusal]>([
    [NaN, response, ['temperature', 'outside', { given: NaN }]],
    [20, { ...response, observedAt: undefined }, lacks('observed at')],
    [20, { ...response, min: undefined }, lacks('min temp')],
    [20, { ...response, best: undefined }, lacks('best temp')],
    [20, { ...response, max: undefined }, lacks('max temp')],
    [20, { ...response, max: 4, at: 3 }, ['strains, max temp', 'outside', { above: 5, given: 4 }, { at: 3 }]],
    [20, { ...response, best: 19 }, ['strains, best temp', 'outside', { above: 19, given: 19 }]],
    [20, { ...response, observedAt: 34 }, ['strains, observed at', 'noGrowthObserved', { observedAt: 34, min: 5, max: 33 }]], // prettier-ignore
  ])('refuses (%p, %p)', (temperature, given, refusal) => {
    expectFault(() => ripeningSpeed(temperature, given), refusal);
  });
});
