import type { Sentences } from './sentence';

/** What can be wrong with yields, beyond what any number, date or label can be. */
export const harvest: Sentences<'farFromPicks'> = {
  farFromPicks: ({ nearest, days, given }, { subject, figure }) =>
    `${subject} must be near the lot’s other picks; it is ${figure(given)}, ${days} days from ${figure(nearest)}`,
};
