import { CalcError, invalid, type Fault } from '../maths/shared/fault';
import { formatsOf, rowValues, toValue, wholeBlock, withShownDates, type ErrorOf } from './answers';
import { isBlankOrZero, type Block, type Cell, type CellError, type Grid, type Value } from './cells/cell';
import { SheetFault } from './cells/fault';
import type { Answer, Result } from './cells/results';
import type { Argument } from './cells/arguments';
import type { Setting } from './definition';
import { errorOf } from './errorOf';
import {
  readColumn,
  readFixed,
  requireOneUnit,
  shapeOf,
  voiceOf,
  type Given,
  type ReadColumn,
} from './reading';
import { rowCaller, type Calculate, type Operands } from './rowCaller';
import type { ToolName } from './tools';
import type { Telling } from './voice';

/** A definition whatever its types: one of the three calculations is there. */
export interface AnyDefinition {
  readonly name: string;
  readonly arguments: readonly Argument[];
  readonly result: Result<unknown>;
  readonly needs?: readonly ToolName[];
  readonly eachRow?: Calculate;
  readonly atOdds?: (...values: unknown[]) => ReadonlyMap<number, CalcError>;
  readonly beside?: Calculate;
  readonly whole?: Calculate;
}

/** A call with its arguments read. */
interface ReadCall {
  readonly definition: AnyDefinition;
  /** The columns among the arguments; undefined at the places of the others. */
  readonly columns: readonly (ReadColumn | undefined)[];
  /** The other arguments; undefined at the places of the columns. */
  readonly fixed: readonly unknown[];
  readonly given: Given;
  readonly rows: number;
  /** Whether the columns lie sideways. */
  readonly sideways: boolean;
  readonly telling: Telling;
  readonly tools: object;
  readonly onProgress: Setting['onProgress'];
}

/** The answer of a definition to a call; what cells hold gives error cells, a defect of ours throws. */
export function evaluate(definition: AnyDefinition, given: Given, setting: Required<Setting>): Block {
  const { arguments: argumentList, needs = [] } = definition;
  const telling: Telling = { dateSystem: setting.dateSystem, voice: voiceOf(argumentList, given) };
  const lacking = needs.find((name) => setting.tools[name] === undefined);
  if (lacking !== undefined)
    throw new Error(`${definition.name} was called before its ${lacking} was loaded`);
  try {
    if (given.length > argumentList.length) {
      const details = { most: argumentList.length, found: given.length };
      throw invalid('arguments', 'tooManyArguments', details);
    }
    const { rows, sideways } = shapeOf(argumentList, given);
    const columns = argumentList.map((argument, position) =>
      argument.shape === 'column'
        ? readColumn(argument, given[position] ?? undefined, rows, telling)
        : undefined,
    );
    const fixed = argumentList.map((argument, position) =>
      argument.shape === 'column' ? undefined : readFixed(argument, given[position] ?? undefined, telling),
    );
    requireOneUnit(fixed, argumentList, given);
    const call: ReadCall = {
      definition,
      given,
      columns,
      fixed,
      rows,
      sideways,
      telling,
      tools: setting.tools,
      onProgress: setting.onProgress,
    };
    return withShownDates(definition.eachRow ? eachRow(call, definition.eachRow) : once(call));
  } catch (thrown) {
    return { rows: [[cellOfFault(thrown, (fault) => errorOf(fault, telling))]], formats: ['plain'] };
  }
}

/** The cell for whatever a calculation threw on purpose; anything else is a defect of ours and goes on. */
function cellOfFault(thrown: unknown, errorOfFault: ErrorOf): CellError {
  if (thrown instanceof SheetFault) return thrown.cell;
  if (thrown instanceof CalcError) return errorOfFault(thrown);
  throw thrown;
}

