import type { Sentences } from './sentence';

/** What can be wrong with loading, beyond what any number, date or label can be. */
export const loading: Sentences<never> = {};
