import { areaOf as areaOfRange, placeOf } from '../../xlsx/address';
import type { SheetContent } from '../workbook';
import type { NumberTotals } from './builtIn';
import { areaOf } from './dependents';
import type { CellSource } from './frame';
import { toScalar } from './pinsetValues';
import { SheetStore } from './sheetStore';
import { REF, type Scalar, type SheetArea } from './values';

/** The cells as the file stores them. */
export class StoredSource implements CellSource {
  /** Whether a formula without a stored result was read. */
  lacksStored = false;
  private isComplete = true;
  private readonly stores: readonly SheetStore[];
  /** What each formula's stored result fills. Few files ask. */
  private filled: Map<string, SheetArea> | undefined;

  constructor(private readonly sheets: readonly SheetContent[]) {
    this.stores = sheets.map(({ cells }) => {
      const store = new SheetStore();
      for (const { address, value, formula } of cells) {
        const place = placeOf(address);
        if (!place) continue;
        const { row, column } = place;
        if (formula !== undefined && value === null) this.isComplete = false;
        // A blank is kept where a result lacks, so that visitors come by.
        store.set(row, column, value === null ? (formula === undefined ? null : LACKING) : toScalar(value));
      }
      return store;
    });
  }

  met: undefined = undefined;

  totals(area: SheetArea): NumberTotals | undefined {
    return this.stores[area.sheet]!.totals(area);
  }

  versionOf(): number | undefined {
    // A block read before would not tell that it lacks a result.
    return this.isComplete ? 0 : undefined;
  }

  read(sheet: number, row: number, column: number): Scalar {
    const value = this.stores[sheet]!.get(row, column) as Scalar;
    if (value !== LACKING) return value;
    this.lacksStored = true;
    return null;
  }

  visit(area: SheetArea, visit: (value: Scalar, row: number, column: number) => boolean | void): void {
    this.stores[area.sheet]!.visit(area, (slot, row, column) => {
      if (slot === LACKING) this.lacksStored = true;
      return visit(slot === LACKING ? null : (slot as Scalar), row, column);
    });
  }

  filledBy(sheet: number, row: number, column: number): SheetArea | undefined {
    this.read(sheet, row, column);
    this.filled ??= filledIn(this.sheets);
    return this.filled.get(key(sheet, row, column));
  }

  lastRow(sheet: number): number {
    return this.stores[sheet]!.lastRow;
  }

  lastColumn(sheet: number): number {
    return this.stores[sheet]!.lastColumn;
  }
}

/** What the store holds for a formula without a stored result: an object like no other. */
const LACKING = Object.create(REF) as Scalar;

function filledIn(sheets: readonly SheetContent[]): Map<string, SheetArea> {
  const filled = new Map<string, SheetArea>();
  sheets.forEach(({ cells }, sheet) => {
    for (const { address, formula, spill } of cells) {
      const place = formula === undefined ? undefined : placeOf(address);
      if (!place) continue;
      const area = spill === undefined ? undefined : areaOfRange(spill);
      filled.set(
        key(sheet, place.row, place.column),
        area ? { sheet, ...area } : areaOf({ sheet, ...place }),
      );
    }
  });
  return filled;
}

const key = (sheet: number, row: number, column: number): string => `${sheet}!${row},${column}`;
