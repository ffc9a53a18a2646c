import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Fit } from './fitted';
import type { TableName } from './jobs';
import { isMassUnit, KILOGRAMS, type FigureUnit, type MassUnit } from './units';

/** The unit in which a job's masses are: that of what is sold or picked. */
export function jobUnit(tables: Fit['tables']): MassUnit | undefined {
  const unitOf = (table: TableName, column: string): MassUnit | undefined => {
    const unit = tables.get(table)?.readings.find(({ name }) => name === column)?.unit;
    return unit !== undefined && isMassUnit(unit) ? unit : undefined;
  };
  return unitOf('orders', 'mass') ?? unitOf('harvests', 'mass') ?? unitOf('lots', 'block mass');
}

/** What a mass in this unit is multiplied by for the unit of the job; weeks become days. */
export function unitFactor(fit: Fit, unit: FigureUnit): number {
  if (unit === 'weeks') return 7;
  const wanted = jobUnit(fit.tables);
  return !isMassUnit(unit) || wanted === undefined || unit === wanted
    ? 1
    : KILOGRAMS[unit] / KILOGRAMS[wanted];
}

/** A figure of a unit in that of the job. */
export function inJobUnit(fit: Fit, cell: Cell, unit: FigureUnit): Cell {
  const factor = unitFactor(fit, unit);
  if (factor === 1 || isBlank(cell) || isCellError(cell)) return cell;
  return typeof cell === 'number' ? cell * factor : cellError('#VALUE!');
}
