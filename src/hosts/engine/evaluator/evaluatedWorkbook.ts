import type { Format } from '../../../worksheet/cells/cell';
import { addressOf, areaOf as areaOfRange, placeOf } from '../../xlsx/address';
import { isFormula } from '../../xlsx/content';
import type { TableShape, Vocabulary } from '../../xlsx/formula';
import type { LongCalls } from '../longCalls';
import type {
  CellContent,
  CellName,
  CellResult,
  ProvableWorkbook,
  StoredTrial,
  WorkbookContent,
} from '../workbook';
import { Calculation } from './calculation';
import { areaOf } from './dependents';
import { formatAt } from './formats';
import { toCell, toScalar } from './pinsetValues';
import type { Seat } from './references';
import { FilledCell, FormulaCell } from './sheetStore';
import { StoredTrials } from './storedTrials';
import { ErrorValue, NAME, type Matrix, type Scalar, type SheetArea } from './values';
import { WorkbookCells } from './workbookCells';

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
export class EvaluatedWorkbook extends WorkbookCells implements ProvableWorkbook {
  private readonly calculation: Calculation;
  private trials: StoredTrials | undefined;
  private isOpen = false;

  /** `longCalls` answers functions that may take long; without it they must have been prepared. */
  constructor(content: WorkbookContent, longCalls: LongCalls | undefined = undefined) {
    super(content, longCalls);
    this.calculation = new Calculation(
      this.stores,
      this,
      () => this.formulas(),
      (cell) => this.storedRows(cell),
    );
    content.sheets.forEach(({ cells }, sheet) => {
      for (const cell of cells) this.open(sheet, cell);
    });
    this.isOpen = true;
  }

  forgetZeros(content: WorkbookContent): void {
    this.content = content;
    this.trials = undefined;
    content.sheets.forEach(({ cells }, sheet) => {
      for (const cell of cells) {
        if (!isFormula(cell)) continue;
        const place = placeOf(cell.address);
        const slot = place && this.slotAt({ sheet, ...place });
        if (slot instanceof FormulaCell) slot.content = cell;
      }
    });
  }

  keep(sheet: string, address: string, reason: string): void {
    const slot = this.slotAt(this.seatOf(sheet, address));
    if (slot instanceof FormulaCell) this.calculation.keep(slot, reason);
  }

  /** Other rows of a sheet are hidden: functions that pass them over are calculated again. */
  hide(sheet: number, rows: ReadonlyMap<number, 'hand' | 'filter'>): void {
    const before = this.sheets[sheet]!.hiddenRows ?? new Map<number, 'hand' | 'filter'>();
    if (before.size === rows.size && [...rows].every(([row, by]) => before.get(row) === by)) return;
    this.content = {
      ...this.content,
      sheets: this.sheets.map((one, at) => (at === sheet ? { ...one, hiddenRows: rows } : one)),
    };
    const follow = [...this.formulas()].filter(({ program }) =>
      program.functions.some((name) => name === 'SUBTOTAL' || name === 'AGGREGATE'),
    );
    for (const cell of follow) this.calculation.markCell(cell);
    this.calculation.markChanged(follow.map(areaOf));
    this.calculation.run();
  }

  /** Tables have other rows than before: formulas that read in them are made ready again. */
  renameTables(vocabulary: Vocabulary, changed: readonly TableShape[]): void {
    this.book.vocabulary = vocabulary;
    this.programs.clear();
    const areas = changed.map(({ sheet, area }) => ({ sheet: this.book.sheetAt(sheet)!, ...area }));
    const readsIn = (cell: FormulaCell): boolean =>
      cell.program.areas.some((written) =>
        written.referenceFrom(cell).areas.some((one) => areas.some((area) => meet(one, area))),
      );
    const reading = [...this.formulas()].filter((cell) => cell.kept === undefined && readsIn(cell));
    const { dependents } = this.calculation;
    for (const cell of reading) {
      dependents.remove(cell);
      cell.program = this.program(cell.text, cell, cell.program.intersects);
      dependents.add(cell);
      this.calculation.markCell(cell);
    }
    this.calculation.markChanged(reading.map((cell) => cell.filled ?? areaOf(cell)));
    this.calculation.run();
  }

  calculate(): void {
    this.trials = undefined;
    this.setClock();
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
    this.setClock();
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
    const slot = this.slotAt(this.seatOf(sheet, address));
    if (slot instanceof FormulaCell) return this.storedTrials().of(slot);
    const value = slot instanceof FilledCell ? slot.value : slot;
    return { value: toCell(value), isVolatile: false, lacksStored: false };
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

  private storedTrials(): StoredTrials {
    return (this.trials ??= new StoredTrials(this.content.sheets, this));
  }

  /** What the file stores for a formula; an error where it was typed and there is nothing to keep. */
  private storedRows(cell: FormulaCell): Matrix {
    const { content, program, sheet } = cell;
    if (!content) return [[new ErrorValue(program.lacking === undefined ? '#REF!' : '#NAME?', cell.kept)]];
    const area = content.spill === undefined ? undefined : areaOfRange(content.spill);
    if (content.value === null) return [[unknown(cell)]];
    if (!area || !this.isOpen) return [[toScalar(content.value)]];
    return this.storedTrials().rowsIn(sheet, area);
  }

  private basis(cell: FormulaCell): { restsOn?: CellName } {
    const { restsOn } = cell;
    if (!restsOn || restsOn === cell) return {};
    return { restsOn: { sheet: this.book.sheetNames[restsOn.sheet]!, address: addressOf(restsOn) } };
  }
}

const meet = (one: SheetArea, other: SheetArea): boolean =>
  one.sheet === other.sheet &&
  one.top <= other.bottom &&
  other.top <= one.bottom &&
  one.left <= other.right &&
  other.left <= one.right;

/** What a formula shows that is not calculated and that the file stores no result for: no blank, no 0. */
const unknown = ({ kept }: FormulaCell): ErrorValue =>
  new ErrorValue('#N/A', `not calculated here (${kept}), and the file stores no result`);
