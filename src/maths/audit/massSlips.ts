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
  lb: [
    slipOf('kilograms', POUND, 0.0008),
    slipOf('ounces', 16, 0.001),
    // Pounds that were called ounces.
    slipOf('ounces', 1 / 16, 0.0004),
    slipOf('grams', 1000 * POUND, 0.001),
  ],
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

/** How often each digit at the ends of a mass is one too many: judgement, no source. */
const EXTRA_DIGIT = 0.001;

/** A whole mass of at least three digits with the first or the last of them too many: 123 typed for 23 or for 12. */
export function extraDigits(mass: number): readonly MassSlip[] {
  if (!Number.isInteger(mass) || mass < 100 || mass >= 1e6) return [];
  const typed = String(mass);
  return [typed.slice(1), typed.slice(0, -1)].flatMap((rest) => {
    const factor = mass / Number(rest);
    // Without a nought at its end it is a tenth: that is a decimal.
    return rest.startsWith('0') || factor === 10 ? [] : [slipOf('extra digit', factor, EXTRA_DIGIT)];
  });
}

/** Digits after the decimal point, at most 4: more come from a formula and tell nothing of typing. */
export function decimalsOf(mass: number): number {
  let decimals = 0;
  for (let shifted = mass; decimals < 4; decimals++, shifted *= 10) {
    if (Math.abs(shifted - Math.round(shifted)) <= 1e-9 * Math.max(1, shifted)) break;
  }
  return decimals;
}

/**
 * The roundest step that a mass is a multiple of: 1, 5, 10, 50 and so on, numbered in order, two for each power of ten. A
 * slip of one decimal is two steps.
 */
function stepOf(mass: number): number {
  const decimals = decimalsOf(mass);
  let digits = Math.round(mass * 10 ** decimals);
  let step = -2 * decimals;
  for (; digits > 0 && digits % 10 === 0; digits /= 10) step += 2;
  return step + (digits % 5 === 0 ? 1 : 0);
}

/** As often as this a slipped figure was rounded since, and its digits tell nothing. */
const ROUNDED = 0.3;
/** Masses of about one size are asked; until there are so many of them, those of the whole book. */
const FEW = 5;

/** How often a scale shows whole ounces; others show tenths: judgement, no source. */
const WHOLE_OUNCES = 0.7;

/** A scale that weighs more shows pounds; as rarely as the square of it, ounces: judgement, no source. */
const MOST_OUNCES = 400;

/** How many of the figures of a scale are of a step, where it shows the step `finest`: each in ten ends in a nought, and in five. */
const ofStep = (step: number, finest: number): number => {
  const noughts = Math.floor((step - finest) / 2);
  return noughts < 0 ? 0 : 0.1 ** noughts * ((step - finest) % 2 ? 0.1 : 0.8);
};

/** Figures end in a nought by chance this often, less to be sure. */
const BY_CHANCE = 0.06;
const FINEST = -8;

interface Steps {
  readonly counts: Map<number, number>;
  all: number;
}

const sizeOf = (mass: number): number => Math.floor(Math.log(mass));

/**
 * What the digits of a mass tell of the slip behind it: a book kept to 0.05 has no 0.425 but by a decimal moved left, and
 * 0.05 is ordinary there, where 0.5 is one of ten figures about it.
 */
export class TypedDigits {
  private readonly all: Steps = { counts: new Map(), all: 0 };
  private readonly bySize = new Map<number, Steps>();

  constructor(masses: readonly number[]) {
    for (const mass of masses) {
      const [size, step] = [sizeOf(mass), stepOf(mass)];
      let ofSize = this.bySize.get(size);
      if (!ofSize) this.bySize.set(size, (ofSize = { counts: new Map(), all: 0 }));
      for (const steps of [this.all, ofSize]) {
        steps.counts.set(step, (steps.counts.get(step) ?? 0) + 1);
        steps.all++;
      }
    }
  }

  /** ln of how likely the typed digits are after a slip, against digits typed as ever. The mass itself takes no part. */
  evidence(mass: number, { slip, factor }: MassSlip): number {
    const step = stepOf(mass);
    const usual = this.share(mass, step, 1);
    let after = usual;
    if (slip.includes('decimal') || (slip === 'kilograms' && isPowerOfTen(slip, factor))) {
      // Kilograms among grams show digits that no gram has, as decimals do.
      const moved = Math.round(Math.log10(factor));
      after = this.share(mass / factor, step - 2 * moved, 0);
    } else if (slip === 'ounces' && factor < 1) after = this.share(mass / factor, stepOf(mass / factor), 0);
    else if (slip === 'grams') after = decimalsOf(mass) === 0 ? 0.9 : 0.1 * usual;
    else if (slip === 'ounces')
      after = WHOLE_OUNCES * ofStep(step, 0) + (1 - WHOLE_OUNCES) * ofStep(step, -2);
    // A slipped figure may have been rounded since.
    const ofDigits = Math.log(((1 - ROUNDED) * after + ROUNDED * usual) / usual);
    return slip === 'ounces' && factor > 1
      ? ofDigits + 2 * Math.log(Math.min(1, MOST_OUNCES / mass))
      : ofDigits;
  }

  /** How many of the masses of about this size are of a step; `less` of them are the mass itself. */
  private share(mass: number, step: number, less: number): number {
    const of = ({ counts }: Steps): number => Math.max(0, (counts.get(step) ?? 0) - less);
    const size = this.bySize.get(sizeOf(mass));
    const inAll = (of(this.all) + 0.5) / (this.all.all + 2.5);
    const seen = size ? (of(size) + FEW * inAll) / (size.all - less + FEW) : inAll;
    // Of figures kept to a step one in ten ends in a nought, whether or not the book holds one as yet.
    return step > FINEST ? Math.max(seen, BY_CHANCE * this.share(mass, step - 2, 0)) : seen;
  }
}
