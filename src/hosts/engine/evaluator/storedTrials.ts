import type { Area } from '../../xlsx/address';
import type { SheetContent, StoredTrial } from '../workbook';
import { fitted } from './calculation';
import { CalculationFrame, heldRows, type Surroundings } from './calculationFrame';
import { Lacking } from './lacking';
import { toCell } from './pinsetValues';
import type { FormulaCell } from './sheetStore';
import { StoredSource } from './storedSource';
import { isError, type Matrix } from './values';

/** What formulas give, and show, by what the file stores. */
export class StoredTrials {
  private readonly source: StoredSource;
  private readonly frame: CalculationFrame;

  constructor(sheets: readonly SheetContent[], surroundings: Surroundings) {
    this.source = new StoredSource(sheets);
    this.frame = new CalculationFrame(this.source, surroundings);
    this.frame.isTrial = true;
  }

  /** What a formula gives from stored values alone. */
  of(cell: FormulaCell): StoredTrial {
    const { program, content } = cell;
    const { isVolatile } = program;
    const lacking = content?.unsupported ?? program.lacking;
    if (lacking !== undefined) {
      return { value: content?.value ?? null, isVolatile, lacksStored: false, unsupported: lacking };
    }
    const { source, frame } = this;
    source.lacksStored = false;
    frame.enter(cell);
    let rows: Matrix;
    try {
      rows = heldRows(frame, program.run(frame), program.intersects);
    } catch (fault) {
      if (!isError(fault)) {
        const unsupported = fault instanceof Lacking ? fault.message : 'more than this calculation can do';
        return { value: content?.value ?? null, isVolatile, lacksStored: false, unsupported };
      }
      rows = [[fault]];
    }
    if (cell.fixed) rows = fitted(rows, cell.fixed);
    const { lacksStored } = source;
    const isOne = rows.length === 1 && rows[0]!.length === 1;
    return {
      value: toCell(rows[0]![0]!),
      ...(!isOne && { block: rows.map((row) => row.map(toCell)) }),
      isVolatile,
      lacksStored,
    };
  }

  /** What the file stores in the cells that a formula's result fills. */
  rowsIn(sheet: number, { top, left, bottom, right }: Area): Matrix {
    return Array.from({ length: bottom - top + 1 }, (_, row) =>
      Array.from({ length: right - left + 1 }, (__, column) =>
        this.source.read(sheet, top + row, left + column),
      ),
    );
  }
}
