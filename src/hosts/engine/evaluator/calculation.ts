import { Lacking } from './lacking';
import { COLUMNS, ROWS } from '../../xlsx/address';
import { isSameNumber } from '../sameNumber';
import { CalculatedSource, NotReady } from './calculatedSource';
import { CalculationFrame, heldRows, type Surroundings } from './calculationFrame';
import { areaOf, Dependents } from './dependents';
import { formatsOf } from './formats';
import type { Program } from './program';
import type { Seat } from './references';
import { FilledCell, FormulaCell, type SheetStore } from './sheetStore';
import {
  isError,
  NAME,
  NOT_AVAILABLE,
  SPILL,
  type Matrix,
  type Scalar,
  type SheetArea,
  type Value,
} from './values';

/** How often the result of one formula may change its size in one calculation before that counts as a circle. */
const MOST_FILLS = 20;

export const CIRCLE = 'a circular reference';

/** Calculates formulas in whatever order they need one another, results that fill several cells included. */
export class Calculation {
  readonly dependents: Dependents;
  private readonly source: CalculatedSource;
  private readonly frame: CalculationFrame;
  private readonly blocked = new Set<FormulaCell>();
  /** Formulas kept for a circle, which an edit may break. */
  private readonly circles = new Set<FormulaCell>();
  private readonly queue: FormulaCell[] = [];
  private readonly fills = new Map<FormulaCell, number>();
  private gaveRoom = false;
  private hasBegun = false;

  constructor(
    private readonly stores: readonly SheetStore[],
    surroundings: Surroundings,
    private readonly everyFormula: () => Iterable<FormulaCell>,
    /** What a formula shows that keeps its stored result; a block where that fills several cells. */
    private readonly storedRows: (cell: FormulaCell) => Matrix,
  ) {
    this.source = new CalculatedSource(stores);
    this.frame = new CalculationFrame(this.source, surroundings);
    this.dependents = new Dependents(stores);
  }

  /** Calculates all that is marked, and what follows from it. */
  run(): void {
    this.fills.clear();
    this.hasBegun = true;
    do {
      this.gaveRoom = false;
      // The queue grows while it is worked through.
      for (let at = 0; at < this.queue.length; at++) this.finish(this.queue[at]!);
      this.queue.length = 0;
      if (this.gaveRoom) this.markBlocked();
    } while (this.queue.length > 0);
  }

  /** What a formula gives in a cell, without a place in it. */
  trial(program: Program, seat: Seat): Matrix {
    const { frame } = this;
    frame.enter(seat);
    frame.isTrial = true;
    try {
      return heldRows(frame, program.run(frame), program.intersects);
    } catch (fault) {
      return [[isError(fault) ? fault : NAME]];
    } finally {
      frame.isTrial = false;
    }
  }

  /** Marks a formula for calculation. */
  markCell(cell: FormulaCell): void {
    if (cell.kept !== undefined) return;
    cell.isDirty = true;
    this.touch(cell);
    this.queue.push(cell);
  }

  /** Whoever has read the cell before reads it anew. */
  private touch({ sheet, row, column, filled }: FormulaCell): void {
    const store = this.stores[sheet]!;
    store.touch(row, column);
    if (!filled) return;
    for (let r = filled.top; r <= filled.bottom; r++) {
      for (let c = filled.left; c <= filled.right; c++) store.touch(r, c);
    }
  }

  /** Marks whatever reads the areas, what changes by itself, and what had no room. */
  markChanged(areas: readonly SheetArea[]): void {
    for (const cell of this.circles) {
      cell.kept = undefined;
      this.markWithReaders(cell);
    }
    this.circles.clear();
    for (const cell of this.dependents.volatile) this.markWithReaders(cell);
    this.markReaders(areas);
    this.markBlocked();
  }

  /** A formula that keeps its stored result from now on. */
  keep(cell: FormulaCell, reason: string): void {
    cell.kept = reason;
    if (reason === CIRCLE) this.circles.add(cell);
    cell.isDirty = false;
    cell.isWaiting = false;
    cell.restsOn = cell;
    const rows = this.storedRows(cell);
    cell.value = rows[0]![0]!;
    this.touch(cell);
    if (!this.hasBegun) return;
    const { sheet, row: top, column: left } = cell;
    const area = { sheet, top, left, bottom: top + rows.length - 1, right: left + rows[0]!.length - 1 };
    const isOne = rows.length === 1 && rows[0]!.length === 1;
    if (cell.filled) this.empty(cell, cell.filled);
    cell.filled = isOne ? undefined : area;
    if (!isOne && this.hasRoom(cell, area)) this.write(cell, area, rows);
  }

  /** Clears what a formula fills beside its own cell. */
  clear(cell: FormulaCell): void {
    const { filled } = cell;
    this.blocked.delete(cell);
    this.circles.delete(cell);
    if (!filled) return;
    cell.filled = undefined;
    this.empty(cell, filled);
    this.gaveRoom = true;
    this.markReaders([filled]);
  }

  private markBlocked(): void {
    for (const cell of [...this.blocked]) this.markWithReaders(cell);
  }

  private markWithReaders(cell: FormulaCell): void {
    if (cell.isDirty || cell.kept !== undefined) return;
    this.markCell(cell);
    this.markReaders([cell.filled ?? areaOf(cell)]);
  }

  private markReaders(areas: readonly SheetArea[]): void {
    const mark = (cell: FormulaCell): void => {
      this.touch(cell);
      this.queue.push(cell);
    };
    if (this.dependents.mark(areas, mark)) return;
    for (const cell of this.everyFormula()) this.markCell(cell);
  }

