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

/** An argument in parts: parts of a reference are references, so that functions that ask where cells are may be called. */
class Parts {
  readonly height: number;
  readonly width: number;
  private readonly matrix: Matrix;
  private readonly reference: Reference | undefined;

  constructor(context: CallContext, given: Argument) {
    this.reference = given instanceof Reference ? given : undefined;
    this.matrix = context.matrixOf(given);
    this.height = this.matrix.length;
    this.width = this.matrix[0]!.length;
  }

  row(row: number): Argument {
    return this.part(row, row, 0, this.width - 1) ?? plain([this.matrix[row]!]);
  }

  column(column: number): Argument {
    return this.part(0, this.height - 1, column, column) ?? plain(this.matrix.map((row) => [row[column]!]));
  }

  cell(row: number, column: number): Argument {
    if (row >= this.height || column >= this.width) return undefined;
    return this.part(row, row, column, column) ?? this.matrix[row]![column]!;
  }

  private part(first: number, last: number, from: number, to: number): Reference | undefined {
    if (!this.reference) return undefined;
    const { sheet, top, left } = this.reference.area;
    return Reference.to({ sheet, top: top + first, bottom: top + last, left: left + from, right: left + to });
  }
}

/** A block of one value is given over as that value. */
const plain = (block: Matrix): Argument =>
  block.length === 1 && block[0]!.length === 1 ? block[0]![0]! : block;

const map: BuiltIn = {
  name: 'MAP',
  least: 2,
  most: Infinity,
  takes: ['range'],
  call(context, given) {
    const lambda = needLambda(given.at(-1));
    const blocks = given.slice(0, -1).map((one) => new Parts(context, one));
    const height = Math.max(...blocks.map((block) => block.height));
    const width = Math.max(...blocks.map((block) => block.width));
    return Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (__, column) => {
        const each = blocks.map((block) => block.cell(row, column));
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
  takes: ['range'],
  call(context, [given, lambda]) {
    const parts = new Parts(context, given);
    return Array.from({ length: parts.height }, (_, row) => [
      attempt(() => single(context, context.invoke(needLambda(lambda), [parts.row(row)]))),
    ]);
  },
};

const byColumn: BuiltIn = {
  name: 'BYCOL',
  least: 2,
  most: 2,
  takes: ['range'],
  call(context, [given, lambda]) {
    const parts = new Parts(context, given);
    return [
      Array.from({ length: parts.width }, (_, column) =>
        attempt(() => single(context, context.invoke(needLambda(lambda), [parts.column(column)]))),
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
    const [height, width] = [rows, columns].map((one) =>
      toWhole(context.scalarOf(one), context.dateSystem),
    ) as [number, number];
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
