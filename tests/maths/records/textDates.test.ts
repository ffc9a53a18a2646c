import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { DATE_ORDERS, textDates, writtenOrder, type DateOrder } from '../../../src/maths/records/textDates';
import { CalcError } from '../../../src/maths/shared/fault';
import { serialOf } from '../../../src/maths/shared/serial';

const read = (texts: readonly string[], order: DateOrder, system: 1900 | 1904 = 1900) =>
  textDates(texts, order, { system, rowOf: (index) => index + 1 });
const codes = (texts: readonly string[], order: DateOrder) =>
  read(texts, order).map((answer) => (answer instanceof CalcError ? answer.fault.code : answer));

/** 14 March 2026, by the serial of 2026-03-01 that Excel shows, 46082 (from memory, unverified), and 13 days. */
const MARCH_14 = 46095;

describe('a text is read in the stated order', () => {
  test.each<[string, DateOrder]>([
    ['14/3/26', 'day first'],
    ['14.03.2026', 'day first'],
    ['14 - 3 - 2026', 'day first'],
    ['3/14/26', 'month first'],
    ['03-14-2026', 'month first'],
    ['26-03-14', 'year first'],
    ['2026/3/14', 'year first'],
    ['20260314', 'year first'],
    ['14 Mar 2026', 'day first'],
    ['14-MAR-26', 'day first'],
    ['for Sat 14/03/2026', 'day first'],
    ['due: 14 March 2026', 'day first'],
    ['March 14, 2026', 'month first'],
    ['Mar. 14th 26', 'month first'],
    ['26 Mar 14', 'year first'],
    ['14MAR2026', 'day first'],
    ['14Mar26', 'day first'],
    ['14th of March 2026', 'day first'],
    ['the 14th of March, 2026', 'day first'],
    ["14/3/'26", 'day first'],
    ['14.3.26.', 'day first'],
    // 14 March 2026 was a Saturday: the calendar of the Gregorian 400-year cycle, 1 January 2000 being a Saturday.
    ['Sat 14/3/26', 'day first'],
    ['Saturday, March 14, 2026', 'month first'],
    // Names and short forms of the Unicode CLDR calendars of each language (from memory, unverified).
    ['Sa 14.3.26', 'day first'],
    ['Sa., 14.03.2026', 'day first'],
    ['14.3.26 (Sa)', 'day first'],
    ['Samstag, 14. März 2026', 'day first'],
    ['14. Mär. 26', 'day first'],
    ['sam. 14/3/26', 'day first'],
    ['samedi 14 mars 2026', 'day first'],
    ['sáb 14-3-26', 'day first'],
    ['sábado, 14 de marzo de 2026', 'day first'],
    ['za 14-3-2026', 'day first'],
    ['zaterdag 14 maart 2026', 'day first'],
    ['14 mrt 26', 'day first'],
    ['sabato 14 marzo 2026', 'day first'],
    ['sábado 14 de março de 2026', 'day first'],
    ['lørdag 14. marts 2026', 'day first'],
    ['lör 14 mars 2026', 'day first'],
    ['14 marca 2026', 'day first'],
  ])('%s %s', (text, order) => {
    expect(read([text], order)).toEqual([MARCH_14]);
  });

  test.each(DATE_ORDERS)('four digits in front are the year whatever is stated: %s', (order) => {
    expect(read(['2026-03-14'], order)).toEqual([MARCH_14]);
  });

  test.each([
    ['3/14/26 06:00', 0.25],
    ['3/14/26 6:00 PM', 0.75],
    ['3/14/26, 12:00 am', 0],
    ['2026-03-14T18:00:00', 0.75],
    ['2026-03-14T18:00:00.000Z', 0.75],
    ['2026-03-14T18:00+02:00', 0.75],
    ['3/14/26 6pm', 0.75],
    ['Sat 3/14/26 6:00 AM', 0.25],
    ['3/14/26 23:59:59', 86_399 / 86_400],
  ])('a time of day follows: %s', (text, fraction) => {
    expect(read([text], 'month first')).toEqual([MARCH_14 + fraction]);
  });

  // ISO 8601: hours to 23, minutes and seconds to 59; a clock of twelve hours has no 0 and no 13 (common practice).
  test.each(['24:00', '10:60', '10:30:60', '0:30 am', '13:00 pm'])('%s is no time of day', (time) => {
    expect(codes([`3/14/26 ${time}`], 'month first')).toEqual(codes(['3/14/26 x'], 'month first'));
  });

  test('a workbook that counts from 1904 has serials 1462 lower', () => {
    expect(read(['14/3/2026'], 'day first', 1904)).toEqual([MARCH_14 - 1462]);
  });
});

