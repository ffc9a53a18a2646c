import type { FaultDetails } from '../../maths/shared/fault';
import { shownPercent } from './phrases';
import type { Sentences } from './sentence';

const UNIT_WORDS: Readonly<Record<FaultDetails['otherMeasure']['unit'], string>> = {
  kg: 'kg',
  g: 'g',
  lb: 'lb',
  oz: 'oz',
  share: 'a share',
  percent: 'a percentage',
  number: 'a number without a unit',
  days: 'days',
  weeks: 'weeks',
  C: '°C',
  F: '°F',
};

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/** What can be wrong with a grower's own sheet, beyond what any number, date or label can be. */
export const records: Sentences<
  | 'notADate'
  | 'withoutYear'
  | 'notInCalendar'
  | 'otherOrder'
  | 'otherWeekday'
  | 'eitherOrder'
  | 'notANumber'
  | 'eitherMark'
  | 'otherMark'
  | 'otherMeasure'
  | 'notAShare'
  | 'eitherShare'
  | 'withoutDay'
  | 'notInPercent'
  | 'nearSeveral'
  | 'columnTwice'
  | 'meansTwice'
> = {
  notADate: ({ given }, { subject, quoted }) => `${subject} must be a date; ${quoted(given)} is none`,
  withoutYear: ({ given }, { subject, quoted }) => `${subject} must have a year; ${quoted(given)} has none`,
  withoutDay: ({ given }, { subject, quoted }) => `${subject} must have a day; ${quoted(given)} has none`,
  notInCalendar: ({ given, order }, { subject, quoted }) =>
    `${subject}: ${quoted(given)}, read ${order}, is not in the calendar`,
  otherOrder: ({ given, order, other, date, weekday }, { subject, quoted, figure }) =>
    `${subject}: ${quoted(given)} is ${weekday === undefined ? 'no date' : `a ${WEEKDAYS[weekday]!}`} ${order}; ${other} it is ${figure(date)}`,
  otherWeekday: ({ given, weekday, date }, { subject, quoted, figure }) =>
    `${subject}: ${quoted(given)} is ${figure(date)}, a ${WEEKDAYS[weekday]!}: correct the weekday or the date`,
  eitherOrder: ({ given, order, other, proof, row }, { subject, quoted }) =>
    `${subject}: ${quoted(given)} may be ${order} or ${other}: ${quoted(proof)} in row ${row} can only be ${other}. ` +
    'State the right order, or correct that row',
  notANumber: ({ given }, { subject, quoted }) =>
    `${subject} must be one number, with a unit if you like; it is ${quoted(given)}`,
  eitherMark: ({ given, asDecimal, asThousands }, { subject, quoted, figure }) =>
    `${subject}: ${quoted(given)} may be ${figure(asDecimal)} or ${figure(asThousands)}: state the decimal mark, point or comma`,
  otherMark: ({ given, mark }, { subject, quoted }) =>
    `${subject}: ${quoted(given)} is no number with a decimal ${mark}`,
  otherMeasure: ({ given, unit }, { subject, quoted }) =>
    `${subject} must be ${UNIT_WORDS[unit]}; it is ${quoted(given)}`,
  notAShare: ({ given, percent }, { subject, figure, quoted }) =>
    `${subject} must be a share; it is ${quoted(given)} – for ${figure(percent)}% write ${figure(percent)}%, or state the unit percent`,
  eitherShare: ({ given, asShare, asPercent }, { subject, quoted }) =>
    `${subject}: ${quoted(given)} may be ${shownPercent(asShare)} or ${shownPercent(asPercent)}, and no other row says which: ` +
    'write it with its % sign, or state the unit share',
  notInPercent: ({ given }, { subject, quoted }) =>
    `${subject} must be from 0% to 100%; it is ${quoted(given)}`,
  nearSeveral: ({ label, near }, { subject, quoted, listed }) =>
    `${subject}: ${quoted(label)} is near to ${listed(near.map(quoted))} of the list: write it as one of them`,
  columnTwice: ({ header, found }, { subject, quoted, listed }) =>
    `${subject} would have two columns headed ${quoted(header)}: ${listed(found.map(quoted))}`,
  meansTwice: ({ means, headers }, { subject, quoted, listed }) =>
    `${subject}: ${quoted(means)} must be in one row; it is what ${listed(headers.map(quoted))} mean`,
};
