import type { CellSource } from './frame';
import type { FormulaCell } from './sheetStore';
import type { Matrix, SheetArea } from './values';

/** So many blocks are kept, more where they are small, none smaller or larger than is worth while. */
const MOST_KEPT = 8;
const MOST_SMALL = 32;
const SMALL_CELLS = 50_000;
const LEAST_CELLS = 64;
const LARGEST_CELLS = 1_000_000;
const WIDEST = 64;

interface Kept {
  readonly area: SheetArea;
  readonly version: number;
  readonly block: Matrix;
  readonly met: FormulaCell | undefined;
}

/** Blocks read before: a column of look-ups reads its table once. */
export class BlocksRead {
  private readonly kept: Kept[] = [];
  private readonly asked: SheetArea[] = [];

  /** Whether an area was asked for before: one that grows row by row, as in a running count, never is. */
  wasAsked(area: SheetArea): boolean {
    if (this.asked.some((one) => isSame(one, area))) return true;
    this.asked.unshift(area);
    this.asked.length = Math.min(this.asked.length, MOST_SMALL);
    return false;
  }

  get(area: SheetArea, source: CellSource, read: (area: SheetArea) => Matrix): Matrix {
    const width = area.right - area.left + 1;
    const cells = (area.bottom - area.top + 1) * width;
    const version =
      cells < LEAST_CELLS || cells > LARGEST_CELLS || width > WIDEST ? undefined : source.versionOf(area);
    if (version === undefined) return read(area);
    const at = this.kept.findIndex((one) => isSame(one.area, area));
    const found = this.kept[at];
    if (found?.version === version) {
      source.met ??= found.met;
      if (at > 0) this.kept.unshift(...this.kept.splice(at, 1));
      return found.block;
    }
    const before = source.met;
    source.met = undefined;
    const block = read(area);
    const kept = { area, version, block, met: source.met };
    source.met = before ?? source.met;
    if (at >= 0) this.kept.splice(at, 1);
    this.kept.unshift(kept);
    this.forgetOldest();
    return block;
  }

  private forgetOldest(): void {
    const { kept } = this;
    const isSmall = kept.every(({ block }) => block.length * block[0]!.length <= SMALL_CELLS);
    kept.length = Math.min(kept.length, isSmall ? MOST_SMALL : MOST_KEPT);
  }
}

const isSame = (a: SheetArea, b: SheetArea): boolean =>
  a.sheet === b.sheet && a.top === b.top && a.left === b.left && a.bottom === b.bottom && a.right === b.right;
