import { translateFormulaToA1 } from '@borgar/fx/xlsx';
import { COLUMNS, ROWS, addressOf } from '../../xlsx/address';
import type { Block } from '../../../worksheet/cells/cell';
import type { WorksheetFunction } from '../../../worksheet/definition';
import type { Given } from '../../worker/messages';
import type { LongCalls } from '../longCalls';
import type { SheetContent } from '../workbook';
import { BlocksRead } from './blocksRead';
import type { Book } from './book';
import type { NumberTotals } from './builtIn';
import type { CellSource, Environment, Frame } from './frame';
import { invoked } from './lambdas';
import { MOST_CELLS } from './operators';
import type { Program } from './program';
import { ownCellOf, type Seat } from './references';
import { FormulaCell, type SheetStore } from './sheetStore';
import { markCut, withBlankTail } from './tails';
import {
  CALC,
  isError,
  isMatrix,
  Lambda,
  NUM,
  REF,
  Reference,
  VALUE,
  type Argument,
  type Matrix,
  type Scalar,
  type SheetArea,
  type Value,
} from './values';

/** What all formulas of a workbook share while they are calculated. */
export interface Surroundings {
  readonly book: Book;
  readonly stores: readonly SheetStore[];
  readonly sheets: readonly SheetContent[];
  readonly dateSystem: 1900 | 1904;
  /** Answers functions that may take long; without it each answer is had at once. */
  readonly longCalls: LongCalls | undefined;
  /** Day and time as a serial. */
  now(): number;
  /** A formula made ready for a cell. */
  program(formula: string, seat: Seat, intersects: boolean): Program;
}

/** One after another the formulas of a workbook run in the same frame. */
export class CalculationFrame implements Frame {
  sheet = 0;
  row = 0;
  column = 0;
  environment: Environment | undefined = undefined;
  formats: Frame['formats'] = undefined;
  depth = 0;
  calls = 0;
  readonly dateSystem: 1900 | 1904;
  private readonly blocks = new BlocksRead();

  constructor(
    readonly source: CellSource,
    private readonly surroundings: Surroundings,
  ) {
    this.dateSystem = surroundings.dateSystem;
  }

  /** Whether a formula is calculated for no cell: then nothing that takes long is begun for it. */
  isTrial = false;

  longAnswer(definition: WorksheetFunction, given: Given): Block | undefined {
    const { longCalls, dateSystem } = this.surroundings;
    const { sheet, row, column } = this;
    return longCalls?.answer(
      this.isTrial ? undefined : { sheet, row, column },
      definition,
      given,
      dateSystem,
    );
  }

  /** Makes ready for the formula of a cell. */
  enter({ sheet, row, column }: Seat): void {
    this.sheet = sheet;
    this.row = row;
    this.column = column;
    this.environment = undefined;
    this.formats = undefined;
    this.depth = 0;
    this.calls = 0;
  }

  get sheetNames(): readonly string[] {
    return this.surroundings.book.sheetNames;
  }

  now(): number {
    return this.surroundings.now();
  }

  random(): number {
    return Math.random();
  }

  matrixOf(value: Argument): Matrix {
    if (value instanceof Reference) return this.blockOf(value);
    if (value instanceof Lambda) throw CALC;
    return isMatrix(value) ? value : [[value ?? null]];
  }

  scalarOf(value: Argument): Scalar {
    if (value instanceof Reference) {
      const [{ sheet, top, left }] = value.areas;
      return this.source.read(sheet, top, left);
    }
    if (value instanceof Lambda) throw CALC;
    return isMatrix(value) ? value[0]![0]! : (value ?? null);
  }

  blockOf(reference: Reference): Matrix {
    const { area } = reference;
    const { sheet, top, left } = area;
    let { bottom, right } = area;
    if (bottom === ROWS - 1) bottom = Math.max(top, Math.min(bottom, this.source.lastRow(sheet)));
    if (right === COLUMNS - 1) right = Math.max(left, Math.min(right, this.source.lastColumn(sheet)));
    const block = this.blocks.get({ sheet, top, left, bottom, right }, this.source, (all) => this.read(all));
    return bottom < area.bottom && top === 0 ? markCut(block) : block;
  }

