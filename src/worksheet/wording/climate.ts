import type { Sentences } from './sentence';

/** What can be wrong with climate, beyond what any number, date or label can be. */
export const climate: Sentences<never> = {};