function eachRow(
  { definition, given, columns, fixed, rows, sideways, telling, tools }: ReadCall,
  f: Calculate,
): Block {
  const operands: Operands = {
    lists: columns.map((column, k) => column?.values ?? [fixed[k]]),
    steps: columns.map((column) => (column && !column.single ? 1 : 0)),
  };
  const context = { dateSystem: telling.dateSystem, tools, rowNumbers: [], isSingle: [] };
  const call = rowCaller(f, operands, context);
  const keys = columns.filter((column) => column?.blank !== undefined) as ReadColumn[];
  const faulty = columns.filter((column) => column?.hasFaults === true) as ReadColumn[];
  const isEmptyRow = emptyRows(definition, given);
  const headers = Object.keys(definition.result.columns);
  const answers = new Array<readonly Value[]>(rows);
  const inEach = (value: Value): readonly Value[] => new Array<Value>(headers.length).fill(value);
  const noAnswer = inEach('');
  const several = definition.result.shape === 'row';
  let at = 0;
  // What lies in a table or a setting lies in no row of the columns.
  const ofRows = new Set(
    definition.arguments.filter(({ shape }) => shape === 'column').map(({ name }) => name),
  );
  const rowOf = ({ argument }: Fault): number | undefined =>
    rows > 1 && ofRows.has(argument) ? at + 1 : undefined;
  const inThisRow: ErrorOf = (fault) => errorOf(fault, telling, rowOf);
  const odds = rows > 1 && definition.atOdds ? atOdds(definition, operands, keys, rows) : undefined;
  for (let i = 0; i < rows; i++) {
    at = i;
    if (isKeyBlank(keys, i)) {
      answers[i] = noAnswer;
      continue;
    }
    const fault = faulty.length > 0 ? faultOf(faulty, i) : undefined;
    if (fault) {
      answers[i] = isEmptyRow(i) ? noAnswer : inEach(fault);
      continue;
    }
    try {
      const odd = odds?.get(i);
      if (odd) throw odd;
      const answer = call(i);
      answers[i] = several ? rowValues(headers, answer, inThisRow) : [toValue(answer as Answer, inThisRow)];
    } catch (thrown) {
      answers[i] = inEach(cellOfFault(thrown, inThisRow));
    }
  }
  return laidOut(definition, answers, sideways);
}

/** The faults of rows that do not go together. A row whose key is blank goes with any. */
function atOdds(
  definition: AnyDefinition,
  { lists, steps }: Operands,
  keys: readonly ReadColumn[],
  rows: number,
): ReadonlyMap<number, CalcError> | undefined {
  const isThere = Array.from({ length: rows }, (_, i) => !isKeyBlank(keys, i));
  return definition.atOdds?.(
    ...lists.map((list, k) => isThere.map((there, i) => (there ? list[i * steps[k]!] : undefined))),
  );
}

function isKeyBlank(keys: readonly ReadColumn[], i: number): boolean {
  for (const key of keys) if (key.blank![key.single ? 0 : i] === 1) return true;
  return false;
}

function faultOf(faulty: readonly ReadColumn[], i: number): CellError | undefined {
  for (const column of faulty) {
    const fault = column.faultAt(column.single ? 0 : i);
    if (fault) return fault;
  }
  return undefined;
}

/** Answers of one value in columns that lie sideways come back sideways. */
function laidOut(
  { result }: AnyDefinition,
  answers: readonly (readonly Value[])[],
  sideways: boolean,
): Block {
  const formats = formatsOf(result.columns);
  if (!sideways || result.shape !== 'value') return { rows: answers, formats };
  return { rows: [answers.map((answer) => answer[0]!)], formats: answers.map(() => formats[0]!) };
}

const lengthOf = (grid: Grid): number => Math.max(grid.length, grid[0]!.length);
const cellIn = (grid: Grid, i: number): Cell => (grid.length === 1 ? grid[0]![i]! : grid[i]![0]!);