  wholeOf(reference: Reference): Matrix {
    const block = this.blockOf(reference);
    const { top, bottom } = reference.area;
    const height = bottom - top + 1;
    return height > block.length ? withBlankTail(block, height) : block;
  }

  wasAsked({ area }: Reference): boolean {
    return this.blocks.wasAsked(area);
  }

  private read(area: SheetArea): Matrix {
    const { top, left, bottom, right } = area;
    const [height, width] = [bottom - top + 1, right - left + 1];
    if (height * width > MOST_CELLS) throw NUM;
    const rows = new Array<Scalar[]>(height);
    for (let row = 0; row < height; row++) rows[row] = new Array<Scalar>(width).fill(null);
    this.source.visit(area, (value, row, column) => {
      rows[row - top]![column - left] = value;
    });
    return rows;
  }

  totalsOf(reference: Reference): NumberTotals {
    let [sum, count, least, most] = [0, 0, Infinity, -Infinity];
    for (const area of reference.areas) {
      const totals = this.source.totals(area);
      if (totals) {
        sum += totals.sum;
        count += totals.count;
        least = Math.min(least, totals.least);
        most = Math.max(most, totals.most);
        continue;
      }
      this.source.visit(area, (value) => {
        if (isError(value)) throw value;
        if (typeof value !== 'number') return;
        sum += value;
        count++;
        least = Math.min(least, value);
        most = Math.max(most, value);
      });
    }
    return { sum, count, least, most };
  }

  eachCell(
    reference: Reference,
    visit: (value: Scalar, row: number, column: number, sheet: number) => boolean | void,
  ): void {
    let ended = false;
    for (const area of reference.areas) {
      if (ended) return;
      this.source.visit(area, (value, row, column) => {
        ended = visit(value, row, column, area.sheet) === false;
        return !ended;
      });
    }
  }

  isHidden(sheet: number, row: number): 'hand' | 'filter' | undefined {
    return this.surroundings.sheets[sheet]!.hiddenRows?.get(row);
  }

  formulaAt(sheet: number, row: number, column: number): string | undefined {
    const slot = this.surroundings.stores[sheet]!.get(row, column);
    return slot instanceof FormulaCell ? slot.text : undefined;
  }

  referenceTo(text: string, byNumbers = false): Reference {
    const written = byNumbers ? inLetters(text, this) : `=${plainRows(text.trim())}`;
    const { run, lacking, functions } = this.surroundings.program(written, this, false);
    if (lacking !== undefined || functions.length > 0) throw REF;
    const value = run(this);
    if (!(value instanceof Reference)) throw REF;
    return value;
  }

  invoke(lambda: Lambda, given: readonly Argument[]): Value {
    return invoked(this, lambda, given);
  }
}

/** `A01:B09` is A1:B9 in a text, though not in a formula. */
const plainRows = (text: string): string =>
  text.replace(/(?<=(?:^|[!:$])\$?[a-z]{0,3}\$?)0+(?=[1-9]\d*(?::|$))/gi, '');

function inLetters(text: string, seat: Seat): string {
  try {
    return translateFormulaToA1(`=${text.trim()}`, addressOf(seat));
  } catch {
    throw REF;
  }
}

/** A result as rows of values that a cell can hold: blanks are 0, and so is no number that is none. */
export function heldRows(frame: Frame, value: Value, intersects: boolean): Matrix {
  if (value instanceof Lambda) return [[CALC]];
  if (!(value instanceof Reference) && !isMatrix(value)) return [[held(value)]];
  let block: Matrix;
  if (value instanceof Reference) {
    if (value.areas.length > 1) return [[VALUE]];
    if (intersects && !value.isOneCell) return [[held(frame.scalarOf(ownCellOf(value, frame)))]];
    block = frame.blockOf(value);
  } else block = value;
  if (intersects) return [[held(block[0]![0]!)]];
  return block.map((row) => row.map(held));
}

const held = (value: Scalar): Scalar => {
  if (typeof value === 'number') return Number.isFinite(value) ? value : NUM;
  return value ?? 0;
};
