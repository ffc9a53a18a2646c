import { invalid } from '../../maths/shared/fault';
import { nearestLabel } from '../../maths/shared/labels';
import { isBlankOrZero, isCellError, type Cell, type Grid } from './cell';
import type { TableColumn, TableColumns } from './columns';
import { headerKey, headerWords, otherKey, shareWord, tellingWords } from './headerWords';
import { numberedHeaders } from './numberedHeaders';
import { measureOf, unitInHeader, withoutUnits, type HeaderUnit } from './units';

/** Rows from the top of a range in which its header row may lie: titles and blank rows above it are passed over. */
export const MOST_ROWS_ABOVE = 20;

/** A header that nothing reads, and the column it may be meant for. */
export interface LookAlike {
  readonly header: string;
  readonly property: string;
  /** What that column holds. */
  readonly meaning: string;
}

/** Words of a header that speak of a column without naming it. */
const AKIN: Readonly<Record<string, readonly string[]>> = {
  best: ['ripe', 'ripen', 'ready', 'mature', 'colonised', 'colonized'],
  latest: ['expire', 'expiry', 'overdue', 'old'],
};

/** Unread headers that share a telling word, or the beginning of one, with a column that is not there. */
function lookAlikesOf(unread: readonly string[], located: readonly Located[]): LookAlike[] {
  const absent = located.filter(({ at, column }) => at.length === 0 && column.role === 'optional');
  return unread.flatMap((header) => {
    const words = tellingWords(header);
    const all = headerWords(header);
    const meant =
      absent.find(({ property, column }) =>
        shareWord([property, ...column.alsoCalled].flatMap(tellingWords), words),
      ) ?? absent.find(({ property }) => AKIN[property]?.some((word) => all.includes(word)));
    return meant === undefined ? [] : [{ header, property: meant.property, meaning: meant.column.meaning }];
  });
}

/** The header that is most likely meant for a column, by its own name or another of its names. */
function nearestHeader(
  property: string,
  { alsoCalled }: TableColumn<unknown>,
  found: readonly string[],
): string | undefined {
  const names = [property, ...alsoCalled];
  const near = names.map((name) => nearestLabel(name, found)).find((header) => header !== undefined);
  if (near !== undefined) return near;
  const own = names.flatMap(tellingWords);
  return found.find((header) => shareWord(own, tellingWords(header)));
}

/** Where a column of a table lies in its grid. */
export interface Located {
  readonly property: string;
  readonly column: TableColumn<unknown>;
  /** Positions in the grid: one, none for an optional column that is missing, several for `numbered` and `others`. */
  readonly at: readonly number[];
  /** Header as written, for each position. */
  readonly headers: readonly string[];
  /** The number of each position, of a column that is `numbered`. */
  readonly numbers?: readonly number[];
  /** The unit that the header names, where it names one. */
  readonly unit: HeaderUnit | undefined;
}

/** A table's header row and its columns. */
export interface TableHead {
  /** The header row in the grid, from 0. */
  readonly row: number;
  readonly located: readonly Located[];
  /** Headers as written of the columns that nothing asks for. */
  readonly ignored: readonly string[];
  readonly lookAlikes: readonly LookAlike[];
}

const writtenHeaders = (row: readonly Cell[]): string[] =>
  row.map((cell) => (isBlankOrZero(cell) || isCellError(cell) ? '' : String(cell).trim()));

/** Columns of a row by the headers that name them; what is missing or doubtful is told afterwards. */
class HeaderRow {
  readonly keys: readonly string[];
  private readonly otherKeys: readonly string[];
  /** Headers that name a column exactly: none of them serves for another. */
  private readonly own: ReadonlySet<string>;
  private readonly ownOther: ReadonlySet<string>;
  private readonly taken = new Set<number>();

  constructor(
    readonly written: readonly string[],
    columns: TableColumns,
  ) {
    this.keys = written.map(headerKey);
    this.otherKeys = written.map(otherKey);
    this.own = new Set(Object.keys(columns).map(headerKey));
    this.ownOther = new Set(Object.keys(columns).map(otherKey));
  }

  private positions(wanted: (key: string) => boolean): number[] {
    return this.keys.flatMap((key, position) => (key !== '' && wanted(key) ? [position] : []));
  }

  /** The columns that a property's own header names; else those that its other headers name. */
  find(property: string, column: TableColumn<unknown>): readonly number[] {
    const own = headerKey(property);
    const exact = this.positions((key) => key === own);
    if (exact.length > 0) return exact;
    const ownOther = otherKey(property);
    const others = new Set(column.alsoCalled.map(otherKey).filter((key) => !this.ownOther.has(key)));
    const names = (key: string): boolean => key !== '' && (key === ownOther || others.has(key));
    const measure = measureOf(column.kind, property);
    const without = (position: number): string => otherKey(withoutUnits(this.written[position]!, measure));
    return this.positions(() => true).filter((position) => {
      const key = this.otherKeys[position]!;
      return (
        !this.own.has(this.keys[position]!) &&
        (names(key) || (!this.ownOther.has(key) && names(without(position))))
      );
    });
  }

