import { describe, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { type Grid, isCellError, plainValues } from '../../src/worksheet/cells/cell';
import { evaluate } from './prepared';

const call = (name: string, ...given: (Grid | null)[]) =>
  plainValues(
    evaluate(
      catalogue.find((f) => f.name === name)!,
      given,
    ),
  );
const column = (...cells: (number | string | null)[]): Grid => cells.map((cell) => [cell]);
const shown = (rows: ReturnType<typeof call>) =>
  rows.map(([cell]) => (isCellError(cell) ? cell.reason : cell));

describe('a core logger as it comes', () => {
  const minutes = column(0, 5, 10, 15, 20);
  const celsius = [100, 112, 121, 121, 110];

  test('gives the same in °C with minutes and in °F with dates', () => {
    const fahrenheit = column(...celsius.map((core) => core * 1.8 + 32));
    // Steps of 1/256 day, exact in a serial: 5.625 minutes.
    const dates = column(...celsius.map((_, i) => 46_000 + i / 256));
    const [[inC]] = call('LETHALITY', minutes, column(...celsius)) as [[number]];
    const [[inF]] = call('LETHALITY', dates, fahrenheit, null, null, [['F']], [['dates']]) as [[number]];
    expect(inF / inC).toBeCloseTo(5.625 / 5, 10);
  });

  test('z and reference in °F are those in °C', () => {
    const fahrenheit = column(...celsius.map((core) => core * 1.8 + 32));
    const inC = call('LETHALITY', minutes, column(...celsius), [[8]], [[115]]) as [[number]];
    const inF = call('LETHALITY', minutes, fahrenheit, [[14.4]], [[239]], [['F']]) as [[number]];
    expect(inF[0][0]).toBeCloseTo(inC[0][0], 10);
  });

  test('a bad reading leaves the running total before it and faults from its row on', () => {
    const rows = shown(call('LETHALITYCURVE', minutes, column(100, 112, 121, null, 110)));
    const whole = shown(call('LETHALITYCURVE', minutes, column(...celsius)));
    expect(rows.slice(0, 3)).toEqual(whole.slice(0, 3));
    expect(rows.slice(3)).toEqual(
      Array(2).fill(
        'temperatures must have a reading beside each time; it is blank or 0 (row 4 of the column)',
      ),
    );
  });

  test('rows with neither time nor temperature do not count, wherever they are', () => {
    const gappy = call('LETHALITY', column(0, null, 5, 10, null), column(100, null, 112, 121, null));
    expect(gappy).toEqual(call('LETHALITY', column(0, 5, 10), column(100, 112, 121)));
  });

  test('dates are never taken for minutes, nor minutes for dates', () => {
    const dates = column(46_000.5, 46_000.55);
    const clock = column(0.5, 0.55);
    const core = column(121, 121);
    expect(shown(call('LETHALITY', dates, core))[0]).toContain('set the time unit to dates');
    expect(shown(call('LETHALITY', clock, core))[0]).toContain('set the time unit to dates');
    expect(shown(call('LETHALITY', column(1, 90), core, null, null, null, [['dates']]))[0]).toBe(
      'times must lie within 30 days; they span 89 days',
    );
    expect(call('LETHALITY', clock, core, null, [[121]], null, [['dates']])).toEqual([
      [expect.closeTo(72, 9)],
    ]);
  });
});

test.each([
  ['STEAMTEMP', 1],
  ['STEAMPRESSURE', 121.1],
  ['BOILINGPOINT', 1500],
])('%s takes kPa as its units, as the other functions of steam do', (name, figure) => {
  const units = name === 'BOILINGPOINT' ? [[['kPa']]] : [null, [['kPa']]];
  expect(shown(call(name, [[figure]], ...units))).toEqual([expect.any(Number)]);
});

describe('HEATINGFIT', () => {
  /** The gap to a medium of 120 °C halves every 10 minutes, then the core holds its peak: f is 10 ÷ log10 2. */
  const core = [20, 70, 95, 107.5, 113.75, 116.875, 118.4375, 119.2, 119.2, 119.2, 119.2, 119.2];
  const fitted = (from: number) => {
    const times = column(...core.map((_, i) => from + 10 * i));
    const [headers, row] = call('HEATINGFIT', times, column(...core), [[120]]);
    return Object.fromEntries(headers!.map((header, k) => [header, row![k]])) as Record<string, number>;
  };

  test('counts the kill up to the last of its hottest readings, as LETHALITY does', () => {
    const times = column(...core.map((_, i) => 10 * i));
    const [[whole]] = call('LETHALITY', times, column(...core)) as [[number]];
    // The same heat but for the come-up, whose straight lines lie a little below the fitted curve.
    const fit = fitted(0)['lethality (minutes)']!;
    expect(Math.abs(fit / whole - 1)).toBeLessThan(0.05);
  });

  test('tells the straight part in the minutes of the log', () => {
    const [early, late] = [fitted(0), fitted(200)];
    expect(late['straight from (minute)']).toBe(early['straight from (minute)']! + 200);
    expect(late['straight to (minute)']).toBe(early['straight to (minute)']! + 200);
    expect(late['lethality (minutes)']).toBeCloseTo(early['lethality (minutes)']!, 9);
  });
});

describe('messages speak in the units of the call', () => {
  test.each<[string, Parameters<typeof column>, (Grid | null)[], string]>([
    [
      'LETHALITY',
      [1, 90],
      [column(250, 500), null, null, [['F']]],
      'temperatures must be from -40 to 320 °F; it is 500 °F (row 2 of the column)',
    ],
    [
      'LETHALITY',
      [1, 90],
      [column(250, 250), [[100]], null, [['F']]],
      'z must be from 3.6 to 90 °F; it is 100 °F',
    ],
    [
      'LETHALITY',
      [46_000.5, 46_000.25],
      [column(121, 121), null, null, null, [['dates']]],
      'times must rise from row to row; 2025-12-09 06:00 comes after 2025-12-09 12:00 (row 2 of the column)',
    ],
    ['STEAMTEMP', [200], [null, [['US']]], 'gauge pressure must be from -13 to 145 psi; it is 200 psi'],
    ['STEAMTEMP', [2000], [null, [['kPa']]], 'gauge pressure must be from -90 to 1000 kPa; it is 2000 kPa'],
    [
      'STEAMTEMP',
      [-12],
      [[[10_000]], [['US']]],
      'gauge pressure is close to a full vacuum at this altitude; it is -12 psi',
    ],
    ['BOILINGPOINT', [40_000], [[['US']]], 'altitude must be from -1640 to 36089 ft; it is 40000 ft'],
    ['STEAMPRESSURE', [500], [null, [['US']]], 'temperature must be from 50 to 365 °F; it is 500 °F'],
    [
      'HEATINGFIT',
      [0, 10],
      [column(140, 212), [[120]], null, null, [['F']]],
      'medium must be above 140 °F, the first reading; it is 120 °F',
    ],
  ])('%s of %p', (name, cells, others, says) => {
    expect(shown(call(name, column(...cells), ...others))[0]).toBe(says);
  });
});
