import { invalid, type CalcError } from '../maths/shared/fault';
import type { Argument } from './cells/arguments';
import { isBlankOrZero, type Cell, type CellError, type Grid } from './cells/cell';
import { SheetFault } from './cells/fault';
import { isRefusal, readCell, refuse } from './readCell';
import { Table } from './cells/table';
import { readTable } from './readTable';
import { METRIC, type Telling, type Voice } from './voice';

/** The arguments of a call as its host hands them over. */
export type Given = readonly (Grid | null | undefined)[];

/** The number of rows of a call, and whether its columns lie sideways (1×n). */
export function shapeOf(
  argumentList: readonly Argument[],
  given: Given,
): { rows: number; sideways: boolean } {
  let rows = 1;
  let sideways = false;
  let first = '';
  argumentList.forEach((argument, position) => {
    const grid = given[position];
    if (!grid || argument.shape !== 'column') return;
    const [height, width] = sizeOf(grid);
    if (height > 1 && width > 1) {
      throw invalid(argument.name, 'notOneColumn', { rows: height, columns: width });
    }
    const length = Math.max(height, width);
    if (length === 1) return;
    if (rows === 1) {
      rows = length;
      sideways = width > 1;
      first = argument.name;
    } else if (length !== rows) {
      throw invalid(argument.name, 'otherLength', { other: first, length: rows, found: length });
    } else if (width === 1) {
      sideways = false;
    }
  });
  return { rows, sideways };
}

const sizeOf = (grid: Grid): readonly [height: number, width: number] => [grid.length, grid[0]!.length];

type ColumnArgumentOf = Extract<Argument, { shape: 'column' }>;
export type FixedArgument = Exclude<Argument, ColumnArgumentOf>;

/** A column argument read from its cells: one entry, or one per row. */
export interface ReadColumn {
  readonly values: ArrayLike<unknown>;
  /** Whether any cell was refused. */
  readonly hasFaults: boolean;
  /** Why the cell at a place was refused: put into words only when asked, since most rows of a long range are blank. */
  readonly faultAt: (i: number) => CellError | undefined;
  /** 1 for each row whose key is blank; undefined where this is not the key or has no blank. */
  readonly blank: Uint8Array | undefined;
  readonly single: boolean;
}

const NO_FAULT = (): undefined => undefined;

export function readColumn(
  argument: ColumnArgumentOf,
  grid: Grid | undefined,
  rows: number,
  telling: Telling,
): ReadColumn {
  const { kind, role, fallback, name } = argument;
  if (!grid) {
    if (role !== 'optional') throw leftOut(argument);
    return { values: [fallback], hasFaults: false, faultAt: NO_FAULT, blank: undefined, single: true };
  }
  const lying = grid.length === 1;
  const cells = lying ? grid[0]! : undefined;
  const length = cells ? cells.length : grid.length;
  const cellAt = (i: number): Cell => (cells ? cells[i]! : grid[i]![0]!);
  let refused: Uint8Array | undefined;
  let blank: Uint8Array | undefined;
  /** The value of a cell that is not plainly a good one. Inside a column that is given a blank is not the default. */
  const careful = (cell: Cell, i: number): unknown => {
    if (role === 'key' && isBlankOrZero(cell)) {
      (blank ??= new Uint8Array(length))[i] = 1;
      return fallback;
    }
    const accepted = kind.accept(cell);
    if (accepted !== undefined) return accepted;
    (refused ??= new Uint8Array(length))[i] = 1;
    return undefined;
  };
  let values: unknown[] | Float64Array;
  if (kind.bounds && (fallback !== undefined || role !== 'optional')) {
    // Numbers stay unboxed; what is no number in a row that is blank or at fault is never looked at.
    const { low, high, whole } = kind.bounds;
    const zeroCounts = kind.zeroCounts === true && role === 'required';
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
    for (let i = 0; i < length; i++) values[i] = careful(cellAt(i), i);
  }
  const faultAt = (i: number): CellError | undefined => {
    if (refused?.[i] !== 1) return undefined;
    const place = { argument: name, ...(rows > 1 && length > 1 ? { row: i + 1 } : {}) };
    return refuse(kind, cellAt(i), place, telling).error;
  };
  return { values, hasFaults: refused !== undefined, faultAt, blank, single: length === 1 };
}

/** The value of an argument that is the same for every row. */
export function readFixed(argument: FixedArgument, grid: Grid | undefined, telling: Telling): unknown {
  const { name } = argument;
  if (!grid) {
    if (argument.role === 'required') throw leftOut(argument);
    return argument.shape === 'setting' ? argument.fallback : undefined;
  }
  switch (argument.shape) {
    case 'range':
      return grid.flatMap((cells, at) =>
        cells
          .filter((cell) => !isBlankOrZero(cell))
          .map((cell) => {
            const place = { argument: name, ...(grid.length > 1 ? { row: at + 1 } : {}) };
            return taken(readCell(argument.kind, cell, place, telling));
          }),
      );
    case 'block':
      return grid;
    case 'table': {
      const nothing = grid.length === 1 && grid[0]!.length === 1 && isBlankOrZero(grid[0]![0]);
      if (nothing && argument.role === 'optional') return undefined;
      return readTable(name, argument.columns, grid, telling);
    }
    case 'setting': {
      const [rows, columns] = sizeOf(grid);
      if (rows > 1 || columns > 1) throw invalid(name, 'notOneCell', { rows, columns });
      const cell = grid[0]![0]!;
      if (argument.role === 'optional' && isBlankOrZero(cell)) return argument.fallback;
      return taken(readCell(argument.kind, cell, { argument: name }, telling));
    }
  }
}

/** What the settings of a call say about the units it asks in. One that cannot be read is told of in its turn. */
export function voiceOf(argumentList: readonly Argument[], given: Given): Voice {
  let voice = METRIC;
  argumentList.forEach((argument, position) => {
    if (argument.shape !== 'setting' || argument.kind.voice === undefined) return;
    const cell = given[position]?.[0]?.[0] ?? null;
    const chosen = isBlankOrZero(cell) ? argument.fallback : argument.kind.accept(cell);
    if (chosen !== undefined) voice = { ...voice, ...argument.kind.voice(chosen) };
  });
  return voice;
}

function taken<T>(read: T): T {
  if (isRefusal(read)) throw new SheetFault(read.error);
  return read;
}

const leftOut = ({ name, meaning }: Argument): CalcError => invalid(name, 'leftOut', { meaning });

/** Refuses tables of one call whose headers name two units of mass or two of temperature. */
export function requireOneUnit(
  tables: readonly unknown[],
  argumentList: readonly Argument[],
  given: Given,
): void {
  const seen = new Map<string, { readonly subject: string; readonly unit: string }>();
  argumentList.forEach((argument, position) => {
    if (argument.shape !== 'setting' || argument.kind.voice === undefined) return;
    const degrees = argument.kind.voice(
      argument.kind.accept(given[position]?.[0]?.[0] ?? null) ?? argument.fallback,
    ).degrees;
    if (degrees) seen.set('temperature', { subject: argument.name, unit: `°${degrees}` });
  });
  for (const table of tables) {
    if (!(table instanceof Table)) continue;
    for (const [property, { of, unit }] of table.units) {
      if (of !== 'mass' && of !== 'temperature') continue;
      const subject = `${table.name}, ${property}`;
      const before = seen.get(of);
      if (before === undefined) seen.set(of, { subject, unit });
      else if (before.unit !== unit) {
        throw invalid(subject, 'unitClash', { unit, other: before.subject, otherUnit: before.unit });
      }
    }
  }
}
