import { invalid } from '../../maths/shared/fault';
import { labelKey, nearestLabel } from '../../maths/shared/labels';
import { LEAST_LOADED_DATE } from '../../maths/shared/loadedBlocks';
import { LAST_SERIAL } from '../../maths/shared/serial';
import { formatted, isBlankOrZero, isCellError, type Cell, type Grid } from '../cells/cell';
import type { RowOf } from '../cells/columns';
import { headerKey } from '../cells/headerWords';
import { MOST_ROWS_ABOVE } from '../cells/headers';
import type { Answer } from '../cells/results';
import { isPeriodRow, isTextOnly, isTotalsRow } from '../cells/totals';
import { unitPartOf } from '../cells/units';
import type { nameColumns, renamedResult } from './matchColumns';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** Two columns of a table that would have one header. */
    columnTwice: { readonly header: string; readonly found: readonly string[] };
    /** Two headers that are to mean the same. */
    meansTwice: { readonly means: string; readonly headers: readonly string[] };
  }
}

type Name = RowOf<typeof nameColumns>;

/** Headers under which Pinset reads a date, whatever the table. */
const DATE_HEADERS = new Set(
  [
    'inoculated',
    'loaded',
    'date',
    'due',
    'not before',
    'not after',
    'closed from',
    'closed to',
    'earliest',
    'latest',
  ].map(headerKey),
);

const written = (cell: Cell | undefined): string =>
  cell === undefined || isBlankOrZero(cell) || isCellError(cell) ? '' : String(cell).trim();

/** The place of a header in a row: the one written the same, otherwise those that differ in signs only. */
function placesOf(header: string, row: readonly string[]): readonly number[] {
  const places = (same: (one: string) => boolean): number[] =>
    row.flatMap((one, at) => (one !== '' && same(one) ? [at] : []));
  const exact = places((one) => labelKey(one) === labelKey(header));
  const wanted = headerKey(header);
  return exact.length > 0 || wanted === '' ? exact : places((one) => headerKey(one) === wanted);
}

/** The header row: the first of the first rows in which every header of the list stands. */
function headerRowOf(grid: Grid, names: readonly Name[]): { at: number; headers: readonly string[] } {
  let nearest: { missing: readonly Name[]; headers: readonly string[]; filled: number } | undefined;
  for (let at = 0; at < Math.min(grid.length, MOST_ROWS_ABOVE); at++) {
    const headers = grid[at]!.map(written);
    const missing = names.filter(({ header }) => placesOf(header, headers).length === 0);
    if (missing.length === 0) return { at, headers };
    const filled = headers.filter((header) => header !== '').length;
    const isNearer =
      !nearest ||
      missing.length < nearest.missing.length ||
      (missing.length === nearest.missing.length && filled > nearest.filled);
    if (isNearer) nearest = { missing, headers, filled };
  }
  const found = nearest!.headers.filter((header) => header !== '');
  throw invalid('table', 'noHeader', {
    headers: nearest!.missing.map(({ header }) => {
      const near = nearestLabel(header, found);
      return near === undefined ? { header } : { header, near };
    }),
    found: found.slice(0, 12),
  });
}

/** The name of each column, by its place; a column without header and cells has none. */
function columnNames(
  headers: readonly string[],
  names: readonly Name[],
  rows: readonly (readonly Cell[])[],
): ReadonlyMap<number, string> {
  const renamed = new Map<number, string>();
  const rowsNamed = new Map<number, number>();
  const meant = new Map<string, string>();
  for (const { header, means, at } of names) {
    const before = meant.get(headerKey(means));
    if (before !== undefined) {
      throw invalid('names, means', 'meansTwice', { means, headers: [before, header] }, { at });
    }
    meant.set(headerKey(means), header);
    const places = placesOf(header, headers);
    if (places.length > 1) {
      throw invalid('table', 'headerTwice', { header, found: places.map((place) => headers[place]!) });
    }
    const place = places[0]!;
    const named = rowsNamed.get(place);
    if (named !== undefined) {
      throw invalid(
        'names, header',
        'labelTwice',
        { label: header, table: 'names', rows: [named, at] },
        { at },
      );
    }
    rowsNamed.set(place, at);
    renamed.set(place, /[([]/.test(means) ? means : means + unitPartOf(headers[place]!));
  }
  const taken = new Set<string>();
  const all = new Map<number, string>();
  headers.forEach((header, place) => {
    const own = renamed.get(place);
    if (own === undefined && header !== '' && meant.has(headerKey(header))) {
      const found = [meant.get(headerKey(header))!, header];
      throw invalid('table', 'columnTwice', { header, found });
    }
    if (own === undefined && header === '' && rows.every((cells) => isBlankOrZero(cells[place]))) return;
    const name = own ?? (header === '' ? `column ${place + 1}` : header);
    let free = name;
    for (let n = 2; taken.has(free); n++) free = `${name} ${n}`;
    taken.add(free);
    all.set(place, free);
  });
  return all;
}

/** A cell as the renamed table shows it: blanks as nothing, dates as dates. */
function shown(cell: Cell | undefined, header: string): Answer {
  if (cell === undefined || cell === null || isBlankOrZero(cell)) return '';
  const isDate =
    typeof cell === 'number' &&
    cell >= LEAST_LOADED_DATE &&
    cell < LAST_SERIAL + 1 &&
    DATE_HEADERS.has(headerKey(header));
  return isDate ? formatted(cell, 'date') : cell;
}

/** A table under other headers: `names` says which header of the sheet means what. */
export function renamedTable(
  grid: Grid,
  names: readonly Name[],
): NonNullable<(typeof renamedResult)['type']> {
  const { at, headers } = headerRowOf(grid, names);
  const isHeaderAgain = (cells: readonly Cell[]): boolean =>
    headers.every((header, place) => written(cells[place]) === header);
  const listed = names.flatMap(({ header }) => placesOf(header, headers));
  // A title between the rows, unless it stands where the list wants something: a lot may have nothing but its name yet.
  const isTitle = (cells: readonly Cell[]): boolean =>
    isPeriodRow(cells) || (isTextOnly(cells) && listed.every((place) => isBlankOrZero(cells[place])));
  const kept: (readonly Cell[])[] = [];
  for (let row = at + 1; row < grid.length; row++) {
    const cells = grid[row]!;
    if (cells.every(isBlankOrZero) || isTotalsRow(cells) || isTitle(cells) || isHeaderAgain(cells)) continue;
    kept.push(cells);
  }
  const columns = columnNames(headers, names, kept);
  const rowOf = (cells: readonly Cell[]): { columns: ReadonlyMap<string, Answer> } => ({
    columns: new Map([...columns].map(([place, header]) => [header, shown(cells[place], header)])),
  });
  return { rows: kept.map(rowOf), like: rowOf([]) };
}
