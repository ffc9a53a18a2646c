import type { Program } from './program';
import type { Seat, WrittenArea } from './references';
import { FormulaCell, type SheetStore } from './sheetStore';
import type { SheetArea } from './values';

/** Steps after which it is quicker to calculate everything. */
const MOST_STEPS = 10_000_000;

interface Extent {
  top: number;
  left: number;
  bottom: number;
  right: number;
}

/**
 * Which formulas read a cell. Nothing is kept for a cell or a formula: formulas that share a program lie in known
 * areas of the sheets, and which of them reach a given cell follows from the distances the program holds.
 */
export class Dependents {
  private readonly extents = new Map<Program, Map<number, Extent>>();
  readonly volatile = new Set<FormulaCell>();

  constructor(private readonly stores: readonly SheetStore[]) {}

  add(cell: FormulaCell): void {
    const { program, sheet, row, column } = cell;
    if (program.isVolatile) this.volatile.add(cell);
    let bySheet = this.extents.get(program);
    if (!bySheet) this.extents.set(program, (bySheet = new Map<number, Extent>()));
    const extent = bySheet.get(sheet);
    if (!extent) {
      bySheet.set(sheet, { top: row, left: column, bottom: row, right: column });
      return;
    }
    if (row < extent.top) extent.top = row;
    if (row > extent.bottom) extent.bottom = row;
    if (column < extent.left) extent.left = column;
    if (column > extent.right) extent.right = column;
  }

  remove(cell: FormulaCell): void {
    this.volatile.delete(cell);
  }

  /**
   * Marks the formulas that read an area, those that read them and so on, and hands over each that was not marked
   * before. False where that took too many steps: then all must be marked.
   */
  mark(from: readonly SheetArea[], marked: (cell: FormulaCell) => void): boolean {
    const areas = [...from];
    let steps = 0;
    for (let next = areas.pop(); next; next = areas.pop()) {
      for (const [program, bySheet] of this.extents) {
        for (const written of program.areas) {
          if (++steps > MOST_STEPS) return false;
          for (const [sheet, extent] of bySheet) {
            const within = readersOf(written, next, sheet, extent);
            if (!within) continue;
            this.stores[sheet]!.visit(within, (slot) => {
              steps++;
              if (!(slot instanceof FormulaCell) || slot.program !== program) return;
              if (slot.isDirty || slot.kept !== undefined) return;
              slot.isDirty = true;
              marked(slot);
              areas.push(slot.filled ?? areaOf(slot));
            });
          }
        }
      }
    }
    return true;
  }
}

export const areaOf = ({ sheet, row, column }: Seat): SheetArea => ({
  sheet,
  top: row,
  left: column,
  bottom: row,
  right: column,
});

/** Where on a sheet cells can lie that share a program and read `changed` through one of its areas. */
function readersOf(
  written: WrittenArea,
  changed: SheetArea,
  sheet: number,
  extent: Extent,
): Extent | undefined {
  const [first, last] = written.sheets ?? [sheet, sheet];
  if (changed.sheet < first || changed.sheet > last) return undefined;
  const rows = readingLines(written.top, written.bottom, changed.top, changed.bottom);
  const columns = rows && readingLines(written.left, written.right, changed.left, changed.right);
  if (!columns) return undefined;
  const within = {
    top: Math.max(rows[0], extent.top),
    bottom: Math.min(rows[1], extent.bottom),
    left: Math.max(columns[0], extent.left),
    right: Math.min(columns[1], extent.right),
  };
  return within.top <= within.bottom && within.left <= within.right ? within : undefined;
}

type Bound = WrittenArea['top'];

/** The rows or columns of formulas whose area, between two bounds, meets `from` to `to`. */
function readingLines(
  one: Bound,
  other: Bound,
  from: number,
  to: number,
): readonly [number, number] | undefined {
  if (one.isRelative && other.isRelative) {
    return [from - Math.max(one.at, other.at), to - Math.min(one.at, other.at)];
  }
  if (!one.isRelative && !other.isRelative) {
    const meets = from <= Math.max(one.at, other.at) && to >= Math.min(one.at, other.at);
    return meets ? [-Infinity, Infinity] : undefined;
  }
  const [fixed, moving] = one.isRelative ? [other.at, one.at] : [one.at, other.at];
  if (from > fixed) return [from - moving, Infinity];
  if (to < fixed) return [-Infinity, to - moving];
  return [-Infinity, Infinity];
}
