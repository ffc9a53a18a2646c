import { invalid, type CalcError } from '../shared/fault';
import { serialOf, writtenDate, type DateSystem } from '../shared/serial';
import { isChecked } from './checkCharacter';
import { LONGEST_STRAIN, SPECIES_LETTERS, type LotLabel } from './lotCode';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A label whose check fails and would fit with one look-alike put right. `at` counts from 1, without hyphens. */
    lookAlike: {
      readonly label: string;
      readonly at: number;
      readonly was: string;
      readonly should: string;
    };
    /** A label whose check fails. */
    checkFails: { readonly label: string };
    /** A label of a day that no calendar has. */
    noSuchDay: { readonly label: string };
    /** A text that is no label of our pattern. */
    noLabel: { readonly label: string };
  }
}

/** A label read back; `label` is the label as it should be written. */
export interface LotParts extends LotLabel {
  readonly label: string;
}

/** Characters that hands and eyes take for one another. */
const LOOK_ALIKES = ['0OQD', '1IL', '2Z', '5S', '6G', '8B', 'UV'];

const PATTERN = new RegExp(
  `^([A-Z]{${SPECIES_LETTERS}})([A-Z0-9]{1,${LONGEST_STRAIN}})G([0-9])([0-9]{2})([0-9]{2})([0-9]{2})([0-9]{2})([A-Z0-9])$`,
);

/**
 * The parts of a lot label, once its check character has vouched for it.
 *
 * Letter case, spaces and hyphens do not count. Where the check fails and one look-alike (O for 0, I for 1, …) put right
 * would correct it, the fault says which; it is not put right unasked, since another slip might lie behind it.
 *
 * @param code a label as lotCode makes it
 * @param system day count for the date made
 * @returns strain as in the label: capitals without spaces and hyphens
 * @throws invalid where the label is not of the pattern, or its check character does not fit
 */
export function lotParts(code: string, system: DateSystem): LotParts {
  const bare = code.toUpperCase().replace(/[\s-]+/g, '');
  const parts = partsOf(bare, system);
  if (parts) return parts;
  const mended = lookAlikeSlips(bare).filter((candidate) => partsOf(candidate.text, system) !== undefined);
  const [slip] = mended.length === 1 ? mended : [];
  if (!slip) throw complaint(bare, code);
  const { at, was, should } = slip;
  throw invalid('code', 'lookAlike', { label: code, at: at + 1, was, should });
}

function partsOf(bare: string, system: DateSystem): LotParts | undefined {
  const match = PATTERN.exec(bare);
  if (!match || !isChecked(bare)) return undefined;
  const [, species, strain, generation, year, month, day, serial, check] = match as unknown as string[];
  const madeSerial = serialOf(2000 + Number(year), Number(month), Number(day), system);
  const made = `20${year}-${month}-${day}`;
  if (writtenDate(madeSerial, system) !== made) return undefined;
  return {
    species: species!,
    strain: strain!,
    generation: Number(generation),
    madeSerial,
    serial: Number(serial),
    label: [species, strain, `G${generation}`, `${year}${month}${day}`, serial, check].join('-'),
  };
}

function complaint(bare: string, label: string): CalcError {
  if (/[^A-Z0-9]/.test(bare)) return invalid('code', 'foreignCharacter', { label });
  if (!PATTERN.test(bare)) return invalid('code', 'noLabel', { label });
  return invalid('code', isChecked(bare) ? 'noSuchDay' : 'checkFails', { label });
}

interface Slip {
  readonly text: string;
  readonly at: number;
  readonly was: string;
  readonly should: string;
}

/** The text with one look-alike put in another's place, for every way to do so. */
function lookAlikeSlips(bare: string): Slip[] {
  const slips: Slip[] = [];
  [...bare].forEach((was, at) => {
    for (const alike of LOOK_ALIKES) {
      if (!alike.includes(was)) continue;
      for (const should of alike) {
        if (should !== was)
          slips.push({ text: bare.slice(0, at) + should + bare.slice(at + 1), at, was, should });
      }
    }
  });
  return slips;
}
