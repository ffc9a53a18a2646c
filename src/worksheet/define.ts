import { CalcError } from '../maths/shared/calcError';
import { LAST_SERIAL, type DateSystem } from '../maths/shared/serial';
import type { Argument, RowValues, WholeValues } from './cells/arguments';
import {
  CellError,
  Formatted,
  isBlankOrZero,
  type Block,
  type Cell,
  type Format,
  type Grid,
  type Value,
} from './cells/cell';
import { cellErrorOf, SheetFault, toCellError } from './cells/fault';
import { readCell, Refusal, refusal } from './cells/kinds';
import { readTable, Table } from './cells/table';

export type { DateSystem };

/** The families, in the order of the grower's week. */
export const FAMILIES = [
  'ripening',
  'lineage',
  'substrate',
  'sterilising',
  'climate',
  'loading',
  'harvest',
  'audit',
  'cost',
] as const;
export type Family = (typeof FAMILIES)[number];

/** What each family is about, as headings say it. */
export const FAMILY_TITLES: Record<Family, string> = {
  ripening: 'Dates and ripening',
  lineage: 'Labels and lineage',
  substrate: 'Substrate',
  sterilising: 'Sterilising',
  climate: 'Climate',
  loading: 'Loading',
  harvest: 'Yield',
  audit: 'Audit',
  cost: 'Cost',
};

/** What one cell of an answer may be before it goes to the sheet. */
export type Answer = number | string | boolean | CalcError | CellError | Formatted;

/** A column of a result: its header (or what the value is) and how its numbers read. */
export interface ResultColumn {
  readonly header: string;
  readonly format: Format;
}

/** A table whose headers depend on the data. */
export interface FreeTable {
  readonly columns: readonly ResultColumn[];
  readonly rows: readonly (readonly Answer[])[];
}

/** What a function gives: one value (per row), a row of values (per row), or a table with a header row. */
export interface Result<O> {
  readonly shape: 'value' | 'row' | 'table' | 'freeTable';
  readonly columns: readonly ResultColumn[];
  /** Never set: carries the type. */
  readonly type?: O;
}

export const resultColumn = (header: string, format: Format = 'plain'): ResultColumn => ({ header, format });

export const value = (meaning: string, format: Format = 'plain'): Result<Answer> => ({
  shape: 'value',
  columns: [{ header: meaning, format }],
});

export const row = (...columns: readonly ResultColumn[]): Result<readonly Answer[]> => ({
  shape: 'row',
  columns,
});

export const tableResult = (...columns: readonly ResultColumn[]): Result<readonly (readonly Answer[])[]> => ({
  shape: 'table',
  columns,
});

export const freeTable = (): Result<FreeTable> => ({ shape: 'freeTable', columns: [] });

/** What a calculation may need to know beyond its arguments. */
export interface Context {
  readonly dateSystem: DateSystem;
  /** For each entry of the column arguments, its row in the range given (from 1). Only in calls for whole columns. */
  readonly rowNumbers: readonly number[];
}

/** An argument of an example: a plain value, or a block of cells. Null is a blank. */
export type ExampleArgument =
  number | string | boolean | null | readonly (readonly (number | string | boolean | null)[])[];

/** A call and what it gives; every example is run by the tests, in the bare call and in the embedded hosts. */
export interface Example {
  readonly title: string;
  readonly arguments: readonly ExampleArgument[];
  /** The value, or the whole block. */
  readonly gives: ExampleArgument;
  /** Significant digits that numbers agree to, where a package in between holds fewer than the usual ten. */
  readonly digits?: number;
}

/** A fault a grower may meet, with a call that provokes it; the message must hold `says`. */
export interface FaultExample {
  readonly arguments: readonly ExampleArgument[];
  readonly code: '#VALUE!' | '#N/A' | '#DIV/0!' | '#NUM!';
  readonly says: string;
  /** What to do about it. */
  readonly remedy: string;
}

interface Words {
  /** Letters only, three or more; never renamed. */
  readonly name: string;
  readonly family: Family;
  /** What Excel shows: at most 120 characters. */
  readonly summary: string;
  /** More for the guide: definitions chosen, what the figure does not say. */
  readonly notes?: string;
  readonly cautions?: readonly string[];
  readonly sources: readonly string[];
  readonly examples: readonly Example[];
  readonly faults: readonly FaultExample[];
  /** Loads what the function cannot do without (a solver). Hosts await it before the first call. */
  readonly prepare?: () => Promise<void>;
  /** Set where a call may take seconds: a host works it out aside, lets it be cancelled and does not preview it. */
  readonly takesLong?: true;
  /** Set where an answer holds a weekday or a written date: a host then finds out what the workbook counts from. */
  readonly needsDateSystem?: true;
}