/** Tells whether a row is blank in every needed column that has a cell for each row: it lies past the end of the data. */
function emptyRows({ arguments: argumentList }: AnyDefinition, given: Given): (i: number) => boolean {
  const grids = argumentList.flatMap((argument, k) => {
    const grid = given[k];
    const isAsked = argument.shape === 'column' && argument.role !== 'optional';
    return isAsked && grid && lengthOf(grid) > 1 ? [grid] : [];
  });
  return (i) => grids.length > 0 && grids.every((grid) => isBlankOrZero(cellIn(grid, i)));
}

/** The fault of a row that has no key but figures beside it: they would drop out of the whole in silence. */
function keylessFault({ definition, given, telling }: ReadCall, i: number): CellError | undefined {
  const columns = definition.arguments.map((argument, k) => ({ argument, grid: given[k] }));
  const key = columns.find(({ argument }) => argument.shape === 'column' && argument.role === 'key')!;
  for (const { argument, grid } of columns) {
    if (argument.shape !== 'column' || !grid || argument === key.argument) continue;
    if (lengthOf(grid) === 1 || isBlankOrZero(cellIn(grid, i))) continue;
    const fault = invalid(key.argument.name, 'noKey', { key: key.argument.name, header: argument.name }, i);
    return errorOf(fault, telling, () => i + 1);
  }
  return undefined;
}

function once(call: ReadCall): Block {
  const { definition, columns, fixed, rows, sideways, telling, tools, onProgress } = call;
  const keys = columns.filter((column) => column?.blank !== undefined) as ReadColumn[];
  // Filled by place and cut to length: pushing costs several times as much over long columns.
  const counted = new Array<number>(rows);
  const rowNumbers = new Array<number>(rows);
  const keyless = new Map<number, CellError>();
  let count = 0;
  for (let i = 0; i < rows; i++) {
    if (keys.length > 0 && isKeyBlank(keys, i)) {
      const fault = keylessFault(call, i);
      if (fault && !definition.beside) throw new SheetFault(fault);
      if (fault) keyless.set(i, fault);
      continue;
    }
    counted[count++] = i;
    rowNumbers[count - 1] = i + 1;
  }
  counted.length = rowNumbers.length = count;
  const values = columns.map((column, k) => {
    if (!column) return fixed[k];
    if (column.hasFaults) {
      for (const i of counted) {
        const fault = faultOf([column], i);
        if (fault) throw new SheetFault(fault);
      }
    }
    return picked(column, counted);
  });
  const rowOf = ({ index, at }: Fault): number | undefined => (index === undefined ? at : rowNumbers[index]);
  const placed: ErrorOf = (fault) => errorOf(fault, telling, rowOf);
  const isSingle = columns.map((column) => column?.single === true);
  const context = { dateSystem: telling.dateSystem, tools, rowNumbers, isSingle, onProgress };
  try {
    if (!definition.beside) {
      return wholeBlock(definition.result, definition.whole!(...values, context), placed);
    }
    const headers = Object.keys(definition.result.columns);
    const inEach = (value: Value): readonly Value[] => new Array<Value>(headers.length).fill(value);
    const answers = new Array<readonly Value[]>(rows).fill(inEach(''));
    for (const [i, fault] of keyless) answers[i] = inEach(fault);
    const several = definition.result.shape === 'row';
    const given = definition.beside(...values, context) as readonly unknown[];
    given.forEach((answer, n) => {
      answers[counted[n]!] = several
        ? rowValues(headers, answer, placed)
        : [toValue(answer as Answer, placed)];
    });
    return laidOut(definition, answers, sideways);
  } catch (thrown) {
    throw new SheetFault(cellOfFault(thrown, placed));
  }
}

/** The values of a column in the rows that count. Numbers by a loop of their own, which keeps them unboxed. */
function picked({ values, single }: ReadColumn, counted: readonly number[]): unknown[] {
  if (!(values instanceof Float64Array)) return counted.map((i) => values[single ? 0 : i]);
  const numbers = new Array<number>(counted.length);
  for (let n = 0; n < counted.length; n++) numbers[n] = values[single ? 0 : counted[n]!]!;
  return numbers;
}
