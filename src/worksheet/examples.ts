import type { Grid } from './cells/cell';
import { PREFIX } from './constants';
import type { ExampleArgument } from './words';
import type { WorksheetFunction } from './definition';

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
  return `=${PREFIX}${name}(${written.join(',')})`;
}
