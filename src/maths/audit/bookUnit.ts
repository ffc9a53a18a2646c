import { median } from '../shared/statistics';
import type { LotRecord, MassUnit } from './yieldRecords';

/** No block weighs as much in kilograms, pounds or ounces (common practice, no source). */
const ONLY_GRAMS = 250;

/** The unit of a book whose headers name none, as far as its blocks tell it: a block of 2,500 is one of grams. */
export function unitOfBlocks(lots: readonly LotRecord[]): MassUnit | undefined {
  const masses = lots.flatMap(({ blockMass }) =>
    typeof blockMass === 'number' && blockMass > 0 ? blockMass : [],
  );
  return masses.length > 0 && median(masses) >= ONLY_GRAMS ? 'g' : undefined;
}
