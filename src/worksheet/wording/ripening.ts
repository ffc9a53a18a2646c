import type { Sentences } from './sentence';

/** What can be wrong with ripening, beyond what any number, date or label can be. */
export const ripening: Sentences<'noGrowth' | 'noGrowthObserved' | 'noTemperature'> = {
  noGrowth: (_, { subject }) => `${subject}: the strain does not grow at or beyond its min temp and max temp`,
  noGrowthObserved: ({ observedAt }, { figure }) =>
    `observed at: the strain does not grow at ${figure(observedAt)}, by its own min temp and max temp`,
  noTemperature: ({ header, table }, { subject }) =>
    `${subject}: "${header}" in ${table} is blank or 0; for 0 degrees write 0.01`,
};
