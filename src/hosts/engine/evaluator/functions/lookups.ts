import type { BuiltIn } from '../builtIn';
import {
  heightOf,
  isError,
  isMatrix,
  NOT_AVAILABLE,
  REF,
  Reference,
  VALUE,
  widthOf,
  type Argument,
  type Matrix,
  type Scalar,
  type Value,
} from '../values';
import { define, type Given } from './define';
import {
  exactPositionOf,
  firstColumn,
  halvedPosition,
  matcher,
  nearestPosition,
  needSorted,
  positionOf,
  sortedPositionOf,
} from './searching';

// Definitions: ISO/IEC 29500-1:2016, 18.17.7; the vendor's reference for XLOOKUP and XMATCH.

/** A line of the values of one column or row. @throws ErrorValue where there are several of both */
function lineOf(block: Matrix, fault = NOT_AVAILABLE): readonly Scalar[] {
  if (widthOf(block) === 1) return firstColumn(block);
  if (heightOf(block) > 1) throw fault;
  return block[0]!;
}

const soughtOf = (given: Given): Scalar => {
  const value = given.scalar(0);
  if (isError(value)) throw value;
  return value;
};

/** A table to look through. @throws ErrorValue an error in its place, #VALUE! for a text */
function needTable(given: Given, at: number): void {
  const one = given.all[at];
  if (isError(one)) throw one;
  if (typeof one === 'string') throw VALUE;
}

/** The first column or row of an area alone: only that is searched. */
function firstLine(given: Given, at: number, isAcross: boolean): readonly Scalar[] {
  const one = given.all[at];
  if (one instanceof Reference) {
    const { area } = one;
    const line = isAcross ? { ...area, bottom: area.top } : { ...area, right: area.left };
    const block = given.context.matrixOf(Reference.to(line));
    return isAcross ? block[0]! : firstColumn(block);
  }
  const block = given.matrix(at);
  return isAcross ? block[0]! : firstColumn(block);
}

/** Width and height of an argument, cells past the used part of a sheet counted. */
function sizeOf(given: Given, at: number): { height: number; width: number } {
  const one = given.all[at];
  if (one instanceof Reference) {
    const { top, left, bottom, right } = one.area;
    return { height: bottom - top + 1, width: right - left + 1 };
  }
  const block = given.matrix(at);
  return { height: heightOf(block), width: widthOf(block) };
}

/** The value of one place of an argument. */
function valueAt(given: Given, at: number, row: number, column: number): Value {
  const one = given.all[at];
  if (!(one instanceof Reference)) return given.matrix(at)[row]?.[column] ?? null;
  const { sheet, top, left } = one.area;
  const place = { sheet, top: top + row, bottom: top + row, left: left + column, right: left + column };
  return given.context.scalarOf(Reference.to(place));
}

const inTable =
  (isAcross: boolean) =>
  (given: Given): Value => {
    const sought = soughtOf(given);
    needTable(given, 1);
    const line = given.whole(2);
    if (line < 1) return VALUE;
    const { height, width } = sizeOf(given, 1);
    if (line > (isAcross ? height : width)) return REF;
    const values = firstLine(given, 1, isAcross);
    const found = given.boolean(3, true)
      ? sortedPositionOf(values, sought, 1)
      : exactPositionOf(values, sought ?? 0, true);
    if (found < 0) return NOT_AVAILABLE;
    return isAcross ? valueAt(given, 1, line - 1, found) : valueAt(given, 1, found, line - 1);
  };

/** @throws Lacking where the list does not run downwards as it should, and what is found depends on the way of looking */
function downwardPosition(values: readonly Scalar[], sought: Scalar): number {
  const found = sortedPositionOf(values, sought, -1);
  if (found !== halvedPosition(values, sought, 1, -1)) needSorted(values, -1, 'MATCH');
  return found;
}

