import type { Words } from '../words';

export const words: Words = {
  summary: 'Dates from text, by the order you state: day first, month first or year first. Real dates stay.',
  notes: [
    'Numbers may be parted by / - . or spaces: 3/14/26, 14.3.2026. A month may be a name: 14 Mar 2026, March 14th, 2026, 14MAR26. Names of months and weekdays are read in English, German, French, Spanish, Italian, Dutch, Portuguese and the Scandinavian languages, those of months in Polish too. A weekday may go in front or behind: it must be right, and it proves the order. A time of day may follow; a zone behind it, such as Z, is not applied.',
    'Four digits in front are always the year, then month, then day: 2026-03-14.',
    'A year of two digits is one of 2000 to 2099, whatever the day you calculate on. Records of blocks are of this century.',
    'A text that only another order can read proves that order. Then every text of the column that reads differently in the two orders is refused, and told which row proves it: nobody can know which were written so.',
    'A day and a month without a year, such as 14 Mar or 3/14, are of the year that you give; without it they are refused.',
    'Each text that is no date is the fault of its own row. Blank rows stay blank.',
  ],
  sources: [
    'ISO 8601-1:2019, 5.2.2: calendar dates as year, month, day; day first and month first as stated by you',
  ],
  questions: [
    'dates are text',
    'convert text to dates',
    'my dates are not recognised',
    'American dates month first',
    'day and month order',
  ],
  examples: [
    {
      title: 'Month first: 14 and 3 March 2026, a real date, and a month by name',
      arguments: [[['3/14/26'], ['3/3/2026'], [46095], ['Mar 16, 2026'], [null]], 'month first'],
      gives: [[46095], [46084], [46095], [46097], ['']],
    },
    {
      title: 'Day first, with a time of day: noon on 14 March 2026',
      arguments: ['14.3.26 12:00', 'day first'],
      gives: 46095.5,
    },
    {
      title: 'Without a year in the cells: 14 March and 3 April 2026',
      arguments: [[['14 Mar'], ['3/4']], 'day first', 2026],
      gives: [[46095], [46115]],
    },
  ],
  faults: [
    {
      arguments: [[['3/14/26'], ['14/3/26']], 'day first'],
      code: '#VALUE!',
      says: 'dates: "3/14/26" is no date day first; month first it is 2026-03-14 (row 1 of the column)',
      remedy: 'State the order in which the column is written, or correct the row.',
    },
    {
      arguments: [[['3/4/26'], ['3/19/26']], 'day first'],
      code: '#VALUE!',
      says: 'dates: "3/4/26" may be day first or month first: "3/19/26" in row 2 can only be month first. State the right order, or correct that row (row 1 of the column)',
      remedy: 'State the other order if the column is written so; otherwise correct the row that is named.',
    },
    {
      arguments: ['14 March', 'day first'],
      code: '#VALUE!',
      says: 'dates must have a year; "14 March" has none',
      remedy: 'Give the year as the third argument, or write it in the cells.',
    },
    {
      arguments: ['31/2/2026', 'day first'],
      code: '#VALUE!',
      says: 'dates: "31/2/2026", read day first, is not in the calendar',
      remedy: 'Correct the date.',
    },
    {
      arguments: ['Sun 14/3/2026', 'day first'],
      code: '#VALUE!',
      says: 'dates: "Sun 14/3/2026" is 2026-03-14, a Saturday: correct the weekday or the date',
      remedy: 'Correct whichever is wrong.',
    },
    {
      arguments: ['after the fair', 'day first'],
      code: '#VALUE!',
      says: 'dates must be a date; "after the fair" is none',
      remedy: 'Write a date, or clear the cell.',
    },
  ],
};
