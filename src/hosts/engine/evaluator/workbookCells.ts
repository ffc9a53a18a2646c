import { placeOf, type Area } from '../../xlsx/address';
import type { LongCalls } from '../longCalls';
import type { WorkbookContent } from '../workbook';
import type { Surroundings } from './calculationFrame';
import { programOf, type Program } from './program';
import type { Seat } from './references';
import { relativeText } from './relativeText';
import { FilledCell, FormulaCell, SheetStore, type Slot } from './sheetStore';
import type { Scalar, SheetArea } from './values';
import { WorkbookBook } from './workbookBook';

/** What stands in the cells of a workbook, and its formulas made ready to run. */
export class WorkbookCells implements Surroundings {
  readonly book: WorkbookBook;
  readonly stores: readonly SheetStore[];
  readonly dateSystem: 1900 | 1904;
  protected readonly programs = new Map<string, Program>();
  private moment: number;

  constructor(
    protected content: WorkbookContent,
    readonly longCalls: LongCalls | undefined,
  ) {
    const { sheets, dateSystem, vocabulary } = content;
    this.dateSystem = dateSystem;
    this.book = new WorkbookBook(
      sheets.map(({ name }) => name),
      vocabulary,
    );
    this.stores = sheets.map(() => new SheetStore());
    this.moment = momentNow(dateSystem);
  }

  get sheets(): WorkbookContent['sheets'] {
    return this.content.sheets;
  }

  now(): number {
    return this.moment;
  }

  /** Formulas that ask for the time are told that it is now. */
  protected setClock(): void {
    this.moment = momentNow(this.dateSystem);
  }

  /** Names of the functions its formulas call, in capitals. */
  functionsUsed(): Set<string> {
    return new Set([...this.programs.values()].flatMap(({ functions }) => functions));
  }

  functionsOf(sheet: string, address: string): readonly string[] {
    const slot = this.slotAt(this.seatOf(sheet, address));
    return slot instanceof FormulaCell ? slot.program.functions : [];
  }

  lacking(sheet: string, address: string): string | undefined {
    const slot = this.slotAt(this.seatOf(sheet, address));
    return slot instanceof FormulaCell ? (slot.content?.unsupported ?? slot.program.lacking) : undefined;
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

  protected *formulas(): Generator<FormulaCell> {
    for (const store of this.stores) {
      const cells: FormulaCell[] = [];
      store.visit({ top: 0, left: 0, bottom: store.lastRow, right: store.lastColumn }, (slot) => {
        if (slot instanceof FormulaCell) cells.push(slot);
      });
      yield* cells;
    }
  }

  /** The values in an area. */
  protected blockIn({ sheet, top, left, bottom, right }: SheetArea): Scalar[][] {
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

/** Now as a serial, by the clock on the wall. */
function momentNow(dateSystem: 1900 | 1904): number {
  const now = new Date();
  const wall = now.getTime() - now.getTimezoneOffset() * 60_000;
  return wall / 86_400_000 + (dateSystem === 1904 ? 24_107 : 25_569);
}
