import type { Sentences } from './sentence';

const named = (character: string): string => `the ${/\d/.test(character) ? 'digit' : 'letter'} ${character}`;

/** What can be wrong with labels and lineage, beyond what any number, date or label can be. */
export const lineage: Sentences<
  | 'tooFewLetters'
  | 'notForLabel'
  | 'foreignLetter'
  | 'foreignCharacter'
  | 'signInName'
  | 'notInCentury'
  | 'notSpeciesLetters'
  | 'speciesAlike'
  | 'sameLabel'
  | 'lookAlike'
  | 'checkFails'
  | 'noSuchDay'
  | 'noLabel'
  | 'tooManyUnits'
  | 'makesUnknown'
> = {
  tooFewLetters: ({ least, given }, { subject, quoted }) =>
    `${subject} must begin with at least ${least} letters; it is ${quoted(given)}`,
  notForLabel: ({ most, given }, { subject, quoted }) =>
    `${subject} must have 1 to ${most} letters and digits; it is ${quoted(given)}`,
  foreignLetter: ({ given }, { subject, quoted }) =>
    `${subject} must hold letters A to Z and digits only; it is ${quoted(given)}`,
  signInName: ({ given }, { subject, quoted }) =>
    `${subject} may hold letters A to Z, digits, spaces and hyphens, and no other sign; it is ${quoted(given)}`,
  foreignCharacter: ({ label }, { subject, quoted }) =>
    `${subject} must hold letters A to Z, digits and hyphens only; it is ${quoted(label)}`,
  notInCentury: ({ given }, { subject, figure }) =>
    `${subject} must be a date from 2000 to 2099; it is ${figure(given)}`,
  notSpeciesLetters: ({ letters, given }, { subject, quoted }) =>
    `${subject} must be ${letters} letters A to Z; it is ${quoted(given)}`,
  speciesAlike: ({ one, other, letters }, { subject, quoted }) =>
    `${subject}: ${quoted(one)} and ${quoted(other)} are both ${letters} on a label: give each species its own three letters`,
  sameLabel: ({ one, other }, { subject, quoted }) =>
    `${subject}: ${quoted(one)} and ${quoted(other)} make the same label: write the strain one way`,
  lookAlike: ({ label, at, was, should }, { subject, quoted }) =>
    `${subject}: a character is mistyped in ${quoted(label)} – it fits if character ${at}, not counting hyphens, ` +
    `is ${named(should)}, not ${named(was)}`,
  checkFails: ({ label }, { subject, quoted }) =>
    `${subject}: a character is mistyped in ${quoted(label)}; its check character at the end does not fit`,
  noSuchDay: ({ label }, { subject, quoted }) =>
    `${subject}: the day in ${quoted(label)} is not in the calendar`,
  noLabel: ({ label }, { subject, quoted }) =>
    `${subject} must be a label such as SHI-ALDER3-G2-260302-01-7; it is ${quoted(label)}`,
  tooManyUnits: ({ most, given }, { subject, figure }) =>
    `${subject} must be fewer, so that no step starts more than ${figure(most)}; it is ${figure(given)}`,
  makesUnknown: ({ step }, { subject, quoted }) =>
    `${subject} is blank for ${quoted(step)}: fill in how many units of the next step one unit makes`,
};