const match = (given: Given): Value => {
  const sought = soughtOf(given);
  if (isError(given.all[1])) return given.all[1];
  const type = given.number(2, 1);
  const values = lineOf(given.matrix(1));
  const found =
    type === 0
      ? exactPositionOf(values, sought ?? 0, true)
      : type > 0
        ? sortedPositionOf(values, sought ?? 0, 1)
        : downwardPosition(values, sought ?? 0);
  return found < 0 ? NOT_AVAILABLE : found + 1;
};

const lookUp = (given: Given): Value => {
  const sought = soughtOf(given);
  for (const one of given.all.slice(1)) if (isError(one)) return one;
  const block = given.matrix(1);
  const isAcross = widthOf(block) > heightOf(block);
  const values = isAcross ? block[0]! : block.map((row) => row[0]!);
  const found = sortedPositionOf(values, sought ?? 0, 1);
  if (found < 0) return NOT_AVAILABLE;
  if (given.count < 3) return isAcross ? block.at(-1)![found]! : block[found]!.at(-1)!;
  const results = given.matrix(2);
  const line = widthOf(results) === 1 ? results.map((row) => row[0]!) : lineOf(results);
  return line[found] ?? NOT_AVAILABLE;
};

/** Where XLOOKUP and XMATCH find a value: modes as their arguments say. -1 where they do not. */
function extendedPosition(values: readonly Scalar[], sought: Scalar, mode: number, search: number): number {
  if (![0, -1, 1, 2].includes(mode) || ![1, -1, 2, -2].includes(search)) throw VALUE;
  // A blank finds a blank.
  if (sought === null) return positionOf(values, (value) => value === null, search === -1);
  if (Math.abs(search) === 2) {
    if (mode === 2) throw VALUE;
    const order = search === 2 ? 1 : -1;
    needSorted(values, order, 'a lookup');
    return halvedPosition(values, sought, mode as 1 | 0 | -1, order);
  }
  if (mode === 0 || mode === 2) {
    if (search !== -1) return exactPositionOf(values, sought, mode === 2);
    return positionOf(values, matcher(sought, mode === 2), true);
  }
  return nearestPosition(values, sought, mode === 1 ? 1 : -1, search === -1);
}

const extendedMatch = (given: Given): Value => {
  if (isError(given.all[1])) return given.all[1];
  const values = lineOf(given.matrix(1), VALUE);
  const found = extendedPosition(values, soughtOf(given), given.whole(2), given.has(3) ? given.whole(3) : 1);
  return found < 0 ? NOT_AVAILABLE : found + 1;
};

/** A row or column of an argument, as a reference where it is one. */
function lineAt(given: Argument, at: number, isColumn: boolean): Value {
  if (given instanceof Reference) {
    const { area } = given;
    return Reference.to(
      isColumn
        ? { ...area, left: area.left + at, right: area.left + at }
        : { ...area, top: area.top + at, bottom: area.top + at },
    );
  }
  if (!isMatrix(given)) return (given as Scalar) ?? null;
  return isColumn ? given.map((row) => [row[at] ?? null]) : [given[at] ?? [null]];
}

const extendedLookup = (given: Given): Value => {
  for (const one of given.all.slice(1, 3)) if (isError(one)) return one;
  const { height, width } = sizeOf(given, 1);
  const isColumn = width === 1;
  const results = sizeOf(given, 2);
  if ((height > 1 && width > 1) || (isColumn ? results.height !== height : results.width !== width))
    return VALUE;
  const values = lineOf(given.matrix(1), VALUE);
  const search = given.has(5) ? given.whole(5) : 1;
  const found = extendedPosition(values, soughtOf(given), given.whole(4), search);
  if (found < 0) return given.has(3) ? given.all[3]! : NOT_AVAILABLE;
  return lineAt(given.all[2], found, !isColumn);
};

