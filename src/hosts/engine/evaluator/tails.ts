import type { Matrix, Scalar } from './values';

/** From which row on all rows of a block are one and the same, where that is known. */
const tails = new WeakMap<Matrix, number>();
const lengthened = new WeakMap<Matrix, Matrix>();

/** Blocks of whole columns, read only as far as their sheet is used. */
const cut = new WeakSet<Matrix>();

export function markCut(block: Matrix): Matrix {
  cut.add(block);
  return block;
}

export const isCut = (block: Matrix): boolean => cut.has(block);

/** A block of a whole column to its full height: blank rows below what is used, kept as one. */
export function withBlankTail(block: Matrix, height: number): Matrix {
  const found = lengthened.get(block);
  if (found?.length === height) return found;
  const whole = withTail([...block, new Array<Scalar>(block[0]!.length).fill(null)], height);
  lengthened.set(block, whole);
  return whole;
}

/** The rows, the last of them repeated to a height. */
export function withTail(rows: Matrix, height: number): Matrix {
  const from = rows.length - 1;
  const all = new Array<readonly Scalar[]>(height).fill(rows[from]!);
  for (let row = 0; row < from; row++) all[row] = rows[row]!;
  tails.set(all, from);
  return all;
}

/** The row from which on a block beside others of a height has nothing new to say; its height where it has no such. */
export function tailOf(block: Matrix, height: number): number {
  if (block.length === 1) return 0;
  return tails.get(block) ?? (block.length < height ? block.length : height);
}
