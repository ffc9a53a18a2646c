import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { readyDate, type RipeningDays } from '../../../src/maths/ripening/readyDate';
import { dateOf } from '../../../src/maths/shared/fault';
import { serialOf, writtenDate } from '../../../src/maths/shared/serial';
import { expectFault, type Refusal } from '../expectFault';

const days = { earliest: 63, best: 77, latest: 98 };

describe('readyDate(inoculatedSerial, days, point) gives the date of the point', () => {
  test.each([
    // Royse & Sánchez-Vázquez (2007), shiitake: spawn run 21 days and browning 28 days before the first break, so
    // 49 days from inoculation; the calendar dates by hand, leap day and year's end included.
    { from: [2007, 1, 1], wait: 21 + 28, to: '2007-02-19' },
    { from: [2024, 1, 15], wait: 21 + 28, to: '2024-03-04' },
    { from: [2023, 11, 20], wait: 21 + 28, to: '2024-01-08' },
    // Royse (1985) Mycologia 77(5):756–762: spawn runs of 58 and 116 days compared
    { from: [1985, 3, 1], wait: 58, to: '1985-04-28' },
    { from: [1985, 3, 1], wait: 116, to: '1985-06-25' },
  ])('$from and $wait days is $to', ({ from: [year, month, day], wait, to }) => {
    const inoculated = serialOf(year!, month!, day!);
    expect(
      writtenDate(
        readyDate(inoculated, { earliest: undefined, best: wait, latest: undefined }, 'best'),
        1900,
      ),
    ).toBe(to);
  });

  test('keeps the time of day and adds the same days wherever it starts', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 2_000_000, noNaN: true }), (inoculated) => {
        expect(readyDate(inoculated, days, 'latest')).toBe(inoculated + 98);
      }),
    );
  });

  test('takes twice the days at half the speed, and has no answer at none', () => {
    expect(readyDate(46000, days, 'best', 0.5)).toBe(46154);
    expectFault(() => readyDate(46000, days, 'best', 0), ['temperature', 'noGrowth']);
    expectFault(() => readyDate(46000, days, 'best', NaN), ['speed', 'outside', { from: 0, given: NaN }]);
  });

  test('blames the temperature where the lot would be ready in time but for it, and the date where not', () => {
    expectFault(() => readyDate(46000, days, 'best', 1e-6), ['temperature', 'neverReady']);
    const late: Refusal = ['inoculated', 'pastCalendar', { given: dateOf(2958460) }];
    expectFault(() => readyDate(2958460, days, 'best', 0.5), late);
  });

  // 9999-12-31 is serial 2958465 (Microsoft, DATE function)
  test('the last day of the calendar is a date, the day after is none', () => {
    const [last, best] = [2958465, days.best];
    expect(readyDate(last - best, days, 'best')).toBe(last);
    expectFault(
      () => readyDate(last + 1 - best, days, 'best'),
      ['inoculated', 'pastCalendar', { given: dateOf(last + 1 - best) }],
    );
    expect(readyDate(last - 2 * best, days, 'best', 0.5)).toBe(last);
    expectFault(() => readyDate(last + 1 - 2 * best, days, 'best', 0.5), ['temperature', 'neverReady']);
  });

  test('days in order are taken, equal ones too, and a point that is not known is passed over', () => {
    expect(readyDate(46000, { earliest: 70, best: 70, latest: 70 }, 'best')).toBe(46070);
    expect(readyDate(46000, { earliest: 70, best: undefined, latest: 80 }, 'latest')).toBe(46080);
  });

  test.each<[number, RipeningDays, Refusal]>([
    [0, days, ['inoculated', 'outside', { above: 0, given: 0 }]],
    [NaN, days, ['inoculated', 'outside', { above: 0, given: NaN }]],
    [46000, { ...days, best: -3 }, ['best', 'outside', { above: 0, given: -3 }]],
    [46000, { ...days, best: undefined }, ['strain', 'blank', { header: 'best', table: 'strains' }]],
    [2958460, days, ['inoculated', 'pastCalendar', { given: dateOf(2958460) }]],
    [
      46000,
      { earliest: 90, best: 70, latest: 80, at: 4 },
      [
        'strains, best',
        'outside',
        { from: 90, unit: 'days', what: 'which is earliest', given: 70 },
        { at: 4 },
      ],
    ],
    [
      46000,
      { ...days, latest: 70 },
      ['strains, latest', 'outside', { from: 77, unit: 'days', what: 'which is best', given: 70 }],
    ],
    [
      46000,
      { earliest: 90, best: undefined, latest: 80 },
      ['strain', 'blank', { header: 'best', table: 'strains' }],
    ],
  ])('refuses (%p, %p)', (inoculated, given, refusal) => {
    expectFault(() => readyDate(inoculated, given, 'best'), refusal);
  });
});
