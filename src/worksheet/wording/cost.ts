import type { Sentences } from './sentence';

/** What can be wrong with cost, beyond what any number, date or label can be. */
export const cost: Sentences<'neededFor' | 'sumOfRows' | 'noMass'> = {
  neededFor: ({ purpose }, { subject }) => `${subject} is needed for ${purpose}`,
  sumOfRows: ({ label }, { subject, quoted }) =>
    `${subject}: ${quoted(label)} looks like the sum of the other rows and would count twice; call it Total or leave it out`,
  noMass: (_, { subject }) => `${subject} is 0: there is no fresh mass to share the cost`,
};