type Calculation<A extends readonly Argument[], O> =
  | {
      /** Called once per row with plain values. */
      readonly eachRow: (...values: [...RowValues<A>, Context]) => O;
    }
  | {
      /** Called once, columns as arrays of equal length; gives one answer per entry, set beside its row. */
      readonly beside: (...values: [...WholeValues<A>, Context]) => readonly O[];
    }
  | {
      /** Called once, columns as arrays of equal length; gives the whole result. */
      readonly whole: (...values: [...WholeValues<A>, Context]) => O;
    };

export type Definition<A extends readonly Argument[], O> = Words & {
  readonly arguments: A;
  readonly result: Result<O>;
} & Calculation<A, O>;

/** A worksheet function as hosts, guide and tests see it. */
export interface WorksheetFunction extends Words {
  readonly arguments: readonly Argument[];
  readonly result: Result<unknown>;
  /** Whether one call over columns gives an answer beside each row, rather than one result. */
  readonly besideRows: boolean;
  /**
   * The result for the given arguments; null or undefined is one left out. Never throws for what cells hold: a
   * fault is an error cell, in its own row where it concerns one row. Inputs are not changed.
   */
  readonly evaluate: (given: readonly (Grid | null | undefined)[], dateSystem?: DateSystem) => Block;
}

/** Makes a worksheet function from its one definition. `calculate` gets plain values in the order of `arguments`. */
export function defineFunction<const A extends readonly Argument[], O>(
  definition: Definition<A, O>,
): WorksheetFunction {
  const evaluate = (given: readonly (Grid | null | undefined)[], dateSystem: DateSystem = 1900): Block => {
    try {
      return calculateBlock(definition as unknown as AnyDefinition, given, dateSystem);
    } catch (fault) {
      return { rows: [[cellErrorOf(fault)]], formats: ['plain'] };
    }
  };
  return { ...definition, besideRows: !('whole' in definition), evaluate };
}

type Calculate = (...values: unknown[]) => unknown;
type AnyDefinition = WorksheetFunction & { eachRow?: Calculate; beside?: Calculate; whole?: Calculate };

/** A column argument read from its cells: one entry, or one per row. */
interface ReadColumn {
  readonly values: ArrayLike<unknown>;
  /** The fault of each row that has one. */
  readonly faults: ReadonlyMap<number, CellError>;
  /** 1 for each row whose key is blank; undefined where this is not the key or has no blank. */
  readonly blank: Uint8Array | undefined;
  readonly single: boolean;
}

function calculateBlock(
  definition: AnyDefinition,
  given: readonly (Grid | null | undefined)[],
  dateSystem: DateSystem,
): Block {
  if (given.length > definition.arguments.length) {
    throw new CalcError(
      'invalid',
      `at most ${definition.arguments.length} arguments needed, got ${given.length}`,
    );
  }
  const { rows, sideways } = shapeOf(definition.arguments, given);
  const columns: (ReadColumn | undefined)[] = [];
  const fixed: unknown[] = [];
  definition.arguments.forEach((argument, position) => {
    const grid = given[position] ?? undefined;
    if (argument.shape === 'column') {
      columns.push(readColumn(argument, grid, rows));
      fixed.push(undefined);
    } else {
      columns.push(undefined);
      fixed.push(readFixed(argument, grid));
    }
  });
  return withShownDates(
    definition.eachRow
      ? eachRow(definition, columns, fixed, rows, sideways, dateSystem)
      : once(definition, columns, fixed, rows, sideways, dateSystem),
  );
}

/** The number of rows of a call, and whether its columns lie sideways (1×n). */
function shapeOf(
  argumentList: readonly Argument[],
  given: readonly (Grid | null | undefined)[],
): { rows: number; sideways: boolean } {
  let rows = 1;
  let sideways = false;
  let first = '';
  argumentList.forEach((argument, position) => {
    const grid = given[position];
    if (!grid || argument.shape !== 'column') return;
    const height = grid.length;
    const width = grid[0]!.length;
    if (height > 1 && width > 1) {
      throw new CalcError(
        'invalid',
        `${argument.name}: one column needed, got ${height} rows by ${width} columns`,
      );
    }
    const length = Math.max(height, width);
    if (length === 1) return;
    if (rows === 1) {
      rows = length;
      sideways = width > 1;
      first = argument.name;
    } else if (length !== rows) {
      throw new CalcError(
        'invalid',
        `${argument.name}: as many rows as ${first} (${rows}) or one cell needed, got ${length}`,
      );
    } else if (width === 1) {
      sideways = false;
    }
  });
  return { rows, sideways };
}

