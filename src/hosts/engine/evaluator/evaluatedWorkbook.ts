import { Lacking } from './lacking';
import type { Format } from '../../../worksheet/cells/cell';
import { addressOf, areaOf as areaOfRange, placeOf, type Area } from '../../xlsx/address';
import { isFormula } from '../../xlsx/content';
import type {
  CellContent,
  CellName,
  CellResult,
  ProvableWorkbook,
  StoredTrial,
  WorkbookContent,
} from '../workbook';
import type { LongCalls } from '../longCalls';
import { Calculation, fitted } from './calculation';
import { CalculationFrame, heldRows, type Surroundings } from './calculationFrame';
import { areaOf } from './dependents';
import { formatAt } from './formats';
import { toCell, toScalar } from './pinsetValues';
import { programOf, type Program } from './program';
import type { Seat } from './references';
import { relativeText } from './relativeText';
import { FilledCell, FormulaCell, SheetStore, type Slot } from './sheetStore';
import { StoredSource } from './storedSource';
import { ErrorValue, isError, NAME, type Matrix, type Scalar, type SheetArea } from './values';
import { WorkbookBook } from './workbookBook';

/** What a cell is to hold: a formula, what the file held for it, or a constant. */
export interface Entered {
  readonly seat: Seat;
  readonly formula?: string;
  readonly stored?: CellContent;
  /** Why the formula that the file held keeps its result, where it does. */
  readonly kept?: string | undefined;
  readonly value?: Scalar;
}

/** A workbook over the evaluator. `calculate` comes first, once its functions are prepared. */
export class EvaluatedWorkbook implements ProvableWorkbook, Surroundings {
  readonly book: WorkbookBook;
  readonly stores: readonly SheetStore[];
  readonly dateSystem: 1900 | 1904;
  private readonly programs = new Map<string, Program>();
  private readonly calculation: Calculation;
  private stored: ReturnType<EvaluatedWorkbook['storedFrame']> | undefined;
  private isOpen = false;
  private moment = 0;

  /** `longCalls` answers functions that may take long; without it they must have been prepared. */
  constructor(
    private content: WorkbookContent,
    readonly longCalls: LongCalls | undefined = undefined,
  ) {
    const { sheets, dateSystem, vocabulary } = content;
    this.dateSystem = dateSystem;
    this.book = new WorkbookBook(
      sheets.map(({ name }) => name),
      vocabulary,
    );
    this.stores = sheets.map(() => new SheetStore());
    this.calculation = new Calculation(
      this.stores,
      this,
      () => this.formulas(),
      (cell) => this.storedRows(cell),
    );
    this.moment = momentNow(dateSystem);
    sheets.forEach(({ cells }, sheet) => {
      for (const cell of cells) this.open(sheet, cell);
    });
    this.isOpen = true;
  }

  get sheets(): WorkbookContent['sheets'] {
    return this.content.sheets;
  }

  now(): number {
    return this.moment;
  }

  /** Names of the functions its formulas call, in capitals. */
  functionsUsed(): Set<string> {
    return new Set([...this.programs.values()].flatMap(({ functions }) => functions));
  }

  forgetZeros(content: WorkbookContent): void {
    this.content = content;
    this.stored = undefined;
    content.sheets.forEach(({ cells }, sheet) => {
      for (const cell of cells) {
        if (!isFormula(cell)) continue;
        const place = placeOf(cell.address);
        const slot = place && this.slotAt({ sheet, ...place });
        if (slot instanceof FormulaCell) slot.content = cell;
      }
    });
  }

  functionsOf(sheet: string, address: string): readonly string[] {
    const slot = this.slotAt(this.seatOf(sheet, address));
    return slot instanceof FormulaCell ? slot.program.functions : [];
  }

  lacking(sheet: string, address: string): string | undefined {
    const slot = this.slotAt(this.seatOf(sheet, address));
    return slot instanceof FormulaCell ? (slot.program.lacking ?? slot.content?.unsupported) : undefined;
  }

  keep(sheet: string, address: string, reason: string): void {
    const slot = this.slotAt(this.seatOf(sheet, address));
    if (slot instanceof FormulaCell) this.calculation.keep(slot, reason);
  }

  calculate(): void {
    this.stored = undefined;
    this.moment = momentNow(this.dateSystem);
    for (const cell of this.formulas()) this.calculation.markCell(cell);
    this.calculation.run();
  }

  result(sheet: string, address: string): CellResult {
    const seat = this.seatOf(sheet, address);
    const slot = this.slotAt(seat);
    if (slot instanceof FilledCell) {
      const { from, value } = slot;
      const format = formatAt(from.formats, seat.row - from.row, seat.column - from.column);
      return { value: toCell(value), ...(format && { format }), ...this.basis(from) };
    }
    if (!(slot instanceof FormulaCell)) return { value: toCell(slot) };
    const { value, filled, kept } = slot;
    const format: Format | undefined = formatAt(slot.formats, 0, 0);
    return {
      value: toCell(value),
      ...(format && kept === undefined && { format }),
      ...(filled && { block: this.blockIn(filled).map((row) => row.map(toCell)) }),
      ...(kept !== undefined && { unsupported: kept }),
      ...this.basis(slot),
    };
  }

