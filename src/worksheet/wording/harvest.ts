import type { Sentences } from './sentence';

/** What can be wrong with yields, beyond what any number, date or label can be. */
export const harvest: Sentences<never> = {};
