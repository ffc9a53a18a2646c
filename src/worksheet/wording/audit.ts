import type { Sentences } from './sentence';

/** What can be wrong with audit, beyond what any number, date or label can be. */
export const audit: Sentences<never> = {};