describe('what is no date says why', () => {
  test.each([
    ['soon', 'notADate'],
    ['1/2/3/4', 'notADate'],
    ['14/3/26 25:00', 'notADate'],
    ['14/3', 'withoutYear'],
    ['14 March', 'withoutYear'],
    ['31/2/2026', 'notInCalendar'],
    ['29/2/2025', 'notInCalendar'],
    ['14/3/126', 'notInCalendar'],
    ['31/4/26', 'notInCalendar'],
    ['31/12/1904', 'notInCalendar'],
    ['014/3/26', 'notInCalendar'],
    ['Sunday 14 March 2026', 'otherWeekday'],
    ['So 14.3.26', 'otherWeekday'],
    ['14/3/26?', 'notADate'],
    ['14 Foo 2026', 'notADate'],
    ['Xy 14.3.26', 'notADate'],
    ['14 jui 2026', 'notADate'],
    ['wk 12', 'withoutDay'],
    ['2026-W11', 'withoutDay'],
    ['KW 11/26', 'withoutDay'],
    ['Mar-14', 'withoutYear'],
    ['45000', 'notADate'],
    ['14-Mar', 'withoutYear'],
    ['March 2026', 'withoutDay'],
    ['3/2026', 'withoutDay'],
    ['2026-03', 'withoutDay'],
    ['99/3/14', 'otherOrder'],
    ['3/14/26', 'otherOrder'],
  ])('%s is %s', (text, code) => {
    expect(codes([text], 'day first')).toEqual([code]);
  });

  test('the first day and the last that both date systems can show are dates', () => {
    expect(codes(['1/1/1905', '31/12/9999'], 'day first')).toEqual([
      serialOf(1905, 1, 1),
      serialOf(9999, 12, 31),
    ]);
  });

  test('29 February is there in a leap year', () => {
    expect(codes(['29/2/2028'], 'day first')).toEqual([serialOf(2028, 2, 29)]);
  });
});

describe('a column proves its order', () => {
  test('one text that only the other order reads spoils those that both read, and no others', () => {
    expect(codes(['3/4/26', '19/3/26', '5/5/26', '3/19/26', '14 Mar 26'], 'day first')).toEqual([
      'eitherOrder',
      serialOf(2026, 3, 19),
      serialOf(2026, 5, 5),
      'otherOrder',
      MARCH_14,
    ]);
  });

  test('a weekday proves the order as well', () => {
    // 3 April 2026 is a Friday, 4 March 2026 a Wednesday, by the cycle above.
    expect(codes(['Fri 3/4/26', 'Wed 3/4/26', '5/6/26'], 'day first')).toEqual([
      serialOf(2026, 4, 3),
      'otherOrder',
      'eitherOrder',
    ]);
  });

  test('a weekday that fits no order is told with the day that the date is', () => {
    expect(read(['Tue 14.3.26'], 'day first')[0]).toMatchObject({
      fault: { code: 'otherWeekday', details: { weekday: 6 } },
    });
    // 1 December 2026 is a Tuesday, 12 January a Monday, by the cycle above.
    expect(read(['Tue 12/1/26'], 'day first')[0]).toMatchObject({
      fault: { code: 'otherOrder', details: { other: 'month first', weekday: 1 } },
    });
  });

  test('a short form that is two days in two languages proves what it can', () => {
    // `di` is a Tuesday in Dutch and a Sunday in French: 13 January 2026 is a Tuesday, no 13th month is.
    expect(codes(['di 13-1-26', 'ma 12-1-26'], 'month first')).toEqual(['otherOrder', 'eitherOrder']);
  });

  test('a day that the calendar lacks is a slip and proves nothing', () => {
    expect(codes(['31/4/26', '10/11/12', '29/2/26'], 'day first')).toEqual([
      'notInCalendar',
      serialOf(2012, 11, 10),
      'notInCalendar',
    ]);
  });

  test('with the right order nothing is refused', () => {
    expect(codes(['3/4/26', '3/19/26'], 'month first')).toEqual([
      serialOf(2026, 3, 4),
      serialOf(2026, 3, 19),
    ]);
  });
});

