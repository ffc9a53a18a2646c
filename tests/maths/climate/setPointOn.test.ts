import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import type { SetPoint } from '../../../src/maths/climate/programme';
import { setPointOn } from '../../../src/maths/climate/setPointOn';
import { expectFault, type Refusal } from '../expectFault';

const onDay = <V extends SetPoint>(
  days: readonly number[],
  values: readonly (V | undefined)[],
  day: number,
) =>
  setPointOn(
    days.map((at) => ({ day: at })),
    values,
    day,
  );

describe('setPointOn(rows, values, day) reads a programme', () => {
  const days = [0, 4, 12];
  test.each([
    [0, 18],
    [2, 17],
    [4, 16],
    [8, 15],
    [11.5, 14.125],
    [12, 14],
    [30, 14],
  ])('on day %p it is %p', (day, expected) => {
    expect(onDay(days, [18, 16, 14], day)).toBeCloseTo(expected, 12);
  });

  test('before the first day of the programme it is that of the first', () => {
    expect(onDay([3, 5], [20, 18], 1)).toBe(20);
  });

  test.each([
    [0, undefined],
    [3.9, undefined],
    [4, 'on'],
    [20, 'on'],
  ])('words hold until the next: on day %p %p', (day, expected) => {
    expect(onDay(days, [undefined, 'on', undefined], day)).toBe(expected);
  });

  test.each([
    [2, 17],
    [8, 15],
    [12, 14],
  ])('a blank among numbers is no 0: the line runs past it, on day %p to %p', (day, expected) => {
    expect(onDay([0, 4, 8, 12], [18, 16, undefined, 14], day)).toBeCloseTo(expected, 12);
  });

  test('a blank first or last day takes the nearest number, and a column of blanks has none', () => {
    expect(onDay(days, [undefined, 8, undefined], 0)).toBe(8);
    expect(onDay(days, [undefined, 8, undefined], 30)).toBe(8);
    expect(onDay(days, [undefined, undefined, undefined], 4)).toBeUndefined();
  });

  test('the order of rows does not matter, and no value leaves the range of its neighbours', () => {
    const programmes = fc.uniqueArray(fc.tuple(fc.nat(100), fc.double({ min: -10, max: 40, noNaN: true })), {
      minLength: 1,
      maxLength: 8,
      selector: ([day]) => day,
    });
    fc.assert(
      fc.property(programmes, fc.double({ min: 0, max: 120, noNaN: true }), (rows, day) => {
        const given = onDay(
          rows.map(([at]) => at),
          rows.map(([, point]) => point),
          day,
        ) as number;
        const turned = [...rows].reverse();
        expect(
          onDay(
            turned.map(([at]) => at),
            turned.map(([, point]) => point),
            day,
          ),
        ).toBe(given);
        const points = rows.map(([, point]) => point);
        expect(given).toBeGreaterThanOrEqual(Math.min(...points) - 1e-12);
        expect(given).toBeLessThanOrEqual(Math.max(...points) + 1e-12);
      }),
    );
  });

  test.each<[number[], number, Refusal]>([
    [[0, 4], -1, ['day', 'outside', { from: 0, given: -1 }]],
    [[0, 4], NaN, ['day', 'outside', { from: 0, given: NaN }]],
    [[4, 4], 1, ['programme, day', 'dayTwice', { day: 4 }]],
    [[-1, 4], 1, ['programme, day', 'outside', { from: 0, given: -1 }]],
  ])('refuses days %p on day %p', (programme, day, refusal) => {
    expectFault(() => onDay(programme, [1, 2], day), refusal);
  });
});
