import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shelfDayMargin, type LotMargin } from '../../../src/maths/cost/shelfDayMargin';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import { expectFault, type Refusal } from '../expectFault';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

describe('shelfDayMargin(lots, confidence) gives margin per shelf and day with its interval', () => {
  test('one lot: 240 over 200 shelf days, no interval', () => {
    expect(shelfDayMargin([{ margin: 240, shelfDays: 200 }], 0.95, distributions)).toEqual({
      perShelfDay: 1.2,
      interval: undefined,
    });
  });

  test('by hand: three lots', () => {
    // 240 + 100 + 20 over 200 + 100 + 60: ratio 1; residuals 40, 0, −40; √(3/2 × 3200) = 69.2820;
    // t(0.975, 2) = 4.302653; half width 4.302653 × 69.2820 / 360 = 0.828045
    const lots = [
      { margin: 240, shelfDays: 200 },
      { margin: 100, shelfDays: 100 },
      { margin: 20, shelfDays: 60 },
    ];
    const { perShelfDay, interval } = shelfDayMargin(lots, 0.95, distributions);
    expect(perShelfDay).toBe(1);
    expect(interval![0]).toBeCloseTo(1 - 0.828045, 5);
    expect(interval![1]).toBeCloseTo(1 + 0.828045, 5);
  });

  // Equal shelf days: the plain mean; for two lots t has one degree of freedom, tan(π × 0.9/2)
  test('of two lots of equal shelf days is their mean with its plain interval', () => {
    const margin = fc.integer({ min: -100, max: 100 });
    fc.assert(
      fc.property(margin, margin, (a, b) => {
        const { perShelfDay, interval } = shelfDayMargin(
          [a, b].map((one) => ({ margin: one, shelfDays: 10 })),
          0.9,
          distributions,
        );
        expect(perShelfDay).toBeCloseTo((a + b) / 20, 10);
        const half = (Math.tan(0.45 * Math.PI) * Math.abs(a - b)) / 2 / 10;
        expect(interval![1] - perShelfDay).toBeCloseTo(half, 8);
      }),
    );
  });

  test.each<[LotMargin[], number, Refusal]>([
    [[], 0.95, ['crops', 'tooFew', { least: 1, things: 'lot with a total and days', found: 0 }]],
    [
      [{ margin: 1, shelfDays: 0, at: 4 }],
      0.95,
      ['crops, days', 'outside', { above: 0, given: 0 }, { at: 4 }],
    ],
    [[{ margin: 1, shelfDays: 1 }], 95, ['confidence', 'outside', { from: 0.5, to: 0.9999, given: 95 }]],
  ])('refuses %p, %p', (lots, confidence, refusal) => {
    expectFault(() => shelfDayMargin(lots, confidence, distributions), refusal);
  });
});