type ColumnArgumentOf = Extract<Argument, { shape: 'column' }>;
const NO_FAULTS: ReadonlyMap<number, CellError> = new Map();

function readColumn(argument: ColumnArgumentOf, grid: Grid | undefined, rows: number): ReadColumn {
  const { kind, role, fallback, name } = argument;
  if (!grid) {
    if (role !== 'optional') throw leftOut(argument);
    return { values: [fallback], faults: NO_FAULTS, blank: undefined, single: true };
  }
  const lying = grid.length === 1;
  const cells = lying ? grid[0]! : undefined;
  const length = cells ? cells.length : grid.length;
  let faults: Map<number, CellError> | undefined;
  let blank: Uint8Array | undefined;
  /** The value of a cell that is not plainly a good one. */
  const careful = (cell: Cell, i: number): unknown => {
    if (role !== 'required' && isBlankOrZero(cell)) {
      if (role === 'key') (blank ??= new Uint8Array(length))[i] = 1;
      return fallback;
    }
    const accepted = kind.accept(cell);
    if (accepted !== undefined) return accepted;
    const place = rows > 1 && length > 1 ? rowPlace(i + 1) : '';
    (faults ??= new Map()).set(i, refusal(kind, cell, name, place).error);
    return undefined;
  };
  let values: unknown[] | Float64Array;
  if (kind.bounds && (fallback !== undefined || role !== 'optional')) {
    // Numbers stay unboxed; what is no number in a row that is blank or at fault is never looked at.
    const { low, high, whole } = kind.bounds;
    const zeroCounts = role === 'required';
    values = new Float64Array(length);
    for (let i = 0; i < length; i++) {
      const cell = cells ? cells[i]! : grid[i]![0]!;
      const good =
        typeof cell === 'number' &&
        cell >= low &&
        cell <= high &&
        (zeroCounts || cell !== 0) &&
        (!whole || Number.isInteger(cell));
      values[i] = good ? cell : (careful(cell, i) as number);
    }
  } else {
    values = new Array<unknown>(length);
    for (let i = 0; i < length; i++) values[i] = careful(cells ? cells[i]! : grid[i]![0]!, i);
  }
  return { values, faults: faults ?? NO_FAULTS, blank, single: length === 1 };
}

function readFixed(argument: Exclude<Argument, ColumnArgumentOf>, grid: Grid | undefined): unknown {
  if (!grid) {
    if (argument.shape === 'range' || argument.role === 'required') throw leftOut(argument);
    return argument.shape === 'setting' ? argument.fallback : undefined;
  }
  switch (argument.shape) {
    case 'range':
      return readRange(argument, grid);
    case 'table': {
      const nothing = grid.length === 1 && grid[0]!.length === 1 && isBlankOrZero(grid[0]![0]);
      if (nothing && argument.role === 'optional') return undefined;
      return readTable(argument.name, argument.columns, grid);
    }
    case 'setting': {
      const cell = onlyCell(argument.name, grid);
      if (argument.role === 'optional' && isBlankOrZero(cell)) return argument.fallback;
      return taken(readCell(argument.kind, cell, argument.name));
    }
  }
}

function readRange({ kind, name }: Extract<Argument, { shape: 'range' }>, grid: Grid): unknown[] {
  return grid.flatMap((cells, at) =>
    cells
      .filter((cell) => !isBlankOrZero(cell))
      .map((cell) => taken(readCell(kind, cell, name, grid.length > 1 ? rowPlace(at + 1) : ''))),
  );
}

function onlyCell(name: string, grid: Grid): Cell {
  const [height, width] = [grid.length, grid[0]!.length];
  if (height > 1 || width > 1) {
    throw new CalcError('invalid', `${name}: one cell needed, got ${height} rows by ${width} columns`);
  }
  return grid[0]![0]!;
}

function taken<T>(read: T | Refusal): T {
  if (read instanceof Refusal) throw new SheetFault(read.error);
  return read;
}

const leftOut = (argument: Argument): CalcError =>
  new CalcError('invalid', `${argument.name}: needed but left out – ${argument.meaning}`);

const rowPlace = (rowNumber: number): string => ` (row ${rowNumber})`;

/** One list per argument and how far to step in it per row: 0 for what is the same in every row. */
interface Operands {
  readonly lists: readonly ArrayLike<unknown>[];
  readonly steps: readonly number[];
}

