import type { CellContent } from '../workbook';
import type { Program } from './program';
import type { Scalar, SheetArea } from './values';

/** A formula's cell while the workbook is open. */
export class FormulaCell {
  value: Scalar = null;
  /** The cells its result fills where they are more than its own. */
  filled: SheetArea | undefined = undefined;
  /** Whether its value has to be calculated before it may be read. */
  isDirty = true;
  /** Whether it waits for cells that it refers to. */
  isWaiting = false;
  /** Whether its result had no room. */
  isBlocked = false;
  /** Why its stored result stands; undefined where it is calculated. */
  kept: string | undefined = undefined;
  /** A cell that keeps its stored result and that this value was calculated from. */
  restsOn: FormulaCell | undefined = undefined;
  /** How the numbers of its result read, row by row. */
  formats: Formats = undefined;

  constructor(
    readonly sheet: number,
    readonly row: number,
    readonly column: number,
    /** As its author wrote it. */
    readonly text: string,
    readonly program: Program,
    /** What the file holds for it; undefined where it was typed later. */
    readonly content: CellContent | undefined,
    /** The area it must fill, whatever the size of its result: `{=…}` of older files. */
    readonly fixed: SheetArea | undefined,
  ) {}
}

export type CellFormat = 'date' | 'dateTime' | 'percent';
export type Formats = readonly (readonly (CellFormat | undefined)[])[] | undefined;

/** A cell that a formula elsewhere fills. */
export class FilledCell {
  constructor(
    readonly from: FormulaCell,
    public value: Scalar,
  ) {}
}

/** What the store holds for a cell: a constant, a formula or a part of a formula's result. */
export type Slot = Scalar | FormulaCell | FilledCell;

/** Rows are kept in pieces of this many: a cell far down costs one piece. */
const PIECE = 64;
const SHIFT = 6;

interface Piece {
  readonly slots: Slot[];
  /** Cells that are not blank. */
  used: number;
}

class Column {
  readonly pieces = new Map<number, Piece>();
}

/** The cells of one sheet that hold something. */
export class SheetStore {
  private readonly columns = new Map<number, Column>();
  private order: number[] | undefined;
  /** The last row and column that ever held something; -1 on an empty sheet. */
  lastRow = -1;
  lastColumn = -1;

  get(row: number, column: number): Slot {
    const piece = this.columns.get(column)?.pieces.get(row >> SHIFT);
    return piece === undefined ? null : piece.slots[row & (PIECE - 1)]!;
  }

  set(row: number, column: number, slot: Slot): void {
    let within = this.columns.get(column);
    if (!within) {
      if (slot === null) return;
      this.columns.set(column, (within = new Column()));
      this.order = undefined;
    }
    const at = row >> SHIFT;
    let piece = within.pieces.get(at);
    if (!piece) {
      if (slot === null) return;
      within.pieces.set(at, (piece = { slots: new Array<Slot>(PIECE).fill(null), used: 0 }));
    }
    const before = piece.slots[row & (PIECE - 1)]!;
    piece.slots[row & (PIECE - 1)] = slot;
    piece.used += Number(slot !== null) - Number(before !== null);
    if (piece.used === 0) within.pieces.delete(at);
    if (slot === null) return;
    if (row > this.lastRow) this.lastRow = row;
    if (column > this.lastColumn) this.lastColumn = column;
  }

  /** Visits the cells of an area that hold something, row by row; ends where `visit` returns false. */
  visit(area: Area, visit: (slot: Slot, row: number, column: number) => boolean | void): boolean {
    const columns = this.columnsIn(area.left, area.right);
    const bottom = Math.min(area.bottom, this.lastRow);
    if (columns.length === 0 || bottom < area.top) return true;
    const last = bottom >> SHIFT;
    for (let at = area.top >> SHIFT; at <= last; at++) {
      const pieces = piecesAt(columns, at, this.columns);
      if (pieces.length === 0) continue;
      const from = Math.max(area.top, at << SHIFT);
      const to = Math.min(bottom, (at << SHIFT) + PIECE - 1);
      for (let row = from; row <= to; row++) {
        for (const [column, { slots }] of pieces) {
          const slot = slots[row & (PIECE - 1)]!;
          if (slot !== null && visit(slot, row, column) === false) return false;
        }
      }
    }
    return true;
  }

  private columnsIn(left: number, right: number): readonly number[] {
    if (left === right) return this.columns.has(left) ? [left] : [];
    this.order ??= [...this.columns.keys()].sort((a, b) => a - b);
    if (left <= (this.order[0] ?? 0) && right >= this.lastColumn) return this.order;
    return this.order.filter((column) => column >= left && column <= right);
  }
}

type Area = Pick<SheetArea, 'top' | 'left' | 'bottom' | 'right'>;

function piecesAt(
  columns: readonly number[],
  at: number,
  all: ReadonlyMap<number, Column>,
): [column: number, piece: Piece][] {
  const found: [number, Piece][] = [];
  for (const column of columns) {
    const piece = all.get(column)!.pieces.get(at);
    if (piece) found.push([column, piece]);
  }
  return found;
}
