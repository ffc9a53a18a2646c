import type { Sentences } from './sentence';

/** What can be wrong with cost, beyond what any number, date or label can be. */
export const cost: Sentences<'neededFor' | 'noMass'> = {
  neededFor: ({ purpose }, { subject }) => `${subject} is needed for ${purpose}`,
  noMass: (_, { subject }) => `${subject} is 0: there is no fresh mass to share the cost`,
};
