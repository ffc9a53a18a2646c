import type { Cell } from '../../worksheet/cells/cell';
import type { Kind } from '../../worksheet/cells/kinds';

/** The units in which the examples are shown. The functions themselves take any unit of mass. */
export type Units = 'metric' | 'us';

/** International pound, exactly. */
const KILOGRAMS_A_POUND = 0.45359237;

const rounded = (pounds: number): number => Number(pounds.toPrecision(3));

/** An example's cell in the units chosen: a mass in kilograms becomes pounds, to three figures. */
export function inUnits(cell: Cell, kind: Kind<unknown>, units: Units): Cell {
  if (units === 'metric' || kind.word !== 'mass' || typeof cell !== 'number') return cell;
  return rounded(cell / KILOGRAMS_A_POUND);
}

/** An example's words in the units chosen: `4.5 kg` becomes `9.92 lb`. */
export function wordsInUnits(words: string, units: Units): string {
  if (units === 'metric') return words;
  return words.replace(
    /(\d+(?:\.\d+)?) kg\b/g,
    (_, kilograms: string) => `${rounded(Number(kilograms) / KILOGRAMS_A_POUND)} lb`,
  );
}
