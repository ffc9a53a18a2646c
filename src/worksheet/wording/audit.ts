import type { Sentences } from './sentence';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A chart of shares without the counts they are shares of. */
    sizesNeeded: object;
  }
}

/** What can be wrong with audit, beyond what any number, date or label can be. */
export const audit: Sentences<'sizesNeeded' | 'tooManyGroups' | 'tooLarge'> = {
  sizesNeeded: (_, { subject }) =>
    `${subject} is needed for proportions: the counts that the losses came from`,
  tooManyGroups: ({ most, found }, { subject }) =>
    `${subject} must hold at most ${most} different names; there are ${found}`,
  tooLarge: (_, { subject }) => `${subject}: the numbers are too large to compare`,
};
