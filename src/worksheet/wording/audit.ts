import type { Sentences } from './sentence';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A chart of shares without the counts they are shares of. */
    sizesNeeded: object;
    /** Two groups whose names look the same but are not. */
    groupsLookAlike: { readonly first: string; readonly second: string };
  }
}

/** What can be wrong with audit, beyond what any number, date or label can be. */
export const audit: Sentences<'sizesNeeded' | 'groupsLookAlike' | 'tooManyGroups' | 'tooLarge'> = {
  sizesNeeded: (_, { subject }) =>
    `${subject} is needed for proportions: the counts that the losses came from`,
  groupsLookAlike: ({ first, second }, { subject, quoted }) =>
    `${subject}: ${quoted(first)} and ${quoted(second)} look the same; write one of them everywhere, or names that differ`,
  tooManyGroups: ({ most, found }, { subject }) =>
    `${subject} must hold at most ${most} different names; there are ${found}`,
  tooLarge: (_, { subject }) => `${subject}: the numbers are too large to compare`,
};
