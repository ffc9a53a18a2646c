import type { BuiltIn } from '../builtIn';
import { MOST_CELLS } from '../operators';
import { CALC, isError, NOT_AVAILABLE, NUM, VALUE, type Matrix, type Scalar, type Value } from '../values';
import { define, type Given } from './define';

// Blocks cut, joined and laid out otherwise. Definitions: the vendor's reference of worksheet functions.

export const transposed = (matrix: Matrix): Matrix =>
  matrix[0]!.map((_, column) => matrix.map((row) => row[column]!));

/** The places of what is kept of a number of lines: so many from the start, or from the end where it is negative. */
function taken(given: Given, at: number, count: number): readonly [from: number, to: number] {
  if (!given.has(at)) return [0, count];
  const asked = given.whole(at);
  if (asked === 0) throw CALC;
  return asked > 0 ? [0, Math.min(asked, count)] : [Math.max(0, count + asked), count];
}

function dropped(given: Given, at: number, count: number): readonly [from: number, to: number] {
  const asked = given.has(at) ? given.whole(at) : 0;
  if (Math.abs(asked) >= count) throw CALC;
  return asked >= 0 ? [asked, count] : [0, count + asked];
}

const cutBy =
  (lines: typeof taken) =>
  (given: Given): Matrix => {
    const matrix = given.matrix(0);
    const [top, bottom] = lines(given, 1, matrix.length);
    const [left, right] = lines(given, 2, matrix[0]!.length);
    return matrix.slice(top, bottom).map((row) => row.slice(left, right));
  };

/** The lines of these numbers, counted from the end where they are negative. */
function chosen(given: Given, lines: Matrix): Matrix {
  const numbers = given.all.slice(1).flatMap((_, at) => given.list(at + 1));
  return numbers.map((number) => {
    if (isError(number)) throw number;
    const asked = typeof number === 'number' ? Math.trunc(number) : 0;
    const line = asked > 0 ? lines[asked - 1] : asked < 0 ? lines[lines.length + asked] : undefined;
    if (!line) throw VALUE;
    return line;
  });
}

function expand(given: Given): Value {
  const matrix = given.matrix(0);
  const height = given.has(1) ? given.whole(1) : matrix.length;
  const width = given.has(2) ? given.whole(2) : matrix[0]!.length;
  const padding = given.has(3) ? given.scalar(3) : NOT_AVAILABLE;
  if (height < matrix.length || width < matrix[0]!.length) return VALUE;
  return laidOut(height, width, (row, column) => {
    const value = matrix[row]?.[column];
    return value === undefined ? padding : value;
  });
}

function laidOut(height: number, width: number, at: (row: number, column: number) => Scalar): Matrix {
  if (height * width > MOST_CELLS) throw NUM;
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (__, column) => at(row, column)),
  );
}

/** Blocks below one another; narrower ones are filled up with #N/A. */
function stacked(blocks: readonly Matrix[]): Matrix {
  const width = Math.max(...blocks.map((block) => block[0]!.length));
  return blocks.flatMap((block) =>
    block.map((row) => [...row, ...new Array<Scalar>(width - row.length).fill(NOT_AVAILABLE)]),
  );
}

const blocksOf = (given: Given): Matrix[] => given.all.map((_, at) => given.matrix(at));

/** All values in one line, row by row or column by column, blanks (1), errors (2) or both (3) left out. */
function inOneLine(given: Given): readonly Scalar[] {
  const passedOver = given.has(1) ? given.whole(1) : 0;
  if (passedOver < 0 || passedOver > 3) throw VALUE;
  const byColumn = given.has(2) && given.boolean(2);
  const matrix = byColumn ? transposed(given.matrix(0)) : given.matrix(0);
  const values = matrix
    .flat()
    .filter((value) => !((passedOver & 1 && value === null) || (passedOver & 2 && isError(value))));
  if (values.length === 0) throw CALC;
  return values;
}

function wrapped(given: Given): Matrix {
  const matrix = given.matrix(0);
  if (matrix.length > 1 && matrix[0]!.length > 1) throw VALUE;
  const values = matrix.flat();
  const width = given.whole(1);
  if (width < 1) throw NUM;
  const padding = given.has(2) ? given.scalar(2) : NOT_AVAILABLE;
  return laidOut(Math.ceil(values.length / width), width, (row, column) => {
    const value = values[row * width + column];
    return value === undefined ? padding : value;
  });
}

function sequence(given: Given): Value {
  const [height, width] = [0, 1].map((at) => (given.has(at) ? given.whole(at) : 1)) as [number, number];
  const [start, step] = [2, 3].map((at) => (given.has(at) ? given.number(at) : 1)) as [number, number];
  if (height < 0 || width < 0) return VALUE;
  if (height === 0 || width === 0) return CALC;
  return laidOut(height, width, (row, column) => start + step * (row * width + column));
}

function randomBlock(given: Given): Value {
  const [height, width] = [0, 1].map((at) => (given.has(at) ? given.whole(at) : 1)) as [number, number];
  const least = given.has(2) ? given.number(2) : 0;
  const most = given.has(3) ? given.number(3) : 1;
  const isWhole = given.has(4) && given.boolean(4);
  if (height < 1 || width < 1 || least > most) return VALUE;
  return laidOut(height, width, () => {
    const random = given.context.random();
    return isWhole ? least + Math.floor(random * (most - least + 1)) : least + random * (most - least);
  });
}

export const rearranging: readonly BuiltIn[] = [
  define('TRANSPOSE', [1, 1], 'array', (given) => transposed(given.matrix(0))),
  define('TAKE', [2, 3], 'block value value', cutBy(taken)),
  define('DROP', [2, 3], 'block value value', cutBy(dropped)),
  define('CHOOSEROWS', [2, 254], 'block', (given) => chosen(given, given.matrix(0))),
  define('CHOOSECOLS', [2, 254], 'block', (given) => transposed(chosen(given, transposed(given.matrix(0))))),
  define('EXPAND', [2, 4], 'block value value value', expand),
  define('VSTACK', [1, 254], 'block', (given) => stacked(blocksOf(given))),
  define('HSTACK', [1, 254], 'block', (given) => transposed(stacked(blocksOf(given).map(transposed)))),
  define('TOCOL', [1, 3], 'block value value', (given) => inOneLine(given).map((value) => [value])),
  define('TOROW', [1, 3], 'block value value', (given) => [inOneLine(given)]),
  define('WRAPROWS', [2, 3], 'block value value', wrapped),
  define('WRAPCOLS', [2, 3], 'block value value', (given) => transposed(wrapped(given))),
  define('SEQUENCE', [1, 4], 'value', sequence),
  define('RANDARRAY', [0, 5], 'value', randomBlock, { isVolatile: true }),
];
