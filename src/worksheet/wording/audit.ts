import type { Sentences } from './sentence';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A chart of shares without the counts they are shares of. */
    sizesNeeded: object;
  }
}

/** What can be wrong with audit, beyond what any number, date or label can be. */
export const audit: Sentences<'groupsAlike' | 'noCountLost' | 'sizesNeeded' | 'tooManyGroups' | 'tooLarge'> =
  {
    sizesNeeded: (_, { subject }) =>
      `${subject} is needed for proportions: the counts that the losses came from`,
    tooManyGroups: ({ most, found }, { subject }) =>
      `${subject} must hold at most ${most} different names; there are ${found}`,
    tooLarge: (_, { subject }) => `${subject}: the numbers are too large to compare`,
    groupsAlike: ({ first, second }, { quoted }) =>
      `groups: ${quoted(first)} and ${quoted(second)} look alike but are not the same: write one of them throughout`,
    noCountLost: () => 'values must say how many were lost; it is blank – for 0 write none',
  };
