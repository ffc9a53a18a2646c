import { requireNumber, requirePositive } from '../shared/checks';
import { dateOf, invalid } from '../shared/fault';
import { writtenDate, type DateSystem } from '../shared/serial';
import { checkCharacter } from './checkCharacter';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A species that does not begin with enough letters for a label. */
    tooFewLetters: { readonly least: number; readonly given: string };
    /** A text that is too long for a label, or holds no letter or digit. */
    notForLabel: { readonly most: number; readonly given: string };
    /** A letter that is none of A to Z. */
    foreignLetter: { readonly given: string };
    /** A name with a sign that a label cannot hold. */
    signInName: { readonly given: string };
    /** A label with a character that is no letter A to Z and no digit. */
    foreignCharacter: { readonly label: string };
    notInCentury: { readonly given: Quantity };
  }
}

/** What a lot label tells. */
export interface LotLabel {
  readonly species: string;
  readonly strain: string;
  readonly generation: number;
  readonly madeSerial: number;
  /** Which of the day's lots of this kind, from 1. */
  readonly serial: number;
}

/** Letters of the species in a label. */
export const SPECIES_LETTERS = 3;
/** With more, the label without its hyphens would not fit a GS1 batch number of 20 characters by far. */
export const LONGEST_STRAIN = 12;

/**
 * The label of a lot, in a pattern of our own: `SHI-ALDER3-G2-260302-01-7`.
 *
 * The first three letters of the species; letters and digits of the strain; G and the generation; the day made as year,
 * month, day; which of that day's lots; and an ISO/IEC 7064 MOD 37,36 check character over all of it. All in capitals,
 * hyphens for the eye only: they are not part of the check. Without them a label whose strain has at most six characters
 * has at most 20, and so fits a GS1 batch or lot number (application identifier 10).
 *
 * @param lot species with three or more letters A to Z; strain with 1 to 12 letters and digits; generation 0 to 9; made
 * from 2000 to 2099; serial 1 to 99
 * @param system day count of the serial
 * @returns the label, hyphens included
 * @throws invalid where a part is out of its range or holds letters other than A to Z or signs other than spaces, hyphens
 * and apostrophes
 * @source ISO/IEC 7064:2003, MOD 37,36; dates as YYMMDD: GS1 General Specifications, application identifiers 11 to 17
 */
export function lotCode(
  { species, strain, generation, madeSerial, serial }: LotLabel,
  system: DateSystem,
): string {
  const letters = bare(species, 'species');
  if (!/^[A-Z]{3}/.test(letters))
    throw invalid('species', 'tooFewLetters', { least: SPECIES_LETTERS, given: species });
  const tag = bare(strain, 'strain');
  if (tag.length === 0 || tag.length > LONGEST_STRAIN) {
    throw invalid('strain', 'notForLabel', { most: LONGEST_STRAIN, given: strain });
  }
  requireNumber('generation', generation, { from: 0, to: 9, whole: true });
  requireNumber('serial', serial, { from: 1, to: 99, whole: true });
  requirePositive('made', madeSerial);
  const made = writtenDate(madeSerial, system);
  if (!made.startsWith('20')) {
    throw invalid('made', 'notInCentury', { given: dateOf(madeSerial) });
  }
  const parts = [
    letters.slice(0, SPECIES_LETTERS),
    tag,
    `G${generation}`,
    made.slice(2).replaceAll('-', ''),
    String(serial).padStart(2, '0'),
  ];
  return [...parts, checkCharacter(parts.join(''))].join('-');
}

/** Spaces, hyphens, and the apostrophe of a name such as lion's mane. */
const LEFT_OUT = /[\s'’\-\u2010-\u2014]/g;

/** Capitals and digits of a text without spaces, hyphens and apostrophes; anything more is refused, not guessed or dropped. */
function bare(text: string, argument: string): string {
  const capitals = text.toUpperCase();
  if (/(?![A-Z])\p{L}/u.test(capitals)) throw invalid(argument, 'foreignLetter', { given: text });
  const kept = capitals.replace(LEFT_OUT, '');
  if (/[^A-Z0-9]/.test(kept)) throw invalid(argument, 'signInName', { given: text });
  return kept;
}
