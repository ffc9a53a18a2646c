import type { Sentences } from './sentence';

/** What can be wrong with cost, beyond what any number, date or label can be. */
export const cost: Sentences<never> = {};
