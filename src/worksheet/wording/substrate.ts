import { inLine } from './phrases';
import type { Sentences } from './sentence';

/** What can be wrong with a mix, beyond what any number, date or label can be. */
export const substrate: Sentences<
  | 'moreThanDry'
  | 'noNitrogen'
  | 'tooManyRuns'
  | 'emptyMixer'
  | 'tooWet'
  | 'noIngredient'
  | 'sharesNotWhole'
  | 'clash'
  | 'noLimit'
  | 'noSolver'
  | 'notSettled'
  | 'noColumnFor'
  | 'onlyWith'
> = {
  moreThanDry: ({ carbon, nitrogen }, { figure }) =>
    `carbon and nitrogen must be at most 100% of the dry matter together; they are ${figure(carbon)} and ${figure(nitrogen)}`,
  noNitrogen: () => 'nitrogen: the mix holds none',
  tooManyRuns: ({ blocks, most, capacity }) =>
    `capacity is too small: ${blocks} blocks would take more than ${most} runs of ${capacity}`,
  emptyMixer: () => 'masses: there is nothing in the mixer',
  tooWet: ({ moisture, target, excess, wet }, { subject, figure }) =>
    `${subject}: the mix is already at ${figure(moisture)} moisture, above the ${figure(target)} you want: ` +
    `${figure(excess)} too much water in ${figure(wet)}`,
  noIngredient: (_, { subject }) => `${subject} must hold at least one ingredient`,
  sharesNotWhole: ({ sum }, { subject, figure }) =>
    `${subject} must add up to 100%; it adds up to ${figure(sum)}`,
  clash: ({ limits }, { figure, listed }) =>
    `needs: no mix keeps to ${limits.length > 1 ? 'all of ' : ''}` +
    listed(limits.map(({ name, end, at }) => `${inLine(name)} ${end} ${figure(at)}`)),
  noLimit: () => 'needs must have a lowest or a highest in each row',
  noSolver: ({ what }) =>
    `${what} needs WebAssembly, which is switched off here: switch it on, or use another browser`,
  noColumnFor: ({ header, nearest }, { quoted }) =>
    `needs: ingredients has no column headed ${inLine(header)}` +
    (nearest === undefined ? '' : `; did you mean ${quoted(nearest)}?`),
  onlyWith: ({ other }, { subject, named }) =>
    `${subject} is needed where there is a ${named(other)}; it is blank or 0`,
  notSettled: (_, { subject }) =>
    `${subject}: the search did not settle; check for figures of very different sizes`,
};
