import { describe, expect, test } from '@jest/globals';
import { pickDate } from '../../../src/maths/loading/pickDate';

const times = { firstPick: 7, flushGap: 18, flushes: 3 };

describe('pickDate(loadedSerial, times, flush) gives the first pick of a flush', () => {
  test.each([
    // Seven days from opening to the first pick: common practice for shiitake, no source.
    { flush: 1, wanted: 46146 + 7 },
    { flush: 2, wanted: 46146 + 7 + 18 },
    { flush: 3, wanted: 46146 + 7 + 36 },
  ])('flush $flush', ({ flush, wanted }) => {
    expect(pickDate(46146, times, flush)).toBe(wanted);
  });

  test('needs no flush gap for the first flush', () => {
    expect(pickDate(46146, { ...times, flushGap: undefined }, 1)).toBe(46153);
  });

  test.each([
    [0, times, 1, 'loaded: a number above 0 needed, got 0'],
    [46146, { ...times, firstPick: 0 }, 1, 'first pick: a number above 0 needed, got 0'],
    [46146, times, 1.5, 'flush: a whole number of 1 or more needed, got 1.5'],
    [46146, times, 4, 'flush: the strain is kept for 3 in strains, flush 4 was asked for'],
    [46146, { ...times, flushGap: undefined }, 2, 'flush: the strain has no flush gap in strains'],
    [2958465, times, 1, 'loaded: a date picked before the year 10000 needed, got 2958465'],
  ])('refuses (%p, %p, %p)', (loaded, given, flush, message) => {
    expect(() => pickDate(loaded, given, flush)).toThrow(message);
  });
});
