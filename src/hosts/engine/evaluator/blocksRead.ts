import type { CellSource } from './frame';
import type { FormulaCell } from './sheetStore';
import type { Matrix, SheetArea } from './values';

/** So many blocks are kept, none smaller or larger than is worth while. */
const MOST_KEPT = 8;
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
  private kept: Kept[] = [];

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
      return found.block;
    }
    const before = source.met;
    source.met = undefined;
    const block = read(area);
    const kept = { area, version, block, met: source.met };
    source.met = before ?? source.met;
    if (at >= 0) this.kept[at] = kept;
    else this.kept = [kept, ...this.kept.slice(0, MOST_KEPT - 1)];
    return block;
  }
}

const isSame = (a: SheetArea, b: SheetArea): boolean =>
  a.sheet === b.sheet && a.top === b.top && a.left === b.left && a.bottom === b.bottom && a.right === b.right;
