import { isBlank, isCellError } from '../../worksheet/cells/cell';
import { rangeOf } from '../xlsx/address';
import { placeText, sheetText } from './book';
import type { UnreadCell } from './unreadCells';

// What is said of cells that cannot be read, in the words of every host.

/** Why a cell cannot be read; what it holds is in the words, or before them. */
export function unreadWords({ held, why }: UnreadCell): string {
  if (isBlank(held)) return why;
  const shown = isCellError(held) ? held.code : String(held);
  return why.includes(shown) ? why : `“${shown}” ${why}`;
}

/** Cells one below the other of which the same is told. */
export interface UnreadCells {
  readonly cells: readonly UnreadCell[];
  /** Where the first is among all. */
  readonly at: number;
}

/** Cells that cannot be read, those one below the other together. */
export function unreadTogether(unread: readonly UnreadCell[]): UnreadCells[] {
  const groups: { cells: UnreadCell[]; at: number }[] = [];
  unread.forEach((cell, at) => {
    const last = groups.at(-1)?.cells.at(-1);
    const goesOn =
      last !== undefined &&
      last.sheet === cell.sheet &&
      last.column === cell.column &&
      last.row + 1 === cell.row &&
      last.about === cell.about &&
      unreadWords(last) === unreadWords(cell);
    if (goesOn) groups.at(-1)!.cells.push(cell);
    else groups.push({ cells: [cell], at });
  });
  return groups;
}

/** `'Grow log'!C9`, or `'Grow log'!C9:C14` */
export function placeOfCells({ cells }: UnreadCells): string {
  const [first, last] = [cells[0]!, cells.at(-1)!];
  const { sheet, column } = first;
  if (first === last) return placeText(sheet, first.row, column);
  return `${sheetText(sheet)}!${rangeOf({ top: first.row, bottom: last.row, left: column, right: column })}`;
}

export const placeOfUnread = ({ sheet, row, column }: UnreadCell): string => placeText(sheet, row, column);
