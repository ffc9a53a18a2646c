import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { CalcError, dateOf, timeOf } from '../../../src/maths/shared/fault';
import { growthRate } from '../../../src/maths/ripening/growthRate';
import { readyDate } from '../../../src/maths/ripening/readyDate';
import { ripeningProgress, type LoggedLot } from '../../../src/maths/ripening/ripeningProgress';
import { ripeningSpeed } from '../../../src/maths/ripening/ripeningSpeed';
import { expectFault, type Refusal } from '../expectFault';

const inoculatedSerial = 46055;
const response = { observedAt: 20, min: 5, best: 25, max: 33 };
const MINUTE = 1 / 1440;

function lot(readings: readonly (readonly [number, number])[], asOfDay?: number): LoggedLot {
  return {
    inoculatedSerial,
    days: 77,
    response,
    timeSerials: readings.map(([day]) => inoculatedSerial + day),
    temperatures: readings.map(([, temperature]) => temperature),
    asOfSerial: asOfDay === undefined ? undefined : inoculatedSerial + asOfDay,
  };
}

/** A log with uneven steps: hours from inoculation and temperatures, from some day on. */
const unevenLog = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 20, max: 350 })), {
    minLength: 2,
    maxLength: 60,
  })
  .map((steps) => {
    let hours = -24;
    return steps.map(([step, tenths]) => [(hours += step) / 24, tenths / 10] as const);
  });