/** The call for row i. Spelled out by number of arguments: a spread costs several times the arithmetic of a row. */
function rowCaller(f: Calculate, { lists, steps }: Operands, context: Context): (i: number) => unknown {
  const [a, b, c, d, e, g, h] = lists;
  const [p, q, r, s, t, u, v] = steps as number[];
  switch (lists.length) {
    case 1:
      return (i) => f(a![i * p!], context);
    case 2:
      return (i) => f(a![i * p!], b![i * q!], context);
    case 3:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], context);
    case 4:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], context);
    case 5:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], e![i * t!], context);
    case 6:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], e![i * t!], g![i * u!], context);
    case 7:
      return (i) =>
        f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], e![i * t!], g![i * u!], h![i * v!], context);
    default:
      return (i) => f(...lists.map((list, k) => list[i * steps[k]!]), context);
  }
}

function eachRow(
  definition: AnyDefinition,
  columns: readonly (ReadColumn | undefined)[],
  fixed: readonly unknown[],
  rows: number,
  sideways: boolean,
  dateSystem: DateSystem,
): Block {
  const operands: Operands = {
    lists: columns.map((column, k) => column?.values ?? [fixed[k]]),
    steps: columns.map((column) => (column && !column.single ? 1 : 0)),
  };
  const call = rowCaller(definition.eachRow!, operands, { dateSystem, rowNumbers: [] });
  const keys = columns.filter((column) => column?.blank !== undefined) as ReadColumn[];
  const faulty = columns.filter((column) => column !== undefined && column.faults.size > 0) as ReadColumn[];
  const width = definition.result.columns.length;
  const answers = new Array<readonly Value[]>(rows);
  const several = definition.result.shape === 'row';
  for (let i = 0; i < rows; i++) {
    if (isKeyBlank(keys, i)) {
      answers[i] = new Array<Value>(width).fill('');
      continue;
    }
    const fault = faulty.length > 0 ? faultOf(faulty, i) : undefined;
    if (fault) {
      answers[i] = new Array<Value>(width).fill(fault);
      continue;
    }
    try {
      const answer = call(i);
      answers[i] = several ? (answer as Answer[]).map((one) => toValue(one)) : [toValue(answer as Answer)];
    } catch (thrown) {
      answers[i] = new Array<Value>(width).fill(cellErrorOf(thrown, rows > 1 ? rowPlace(i + 1) : ''));
    }
  }
  return laidOut(definition, answers, sideways);
}

function isKeyBlank(keys: readonly ReadColumn[], i: number): boolean {
  for (const key of keys) if (key.blank![key.single ? 0 : i] === 1) return true;
  return false;
}

function faultOf(faulty: readonly ReadColumn[], i: number): CellError | undefined {
  for (const column of faulty) {
    const fault = column.faults.get(column.single ? 0 : i);
    if (fault) return fault;
  }
  return undefined;
}

/** Answers of one value in columns that lie sideways come back sideways. */
function laidOut(
  definition: AnyDefinition,
  answers: readonly (readonly Value[])[],
  sideways: boolean,
): Block {
  const formats = definition.result.columns.map((column) => column.format);
  if (!sideways || definition.result.shape !== 'value') return { rows: answers, formats };
  return { rows: [answers.map((answer) => answer[0]!)], formats: answers.map(() => formats[0]!) };
}

function once(
  definition: AnyDefinition,
  columns: readonly (ReadColumn | undefined)[],
  fixed: readonly unknown[],
  rows: number,
  sideways: boolean,
  dateSystem: DateSystem,
): Block {
  const keys = columns.filter((column) => column?.blank !== undefined) as ReadColumn[];
  // Filled by place and cut to length: pushing costs several times as much over long columns.
  const counted = new Array<number>(rows);
  const rowNumbers = new Array<number>(rows);
  let count = 0;
  for (let i = 0; i < rows; i++) {
    if (keys.length > 0 && isKeyBlank(keys, i)) continue;
    counted[count++] = i;
    rowNumbers[count - 1] = i + 1;
  }
  counted.length = rowNumbers.length = count;
  const values = columns.map((column, k) => {
    if (!column) return fixed[k];
    if (column.faults.size > 0) {
      for (const i of counted) {
        const fault = faultOf([column], i);
        if (fault) throw new SheetFault(fault);
      }
    }
    return picked(column, counted);
  });
  const place = (fault: CalcError): string => placeIn(definition.arguments, fixed, rowNumbers, fault);
  const context: Context = { dateSystem, rowNumbers };
  try {
    if (definition.beside) {
      const width = definition.result.columns.length;
      const answers = Array.from({ length: rows }, () => new Array<Value>(width).fill(''));
      const several = definition.result.shape === 'row';
      (definition.beside(...values, context) as (Answer | readonly Answer[])[]).forEach((answer, n) => {
        const cells = several ? (answer as readonly Answer[]) : [answer as Answer];
        answers[counted[n]!] = cells.map((one) => toValue(one, place));
      });
      return laidOut(definition, answers, sideways);
    }
    return wholeBlock(definition.result, definition.whole!(...values, context), place);
  } catch (thrown) {
    throw thrown instanceof CalcError ? new SheetFault(toCellError(thrown, place(thrown))) : thrown;
  }
}

