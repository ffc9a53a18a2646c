import type { CellContent } from '../workbook';
import type { Program } from './program';
import { isError, type Scalar, type SheetArea } from './values';

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
    public program: Program,
    /** What the file holds for it; undefined where it was typed later. */
    public content: CellContent | undefined,
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
  /** Made when asked for, and dropped when a cell changes. */
  totals: Totals | undefined;
}

interface Column {
  readonly pieces: Map<number, Piece>;
  /** Counts changes. */
  version: number;
}

/** What the numbers among some cells come to. */
export interface Totals {
  readonly sum: number;
  readonly count: number;
  /** Infinity and -Infinity where there are none. */
  readonly least: number;
  readonly most: number;
  /** A cell that keeps its stored result among what the cells rest on. */
  readonly met: FormulaCell | undefined;
}

type Area = Pick<SheetArea, 'top' | 'left' | 'bottom' | 'right'>;

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
      this.columns.set(column, (within = { pieces: new Map<number, Piece>(), version: 0 }));
      this.order = undefined;
    }
    const at = row >> SHIFT;
    let piece = within.pieces.get(at);
    if (!piece) {
      if (slot === null) return;
      const slots = new Array<Slot>(PIECE).fill(null);
      within.pieces.set(at, (piece = { slots, used: 0, totals: undefined }));
    }
    const before = piece.slots[row & (PIECE - 1)]!;
    piece.slots[row & (PIECE - 1)] = slot;
    piece.used += Number(slot !== null) - Number(before !== null);
    piece.totals = undefined;
    within.version++;
    if (piece.used === 0) within.pieces.delete(at);
    if (slot === null) return;
    if (row > this.lastRow) this.lastRow = row;
    if (column > this.lastColumn) this.lastColumn = column;
  }

  /** Tells that what a cell holds has another value now, or none yet. */
  touch(row: number, column: number): void {
    const within = this.columns.get(column);
    if (!within) return;
    within.version++;
    const piece = within.pieces.get(row >> SHIFT);
    if (piece) piece.totals = undefined;
  }

  /** A number that changes whenever a cell of these columns does. */
  versionOf(left: number, right: number): number {
    if (left === right) return this.columns.get(left)?.version ?? 0;
    let sum = 0;
    for (const column of this.columnsIn(left, right)) sum += this.columns.get(column)!.version;
    return sum;
  }

  /** Visits the cells of an area that hold something, row by row; ends where `visit` returns false. */
  visit(area: Area, visit: (slot: Slot, row: number, column: number) => boolean | void): boolean {
    const columns = this.columnsIn(area.left, area.right);
    const bottom = Math.min(area.bottom, this.lastRow);
    if (columns.length === 0 || bottom < area.top) return true;
    for (const at of this.piecesBetween(columns, area.top >> SHIFT, bottom >> SHIFT)) {
      const pieces = this.piecesAt(columns, at);
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

  /**
   * What the numbers of an area come to; undefined where a cell holds an error or is yet to be calculated. A column
   * of sums that grow row by row costs little for each.
   */
  totals(area: Area): Totals | undefined {
    const bottom = Math.min(area.bottom, this.lastRow);
    let all = NOTHING;
    for (const column of this.columnsIn(area.left, area.right)) {
      const { pieces } = this.columns.get(column)!;
      const [first, last] = [area.top >> SHIFT, bottom >> SHIFT];
      if (pieces.size >= last - first) {
        for (let at = first; at <= last; at++) {
          const piece = pieces.get(at);
          const part = piece ? totalsWithin(piece, at << SHIFT, area.top, bottom) : NOTHING;
          if (!part) return undefined;
          all = together(all, part);
        }
        continue;
      }
      for (const [at, piece] of pieces) {
        if (at < first || at > last) continue;
        const part = totalsWithin(piece, at << SHIFT, area.top, bottom);
        if (!part) return undefined;
        all = together(all, part);
      }
    }
    return all;
  }

  /** Where there may be pieces, in order: a cell far down does not cost the way there. */
  private *piecesBetween(columns: readonly number[], first: number, last: number): Generator<number> {
    let count = 0;
    for (const column of columns) count += this.columns.get(column)!.pieces.size;
    if (count >= last - first) {
      for (let at = first; at <= last; at++) yield at;
      return;
    }
    const places = new Set<number>();
    for (const column of columns) {
      for (const at of this.columns.get(column)!.pieces.keys()) if (at >= first && at <= last) places.add(at);
    }
    yield* [...places].sort((a, b) => a - b);
  }

  private columnsIn(left: number, right: number): readonly number[] {
    if (left === right) return this.columns.has(left) ? [left] : [];
    this.order ??= [...this.columns.keys()].sort((a, b) => a - b);
    if (left <= (this.order[0] ?? 0) && right >= this.lastColumn) return this.order;
    return this.order.filter((column) => column >= left && column <= right);
  }

  private piecesAt(columns: readonly number[], at: number): [column: number, piece: Piece][] {
    const found: [number, Piece][] = [];
    for (const column of columns) {
      const piece = this.columns.get(column)!.pieces.get(at);
      if (piece) found.push([column, piece]);
    }
    return found;
  }
}

/** What the rows of a piece between two come to; of a whole piece it is kept. */
function totalsWithin(piece: Piece, start: number, top: number, bottom: number): Totals | undefined {
  const from = Math.max(0, top - start);
  const to = Math.min(PIECE - 1, bottom - start);
  if (from > 0 || to < PIECE - 1) return totalsOf(piece.slots, from, to);
  return (piece.totals ??= totalsOf(piece.slots, from, to));
}

const NOTHING: Totals = { sum: 0, count: 0, least: Infinity, most: -Infinity, met: undefined };

const together = (a: Totals, b: Totals): Totals => ({
  sum: a.sum + b.sum,
  count: a.count + b.count,
  least: a.least < b.least ? a.least : b.least,
  most: a.most > b.most ? a.most : b.most,
  met: a.met ?? b.met,
});

function totalsOf(slots: readonly Slot[], from: number, to: number): Totals | undefined {
  let [sum, count, least, most] = [0, 0, Infinity, -Infinity];
  let met: FormulaCell | undefined;
  for (let at = from; at <= to; at++) {
    let value: Slot | undefined = slots[at];
    if (typeof value === 'object' && value !== null) {
      const cell =
        value instanceof FormulaCell ? value : value instanceof FilledCell ? value.from : undefined;
      if (!cell || cell.isDirty) return undefined;
      met ??= cell.restsOn;
      value = (value as FormulaCell | FilledCell).value;
      if (isError(value)) return undefined;
    }
    if (typeof value !== 'number') continue;
    sum += value;
    count++;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { sum, count, least, most, met };
}
