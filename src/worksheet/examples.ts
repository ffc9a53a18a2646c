import type { Block, Grid, Value } from './cells/cell';
import { Formatted } from './cells/cell';
import type { ExampleArgument, WorksheetFunction } from './define';

/** An example's argument as the cells a host would hand over. */
export function exampleGrid(argument: ExampleArgument): Grid {
  return Array.isArray(argument) ? (argument as Grid) : [[argument as string | number | boolean | null]];
}

function literal(cell: string | number | boolean | null): string {
  if (cell === null) return '""';
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'number' ? String(cell) : `"${cell.replaceAll('"', '""')}"`;
}

/** A call as it is typed into a cell, blocks as array constants: `=PINSET.MIXWATER({100;20},{0.12;0.1},0.6)`. */
export function exampleFormula({ name }: WorksheetFunction, given: readonly ExampleArgument[]): string {
  const written = given.map((argument) => {
    if (!Array.isArray(argument))
      return argument === null ? '' : literal(argument as string | number | boolean);
    return `{${(argument as Grid).map((row) => row.map((cell) => literal(cell as string)).join(',')).join(';')}}`;
  });
  return `=PINSET.${name}(${written.join(',')})`;
}

/** A result as plain values: formats dropped. */
export function plainValues(block: Block): Exclude<Value, Formatted>[][] {
  return block.rows.map((row) => row.map((cell) => (cell instanceof Formatted ? cell.value : cell)));
}
