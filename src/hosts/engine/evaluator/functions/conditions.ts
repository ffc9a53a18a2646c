import type { BuiltIn, CallContext } from '../builtIn';
import {
  DIVIDED_BY_ZERO,
  isError,
  Reference,
  VALUE,
  type Argument,
  type Matrix,
  type Scalar,
  type SheetArea,
  type Value,
} from '../values';
import { criterionOf, keyOf, mayBeNumber, type Criterion, type Key } from './criteria';
import { define, type Given } from './define';
import { sumOf } from './numbers';

// Counts and sums of the cells that meet conditions. Definitions: ISO/IEC 29500-1:2016, 18.17.7.

interface Condition {
  readonly block: Matrix;
  readonly meets: Criterion;
}

const heightOf = ({ top, bottom }: SheetArea): number => bottom - top + 1;
const widthOf = ({ left, right }: SheetArea): number => right - left + 1;

/** These functions take cells only. @throws ErrorValue #VALUE! */
function areaOf(given: Argument): SheetArea {
  if (isError(given)) throw given;
  if (!(given instanceof Reference)) throw VALUE;
  return given.area;
}

/** Ranges of the same shape, each with its condition, from argument `first` on. @throws ErrorValue #VALUE! */
function conditionsOf(given: Given, first: number, shape: SheetArea): Condition[] {
  const conditions: Condition[] = [];
  for (let at = first; at + 1 < given.count; at += 2) {
    const area = areaOf(given.all[at]);
    if (heightOf(area) !== heightOf(shape) || widthOf(area) !== widthOf(shape)) throw VALUE;
    conditions.push({
      block: given.matrix(at),
      meets: criterionOf(given.scalar(at + 1), given.context.dateSystem),
    });
  }
  return conditions;
}

/** Whether the place meets all conditions; what is past the used part of a sheet is blank. */
function meetsAll(conditions: readonly Condition[], row: number, column: number): boolean {
  for (const { block, meets } of conditions) if (!meets(block[row]?.[column] ?? null)) return false;
  return true;
}

/** The rows of a column by what they hold. */
interface Index {
  readonly byKey: ReadonlyMap<Key, readonly number[]>;
  /** Texts that may read as numbers. */
  readonly mayBeNumbers: readonly number[];
}

/** Below so many rows looking along them is as quick; and so is looking along a column so often. */
const ROWS_WORTH_AN_INDEX = 64;
const LOOKS_WORTH_AN_INDEX = 4;
/** Of each column its index or how often it was looked along. */
const indexes = new WeakMap<Matrix, Index | number>();

/** The rows of a column in which a condition may be met; undefined where that may be any. */
function rowsFor({ block, meets: { key } }: Condition): readonly number[] | undefined {
  if (key === undefined || block.length < ROWS_WORTH_AN_INDEX || block[0]!.length > 1) return undefined;
  let index = indexes.get(block) ?? 0;
  if (typeof index === 'number') {
    if (index < LOOKS_WORTH_AN_INDEX) {
      indexes.set(block, index + 1);
      return undefined;
    }
    indexes.set(block, (index = indexOf(block)));
  }
  const rows = index.byKey.get(key) ?? [];
  if (typeof key === 'string' || index.mayBeNumbers.length === 0) return rows;
  return [...rows, ...index.mayBeNumbers].sort((a, b) => a - b);
}

function indexOf(column: Matrix): Index {
  const byKey = new Map<Key, number[]>();
  const mayBeNumbers: number[] = [];
  column.forEach(([value], row) => {
    const key = keyOf(value!);
    if (key === undefined) return;
    const rows = byKey.get(key);
    if (rows) rows.push(row);
    else byKey.set(key, [row]);
    if (mayBeNumber(value!)) mayBeNumbers.push(row);
  });
  return { byKey, mayBeNumbers };
}

/** The fewest rows that one of the conditions leaves; undefined where all are to be looked at. */
function fewestRows(conditions: readonly Condition[]): readonly number[] | undefined {
  if (conditions.some(({ meets }) => meets.mayThrow)) return undefined;
  let fewest: readonly number[] | undefined;
  for (const condition of conditions) {
    const rows = rowsFor(condition);
    if (rows && (!fewest || rows.length < fewest.length)) fewest = rows;
  }
  return fewest;
}

function count(shape: SheetArea, conditions: readonly Condition[]): number {
  const rows = fewestRows(conditions);
  if (rows) return rows.filter((row) => meetsAll(conditions, row, 0)).length;
  const height = Math.max(...conditions.map(({ block }) => block.length));
  const width = Math.max(...conditions.map(({ block }) => block[0]!.length));
  let counted = 0;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) if (meetsAll(conditions, row, column)) counted++;
  }
  const beyond = heightOf(shape) * widthOf(shape) - height * width;
  return beyond > 0 && conditions.every(({ meets }) => meets(null)) ? counted + beyond : counted;
}

