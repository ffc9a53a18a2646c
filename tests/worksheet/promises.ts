import {
  isCellError,
  plainValues,
  type Block,
  type CellError,
  type Grid,
} from '../../src/worksheet/cells/cell';

// What holds for every result of every function, whatever went in.

/**
 * What is wrong with a result, in words; undefined where nothing is. A result is rectangular, holds nothing that a
 * sheet would turn into a silent 0, and each error of ours says why. `passedThrough` are error cells that went in.
 */
export function broken(block: Block, passedThrough: readonly CellError[] = []): string | undefined {
  const width = block.rows[0]?.length ?? 0;
  if (width === 0) return 'the result is empty';
  if (block.formats.length !== width) return `${block.formats.length} formats for ${width} columns`;
  for (const [r, row] of plainValues(block).entries()) {
    if (row.length !== width) return `row ${r + 1} has ${row.length} cells, the first ${width}`;
    for (const cell of row) {
      if (isCellError(cell)) {
        if (passedThrough.includes(cell)) continue;
        if (cell.reason === '') return `${cell.code} without a reason`;
        if (/undefined|\[object|\p{Cc}/u.test(cell.reason))
          return `a reason that is no sentence: ${cell.reason}`;
      } else if (
        typeof cell === 'number' ? !Number.isFinite(cell) : !['string', 'boolean'].includes(typeof cell)
      ) {
        return `row ${r + 1} holds ${String(cell)}`;
      }
    }
  }
  return undefined;
}

/** The same arguments, so that a function that writes into them throws. */
export function frozen<T extends readonly (Grid | null)[]>(given: T): T {
  for (const grid of given) {
    grid?.forEach((row) => Object.freeze(row));
    Object.freeze(grid);
  }
  return given;
}