describe('ripeningProgress(lot) adds up growth along a logger’s readings', () => {
  test.each([
    // By hand: rates 0.45 at 15, 0.8125 at 20 and 1 at 25 (Rosso et al. 1993; 5, 25, 33), 77 days at 20.
    { name: '11 days at 20', at: 20, progress: 11 / 77, ready: 77 },
    { name: '11 days at 15', at: 15, progress: ((11 / 77) * 0.45) / 0.8125, ready: (77 * 0.8125) / 0.45 },
    { name: '11 days at 25', at: 25, progress: 11 / 77 / 0.8125, ready: 77 * 0.8125 },
  ])('$name', ({ at, progress, ready }) => {
    const got = ripeningProgress(
      lot([
        [0, at],
        [3, at],
        [11, at],
      ]),
    );
    expect(got.progress).toBeCloseTo(progress, 12);
    expect((got.readySerial as number) - inoculatedSerial).toBeCloseTo(ready, 9);
  });

  test('at a constant temperature is ready within a minute of readyDate at that temperature', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 32, noNaN: true }),
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 300 }),
        (temperature, steps) => {
          let hours = 0;
          const readings = steps.map((step) => [(hours += step) / 24, temperature] as const);
          const { readySerial } = ripeningProgress(lot(readings));
          const speed = ripeningSpeed(temperature, response);
          const ready = readyDate(
            inoculatedSerial,
            { earliest: undefined, best: 77, latest: undefined },
            'best',
            speed,
          );
          expect(Math.abs((readySerial as number) - ready)).toBeLessThan(MINUTE);
        },
      ),
    );
  });

  test('does not change when a reading is put in on the line between two others', () => {
    fc.assert(
      fc.property(
        unevenLog,
        fc.nat(),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (log, pick, share) => {
          fc.pre(log.at(-1)![0] >= 0);
          const i = 1 + (pick % (log.length - 1));
          const [a, b] = [log[i - 1]!, log[i]!];
          const between = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])] as const;
          const whole = ripeningProgress(lot(log));
          const split = ripeningProgress(lot([...log.slice(0, i), between, ...log.slice(i)]));
          expect(split.progress).toBeCloseTo(whole.progress, 9);
        },
      ),
    );
  });

  test('a log cut in two anywhere adds up to the whole', () => {
    fc.assert(
      fc.property(unevenLog, fc.double({ min: 0, max: 1, noNaN: true }), (log, share) => {
        const end = log.at(-1)![0];
        fc.pre(log[0]![0] <= 0 && end > 0);
        const cut = share * end;
        const part = (from: number, to: number): number =>
          ripeningProgress({ ...lot(log, to), inoculatedSerial: inoculatedSerial + from, days: 10_000 })
            .progress;
        expect(part(0, cut) + part(cut, end)).toBeCloseTo(part(0, end), 12);
      }),
    );
  });

  // An independent method: the rate summed over every minute, temperature interpolated by hand.
  test('agrees with a plain sum over minutes', () => {
    const readings = Array.from({ length: 30 }, (_, i) => [i * 0.37, 14 + 11 * Math.sin(i)] as const);
    const minutes = Math.round(readings.at(-1)![0] * 1440);
    let sum = 0;
    for (let m = 0; m < minutes; m++) {
      const day = (m + 0.5) / 1440;
      const i = Math.min(28, Math.floor(day / 0.37));
      const temperature =
        readings[i]![1] + ((day - i * 0.37) / 0.37) * (readings[i + 1]![1] - readings[i]![1]);
      sum += growthRate(temperature, response) / growthRate(20, response) / 1440;
    }
    expect(ripeningProgress(lot(readings)).progress).toBeCloseTo(sum / 77, 6);
  });

  test('finds the moment it was ready inside the log, and progress stops at 1', () => {
    const got = ripeningProgress({
      ...lot([
        [0, 20],
        [5, 20],
        [30, 20],
      ]),
      days: 12.25,
    });
    expect(got.progress).toBe(1);
    expect(got.readySerial).toBeCloseTo(inoculatedSerial + 12.25, 8);
  });

  test('cuts off what the logger wrote before inoculation and after the date asked about', () => {
    const long = lot(
      [
        [-10, 20],
        [0, 20],
        [40, 20],
      ],
      7.7,
    );
    expect(ripeningProgress(long).progress).toBeCloseTo(0.1, 12);
  });

  test('a log that starts late counts before it at the mean of its first seven days, and says so', () => {
    const readings = Array.from({ length: 21 }, (_, day) => [day + 4, day < 7 ? 25 : 15] as const);
    const late = ripeningProgress(lot(readings));
    // Seven days: six at 25 and one from 25 to 15. In 2,000 slices by hand.
    let lastDay = 0;
    for (let i = 0; i < 2000; i++) lastDay += growthRate(25 - (10 * (i + 0.5)) / 2000, response) / 2000;
    const speed = (6 + lastDay) / 7 / growthRate(20, response);
    expect(late.hoursBefore).toBeCloseTo(96, 9);
    const onTime = ripeningProgress({ ...lot(readings), inoculatedSerial: inoculatedSerial + 4 });
    expect(late.progress - onTime.progress).toBeCloseTo((4 * speed) / 77, 7);
  });

  test('a log that ends early goes on at the mean of its last seven days, and says so', () => {
    const readings = Array.from({ length: 21 }, (_, day) => [day, day < 10 ? 15 : 25] as const);
    const early = ripeningProgress(lot(readings, 30));
    const upTo = ripeningProgress(lot(readings, 20));
    expect(early.hoursAfter).toBeCloseTo(240, 9);
    expect(early.progress - upTo.progress).toBeCloseTo(10 / 0.8125 / 77, 12);
    expect(early.readySerial as number).toBeCloseTo(upTo.readySerial as number, 6);
  });

  test('bridges gaps over six hours and counts them', () => {
    const got = ripeningProgress(
      lot([
        [0, 20],
        [0.25, 20],
        [1.25, 20],
        [1.5, 20],
        [3.5, 20],
      ]),
    );
    expect(got).toMatchObject({ gaps: 2, gapHours: 72, hoursBefore: 0, hoursAfter: 0 });
    expect(got.progress).toBeCloseTo(3.5 / 77, 12);
  });

  test('says so where it has stopped growing, and keeps the progress', () => {
    const cold = ripeningProgress(
      lot([
        [0, 20],
        [7.7, 20],
        [7.8, 4],
        [20, 4],
      ]),
    );
    expect(cold.progress).toBeGreaterThan(0.1);
    expect(cold.readySerial).toBeInstanceOf(CalcError);
    expect((cold.readySerial as CalcError).fault).toEqual({
      argument: 'temperatures',
      code: 'noGrowthLately',
      details: { days: 7 },
    });
  });

  const day = (after: number) => dateOf(inoculatedSerial + after);
  const time = (after: number) => timeOf(inoculatedSerial + after);
  test.each<[string, LoggedLot, Refusal]>([
    [
      'repeated time',
      lot([
        [0, 20],
        [1, 20],
        [1, 20],
      ]),
      ['times', 'notLater', { before: time(1), given: time(1) }, { index: 2 }],
    ],
    [
      'time out of order',
      lot([
        [2, 20],
        [1.5, 20],
      ]),
      ['times', 'notLater', { before: time(2), given: time(1.5) }, { index: 1 }],
    ],
    ['no readings', lot([]), ['times', 'noReadings', { from: day(0), to: day(0) }]],
    [
      'a log that ends before',
      lot([
        [-3, 20],
        [-1, 20],
      ]),
      ['times', 'noReadings', { from: day(0) }],
    ],
    [
      'a log that starts after',
      lot(
        [
          [3, 20],
          [4, 20],
        ],
        2,
      ),
      ['times', 'noReadings', { from: day(0), to: day(2) }],
    ],
    [
      'as of before inoculation',
      lot(
        [
          [0, 20],
          [4, 20],
        ],
        -1,
      ),
      ['as of', 'notBefore', { other: 'inoculated', date: day(0), given: day(-1) }],
    ],
    [
      'no number',
      lot([
        [0, 20],
        [4, NaN],
      ]),
      ['temperatures', 'outside', { given: NaN }, { index: 1 }],
    ],
    ['no days', { ...lot([[0, 20]]), days: 0 }, ['best', 'outside', { above: 0, given: 0 }]],
  ])('refuses %s', (_what, given, refusal) => {
    expectFault(() => ripeningProgress(given), refusal);
  });
});
