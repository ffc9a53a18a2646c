import { describe, expect, test } from '@jest/globals';
import { celsiusOf, timeOf } from '../../../src/maths/shared/fault';
import { coreLog, coreLogUpToFault, type TimeUnit } from '../../../src/maths/sterilising/coreLog';
import { lethalityCurve } from '../../../src/maths/sterilising/lethalityCurve';
import { runningLethality } from '../../../src/maths/sterilising/runningLethality';
import { expectFault, type Refusal } from '../expectFault';

describe('coreLog(times, temperaturesC, timeUnit) gives the readings in minutes from the first', () => {
  test('counts minutes from the first reading and leaves out entries that hold nothing', () => {
    const { minutes, temperaturesC, entries } = coreLog([7, 0, 12, 22], [100, NaN, 112, 121], undefined);
    expect([...minutes]).toEqual([0, 5, 15]);
    expect([...temperaturesC]).toEqual([100, 112, 121]);
    expect([...entries]).toEqual([0, 2, 3]);
  });

  test('counts a quarter of a day as 360 minutes where times are dates', () => {
    const { minutes } = coreLog([46_000.5, 46_000.75], [100, 121], 'dates');
    expect([...minutes]).toEqual([0, 360]);
  });

  test('takes minutes for minutes where that is said, however much they look like dates', () => {
    expect([...coreLog([46_000, 46_000.5], [121, 121], 'minutes').minutes]).toEqual([0, 0.5]);
  });

  const range = { from: celsiusOf(-40), to: celsiusOf(160) };
  test.each<[number[], number[], TimeUnit, Refusal]>([
    [[0, 10, 10], [100, 121, 121], undefined, ['times', 'notLater', { before: 10, given: 10 }, { index: 2 }]],
    [
      [46_000.5, 46_000.25],
      [121, 121],
      'dates',
      ['times', 'notLater', { before: timeOf(46_000.5), given: timeOf(46_000.25) }, { index: 1 }],
    ],
    [[0, 0, 10], [100, NaN, NaN], undefined, ['temperatures', 'noReading', {}, { index: 2 }]],
    [
      [0, 10],
      [121, 850],
      undefined,
      ['temperatures', 'outside', { ...range, given: celsiusOf(850) }, { index: 1 }],
    ],
    [[46_000.5, 46_000.6], [121, 121], undefined, ['times', 'datesForMinutes']],
    [[0.5, 0.55], [121, 121], undefined, ['times', 'datesForMinutes']],
    [[1, 90], [121, 121], 'dates', ['times', 'logTooLong', { most: 30, days: 89 }]],
    // A probe that was dead at minute 0 looks like an empty row.
    [[0, 5, 10], [NaN, 121, 121], undefined, ['temperatures', 'noFirstReading', {}, { index: 0 }]],
    [[0, 0, 5, 10], [NaN, NaN, 121, 121], 'minutes', ['temperatures', 'noFirstReading', {}, { index: 0 }]],
    [[0, 46000.1], [121, 121], 'dates', ['times', 'noTime', {}, { index: 0 }]],
    [[0, 0], [NaN, NaN], undefined, ['times', 'tooFew', { least: 2, things: 'readings', found: 0 }]],
  ])('refuses %p at %p °C in %p', (times, core, timeUnit, refusal) => {
    expectFault(() => coreLog(times, core, timeUnit), refusal);
  });
});

test('coreLog passes over empty entries above a log that has its minute 0, or has dates', () => {
  expect([...coreLog([0, 0, 5], [NaN, 100, 121], undefined).entries]).toEqual([1, 2]);
  expect([...coreLog([0, 46000.1, 46000.2], [NaN, 100, 121], 'dates').entries]).toEqual([1, 2]);
});

describe('lethalityCurve(times, temperaturesC, timeUnit) gives the running total beside each entry', () => {
  const times = [0, 5, 0, 10, 15];
  const core = [100, 112, NaN, 121, 110];

  test('is the running lethality, with nothing beside an entry that holds nothing', () => {
    const [a, b, c, d] = runningLethality([0, 5, 10, 15], [100, 112, 121, 110]);
    expect(lethalityCurve(times, core, undefined)).toEqual([a, b, undefined, c, d]);
  });

  test('keeps the total up to a bad reading and gives its fault from there on', () => {
    const curve = lethalityCurve(times, [100, 112, NaN, 500, 110], undefined);
    expect(curve.slice(0, 3)).toEqual(lethalityCurve(times, core, undefined).slice(0, 3));
    const details = { from: celsiusOf(-40), to: celsiusOf(160), given: celsiusOf(500) };
    const fault = { argument: 'temperatures', code: 'outside', details, index: 3 };
    expect(curve.slice(3)).toEqual([expect.objectContaining({ fault }), expect.objectContaining({ fault })]);
  });

  test('has no answer where one of the first two entries is bad, or the resistance is none', () => {
    expectFault(
      () => coreLogUpToFault([0, 5, 10], [100, NaN, 121], undefined),
      ['temperatures', 'noReading', {}, { index: 1 }],
    );
    expectFault(() => lethalityCurve(times, core, undefined, { zC: 0, referenceC: 121.1 }), ['z', 'outside']);
  });
});
