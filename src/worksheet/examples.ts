import { writtenDate, writtenTime } from './calendar';
import type { Argument } from './cells/arguments';
import type { Grid } from './cells/cell';
import { formatOfKind } from './cells/shown';
import { PREFIX, type Family } from './constants';
import type { WorksheetFunction } from './definition';
import type { ExampleArgument } from './words';

/** An example's argument as the cells a host would hand over. */
export function exampleGrid(argument: ExampleArgument): Grid {
  return Array.isArray(argument) ? (argument as Grid) : [[argument as string | number | boolean | null]];
}

/** The table in which a grower would keep the columns that a function is given one by one. */
const TABLE_OF_COLUMNS: Record<Family, string> = {
  records: 'Records',
  ripening: 'Lots',
  lineage: 'Lots',
  substrate: 'Recipe',
  sterilising: 'Log',
  climate: 'Log',
  loading: 'Lots',
  harvest: 'Crops',
  audit: 'Records',
  cost: 'Crops',
};
/** Columns that lie in another table than the rest of their call. */
const TABLE_OF_COLUMN: Readonly<Record<string, string>> = {
  times: 'Log',
  temperatures: 'Log',
  list: 'Strains',
};

function typedDate(serial: number): string {
  const [year, month, day] = writtenDate(serial, 1900).split('-').map(Number);
  const date = `DATE(${year},${month},${day})`;
  if (Number.isInteger(serial)) return date;
  const [hours, minutes] = writtenTime(serial, 1900).split(' ')[1]!.split(':').map(Number);
  return `${date}+TIME(${hours},${minutes},0)`;
}

function typedValue(cell: string | number | boolean | null, argument: Argument): string {
  if (cell === null) return '';
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (typeof cell !== 'number') return `"${cell.replaceAll('"', '""')}"`;
  const format = argument.shape === 'table' ? 'plain' : formatOfKind(argument.kind);
  if (format === 'date') return typedDate(cell);
  return format === 'percent' ? `${Number((100 * cell).toPrecision(12))}%` : String(cell);
}

function typedArgument(argument: Argument, given: ExampleArgument, family: Family): string {
  const grid = exampleGrid(given);
  const width = grid[0]!.length;
  if (argument.shape === 'block') return `A1:${String.fromCharCode(64 + width)}${grid.length}`;
  if (argument.shape === 'table')
    return `${argument.name.charAt(0).toUpperCase()}${argument.name.slice(1)}[#All]`;
  return grid.length === 1 && width === 1
    ? typedValue(grid[0]![0] as string, argument)
    : `${TABLE_OF_COLUMN[argument.name] ?? TABLE_OF_COLUMNS[family]}[${argument.name}]`;
}

/**
 * A call as a grower types it, with references to tables and to their columns:
 * `=PINSET.READYDATE(Lots[inoculated],"Alder-3",Strains[#All])`.
 */
export function typedFormula(f: WorksheetFunction, given: readonly ExampleArgument[]): string {
  const typed = given.map((argument, at) =>
    argument === null ? '' : typedArgument(f.arguments[at]!, argument, f.family),
  );
  return `=${PREFIX}${f.name}(${typed.join(',')})`;
}
