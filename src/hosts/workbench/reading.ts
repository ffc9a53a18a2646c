import { isCellError } from '../../worksheet/cells/cell';
import type { Grid } from '../engine/grid';

/** What the page tells about the selected cell. */
export interface Reading {
  readonly place: string;
  /** The formula as its author wrote it, where there is one, and which cell it stands in where that is another. */
  readonly formula: string;
  readonly shown: string;
  /** Why the cell shows what it shows, where that needs a reason. */
  readonly reason: string;
  readonly kind: 'plain' | 'fault' | 'kept';
}

export function readingOf(grid: Grid): Reading {
  const { workbook } = grid;
  const { sheet, address } = grid.selection();
  const { value, unsupported, restsOn } = workbook.result(sheet, address);
  const source = workbook.filledFrom(sheet, address);
  const formula = source === undefined ? '' : (workbook.formulaAt(sheet, source) ?? '');
  const reading = {
    place: address,
    formula: source === address || formula === '' ? formula : `from ${source}: ${formula}`,
    shown: workbook.shownAt(sheet, address),
  };
  if (unsupported !== undefined) return { ...reading, reason: keptBecause(unsupported), kind: 'kept' };
  if (isCellError(value)) return { ...reading, reason: value.reason, kind: 'fault' };
  if (restsOn) {
    const reason = `calculated from ${restsOn.sheet} ${restsOn.address}, which keeps the file's own result`;
    return { ...reading, reason, kind: 'kept' };
  }
  const reason = grid.tooWide() === undefined ? '' : 'the column is too narrow to show it';
  return { ...reading, reason, kind: 'plain' };
}

export const keptBecause = (unsupported: string): string =>
  `not calculated here, the file's own result is kept: ${unsupported}`;
