import { KILOGRAMS_A_POUND } from '../shared/constants';
import type { MassUnit, Slip } from './yieldRecords';

/** A change of mass that a slip of the hand makes. */
export interface MassSlip {
  readonly slip: Slip;
  /** The mass typed over the true one. */
  readonly factor: number;
  /** ln of how often it happens to a mass. */
  readonly prior: number;
}

/** Digits of a mass that was weighed in another unit: no scale shows more. */
const CONVERTED = 5;

/** The mass with the slip undone; without the last digits that dividing makes of 15 ÷ 10. */
export const undone = (mass: number, { slip, factor }: MassSlip): number =>
  Number((mass / factor).toPrecision(isPowerOfTen(slip, factor) ? 12 : CONVERTED));

const isPowerOfTen = (slip: Slip, factor: number): boolean =>
  slip.includes('decimal') || Number.isInteger(Math.log10(factor));

const slipOf = (slip: Slip, factor: number, often: number): MassSlip => ({
  slip,
  factor,
  prior: Math.log(often),
});

// How often a typed mass has each slip: judgement, no source.
const DECIMALS = [
  slipOf('decimal right', 10, 0.006),
  slipOf('decimal left', 0.1, 0.006),
  slipOf('two decimals right', 100, 0.0004),
  slipOf('two decimals left', 0.01, 0.0004),
];

const POUND = KILOGRAMS_A_POUND;
/** The units that are typed for the book's own. Nobody who weighs in kilograms types ounces. */
const UNITS: Readonly<Record<MassUnit | 'unknown', readonly MassSlip[]>> = {
  kg: [slipOf('grams', 1000, 0.002), slipOf('pounds', 1 / POUND, 0.0008)],
  lb: [slipOf('kilograms', POUND, 0.0008), slipOf('ounces', 16, 0.001), slipOf('grams', 1000 * POUND, 0.001)],
  g: [slipOf('kilograms', 1 / 1000, 0.002), slipOf('ounces', 16 / POUND / 1000, 0.0004)],
  oz: [slipOf('pounds', 1 / 16, 0.001), slipOf('grams', (1000 * POUND) / 16, 0.001)],
  unknown: [
    slipOf('grams', 1000, 0.001),
    slipOf('pounds', 1 / POUND, 0.0004),
    slipOf('kilograms', POUND, 0.0002),
  ],
};

export const massSlipsOf = (unit: MassUnit | undefined): readonly MassSlip[] => [
  ...DECIMALS,
  ...UNITS[unit ?? 'unknown'],
];

/** Digits after the decimal point, at most 4: more come from a formula and tell nothing of typing. */
export function decimalsOf(mass: number): number {
  let decimals = 0;
  for (let shifted = mass; decimals < 4; decimals++, shifted *= 10) {
    if (Math.abs(shifted - Math.round(shifted)) <= 1e-9 * Math.max(1, shifted)) break;
  }
  return decimals;
}

/** As often as this a slipped figure was rounded since, and its digits tell nothing. */
const ROUNDED = 0.3;

/** What the digits of a mass tell of the slip behind it: a book kept to 0.05 has no 0.425 but by a decimal moved left. */
export class TypedDigits {
  private readonly counts = [0.5, 0.5, 0.5, 0.5, 0.5];

  constructor(private readonly masses: readonly number[]) {
    for (const mass of masses) this.counts[decimalsOf(mass)]!++;
  }

  /** ln of how likely the typed digits are after a slip, against digits typed as ever. The mass itself takes no part. */
  evidence(mass: number, { slip, factor }: MassSlip): number {
    const typed = decimalsOf(mass);
    const all = this.masses.length + 1.5;
    const shareOf = (decimals: number): number =>
      ((this.counts[decimals] ?? 0) - (decimals === typed ? 1 : 0)) / all;
    const usual = Math.max(0, shareOf(typed)) + 0.5 / all;
    let after = usual;
    if (slip.includes('decimal')) {
      const before = typed + Math.round(Math.log10(factor));
      after = shareOf(before);
      // Whole after a move to the right: any that had fewer decimals are whole too.
      if (typed === 0) for (let fewer = 0; fewer < before; fewer++) after += shareOf(fewer);
    } else if (slip === 'grams') after = typed === 0 ? 0.9 : 0.1 * usual;
    // A slipped figure may have been rounded since.
    return Math.log(((1 - ROUNDED) * after + ROUNDED * usual) / usual);
  }
}
