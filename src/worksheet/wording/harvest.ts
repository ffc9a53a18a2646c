import type { Sentences } from './sentence';

/** What can be wrong with harvest, beyond what any number, date or label can be. */
export const harvest: Sentences<'zeroReading'> = {
  zeroReading: (_, { subject }) => `${subject} must hold a reading other than 0; for 0 degrees write 0.01`,
};
