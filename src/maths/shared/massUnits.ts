import { KILOGRAMS_A_POUND } from './constants';

interface MassUnit {
  readonly kilograms: number;
  /** How people write it, in small letters and without points and spaces. */
  readonly spellings: readonly string[];
}

/**
 * Units of mass by the one name that is told. Sixteen ounces are a pound, 2,000 pounds a short ton (NIST Handbook 44,
 * appendix C); "ton" is taken as the short ton, "tonne" as 1,000 kg.
 */
export const MASS_UNITS = {
  kg: {
    kilograms: 1,
    spellings: ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramme', 'kilogrammes'],
  },
  g: { kilograms: 0.001, spellings: ['g', 'gr', 'gram', 'grams', 'gramme', 'grammes'] },
  lb: { kilograms: KILOGRAMS_A_POUND, spellings: ['lb', 'lbs', 'pound', 'pounds'] },
  oz: { kilograms: KILOGRAMS_A_POUND / 16, spellings: ['oz', 'ozs', 'ounce', 'ounces'] },
  t: { kilograms: 1000, spellings: ['t', 'tonne', 'tonnes', 'metricton', 'metrictons'] },
  'short ton': { kilograms: 2000 * KILOGRAMS_A_POUND, spellings: ['ton', 'tons', 'shortton', 'shorttons'] },
} as const satisfies Readonly<Record<string, MassUnit>>;
export type MassUnitName = keyof typeof MASS_UNITS;
