import type { Sentences } from './sentence';

/** What can be wrong with sterilising, beyond what any number, date or label can be. */
export const sterilising: Sentences<never> = {};
