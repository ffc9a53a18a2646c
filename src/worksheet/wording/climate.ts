import type { Sentences } from './sentence';

/** What can be wrong with climate, beyond what any number, date or label can be. */
export const climate: Sentences<
  | 'noDewPoint'
  | 'belowDryAir'
  | 'pureCarbonDioxide'
  | 'noProgrammeDay'
  | 'dayTwice'
  | 'mixedSetPoints'
  | 'blankSetPoint'
> = {
  noDewPoint: ({ lowest }, { subject, figure }) =>
    `${subject} is too low: the dew point would be below ${figure(lowest)}`,
  belowDryAir: (_, { subject }) =>
    `${subject} is too low: at this dry bulb even perfectly dry air gives a higher reading`,
  pureCarbonDioxide: (_, { subject }) => `${subject} is too high: before then the room would be pure CO2`,
  noProgrammeDay: (_, { subject }) => `${subject} has no row with a day`,
  dayTwice: ({ day }, { subject, figure }) =>
    `${subject} must have each day in one row; ${figure(day)} is in two`,
  blankSetPoint: (_, { subject }) =>
    `${subject} must have a number in every row; it is blank or 0 – for 0 write none`,
  mixedSetPoints: ({ given: found }, { subject, given }) =>
    `${subject} must be a number in every row or a word in every row; it is ${given(found)}`,
};
