import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { CalcError, dateOf } from '../../../src/maths/shared/fault';
import { strainWaits, type RipeningRecord } from '../../../src/maths/ripening/strainWaits';
import { expectFault } from '../expectFault';

const asOf = 46200;
const ready = (strain: string, days: number): RipeningRecord => ({
  strain,
  inoculatedSerial: 46000,
  readySerial: 46000 + days,
});
const waiting = (strain: string, days: number): RipeningRecord => ({
  strain,
  inoculatedSerial: asOf - days,
  readySerial: undefined,
});

describe('strainWaits(records, asOf) learns each strain’s days from lots ready and lots waiting', () => {
  test('reads the 6-MP arm of Freireich (1963) off dates: median 23, 95% interval from 13, 10% at 6', () => {
    // Blood 21:699–716; median as every textbook has it, interval ends by R 4.2.2, survival 3.5-3, log-log
    const records = [
      ...[6, 6, 6, 7, 10, 13, 16, 22, 23].map((days) => ready('Alder-3', days)),
      ...[6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((days) => waiting('alder-3 ', days)),
    ];
    expect(strainWaits(records, asOf)).toEqual([
      {
        strain: 'Alder-3',
        lots: 21,
        waiting: 12,
        days: {
          p10: { days: 6, from: 6, to: 10 },
          median: { days: 23, from: 13, to: undefined },
          p90: { days: undefined, from: undefined, to: undefined },
        },
      },
    ]);
  });

  test('does not invent a median where every lot still waits', () => {
    const [only] = strainWaits([waiting('Birch-1', 3), waiting('Birch-1', 9)], asOf);
    expect(only).toMatchObject({ lots: 2, waiting: 2, days: { median: { days: undefined } } });
  });

  test('counts the records as they stood: ready later is waiting, inoculated later is not there', () => {
    const records = [ready('A', 10), ready('A', 30)];
    expect(strainWaits(records, 46020)[0]).toMatchObject({ lots: 2, waiting: 1 });
    expect(strainWaits(records, 46000)).toEqual([]);
  });

  test('dropping the waiting lots would make a strain look faster', () => {
    const done = [10, 12, 14].map((days) => ready('A', days));
    const median = (records: RipeningRecord[]): unknown => strainWaits(records, asOf)[0]!.days;
    expect(median(done)).toMatchObject({ median: { days: 12 } });
    expect(median([...done, waiting('A', 20), waiting('A', 21)])).toMatchObject({ median: { days: 14 } });
  });

  test('is the same in any order of the rows', () => {
    const record = fc.record({
      strain: fc.constantFrom('A', 'B', 'C'),
      inoculatedSerial: fc.integer({ min: 46000, max: 46100 }),
      readySerial: fc.option(fc.integer({ min: 46101, max: 46199 }), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(record, { maxLength: 40 }), (records) => {
        expect(strainWaits([...records].reverse(), asOf)).toEqual(strainWaits(records, asOf));
      }),
    );
  });

  test('a record ready no later than inoculated spoils its own strain only, and is named', () => {
    const [bad, good] = strainWaits(
      [ready('B', 9), ready('A', 5), { ...ready('A', -2), index: 2 }, ready('A', 0)],
      asOf,
    );
    expect(bad!.days).toBeInstanceOf(CalcError);
    expect(bad!.days).toMatchObject({
      kind: 'invalid',
      fault: {
        argument: 'ready',
        code: 'after',
        index: 2,
        details: { other: 'inoculated', date: dateOf(46000), given: dateOf(45998) },
      },
    });
    expect(good).toMatchObject({ strain: 'B', days: { median: { days: 9 } } });
  });

  test.each([0, NaN, -1])('refuses %p as date', (date) => {
    expectFault(() => strainWaits([], date), ['as of', 'outside', { above: 0, given: date }]);
  });
});