describe('how a text writes a date', () => {
  test.each([
    ['Mo 12.1.26', 'day first'],
    ['Mon 1/12/26', 'month first'],
    ['Sat 1/17/26', 'month first'],
    ['3/4/26', 'either'],
    ['4/4/26', 'any'],
    ['12. Jan. 26', 'any'],
    ['2026-03-14', 'year first'],
    ['31/4/26', 'none'],
    ['Fri 12 Jan 2026', 'none'],
    ['12-Jan', undefined],
    ['2026-W03', undefined],
    ['26/024', undefined],
    ['2,5 kg', undefined],
    ['B-101', undefined],
  ])('%s: %s', (text, order) => {
    expect(writtenOrder(text)).toBe(order);
  });
});

test('every day from 2000 to 2099 that is written in an order is read back in it', () => {
  const writing: Record<DateOrder, (y: number, m: number, d: number) => string> = {
    'day first': (y, m, d) => `${d}/${m}/${y % 100 < 10 ? '0' : ''}${y % 100}`,
    'month first': (y, m, d) => `${m}-${d}-${y}`,
    'year first': (y, m, d) => `${y}.${m}.${d}`,
  };
  fc.assert(
    fc.property(
      fc.integer({ min: 36_526, max: 73_050 }),
      fc.constantFrom(...DATE_ORDERS),
      (serial, order) => {
        const day = new Date(Date.UTC(1899, 11, 30 + serial));
        const text = writing[order](day.getUTCFullYear(), day.getUTCMonth() + 1, day.getUTCDate());
        expect(read([text], order)).toEqual([serial]);
      },
    ),
  );
});

describe('a day and a month without a year', () => {
  const inYear = (texts: readonly string[], order: DateOrder, year?: number) =>
    textDates(texts, order, { system: 1900, rowOf: (index) => index + 1, year }).map((answer) =>
      answer instanceof CalcError ? answer.fault.code : answer,
    );

  test.each<[string, DateOrder]>([
    ['14 Mar', 'day first'],
    ['March 14th', 'month first'],
    ['14.3.', 'day first'],
    ['3/14', 'month first'],
    ['03-14', 'year first'],
    ['Sat 14/3', 'day first'],
  ])('%s %s is of the year that is given, and refused without one', (text, order) => {
    expect(inYear([text], order, 2026)).toEqual([MARCH_14]);
    expect(inYear([text], order)).toEqual(['withoutYear']);
  });

  test('a year in the text counts, not the one given', () => {
    expect(inYear(['14/3/26'], 'day first', 2020)).toEqual([MARCH_14]);
  });

  test('a text that only another order reads proves that order, as with a year', () => {
    expect(inYear(['3/14', '3/4'], 'day first', 2026)).toEqual(['otherOrder', 'eitherOrder']);
  });

  test('a day that the year lacks, and a weekday that it does not have, are refused', () => {
    expect(inYear(['29 Feb', 'Sun 14/3'], 'day first', 2026)).toEqual(['notInCalendar', 'otherWeekday']);
    expect(inYear(['29 Feb'], 'day first', 2028)).toEqual([serialOf(2028, 2, 29, 1900)]);
  });

  test('the order of a text without a year is known once a year is', () => {
    expect([writtenOrder('3/14'), writtenOrder('3/14', 2026), writtenOrder('Oct 5', 2026)]).toEqual([
      undefined,
      'month first',
      'any',
    ]);
  });
});
