import type { BuiltIn } from '../builtIn';
import { toBoolean } from '../coercion';
import { MOST_CELLS } from '../operators';
import {
  CALC,
  heightOf,
  isError,
  NOT_AVAILABLE,
  NUM,
  VALUE,
  widthOf,
  type Matrix,
  type Scalar,
  type Value,
} from '../values';
import { define, type Given } from './define';

// Blocks cut, joined and laid out anew. Definitions: the vendor's reference of worksheet functions.

const transposed = (block: Matrix): Scalar[][] => block[0]!.map((_, at) => block.map((row) => row[at]!));

/** A number of rows or columns; undefined where it is left out. */
const optional = (given: Given, at: number): number | undefined =>
  given.has(at) ? given.whole(at) : undefined;

/** The first so many of a list, the last where the number is negative. */
const taken = <T>(list: readonly T[], count: number | undefined): readonly T[] => {
  if (count === undefined) return list;
  return count >= 0 ? list.slice(0, count) : list.slice(count);
};
const dropped = <T>(list: readonly T[], count: number | undefined): readonly T[] => {
  if (count === undefined) return list;
  return count >= 0 ? list.slice(count) : list.slice(0, count);
};

const cutting =
  (cut: typeof taken) =>
  (given: Given): Value => {
    const rows = cut(given.matrix(0), optional(given, 1));
    const columns = optional(given, 2);
    const block = rows.map((row) => cut(row, columns));
    return block.length === 0 || block[0]!.length === 0 ? CALC : block;
  };

/** Lines of a block by their numbers, negative ones counted from the end. */
const choosing =
  (isRow: boolean) =>
  (given: Given): Value => {
    const block = isRow ? given.matrix(0) : transposed(given.matrix(0));
    const chosen: (readonly Scalar[])[] = [];
    for (let at = 1; at < given.count; at++) {
      for (const value of given.list(at)) {
        const number = Math.trunc(typeof value === 'number' ? value : Number.NaN);
        const line = number > 0 ? block[number - 1] : number < 0 ? block.at(number) : undefined;
        if (!line || (number < 0 && -number > block.length)) return isError(value) ? value : VALUE;
        chosen.push(line);
      }
    }
    return isRow ? chosen : transposed(chosen);
  };

const padded = (block: Matrix, height: number, width: number, padding: Scalar): Matrix =>
  Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (__, column) => {
      const value = block[row]?.[column];
      return value === undefined ? padding : value;
    }),
  );

const expanded = (given: Given): Value => {
  const block = given.matrix(0);
  const height = optional(given, 1) ?? heightOf(block);
  const width = optional(given, 2) ?? widthOf(block);
  if (height < heightOf(block) || width < widthOf(block)) return VALUE;
  if (height * width > MOST_CELLS) return NUM;
  return padded(block, height, width, given.has(3) ? given.scalar(3) : NOT_AVAILABLE);
};

const stacked = (given: Given): Value => {
  const blocks = given.all.map((_, at) => given.matrix(at));
  const width = Math.max(...blocks.map(widthOf));
  return blocks.flatMap((block) => padded(block, heightOf(block), width, NOT_AVAILABLE));
};

const beside = (given: Given): Value => {
  const blocks = given.all.map((_, at) => given.matrix(at));
  const height = Math.max(...blocks.map(heightOf));
  const all = blocks.map((block) => padded(block, height, widthOf(block), NOT_AVAILABLE));
  return Array.from({ length: height }, (_, row) => all.flatMap((block) => block[row]!));
};

/** All values in one line, blanks and errors passed over as asked. */
function lineOf(given: Given): Scalar[] {
  const passed = given.whole(1);
  if (passed < 0 || passed > 3) throw VALUE;
  const block = given.boolean(2) ? transposed(given.matrix(0)) : given.matrix(0);
  const values = block
    .flat()
    .filter((value) => !((passed & 1 && value === null) || (passed & 2 && isError(value))));
  if (values.length === 0) throw CALC;
  return values;
}

/** A line cut into rows of so many. */
const wrapped =
  (isRows: boolean) =>
  (given: Given): Value => {
    const block = given.matrix(0);
    const width = given.whole(1);
    if (heightOf(block) > 1 && widthOf(block) > 1) return VALUE;
    if (width < 1) return NUM;
    const padding = given.has(2) ? given.scalar(2) : NOT_AVAILABLE;
    const values = block.flat();
    const rows = Array.from({ length: Math.ceil(values.length / width) }, (_, row) =>
      Array.from({ length: width }, (__, column): Scalar => {
        const value = values[row * width + column];
        return value === undefined ? padding : value;
      }),
    );
    return isRows ? rows : transposed(rows);
  };

const sequence = (given: Given): Value => {
  const size = (at: number): number => (given.has(at) ? given.whole(at) : 1);
  const step = (at: number): number => (given.has(at) ? given.number(at) : 1);
  const [rows, columns, first, by] = [size(0), size(1), step(2), step(3)];
  if (rows < 0 || columns < 0) return VALUE;
  if (rows === 0 || columns === 0) return CALC;
  if (rows * columns > MOST_CELLS) return NUM;
  return Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (__, column) => first + (row * columns + column) * by),
  );
};

const filtered = (given: Given): Value => {
  const [block, keep] = [given.matrix(0), given.matrix(1)];
  const isDown = widthOf(keep) === 1 && heightOf(keep) === heightOf(block);
  if (!isDown && !(heightOf(keep) === 1 && widthOf(keep) === widthOf(block))) return VALUE;
  const flags = keep.flat().map(toBoolean);
  const rows = isDown
    ? block.filter((_, at) => flags[at])
    : block.map((row) => row.filter((_, at) => flags[at]));
  if (rows.length > 0 && rows[0]!.length > 0) return rows;
  return given.has(2) ? given.all[2]! : CALC;
};

export const shaping: readonly BuiltIn[] = [
  define('TAKE', [2, 3], 'array value', cutting(taken)),
  define('DROP', [2, 3], 'array value', cutting(dropped)),
  define('CHOOSEROWS', [2, 255], 'array', choosing(true)),
  define('CHOOSECOLS', [2, 255], 'array', choosing(false)),
  define('EXPAND', [2, 4], 'array value value value', expanded, { takesErrors: true }),
  define('VSTACK', [1, 254], 'array', stacked),
  define('HSTACK', [1, 254], 'array', beside),
  define('TOCOL', [1, 3], 'array value', (given) => lineOf(given).map((value) => [value])),
  define('TOROW', [1, 3], 'array value', (given) => [lineOf(given)]),
  define('WRAPROWS', [2, 3], 'array value value', wrapped(true), { takesErrors: true }),
  define('WRAPCOLS', [2, 3], 'array value value', wrapped(false), { takesErrors: true }),
  define('TRANSPOSE', [1, 1], 'array', (given) => transposed(given.matrix(0))),
  define('SEQUENCE', [1, 4], 'value', sequence),
  define('FILTER', [2, 3], 'array', filtered),
];
