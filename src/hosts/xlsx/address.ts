import { toCol } from '@borgar/fx/xlsx';

/** A cell's place; both count from 0. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

/** A block of cells; bounds are included. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

export const ROWS = 1_048_576;
export const COLUMNS = 16_384;

/** The place of `B7`, dollar signs allowed; undefined for what is no address on a sheet. */
export function placeOf(address: string): Place | undefined {
  let at = 0;
  let column = 0;
  let row = 0;
  if (address[at] === '$') at++;
  const letters = at;
  for (; at < address.length; at++) {
    const letter = address.charCodeAt(at) & ~0x20;
    if (letter < 65 || letter > 90) break;
    column = column * 26 + letter - 64;
  }
  if (at === letters) return undefined;
  if (address[at] === '$') at++;
  const digits = at;
  for (; at < address.length; at++) {
    const digit = address.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9) return undefined;
    row = row * 10 + digit;
  }
  if (at === digits || row < 1 || row > ROWS || column > COLUMNS) return undefined;
  return { row: row - 1, column: column - 1 };
}

export const addressOf = ({ row, column }: Place): string => `${toCol(column)}${row + 1}`;

/** The area of `B2:C9` or `B2`; undefined for what is none. */
export function areaOf(range: string): Area | undefined {
  const [first, last = first, ...more] = range.split(':');
  const from = placeOf(first!);
  const to = placeOf(last!);
  if (!from || !to || more.length > 0) return undefined;
  return {
    top: Math.min(from.row, to.row),
    left: Math.min(from.column, to.column),
    bottom: Math.max(from.row, to.row),
    right: Math.max(from.column, to.column),
  };
}

export function rangeOf({ top, left, bottom, right }: Area): string {
  const first = addressOf({ row: top, column: left });
  return top === bottom && left === right ? first : `${first}:${addressOf({ row: bottom, column: right })}`;
}

/** The range with dollar signs, `$B$2:$C$9`, so that it names the same cells wherever it stands. */
export const fixedRangeOf = (area: Area): string => rangeOf(area).replace(/([A-Z]+)(\d+)/g, '$$$1$$$2');

export const covers = ({ top, left, bottom, right }: Area, { row, column }: Place): boolean =>
  row >= top && row <= bottom && column >= left && column <= right;

export const cellsIn = ({ top, left, bottom, right }: Area): number =>
  (bottom - top + 1) * (right - left + 1);
