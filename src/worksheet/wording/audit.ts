import type { Sentences } from './sentence';

/** What can be wrong with audit, beyond what any number, date or label can be. */
export const audit: Sentences<'tooManyGroups' | 'tooLarge'> = {
  tooManyGroups: ({ most, found }, { subject }) =>
    `${subject} must hold at most ${most} different names; there are ${found}`,
  tooLarge: (_, { subject }) => `${subject}: the numbers are too large to compare`,
};
