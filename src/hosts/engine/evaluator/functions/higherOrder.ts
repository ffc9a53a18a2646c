import type { BuiltIn, CallContext } from '../builtIn';
import { toWhole } from '../coercion';
import { needLambda } from '../lambdas';
import { MOST_CELLS } from '../operators';
import {
  CALC,
  isError,
  isMatrix,
  NOT_AVAILABLE,
  NUM,
  Reference,
  VALUE,
  type Argument,
  type Matrix,
  type Scalar,
  type Value,
} from '../values';

// Functions that call a function written in the formula. Definitions: the vendor's reference of worksheet functions.

/** What one place of a block can hold of a result. */
function single(context: CallContext, value: Value): Scalar {
  if (value instanceof Reference && !value.isOneCell) return CALC;
  if (isMatrix(value) && (value.length > 1 || value[0]!.length > 1)) return CALC;
  return context.scalarOf(value);
}

const attempt = (run: () => Scalar): Scalar => {
  try {
    return run();
  } catch (fault) {
    if (isError(fault)) return fault;
    throw fault;
  }
};

const rowOf = (matrix: Matrix, row: number): Matrix => [matrix[row]!];
const columnOf = (matrix: Matrix, column: number): Matrix => matrix.map((row) => [row[column]!]);
/** A block of one value is given over as that value. */
const plain = (block: Matrix): Argument =>
  block.length === 1 && block[0]!.length === 1 ? block[0]![0]! : block;

const map: BuiltIn = {
  name: 'MAP',
  least: 2,
  most: Infinity,
  takes: ['block'],
  call(context, given) {
    const lambda = needLambda(given.at(-1));
    const blocks = given.slice(0, -1).map((one) => context.matrixOf(one));
    if (lambda.count !== blocks.length && blocks.length < lambda.count) return VALUE;
    const height = Math.max(...blocks.map((block) => block.length));
    const width = Math.max(...blocks.map((block) => block[0]!.length));
    return Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (__, column) => {
        const each = blocks.map((block) => block[row]?.[column]);
        if (each.some((one) => one === undefined)) return NOT_AVAILABLE;
        return attempt(() => single(context, context.invoke(lambda, each)));
      }),
    );
  },
};

const byRow: BuiltIn = {
  name: 'BYROW',
  least: 2,
  most: 2,
  takes: ['block'],
  call(context, [given, lambda]) {
    const matrix = context.matrixOf(given);
    return matrix.map((_, row) => [
      attempt(() => single(context, context.invoke(needLambda(lambda), [plain(rowOf(matrix, row))]))),
    ]);
  },
};

const byColumn: BuiltIn = {
  name: 'BYCOL',
  least: 2,
  most: 2,
  takes: ['block'],
  call(context, [given, lambda]) {
    const matrix = context.matrixOf(given);
    return [
      matrix[0]!.map((_, column) =>
        attempt(() => single(context, context.invoke(needLambda(lambda), [plain(columnOf(matrix, column))]))),
      ),
    ];
  },
};

const reduce: BuiltIn = {
  name: 'REDUCE',
  least: 3,
  most: 3,
  takes: ['block'],
  call(context, [initial, given, lambda]) {
    let value: Argument = initial;
    let isFirst = initial === undefined;
    for (const row of context.matrixOf(given)) {
      for (const cell of row) {
        if (isFirst) value = cell;
        else value = context.invoke(needLambda(lambda), [value, cell]);
        isFirst = false;
      }
    }
    return value ?? null;
  },
};

const scan: BuiltIn = {
  name: 'SCAN',
  least: 3,
  most: 3,
  takes: ['block'],
  call(context, [initial, given, lambda]) {
    let value: Scalar | undefined = initial === undefined ? undefined : context.scalarOf(initial);
    return context.matrixOf(given).map((row) =>
      row.map((cell) => {
        value =
          value === undefined
            ? cell
            : attempt(() => single(context, context.invoke(needLambda(lambda), [value, cell])));
        return value;
      }),
    );
  },
};

const makeArray: BuiltIn = {
  name: 'MAKEARRAY',
  least: 3,
  most: 3,
  takes: ['value', 'value', 'block'],
  call(context, [rows, columns, lambda]) {
    const [height, width] = [rows, columns].map((one) => toWhole(context.scalarOf(one))) as [number, number];
    if (height < 1 || width < 1) return VALUE;
    if (height * width > MOST_CELLS) return NUM;
    return Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (__, column) =>
        attempt(() => single(context, context.invoke(needLambda(lambda), [row + 1, column + 1]))),
      ),
    );
  },
};

export const higherOrder: readonly BuiltIn[] = [map, byRow, byColumn, reduce, scan, makeArray];