  type(sheet: string, address: string, content: string | number | boolean | null): void {
    const seat = this.seatOf(sheet, address);
    const isFormula = typeof content === 'string' && content.startsWith('=');
    this.enter([isFormula ? { seat, formula: content } : { seat, value: content }]);
  }

  /** Puts formulas, constants, or what the file held into cells, and calculates what follows from it. */
  enter(entries: readonly Entered[]): void {
    this.moment = momentNow(this.dateSystem);
    for (const entry of entries) this.put(entry);
    this.calculation.markChanged(entries.map(({ seat }) => areaOf(seat)));
    this.calculation.run();
  }

  /** Calculates formulas again though nothing they refer to has changed. */
  recalculate(seats: readonly Seat[]): void {
    for (const seat of seats) {
      const slot = this.slotAt(seat);
      if (slot instanceof FormulaCell) this.calculation.markCell(slot);
    }
    this.calculation.markChanged(seats.map(areaOf));
    this.calculation.run();
  }

  /** What a formula would give in a cell; the cells stay as they are. */
  trial(formula: string, seat: Seat): Matrix {
    const program = this.program(formula, seat, false);
    return program.lacking === undefined ? this.calculation.trial(program, seat) : [[NAME]];
  }

  private put({ seat, formula, value, stored, kept }: Entered): void {
    const before = this.slotAt(seat);
    if (before instanceof FormulaCell) {
      this.calculation.clear(before);
      this.calculation.dependents.remove(before);
    }
    const store = this.stores[seat.sheet]!;
    if (formula !== undefined) {
      const program = this.program(formula, seat, false);
      const cell = new FormulaCell(seat.sheet, seat.row, seat.column, formula, program, undefined, undefined);
      store.set(seat.row, seat.column, cell);
      this.calculation.dependents.add(cell);
      if (program.lacking !== undefined) this.calculation.keep(cell, program.lacking);
      else this.calculation.markCell(cell);
    } else if (stored) {
      store.set(seat.row, seat.column, null);
      this.reopen(seat, stored, kept);
    } else {
      store.set(seat.row, seat.column, value ?? null);
    }
    if (before instanceof FilledCell) this.calculation.markCell(before.from);
  }

  /** What the file held for a cell is in it again. */
  private reopen(seat: Seat, stored: CellContent, kept: string | undefined): void {
    const from = stored.spilledFrom === undefined ? undefined : placeOf(stored.spilledFrom);
    const source = from && this.slotAt({ sheet: seat.sheet, ...from });
    if (source instanceof FormulaCell) {
      if (source.kept !== undefined) this.calculation.keep(source, source.kept);
      else this.calculation.markCell(source);
      return;
    }
    this.open(seat.sheet, stored);
    const cell = this.slotAt(seat);
    if (!(cell instanceof FormulaCell)) return;
    cell.filled = undefined;
    const reason = kept ?? cell.kept;
    if (reason === undefined) this.calculation.markCell(cell);
    else this.calculation.keep(cell, reason);
  }

  evaluateFromStored(sheet: string, address: string): StoredTrial {
    const seat = this.seatOf(sheet, address);
    const slot = this.slotAt(seat);
    if (!(slot instanceof FormulaCell)) {
      const value = slot instanceof FilledCell ? slot.value : slot;
      return { value: toCell(value), isVolatile: false, lacksStored: false };
    }
    const { program, content } = slot;
    const { isVolatile, lacking = content?.unsupported } = program;
    if (lacking !== undefined) {
      return { value: content?.value ?? null, isVolatile, lacksStored: false, unsupported: lacking };
    }
    const { source, frame } = (this.stored ??= this.storedFrame());
    source.lacksStored = false;
    frame.enter(seat);
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
    if (slot.fixed) rows = fitted(rows, slot.fixed);
    const { lacksStored } = source;
    const isOne = rows.length === 1 && rows[0]!.length === 1;
    return {
      value: toCell(rows[0]![0]!),
      ...(!isOne && { block: rows.map((row) => row.map(toCell)) }),
      isVolatile,
      lacksStored,
    };
  }

  program(formula: string, seat: Seat, intersects: boolean): Program {
    const text = relativeText(formula, seat.row, seat.column);
    const table = formula.includes('[')
      ? this.book.vocabulary?.tableAt(this.book.sheetNames[seat.sheet]!, seat)?.name
      : undefined;
    // Names may be a sheet's own.
    const key = `${seat.sheet}${intersects ? '@' : ''}${table ?? ''}${text}`;
    let program = this.programs.get(key);
    if (!program) this.programs.set(key, (program = programOf(formula, seat, this.book, intersects)));
    return program;
  }

  areasOf(sheet: string, address: string): readonly (Area & { readonly sheet: string })[] {
    const seat = this.seatOf(sheet, address);
    const slot = this.slotAt(seat);
    if (!(slot instanceof FormulaCell)) return [];
    return slot.program.areas.flatMap((area) =>
      area
        .referenceFrom(seat)
        .areas.map(({ sheet: at, ...within }) => ({ ...within, sheet: this.book.sheetNames[at]! })),
    );
  }

