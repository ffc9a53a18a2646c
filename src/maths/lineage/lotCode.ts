import { requireNumber, requirePositive } from '../shared/checks';
import { dateOf, invalid, CalcError } from '../shared/fault';
import { labelKey } from '../shared/labels';
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
    /** Letters for a species that are not as many letters A to Z as a label holds. */
    notSpeciesLetters: { readonly letters: number; readonly given: string };
    /** Two species that a label would write with the same letters. */
    speciesAlike: { readonly one: string; readonly other: string; readonly letters: string };
    /** Two ways to write a strain that make the same label. */
    sameLabel: { readonly one: string; readonly other: string };
  }
}

/** What a lot label tells. */
export interface LotLabel {
  readonly species: string;
  /** Letters that the label writes for the species; left out, those of its name. */
  readonly letters?: string | undefined;
  readonly strain: string;
  readonly generation: number;
  readonly madeSerial: number;
  /** Which of the day's lots of this kind, from 1. */
  readonly serial: number;
}

/** Letters of the species in a label. */
export const SPECIES_LETTERS = 3;
/** Of two common crops that begin alike, the one whose letters are not its first three. */
const OWN_LETTERS: readonly (readonly [name: string, letters: string])[] = [['SHIMEJI', 'SHM']];
/** With more, the label without its hyphens would not fit a GS1 batch number of 20 characters by far. */
export const LONGEST_STRAIN = 12;

/**
 * The label of a lot, in a pattern of our own: `SHI-ALDER3-G2-260302-01-7`.
 *
 * Three letters of the species, which are the first of its name (shimeji is SHM, since SHI is shiitake) where none are given; letters and digits of the strain; G and the generation; the day made as year,
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
  { species, letters: given, strain, generation, madeSerial, serial }: LotLabel,
  system: DateSystem,
): string {
  const letters = speciesLetters(species, given);
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
    letters,
    tag,
    `G${generation}`,
    made.slice(2).replaceAll('-', ''),
    String(serial).padStart(2, '0'),
  ];
  return [...parts, checkCharacter(parts.join(''))].join('-');
}

function speciesLetters(species: string, given: string | undefined): string {
  const name = bare(species, 'species');
  if (given !== undefined) {
    const letters = given.trim().toUpperCase();
    if (/^[A-Z]{3}$/.test(letters)) return letters;
    throw invalid('letters', 'notSpeciesLetters', { letters: SPECIES_LETTERS, given });
  }
  const own = OWN_LETTERS.find(([begin]) => name.startsWith(begin));
  if (own) return own[1];
  if (!/^[A-Z]{3}/.test(name))
    throw invalid('species', 'tooFewLetters', { least: SPECIES_LETTERS, given: species });
  return name.slice(0, SPECIES_LETTERS);
}

/** A row of labels as far as its cells can be read. */
type NamedLot = { readonly [N in 'species' | 'strain' | 'letters']: string | undefined };

/**
 * The lots of a list that would share a label with another species or strain: both are named, whatever the order of the
 * list, so that nobody sticks one label on two crops. A name that cannot be read is left to `lotCode`.
 *
 * @returns the fault of each such lot, by its place in the list
 */
export function alikeLots(lots: readonly NamedLot[]): ReadonlyMap<number, CalcError> {
  const species = new NamesByCode();
  const strains = new NamesByCode();
  const read = lots.map((lot) => {
    if (lot.species === undefined || lot.strain === undefined) return undefined;
    try {
      const letters = speciesLetters(lot.species, lot.letters);
      const codes = { letters, strain: `${labelKey(lot.species)} ${bare(lot.strain, 'strain')}` };
      species.add(letters, lot.species);
      strains.add(codes.strain, lot.strain);
      return codes;
    } catch (fault) {
      if (!(fault instanceof CalcError)) throw fault;
      return undefined;
    }
  });
  const faults = new Map<number, CalcError>();
  read.forEach((codes, i) => {
    if (codes === undefined) return;
    const [one, other] = species.under(codes.letters);
    const [way, otherWay] = strains.under(codes.strain);
    if (other !== undefined)
      faults.set(i, invalid('species', 'speciesAlike', { one: one!, other, letters: codes.letters }, i));
    else if (otherWay !== undefined)
      faults.set(i, invalid('strain', 'sameLabel', { one: way!, other: otherWay }, i));
  });
  return faults;
}

/** The names that make one code, each once. */
class NamesByCode {
  private readonly names = new Map<string, Map<string, string>>();

  add(code: string, name: string): void {
    const names = this.names.get(code) ?? new Map<string, string>();
    this.names.set(code, names);
    const same = labelKey(name);
    const known = names.get(same);
    // Of several cases the first in order, whatever the order of the rows.
    if (known === undefined || name < known) names.set(same, name);
  }

  under(code: string): string[] {
    return [...this.names.get(code)!.values()].sort();
  }
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
