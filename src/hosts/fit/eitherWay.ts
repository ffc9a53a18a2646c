import type { Cell } from '../../worksheet/cells/cell';
import type { Reader } from './readCells';
import type { ColumnReading } from './reading';

/** The texts among figures that a decimal point and a decimal comma both read, each as another figure. */
export function readEitherWay(
  cells: readonly Cell[],
  { conversion, unit, decimalMark }: ColumnReading,
  reader: Reader,
): number[] {
  if (conversion !== 'figures' || decimalMark !== undefined) return [];
  const asPoint = reader.figures(cells, unit, 'point');
  const asComma = reader.figures(cells, unit, 'comma');
  return cells.flatMap((cell, i) => {
    const [point, comma] = [asPoint[i], asComma[i]];
    const isOpen = typeof point === 'number' && typeof comma === 'number' && point !== comma;
    return typeof cell === 'string' && isOpen ? [i] : [];
  });
}
