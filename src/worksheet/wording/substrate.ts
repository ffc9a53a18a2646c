import type { Sentences } from './sentence';

/** What can be wrong with substrate, beyond what any number, date or label can be. */
export const substrate: Sentences<never> = {};