  /** The columns of a numbered family, each with its number. */
  numbered(
    property: string,
    column: TableColumn<unknown>,
  ): readonly (readonly [at: number, number: number])[] {
    return numberedHeaders(
      this.written.map((header, position) => (this.own.has(this.keys[position]!) ? [] : [header])),
      property,
      column,
    );
  }

  take(positions: readonly number[]): void {
    positions.forEach((position) => this.taken.add(position));
  }

  /** The number of texts: figures are no headers. */
  get filled(): number {
    return this.written.filter((header) => header !== '' && !/^[\d.,%\s-]+$/.test(header)).length;
  }

  get rest(): readonly number[] {
    return this.positions(() => true).filter((position) => !this.taken.has(position));
  }
}

const isNeeded = ({ role }: TableColumn<unknown>): boolean => role === 'key' || role === 'required';

/** The needed columns that a row of headers lacks. */
function missingIn(row: HeaderRow, columns: TableColumns): string[] {
  return Object.entries(columns).flatMap(([property, column]) =>
    isNeeded(column) && row.find(property, column).length === 0 ? [property] : [],
  );
}

/**
 * The header row of a grid and its columns: the first of its first rows that has every needed header.
 *
 * @throws CalcError where none has: all missing headers are named at once, each with the nearest that was found
 * @throws CalcError where two columns could serve for one, or a header's unit contradicts what is asked
 */
export function tableHead(name: string, columns: TableColumns, grid: Grid): TableHead {
  let nearest: { missing: string[]; head: HeaderRow } | undefined;
  for (let at = 0; at < Math.min(grid.length, MOST_ROWS_ABOVE); at++) {
    const head = new HeaderRow(writtenHeaders(grid[at]!), columns);
    const missing = missingIn(head, columns);
    if (missing.length === 0) return { row: at, ...locateIn(head, name, columns) };
    // Of rows that lack as much, a title has fewer cells than the headers.
    const isNearer =
      !nearest ||
      missing.length < nearest.missing.length ||
      (missing.length === nearest.missing.length && head.filled > nearest.head.filled);
    if (isNearer) nearest = { missing, head };
  }
  const { missing, head } = nearest!;
  const found = head.written.filter((header) => header !== '');
  // A header that is a column's own name is not meant for another.
  const own = new Set(Object.keys(columns).map(headerKey));
  const free = found.filter((header) => !own.has(headerKey(header)));
  throw invalid(name, 'noHeader', {
    headers: missing.map((header) => {
      const near = nearestHeader(header, columns[header]!, free);
      return near === undefined ? { header } : { header, near };
    }),
    found: found.slice(0, 12),
  });
}

function locateIn(row: HeaderRow, name: string, columns: TableColumns): Omit<TableHead, 'row'> {
  const found = (property: string, column: TableColumn<unknown>, at: readonly number[]): Located => {
    row.take(at);
    const headers = at.map((position) => row.written[position]!);
    const units = headers.map((header) => unitInHeader(name, property, column.kind, header));
    return { property, column, at, headers, unit: units.find((unit) => unit !== undefined) };
  };
  const entries = Object.entries(columns);
  const named = entries.flatMap(([property, column]) => {
    if (column.role === 'others') return [];
    if (column.role === 'numbered') {
      const family = row.numbered(property, column);
      const twice = family.find(([, number], i) => family[i - 1]?.[1] === number);
      if (twice) {
        const same = family.filter(([, number]) => number === twice[1]).map(([at]) => row.written[at]!);
        throw invalid(name, 'headerTwice', { header: `${property} ${twice[1]}`, found: same });
      }
      const at = family.map(([position]) => position);
      return [{ ...found(property, column, at), numbers: family.map(([, number]) => number) }];
    }
    const at = row.find(property, column);
    if (at.length > 1) {
      throw invalid(name, 'headerTwice', { header: property, found: at.map((one) => row.written[one]!) });
    }
    return [found(property, column, at)];
  });
  const rest = entries.flatMap(([property, column]) =>
    column.role === 'others' ? [found(property, column, row.rest)] : [],
  );
  const located = [...named, ...rest];
  const ignored = row.rest.map((position) => row.written[position]!);
  return { located, ignored, lookAlikes: lookAlikesOf(ignored, located) };
}