  /** The cells of a sheet that hold something, row by row. */
  seats(sheet: number): Seat[] {
    const store = this.stores[sheet]!;
    const seats: Seat[] = [];
    store.visit({ top: 0, left: 0, bottom: store.lastRow, right: store.lastColumn }, (_, row, column) => {
      seats.push({ sheet, row, column });
    });
    return seats;
  }

  private *formulas(): Generator<FormulaCell> {
    for (const store of this.stores) {
      const cells: FormulaCell[] = [];
      store.visit({ top: 0, left: 0, bottom: store.lastRow, right: store.lastColumn }, (slot) => {
        if (slot instanceof FormulaCell) cells.push(slot);
      });
      yield* cells;
    }
  }

  private open(sheet: number, cell: CellContent): void {
    const place = placeOf(cell.address);
    if (!place) return;
    const { row, column } = place;
    const store = this.stores[sheet]!;
    if (!isFormula(cell)) {
      const from = cell.spilledFrom === undefined ? undefined : placeOf(cell.spilledFrom);
      const source = from && store.get(from.row, from.column);
      const value = toScalar(cell.value);
      if (source instanceof FormulaCell) store.set(row, column, new FilledCell(source, value));
      else if (value !== null) store.set(row, column, value);
      return;
    }
    const seat = { sheet, row, column };
    const text = cell.written ?? cell.formula ?? '';
    const area = cell.spill === undefined ? undefined : areaOfRange(cell.spill);
    const filled: SheetArea | undefined =
      area && (area.bottom > area.top || area.right > area.left) ? { sheet, ...area } : undefined;
    // Pinset's own do spill: they may have been written by a program that knows no spilling.
    const intersects = cell.spill === undefined && !/pinset\./i.test(text);
    const formula = this.content.vocabulary ? text : (cell.formula ?? text);
    const program = this.program(formula, seat, intersects);
    const opened = new FormulaCell(
      sheet,
      row,
      column,
      text,
      program,
      cell,
      cell.isFixedArray && area ? { sheet, ...area } : undefined,
    );
    opened.filled = filled;
    store.set(row, column, opened);
    this.calculation.dependents.add(opened);
    const lacking = cell.unsupported ?? program.lacking;
    if (lacking !== undefined) this.calculation.keep(opened, lacking);
  }

  private storedFrame(): { source: StoredSource; frame: CalculationFrame } {
    const source = new StoredSource(this.content.sheets);
    const frame = new CalculationFrame(source, this);
    frame.isTrial = true;
    return { source, frame };
  }

  /** What the file stores for a formula; an error where it was typed and there is nothing to keep. */
  private storedRows(cell: FormulaCell): Matrix {
    const { content, program, sheet } = cell;
    if (!content) return [[new ErrorValue(program.lacking === undefined ? '#REF!' : '#NAME?', cell.kept)]];
    const area = content.spill === undefined ? undefined : areaOfRange(content.spill);
    if (content.value === null) return [[unknown(cell)]];
    if (!area || !this.isOpen) return [[toScalar(content.value)]];
    const { source } = (this.stored ??= this.storedFrame());
    return Array.from({ length: area.bottom - area.top + 1 }, (_, row) =>
      Array.from({ length: area.right - area.left + 1 }, (__, column) =>
        source.read(sheet, area.top + row, area.left + column),
      ),
    );
  }

  private basis(cell: FormulaCell): { restsOn?: CellName } {
    const { restsOn } = cell;
    if (!restsOn || restsOn === cell) return {};
    return { restsOn: { sheet: this.book.sheetNames[restsOn.sheet]!, address: addressOf(restsOn) } };
  }

  private blockIn({ sheet, top, left, bottom, right }: SheetArea): Scalar[][] {
    const store = this.stores[sheet]!;
    return Array.from({ length: bottom - top + 1 }, (_, row) =>
      Array.from({ length: right - left + 1 }, (__, column) => {
        const slot = store.get(top + row, left + column);
        return slot instanceof FormulaCell || slot instanceof FilledCell ? slot.value : slot;
      }),
    );
  }

  /** What a cell holds: a constant, a formula or a part of a formula's result. */
  slotAt({ sheet, row, column }: Seat): Slot {
    return this.stores[sheet]!.get(row, column);
  }

  seatOf(sheet: string, address: string): Seat {
    const at = this.book.sheetAt(sheet);
    const place = placeOf(address);
    if (at === undefined || !place) throw new Error(`no cell ${address} on a sheet named ${sheet}`);
    return { sheet: at, ...place };
  }
}

/** What a formula shows that is not calculated and that the file stores no result for: no blank, no 0. */
const unknown = ({ kept }: FormulaCell): ErrorValue =>
  new ErrorValue('#N/A', `not calculated here (${kept}), and the file stores no result`);

/** Now as a serial, by the clock on the wall. */
function momentNow(dateSystem: 1900 | 1904): number {
  const now = new Date();
  const wall = now.getTime() - now.getTimezoneOffset() * 60_000;
  return wall / 86_400_000 + (dateSystem === 1904 ? 24_107 : 25_569);
}
