import type { Sentences } from './sentence';

/** What can be wrong with sterilising, beyond what any number, date or label can be. */
export const sterilising: Sentences<
  | 'noReading'
  | 'datesForMinutes'
  | 'logTooLong'
  | 'gapStaysOpen'
  | 'curveBends'
  | 'readingsScatter'
  | 'nearVacuum'
  | 'noFirstReading'
  | 'noTime'
> = {
  noFirstReading: (_, { subject }) =>
    `${subject} must have a reading at minute 0; it is blank or 0 – ` +
    'if the row is an empty one, begin the range below it',
  noTime: (_, { subject }) => `${subject} must have a date beside each reading; it is blank or 0`,
  noReading: (_, { subject }) => `${subject} must have a reading beside each time; it is blank or 0`,
  datesForMinutes: (_, { subject }) =>
    `${subject} look like dates or times of day: set the time unit to dates, or to minutes if they are minutes`,
  logTooLong: ({ most, days }, { subject, figure }) =>
    `${subject} must lie within ${most} days; they span ${figure(days)} days`,
  gapStaysOpen: ({ closed, least }, { subject, percent }) =>
    `${subject} have no straight part: the core closes only ${percent(closed)} of its gap to the medium; ` +
    `a fit needs ${percent(least)}`,
  curveBends: ({ change, most }, { subject, percent }) =>
    `${subject} have no straight part: the slope of log(medium − core) changes ` +
    `${change < 10 ? `by ${percent(change)}` : 'many times over'} within the straightest run; ` +
    `a fit allows ${percent(most)}`,
  readingsScatter: ({ rSquared, least }, { subject }) =>
    `${subject} have no straight part: the readings scatter too widely about a line; ` +
    `r² is ${rSquared.toFixed(3)}, and a fit needs ${least}`,
  nearVacuum: ({ given }, { subject, figure }) =>
    `${subject} is close to a full vacuum at this altitude; it is ${figure(given)}`,
};