/** The values of a column in the rows that count. Numbers by a loop of their own, which keeps them unboxed. */
function picked({ values, single }: ReadColumn, counted: readonly number[]): unknown[] {
  if (!(values instanceof Float64Array)) return counted.map((i) => values[single ? 0 : i]);
  const numbers = new Array<number>(counted.length);
  for (let n = 0; n < counted.length; n++) numbers[n] = values[single ? 0 : counted[n]!]!;
  return numbers;
}

function wholeBlock(result: Result<unknown>, answer: unknown, place: (fault: CalcError) => string): Block {
  switch (result.shape) {
    case 'value':
      return { rows: [[toValue(answer as Answer, place)]], formats: [result.columns[0]!.format] };
    case 'row':
      return {
        rows: [(answer as readonly Answer[]).map((one) => toValue(one, place))],
        formats: result.columns.map((column) => column.format),
      };
    case 'table':
      return withHeader(result.columns, answer as FreeTable['rows'], place);
    case 'freeTable':
      return withHeader((answer as FreeTable).columns, (answer as FreeTable).rows, place);
  }
}

function withHeader(
  columns: readonly ResultColumn[],
  rows: FreeTable['rows'],
  place: (fault: CalcError) => string,
): Block {
  return {
    rows: [
      columns.map((column) => column.header),
      ...rows.map((cells) => cells.map((cell) => toValue(cell, place))),
    ],
    formats: columns.map((column) => column.format),
  };
}

/** ` (row n)` for a fault that names an entry of a column or table argument. */
function placeIn(
  argumentList: readonly Argument[],
  fixed: readonly unknown[],
  rowNumbers: readonly number[],
  { place: { argument, index } }: CalcError,
): string {
  if (argument === undefined || index === undefined) return '';
  const position = argumentList.findIndex(
    ({ name }) => name === argument || argument.startsWith(`${name}, `),
  );
  const read = fixed[position];
  const numbers = read instanceof Table ? read.rowNumbers : rowNumbers;
  return numbers[index] === undefined ? '' : rowPlace(numbers[index]);
}

const NOWHERE = (): string => '';

/** An answer as a result's cell: a fault becomes its error, and no number goes out that a sheet would show as 0. */
function toValue(answer: Answer, place: (fault: CalcError) => string = NOWHERE): Value {
  if (typeof answer === 'number') return finite(answer) ? answer + 0 : noFiniteAnswer();
  if (answer instanceof CalcError) return toCellError(answer, place(answer));
  if (!(answer instanceof Formatted)) return answer;
  if (!finite(answer.value)) return noFiniteAnswer();
  return isDate(answer.format) && !isShown(answer.value) ? noShownDate() : answer;
}

const isDate = (format: Format): boolean => format === 'date' || format === 'dateTime';
const isShown = (serial: number): boolean => serial >= 0 && serial < LAST_SERIAL + 1;
const noShownDate = (): CellError =>
  new CellError('#NUM!', 'the date lies outside the years that a sheet can show, 1900 to 9999');

/** A date that a sheet cannot show, but as a row of #, becomes a fault. */
function withShownDates(block: Block): Block {
  const dates = block.formats.flatMap((format, column) => (isDate(format) ? [column] : []));
  if (dates.length === 0) return block;
  const isFaulty = (cell: Value | undefined): boolean => typeof cell === 'number' && !isShown(cell);
  // Nearly always there is none, and a long column should not be copied to find that out.
  if (!dates.some((column) => block.rows.some((cells) => isFaulty(cells[column])))) return block;
  const rows = block.rows.map((cells) =>
    cells.map((cell, column) => (dates.includes(column) && isFaulty(cell) ? noShownDate() : cell)),
  );
  return { ...block, rows };
}

const finite = (number: number): boolean => number - number === 0;

const noFiniteAnswer = (): CellError =>
  new CellError('#NUM!', 'the numbers given are too large or too small to calculate with');
