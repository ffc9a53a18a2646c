import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { inoculateBy } from '../../../src/maths/ripening/inoculateBy';
import { readyDate, type RipeningDays } from '../../../src/maths/ripening/readyDate';
import { serialOf, writtenDate } from '../../../src/maths/shared/serial';
import { dateOf } from '../../../src/maths/shared/fault';
import { expectFault, type Refusal } from '../expectFault';

const days = { earliest: 63, best: 77, latest: 98 };

describe('inoculateBy(wantedSerial, days, point, firstPick) gives the last day that still makes it', () => {
  test.each([
    // Royse & Sánchez-Vázquez (2007), shiitake: 21 days of spawn run and 28 of browning; a first pick 7 days later is
    // common practice, no source. Calendar dates by hand, leap day and year's end included.
    { wanted: [2007, 2, 26], wait: 49, firstPick: 7, day: '2007-01-01' },
    { wanted: [2024, 3, 11], wait: 49, firstPick: 7, day: '2024-01-15' },
    { wanted: [2024, 1, 15], wait: 49, firstPick: 7, day: '2023-11-20' },
    // Half days: 48.5 + 7 before a date is noon of a day; that day's morning is still in time.
    { wanted: [2024, 3, 11], wait: 48.5, firstPick: 7, day: '2024-01-15' },
  ])(
    '$wait + $firstPick days before $wanted is $day',
    ({ wanted: [year, month, day], wait, firstPick, day: by }) => {
      const wanted = serialOf(year!, month!, day!);
      expect(
        writtenDate(
          inoculateBy(wanted, { earliest: undefined, best: wait, latest: undefined }, 'best', firstPick),
          1900,
        ),
      ).toBe(by);
    },
  );

  test('picks in time when inoculated that day, and too late the day after', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30000, max: 80000 }),
        fc.integer({ min: 1, max: 4000 }),
        fc.integer({ min: 1, max: 400 }),
        (wanted, waitSixteenths, pickSixteenths) => {
          const given = { earliest: waitSixteenths / 16, best: undefined, latest: undefined };
          const by = inoculateBy(wanted, given, 'earliest', pickSixteenths / 16);
          const pick = (inoculated: number): number =>
            readyDate(inoculated, given, 'earliest') + pickSixteenths / 16;
          expect(pick(by)).toBeLessThanOrEqual(wanted);
          expect(pick(by + 1)).toBeGreaterThan(wanted);
        },
      ),
    );
  });

  test.each<[number, RipeningDays, number, Refusal]>([
    [0, days, 7, ['wanted', 'outside', { above: 0, given: 0 }]],
    [NaN, days, 7, ['wanted', 'outside', { above: 0, given: NaN }]],
    [46000, { ...days, best: NaN }, 7, ['best', 'outside', { above: 0, given: NaN }]],
    [46000, { ...days, best: undefined }, 7, ['strain', 'blank', { header: 'best', table: 'strains' }]],
    [
      46000,
      { ...days, best: 100, at: 3 },
      7,
      [
        'strains, latest',
        'outside',
        { from: 100, unit: 'days', what: 'which is best', given: 98 },
        { at: 3 },
      ],
    ],
    [46000, days, 0, ['first pick', 'outside', { above: 0, given: 0 }]],
    [60, days, 7, ['wanted', 'beforeCalendar', { given: dateOf(60) }]],
  ])('refuses (%p, %p, %p)', (wanted, given, firstPick, refusal) => {
    expectFault(() => inoculateBy(wanted, given, 'best', firstPick), refusal);
  });
});