const index = (given: Given): Value => {
  const [one] = given.all;
  if (isError(one)) return one;
  const area = one instanceof Reference ? one.areas[given.whole(3, 1) - 1] : undefined;
  if (one instanceof Reference && !area) return REF;
  const block = area ? undefined : given.matrix(0);
  const height = area ? area.bottom - area.top + 1 : heightOf(block!);
  const width = area ? area.right - area.left + 1 : widthOf(block!);
  let [row, column] = [given.whole(1), given.whole(2)];
  // With one number the place in a single row or column.
  if (given.count < 3 && height === 1 && width > 1) [row, column] = [1, row];
  if (row < 0 || column < 0) return VALUE;
  if (row > height || column > width) return REF;
  const rows = row === 0 ? [0, height - 1] : [row - 1, row - 1];
  const columns = column === 0 ? [0, width - 1] : [column - 1, column - 1];
  if (area) {
    return Reference.to({
      sheet: area.sheet,
      top: area.top + rows[0]!,
      bottom: area.top + rows[1]!,
      left: area.left + columns[0]!,
      right: area.left + columns[1]!,
    });
  }
  return block!.slice(rows[0], rows[1]! + 1).map((line) => line.slice(columns[0], columns[1]! + 1));
};

/** Numbers of rows or columns, counted from 1. */
const places =
  (isRow: boolean) =>
  (given: Given): Value => {
    const [one] = given.all;
    if (one === undefined) return (isRow ? given.context.row : given.context.column) + 1;
    if (isError(one)) return one;
    if (!(one instanceof Reference)) return VALUE;
    const { top, left, bottom, right } = one.area;
    const [from, to] = isRow ? [top, bottom] : [left, right];
    if (from === to) return from + 1;
    const numbers = Array.from({ length: to - from + 1 }, (_, at) => from + at + 1);
    return isRow ? numbers.map((number) => [number]) : [numbers];
  };

const letters = (column: number): string => {
  let text = '';
  for (let n = column; n > 0; n = Math.floor((n - 1) / 26))
    text = String.fromCharCode(65 + ((n - 1) % 26)) + text;
  return text;
};

const address = (given: Given): Value => {
  const [row, column] = [given.whole(0), given.whole(1)];
  const form = given.has(2) ? given.whole(2) : 1;
  if (row < 1 || column < 1 || row > 1_048_576 || column > 16_384 || form < 1 || form > 4) return VALUE;
  const [isRowFixed, isColumnFixed] = [form <= 2, form % 2 === 1];
  const cell =
    !given.has(3) || given.boolean(3)
      ? `${isColumnFixed ? '$' : ''}${letters(column)}${isRowFixed ? '$' : ''}${row}`
      : `R${isRowFixed ? row : `[${row}]`}C${isColumnFixed ? column : `[${column}]`}`;
  if (!given.has(4)) return cell;
  const sheet = given.text(4);
  // Brackets around the name of a workbook ask for no quotes here, though a reference needs them.
  const isPlain = /^(?:\[[^\]]*\])?[\p{L}_][\p{L}\d_.]*$/u.test(sheet) && !/^[a-z]{1,3}\d+$/i.test(sheet);
  return `${isPlain || sheet === '' ? sheet : `'${sheet.replaceAll("'", "''")}'`}!${cell}`;
};

export const lookups: readonly BuiltIn[] = [
  define('VLOOKUP', [3, 4], 'value range value value', inTable(false)),
  define('HLOOKUP', [3, 4], 'value range value value', inTable(true)),
  define('MATCH', [2, 3], 'value range value', match),
  define('LOOKUP', [2, 3], 'value wholeRange wholeRange', lookUp),
  define('XMATCH', [2, 4], 'value wholeRange value value', extendedMatch),
  define('XLOOKUP', [3, 6], 'value wholeRange wholeRange range value value', extendedLookup),
  define('INDEX', [2, 4], 'wholeRange value value value', index),
  define('ROW', [0, 1], 'range', places(true)),
  define('COLUMN', [0, 1], 'range', places(false)),
  define('ROWS', [1, 1], 'range', (given) => sizeOf(given, 0).height),
  define('COLUMNS', [1, 1], 'range', (given) => sizeOf(given, 0).width),
  define('AREAS', [1, 1], 'range', ({ all: [one] }) => (one instanceof Reference ? one.areas.length : VALUE)),
  define('ADDRESS', [2, 5], 'value', address),
];
