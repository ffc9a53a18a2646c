import type { Sentences } from './sentence';

/** What can be wrong with lineage, beyond what any number, date or label can be. */
export const lineage: Sentences<never> = {};
