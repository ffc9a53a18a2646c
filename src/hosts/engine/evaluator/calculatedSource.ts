import type { NumberTotals } from './builtIn';
import { areaOf } from './dependents';
import type { CellSource } from './frame';
import { FilledCell, FormulaCell, type SheetStore } from './sheetStore';
import type { Scalar, SheetArea } from './values';

/** Thrown where a formula reads cells that are yet to be calculated. */
export class NotReady {
  constructor(readonly cells: readonly FormulaCell[]) {}
}

/** The cells as calculated. Reading one that is yet to be calculated throws `NotReady`. */
export class CalculatedSource implements CellSource {
  /** A cell that keeps its stored result, met while reading; whoever calculates takes it from here. */
  met: FormulaCell | undefined = undefined;

  constructor(private readonly stores: readonly SheetStore[]) {}

  read(sheet: number, row: number, column: number): Scalar {
    const slot = this.stores[sheet]!.get(row, column);
    if (typeof slot !== 'object' || slot === null) return slot;
    const cell = slot instanceof FormulaCell ? slot : slot instanceof FilledCell ? slot.from : undefined;
    if (cell === undefined) return slot as Scalar;
    if (cell.isDirty) throw new NotReady([cell]);
    if (cell.restsOn !== undefined) this.met ??= cell.restsOn;
    return (slot as FormulaCell | FilledCell).value;
  }

  visit(area: SheetArea, visit: (value: Scalar, row: number, column: number) => boolean | void): void {
    const dirty: FormulaCell[] = [];
    this.stores[area.sheet]!.visit(area, (slot, row, column) => {
      if (typeof slot === 'object' && slot !== null) {
        const cell = slot instanceof FormulaCell ? slot : slot instanceof FilledCell ? slot.from : undefined;
        if (cell !== undefined) {
          if (cell.isDirty) {
            if (dirty.at(-1) !== cell) dirty.push(cell);
            return;
          }
          if (cell.restsOn !== undefined) this.met ??= cell.restsOn;
          return dirty.length === 0
            ? visit((slot as FormulaCell | FilledCell).value, row, column)
            : undefined;
        }
      }
      return dirty.length === 0 ? visit(slot as Scalar, row, column) : undefined;
    });
    if (dirty.length > 0) throw new NotReady(dirty.reverse());
  }

  filledBy(sheet: number, row: number, column: number): SheetArea | undefined {
    const slot = this.stores[sheet]!.get(row, column);
    if (!(slot instanceof FormulaCell)) return undefined;
    if (slot.isDirty) throw new NotReady([slot]);
    return slot.filled ?? areaOf(slot);
  }

  totals(area: SheetArea): NumberTotals | undefined {
    const totals = this.stores[area.sheet]!.totals(area);
    if (totals?.met) this.met ??= totals.met;
    return totals;
  }

  versionOf({ sheet, left, right }: SheetArea): number {
    return this.stores[sheet]!.versionOf(left, right);
  }

  lastRow(sheet: number): number {
    return this.stores[sheet]!.lastRow;
  }

  lastColumn(sheet: number): number {
    return this.stores[sheet]!.lastColumn;
  }
}
