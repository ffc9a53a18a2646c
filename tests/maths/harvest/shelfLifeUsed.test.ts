import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shelfLifeUsed, type Keeping } from '../../../src/maths/harvest/shelfLifeUsed';
import { celsiusOf, timeOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

describe('shelfLifeUsed(times, temperatures, keeping) gives the share used and the days left', () => {
  // Published keeping times and heat or gas rates at two temperatures; the q10 is what the two figures imply, so a log at
  // the second temperature for its own keeping time must use up the life of the first.
  test.each([
    // shiitake 10–12 days at 4 °C, 2–3 days at 25–30 °C: 11 and 2.5 days over 23.5 K
    { life: 11, reference: 4, at: 27.5, days: 2.5, q10: 1.878 },
    // oyster, Bohling & Hansen (1989) Acta Horticulturae 258:573: 2500 J/kg·h at 15 °C against 750 at 3.5 °C
    { life: 10, reference: 3.5, at: 15, days: 3, q10: 2.849 },
    // button, Iqbal et al. (2009): oxygen 22.13 mL/kg·h at 0 °C, 102.41 at 20 °C
    { life: 10, reference: 0, at: 20, days: 2.16091, q10: 2.1512 },
  ])('$life days at $reference °C with q10 $q10 are used up in $days days at $at °C', (row) => {
    const { used, daysLeft } = shelfLifeUsed([0, row.days], [row.at, row.at], {
      lifeDays: row.life,
      referenceC: row.reference,
      q10: row.q10,
    });
    // the published ratios are printed to four digits
    expect(Math.abs(used - 1)).toBeLessThan(0.001);
    expect(daysLeft).toBeLessThan(0.01);
  });

  const keeping = { lifeDays: 12, referenceC: 2, q10: 2.5 };

  test('half the life at the reference leaves the other half', () => {
    expect(shelfLifeUsed([100, 106], [2, 2], keeping)).toEqual({ used: 0.5, daysLeft: 6 });
  });

  test('agrees with a fine trapezoid sum along the same straight lines', () => {
    const temperature = fc.double({ min: -2, max: 30, noNaN: true });
    fc.assert(
      fc.property(fc.array(temperature, { minLength: 2, maxLength: 8 }), (temperatures) => {
        const times = temperatures.map((_, i) => i * 0.25);
        const rate = (t: number): number => 2.5 ** ((t - 2) / 10);
        let sum = 0;
        for (let i = 1; i < times.length; i++) {
          for (let n = 0; n < 400; n++) {
            const middle =
              temperatures[i - 1]! + ((n + 0.5) / 400) * (temperatures[i]! - temperatures[i - 1]!);
            sum += (0.25 / 400) * rate(middle);
          }
        }
        expect(shelfLifeUsed(times, temperatures, keeping).used).toBeCloseTo(sum / 12, 5);
      }),
    );
  });

  test('does not change when a straight run is logged more often', () => {
    const coarse = shelfLifeUsed([0, 2], [2, 20], keeping).used;
    const fine = shelfLifeUsed([0, 0.5, 1, 1.5, 2], [2, 6.5, 11, 15.5, 20], keeping).used;
    expect(fine).toBeCloseTo(coarse, 13);
  });

  test('with q10 of 1 counts days only', () => {
    expect(shelfLifeUsed([0, 3], [2, 30], { ...keeping, q10: 1 }).used).toBeCloseTo(0.25, 14);
  });

  test.each<[number[], number[], Keeping, Refusal]>([
    [[0, 1], [2, 2], { ...keeping, lifeDays: 0 }, ['life', 'outside', { above: 0, given: 0 }]],
    [
      [0, 1],
      [2, 2],
      { ...keeping, referenceC: 60 },
      ['reference', 'outside', { from: celsiusOf(-5), to: celsiusOf(50), given: celsiusOf(60) }],
    ],
    [[0, 1], [2, 2], { ...keeping, q10: 0.5 }, ['q10', 'outside', { from: 1, to: 10, given: 0.5 }]],
    [
      [0, 1, 2],
      [2, 5, 80],
      keeping,
      [
        'temperatures',
        'outside',
        { from: celsiusOf(-5), to: celsiusOf(50), given: celsiusOf(80) },
        { index: 2 },
      ],
    ],
    [
      [0, 1, 1],
      [2, 2, 2],
      keeping,
      ['times', 'notLater', { before: timeOf(1), given: timeOf(1) }, { index: 2 }],
    ],
    [[0, NaN], [2, 2], keeping, ['times', 'notLater', { before: timeOf(0) }, { index: 1 }]],
    [[0], [2], keeping, ['times', 'tooFew', { least: 2, found: 1 }]],
  ])('refuses (%p, %p, %p)', (times, temperatures, how, refusal) => {
    expectFault(() => shelfLifeUsed(times, temperatures, how), refusal);
  });
});