  /** Calculates a formula and first, without calling itself, whatever it waits for. */
  private finish(cell: FormulaCell): void {
    if (!cell.isDirty) return;
    const stack = [cell];
    for (let next = stack.at(-1); next; next = stack.at(-1)) {
      const waitsFor = next.isDirty ? this.attempt(next) : undefined;
      if (!waitsFor) {
        stack.pop();
        continue;
      }
      next.isWaiting = true;
      const circle = waitsFor.find(({ isWaiting }) => isWaiting);
      if (circle) this.breakCircle(stack, circle);
      else for (const one of waitsFor) stack.push(one);
    }
  }

  private breakCircle(stack: readonly FormulaCell[], from: FormulaCell): void {
    for (let at = stack.lastIndexOf(from); at < stack.length; at++) {
      if (stack[at]!.isWaiting) this.keep(stack[at]!, CIRCLE);
    }
  }

  /** Calculates a formula, or tells which cells it waits for. */
  private attempt(cell: FormulaCell): readonly FormulaCell[] | undefined {
    const { program } = cell;
    const { frame, source } = this;
    frame.enter(cell);
    source.met = undefined;
    let rows: Matrix;
    try {
      rows = heldRows(
        frame,
        result(() => program.run(frame)),
        program.intersects,
      );
    } catch (fault) {
      if (fault instanceof NotReady) return fault.cells;
      if (!isError(fault)) {
        this.keep(cell, fault instanceof Lacking ? fault.message : 'more than this calculation can do');
        return undefined;
      }
      rows = [[fault]];
    }
    cell.isDirty = false;
    cell.isWaiting = false;
    this.touch(cell);
    cell.restsOn = source.met;
    cell.formats = program.format && formatsOf(cell, frame.formats, this.stores);
    this.place(cell, rows);
    return undefined;
  }

  private place(cell: FormulaCell, rows: Matrix): void {
    const [height, width] = [rows.length, rows[0]!.length];
    const area = cell.fixed ?? {
      sheet: cell.sheet,
      top: cell.row,
      left: cell.column,
      bottom: cell.row + height - 1,
      right: cell.column + width - 1,
    };
    cell.value = settled(rows[0]![0]!, cell.content?.value, cell.program);
    if (area.top === area.bottom && area.left === area.right) {
      if (cell.filled) this.clear(cell);
      else this.blocked.delete(cell);
      return;
    }
    if (!this.hasRoom(cell, area)) {
      cell.value = SPILL;
      if (cell.filled) this.clear(cell);
      this.blocked.add(cell);
      return;
    }
    this.blocked.delete(cell);
    this.fill(cell, area, rows);
  }

  private hasRoom(cell: FormulaCell, { sheet, top, left, bottom, right }: SheetArea): boolean {
    if (bottom >= ROWS || right >= COLUMNS) return false;
    return this.stores[sheet]!.visit(
      { top, left, bottom, right },
      (slot) => slot === cell || (slot instanceof FilledCell && slot.from === cell),
    );
  }

  private fill(cell: FormulaCell, area: SheetArea, rows: Matrix): void {
    const before = cell.filled;
    const isSame = before !== undefined && before.bottom === area.bottom && before.right === area.right;
    if (!isSame) {
      const fills = (this.fills.get(cell) ?? 0) + 1;
      this.fills.set(cell, fills);
      if (fills > MOST_FILLS) return this.keep(cell, CIRCLE);
    }
    if (!isSame && before) this.empty(cell, before);
    this.write(cell, area, rows);
    cell.filled = area;
    if (isSame) return;
    this.gaveRoom ||= before !== undefined;
    this.markReaders(before ? [before, area] : [area]);
  }

  private write(cell: FormulaCell, area: SheetArea, rows: Matrix): void {
    const store = this.stores[area.sheet]!;
    for (let row = area.top; row <= area.bottom; row++) {
      for (let column = area.left; column <= area.right; column++) {
        if (row === cell.row && column === cell.column) continue;
        const value = valueAt(rows, row - area.top, column - area.left);
        const slot = store.get(row, column);
        if (slot instanceof FilledCell) {
          slot.value = settled(value, slot.value, cell.program);
          store.touch(row, column);
        } else store.set(row, column, new FilledCell(cell, value));
      }
    }
  }

  private empty(cell: FormulaCell, { sheet, top, left, bottom, right }: SheetArea): void {
    const store = this.stores[sheet]!;
    const places: [number, number][] = [];
    store.visit({ top, left, bottom, right }, (slot, row, column) => {
      if (slot instanceof FilledCell && slot.from === cell) places.push([row, column]);
    });
    for (const [row, column] of places) store.set(row, column, null);
  }
}

/** What a fixed area shows of a result: a single row, column or value repeats, and beyond it is #N/A. */
export const fitted = (rows: Matrix, { top, left, bottom, right }: SheetArea): Matrix =>
  Array.from({ length: bottom - top + 1 }, (_, row) =>
    Array.from({ length: right - left + 1 }, (__, column) => valueAt(rows, row, column)),
  );

function valueAt(rows: Matrix, row: number, column: number): Scalar {
  const line = rows.length === 1 ? rows[0]! : rows[row];
  return (line && (line.length === 1 ? line[0] : line[column])) ?? NOT_AVAILABLE;
}

/**
 * A result as the sheet has it: the number that was there where the new one differs only past the digits that count.
 * So nothing changes that rests on it, not even a comparison.
 */
const settled = (value: Scalar, before: unknown, { accuracy }: Program): Scalar =>
  typeof value === 'number' && typeof before === 'number' && isSameNumber(value, before, accuracy)
    ? before
    : value;

function result(run: () => Value): Value {
  try {
    return run();
  } catch (fault) {
    if (isError(fault)) return fault;
    throw fault;
  }
}
