import type { Cell, Format } from '../../worksheet/cells/cell';
import type { Fit } from './fitted';
import { isMass } from './units';

// A preview shows masses with as many decimals as the grower weighs with: the sheet that is written has them all.

const [FEWEST, MOST] = [2, 4];
/** Of a share or a mass below 1. */
const SIGNIFICANT = 3;
const PERCENT_DIGITS = 4;

/** The most decimals of the grower's own masses. */
function decimalsIn({ tables }: Fit): number {
  const masses = [...tables.values()].flatMap(({ readings, values }) =>
    readings.filter(({ wanted }) => isMass(wanted)).flatMap(({ name }) => values.get(name) ?? []),
  );
  const most = masses.reduce<number>((decimals, mass) => {
    if (typeof mass !== 'number') return decimals;
    return Math.max(decimals, String(Number(mass.toPrecision(12))).split('.')[1]?.length ?? 0);
  }, FEWEST);
  return Math.min(MOST, most);
}

/** How a preview of a fit shows a cell: a plain figure with the grower's decimals. */
export function inOwnDigits(fit: Fit): (cell: Cell, format: Format) => Cell {
  const decimals = decimalsIn(fit);
  return (cell, format) => {
    if (typeof cell !== 'number' || Number.isInteger(cell)) return cell;
    if (format === 'percent') return Number(cell.toPrecision(PERCENT_DIGITS));
    if (format !== 'plain') return cell;
    if (Math.abs(cell) >= 1) return Number(cell.toFixed(decimals));
    const rounded = Number(cell.toPrecision(Math.max(SIGNIFICANT, decimals)));
    // What is not quite sure is not shown as sure.
    return Number.isInteger(rounded) ? cell : rounded;
  };
}