/** Counts without making a block of the cells. */
function countAlong(context: CallContext, shape: SheetArea, meets: Criterion): number {
  let [counted, held] = [0, 0];
  context.eachCell(Reference.to(shape), (value) => {
    held++;
    if (meets(value)) counted++;
  });
  return meets(null) ? counted + heightOf(shape) * widthOf(shape) - held : counted;
}

/** The numbers of an area where the conditions are met, at the same distance from its first cell. */
function numbersWhere(context: CallContext, area: SheetArea, conditions: readonly Condition[]): number[] {
  const numbers: number[] = [];
  const add = (value: Scalar, row: number, column: number): void => {
    if (typeof value !== 'number' && !isError(value)) return;
    if (!meetsAll(conditions, row, column)) return;
    if (isError(value)) throw value;
    numbers.push(value);
  };
  const rows = fewestRows(conditions);
  if (rows) {
    const block = context.matrixOf(Reference.to(area));
    for (const row of rows) add(block[row]?.[0] ?? null, row, 0);
  } else
    context.eachCell(Reference.to(area), (value, row, column) =>
      add(value, row - area.top, column - area.left),
    );
  return numbers;
}

/** SUMIF and AVERAGEIF take of their last range only where it begins: its shape is that of the first. */
function numbersBesides(given: Given): number[] {
  const shape = areaOf(given.all[0]);
  const from = given.has(2) ? areaOf(given.all[2]) : shape;
  const area = {
    sheet: from.sheet,
    top: from.top,
    left: from.left,
    bottom: Math.min(from.top + heightOf(shape) - 1, 1_048_575),
    right: Math.min(from.left + widthOf(shape) - 1, 16_383),
  };
  const condition = { block: given.matrix(0), meets: criterionOf(given.scalar(1), given.context.dateSystem) };
  return numbersWhere(given.context, area, [condition]);
}

const average = (numbers: readonly number[]): Value =>
  numbers.length === 0 ? DIVIDED_BY_ZERO : sumOf(numbers) / numbers.length;
const largest = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.max(a, b), -Infinity);
const smallest = (numbers: readonly number[]): number => numbers.reduce((a, b) => Math.min(a, b), Infinity);

/** The value a condition is, an error among the values included. */
const takesErrors = { takesErrors: true, takesEachReference: true } as const;

/** Over the numbers of the first range where all conditions hold. */
const overWhere = (name: string, calculate: (numbers: readonly number[]) => Value): BuiltIn =>
  define(
    name,
    [3, 255],
    'range range value',
    (given) => {
      if (given.count % 2 === 0) return VALUE;
      const area = areaOf(given.all[0]);
      return calculate(numbersWhere(given.context, area, conditionsOf(given, 1, area)));
    },
    { repeats: 2, ...takesErrors },
  );

const isBlank = (value: Scalar): boolean => value === null || value === '';

export const conditions: readonly BuiltIn[] = [
  define(
    'COUNTIF',
    [2, 2],
    'range value',
    (given) => {
      const { context } = given;
      const shape = areaOf(given.all[0]);
      const meets = criterionOf(given.scalar(1), context.dateSystem);
      if (!context.wasAsked(Reference.to(shape))) return countAlong(context, shape, meets);
      return count(shape, [{ block: given.matrix(0), meets }]);
    },
    takesErrors,
  ),
  define(
    'COUNTIFS',
    [2, 254],
    'range value',
    (given) => {
      if (given.count % 2 === 1) return VALUE;
      const shape = areaOf(given.all[0]);
      return count(shape, conditionsOf(given, 0, shape));
    },
    { repeats: 2, ...takesErrors },
  ),
  define('SUMIF', [2, 3], 'range value range', (given) => sumOf(numbersBesides(given)), takesErrors),
  define('AVERAGEIF', [2, 3], 'range value range', (given) => average(numbersBesides(given)), takesErrors),
  overWhere('SUMIFS', sumOf),
  overWhere('AVERAGEIFS', average),
  overWhere('MAXIFS', (numbers) => (numbers.length === 0 ? 0 : largest(numbers))),
  overWhere('MINIFS', (numbers) => (numbers.length === 0 ? 0 : smallest(numbers))),
  define(
    'COUNTBLANK',
    [1, 1],
    'range',
    (given) => {
      const shape = areaOf(given.all[0]);
      let held = 0;
      given.context.eachCell(Reference.to(shape), (value) => {
        if (!isBlank(value)) held++;
      });
      return heightOf(shape) * widthOf(shape) - held;
    },
    { takesEachReference: true },
  ),
];
