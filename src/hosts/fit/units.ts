import { KILOGRAMS_A_POUND } from '../../worksheet/constants';
import type { WantedColumn } from './jobs';
import { onceForText } from './once';

// Units of figures, and the columns that they are for.

export type MassUnit = 'kg' | 'g' | 'lb' | 'oz';
export type FigureUnit = MassUnit | 'share' | 'percent' | 'number' | 'days' | 'weeks';
export type DecimalMark = 'point' | 'comma';

export const isMassUnit = (unit: FigureUnit): unit is MassUnit =>
  !['share', 'percent', 'number', 'days', 'weeks'].includes(unit);

const MASS_UNITS: Readonly<Record<string, MassUnit>> = {
  kg: 'kg',
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  g: 'g',
  gr: 'g',
  gram: 'g',
  grams: 'g',
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
};

export const KILOGRAMS: Record<MassUnit, number> = {
  kg: 1,
  g: 0.001,
  lb: KILOGRAMS_A_POUND,
  oz: KILOGRAMS_A_POUND / 16,
};

/** The unit of mass that a text is the word of. */
export const massUnitOf = (text: string): MassUnit | undefined =>
  MASS_UNITS[text.trim().toLowerCase().replace(/\.$/, '')];

/** Whether a header says that its figures are weeks. */
export const isOfWeeks = (header: string): boolean =>
  /(?:^|[\s(\[_])(?:weeks?|wks?|wochen?|semaines?|sem|semanas?|weken|wk|settimane|sett|uger?|tyg|tydz)\.?(?:$|[\s)\]_])/i.test(
    header,
  );

/** How a unit of mass is written. */
export const wordsOfUnit = (unit: MassUnit): string[] =>
  Object.keys(MASS_UNITS).flatMap((word) => (MASS_UNITS[word] === unit ? [word, `${word}.`] : []));

/** The unit of mass that the words of a text name. */
export function massUnitIn(text: string): MassUnit | undefined {
  for (const word of text.toLowerCase().split(/\P{L}+/u)) {
    const unit = MASS_UNITS[word];
    if (unit) return unit;
  }
  return undefined;
}

/** `Block (kg)`, `g per bag`, `kg/block` */
export const isInMassUnit = (header: string): boolean =>
  massUnitIn(/[([]([^)\]]*)[)\]]\s*$/.exec(header)?.[1] ?? '') !== undefined ||
  /^(?:kgs?|kilos?|gr?|grams?|lbs?|pounds?|oz)\s*(?:\/|per\b|each\b|an?\b|je\b|pro\b|par\b|por\b)/i.test(
    header.trim(),
  );

/** The unit of mass that a number format shows behind its figures: `0.0" kg"`. */
export const massUnitShown = onceForText((format): MassUnit | undefined => {
  const words = [...format.matchAll(/"([^"]*)"|\\(.)|\[\$([^\]-]*)[^\]]*\]/g)].map(
    ([, quoted, escaped, sign]) => quoted ?? escaped ?? sign ?? '',
  );
  return massUnitIn(words.join(''));
});

export const isMass = ({ name, column }: WantedColumn): boolean =>
  column.kind.word === 'mass' || (column.kind.word === 'anything' && /mass|total/.test(name));

const SHARES = new Set(['share', 'efficiency']);
export const isShare = ({ name, column }: WantedColumn): boolean =>
  SHARES.has(column.kind.word) || /moisture/.test(name);

/** From what figure on a share must be a slip of per cent: an efficiency may pass 100%. */
export const slipFrom = ({ column }: WantedColumn): number => (column.kind.word === 'efficiency' ? 5 : 1);

/** The unit that is named most often. */
export function mostOf(units: readonly (MassUnit | undefined)[]): MassUnit | undefined {
  const counts = new Map<MassUnit, number>();
  for (const unit of units) if (unit) counts.set(unit, (counts.get(unit) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0];
}
