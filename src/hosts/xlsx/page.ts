import { serialOf } from '../../worksheet/calendar';
import { isCellError, type Cell } from '../../worksheet/cells/cell';
import { addressOf, type Area, type Place } from './address';
import type { Chart, Choices, Formula, Reads, Sheet, SheetTable, Thing, Typed } from './describe';
import type { Role } from './look';
import { areaAt, placeAt, type Places } from './places';

/** What a cell is to hold. Text is always written as text, whatever it begins with. */
export interface Written {
  /** A constant, or a result as it is now; null is an empty cell. */
  readonly value: Cell;
  readonly reads?: Reads;
  /** The formula of the cell, as typed. */
  readonly formula?: string;
}

/** A cell of the page: what it holds and how it looks. */
export interface PageCell extends Written {
  readonly role: Role;
  readonly reads: Reads;
  /** Whether the value is a result. */
  readonly calculated?: boolean;
  /** Whether its formula may fill more cells than its own, whatever functions it calls. */
  readonly spills?: boolean;
}

export interface ValidatedCells {
  readonly area: Area;
  readonly choices: Choices;
}

/** A sheet with everything in its place. */
export interface Page {
  readonly sheet: Sheet;
  readonly cells: ReadonlyMap<number, ReadonlyMap<number, PageCell>>;
  readonly tables: readonly SheetTable[];
  readonly charts: readonly Chart[];
  readonly validations: readonly ValidatedCells[];
  /** Names of single cells. */
  readonly names: readonly { readonly name: string; readonly place: Place }[];
  /** Header rows whose words need two lines. */
  readonly tallRows: ReadonlySet<number>;
  /** Width of each column in characters, from A to the last one used. */
  readonly widths: readonly number[];
}

const GAP_WIDTH = 3;
/** Characters of a column that has only a chart over it. */
export const CHART_WIDTH = 10;
const LEAST_WIDTH = 8;
const MOST_WIDTH = 46;
const BUTTON_WIDTH = 2.5;

class PageBuilder {
  readonly cells = new Map<number, Map<number, PageCell>>();
  readonly tables: SheetTable[] = [];
  readonly charts: Chart[] = [];
  readonly validations: ValidatedCells[] = [];
  readonly names: { name: string; place: Place }[] = [];
  readonly tallRows = new Set<number>();
  private readonly needed = new Map<number, number>();

  constructor(
    private readonly sheet: Sheet,
    private readonly places: Places,
  ) {
    if (sheet.title !== '')
      this.put({ row: 0, column: 0 }, { role: 'title', reads: 'text', value: sheet.title });
    sheet.notes.forEach((value, i) => {
      this.put({ row: i + 1, column: 0 }, { role: 'note', reads: 'text', value });
    });
    sheet.things.forEach((thing) => this.set(thing));
  }

  widths(): number[] {
    const drawn = this.charts.map(({ over }) => areaAt(over));
    const last = Math.max(-1, ...this.needed.keys(), ...drawn.map(({ right }) => right));
    return Array.from({ length: last + 1 }, (_, column) => {
      const needed = this.needed.get(column);
      if (needed !== undefined) return Math.max(LEAST_WIDTH, needed);
      return drawn.some(({ left, right }) => left <= column && column <= right) ? CHART_WIDTH : GAP_WIDTH;
    });
  }

  private set(thing: Thing): void {
    switch (thing.kind) {
      case 'words':
        this.down(thing.at, thing.lines, ({ row, column }, value) => {
          this.put({ row, column }, { role: thing.role, reads: 'text', value });
        });
        return;
      case 'inputs':
        this.down(thing.at, thing.inputs, ({ row, column }, input) => {
          const place = { row, column: column + 1 };
          this.label({ row, column }, input.label, input.remark);
          const value = this.constant(input.value, input.reads, addressOf(place));
          this.put(place, { role: 'input', reads: input.reads, value });
          if (input.name !== undefined) this.names.push({ name: input.name, place });
          if (input.choices !== undefined) {
            const area = { top: row, left: place.column, bottom: row, right: place.column };
            this.validations.push({ area, choices: input.choices });
          }
        });
        return;
      case 'figures':
        this.down(thing.at, thing.figures, ({ row, column }, figure) => {
          this.label({ row, column }, figure.label, figure.remark);
          this.result(addressOf({ row, column: column + 1 }), figure.formula, [figure.reads], {});
        });
        return;
      case 'formula': {
        const { row, column } = placeAt(thing.at);
        (thing.headers ?? []).forEach((header, i) => {
          this.head(
            { row: row - 1, column: column + i },
            header,
            'resultHead',
            thing.reads[i] ?? thing.reads.at(-1)!,
          );
        });
        this.result(thing.at, thing.formula, thing.reads, thing);
        (thing.widths ?? []).forEach((width, i) => this.widen(column + i, width));
        return;
      }
      case 'table':
        this.table(thing);
        return;
      case 'chart':
        this.charts.push(thing);
        return;
    }
  }

  private down<T>(at: string, list: readonly T[], put: (place: Place, item: T) => void): void {
    const { row, column } = placeAt(at);
    list.forEach((item, i) => put({ row: row + i, column }, item));
  }

  private table(table: SheetTable): void {
    const { top, left, bottom } = this.places.areaOfTable(table.name);
    this.tables.push(table);
    table.columns.forEach(({ header, reads, choices, formula }, i) => {
      const column = left + i;
      this.head({ row: top, column }, header, formula === undefined ? 'typedHead' : 'resultHead', reads);
      if (choices !== undefined) {
        this.validations.push({ area: { top: top + 1, left: column, bottom, right: column }, choices });
      }
    });
    const typed = table.columns.filter(({ formula }) => formula === undefined).length;
    table.rows.forEach((row, i) => {
      if (row.length !== typed) {
        throw new Error(`${table.name}, row ${i + 1}: ${typed} values needed, got ${row.length}`);
      }
      const values = [...row];
      table.columns.forEach(({ reads, choices, formula }, j) => {
        const place = { row: top + 1 + i, column: left + j };
        if (formula === undefined) {
          const value = this.constant(values.shift()!, reads, addressOf(place));
          this.put(place, { role: 'typed', reads, value });
          // The button of the list lies over the end of the cell.
          if (choices !== undefined) this.need(place.column, widthOf(value, reads) + BUTTON_WIDTH);
        } else {
          const value = this.places.results(this.sheet.name, addressOf(place))?.[0]?.[0] ?? null;
          this.put(place, { role: 'result', reads, value, calculated: true, formula });
        }
      });
    });
  }

  private result(
    at: string,
    formula: string,
    reads: readonly Reads[],
    {
      headed = false,
      growth = 0,
      rows = Infinity,
      spills = false,
    }: Omit<Formula, 'kind' | 'at' | 'formula' | 'reads'>,
  ): void {
    const { row: top, column: left } = placeAt(at);
    const known = this.places.results(this.sheet.name, at);
    const block = known ?? [reads.map(() => null)];
    const across = block[0]!.map((_, j) => reads[j] ?? reads.at(-1)!);
    if (!known) across.forEach((each, j) => this.need(left + j, widthOf(0, each)));
    block.forEach((cells, i) => {
      cells.forEach((value, j) => {
        const place = { row: top + i, column: left + j };
        const result = {
          calculated: true,
          ...(i === 0 && j === 0 && { formula, ...(spills && { spills }) }),
        };
        if (headed && i === 0) {
          this.head(place, value, 'resultHead', across[j]!, result);
        } else {
          this.put(place, { role: 'result', reads: across[j]!, value, ...result });
        }
      });
    });
    for (let row = top + block.length; row < top + Math.min(block.length + growth, rows); row++) {
      across.forEach((each, j) =>
        this.put({ row, column: left + j }, { role: 'room', reads: each, value: null }),
      );
    }
  }

  private label({ row, column }: Place, label: string, remark: string | undefined): void {
    this.put({ row, column }, { role: 'label', reads: 'text', value: label });
    if (remark !== undefined) {
      this.put({ row, column: column + 2 }, { role: 'aside', reads: 'text', value: remark });
    }
  }

  private head(place: Place, header: Cell, role: Role, reads: Reads, result: Partial<PageCell> = {}): void {
    this.put(place, { role, reads, value: header, ...result });
    if (typeof header !== 'string') return;
    const { width, lines } = headerSize(header);
    this.need(place.column, width + 3);
    if (lines > 1) this.tallRows.add(place.row);
  }

  private put(place: Place, cell: PageCell): void {
    const row = this.cells.get(place.row) ?? new Map<number, PageCell>();
    if (row.has(place.column)) {
      throw new Error(`${this.sheet.name}!${addressOf(place)}: one thing in a cell needed, got two`);
    }
    row.set(place.column, cell);
    this.cells.set(place.row, row);
    if (['label', 'typed', 'result', 'input'].includes(cell.role)) {
      this.need(place.column, widthOf(cell.value, cell.reads));
    }
  }

  /** Makes room for what a cell holds, within reason. */
  private need(column: number, width: number): void {
    this.widen(column, Math.min(MOST_WIDTH, width));
  }

  private widen(column: number, width: number): void {
    this.needed.set(column, Math.max(this.needed.get(column) ?? 0, width));
  }

  private constant(typed: Typed, reads: Reads, address: string): Cell {
    if (typed !== null && typeof typed === 'object') return typed.asTyped;
    if (typeof typed !== 'string' || (reads !== 'date' && reads !== 'dateTime')) return typed;
    const read = /^(\d{4})-(\d\d)-(\d\d)(?: (\d\d):(\d\d))?$/.exec(typed);
    if (!read)
      throw new Error(`${this.sheet.name}!${address}: a date such as 2026-03-01 needed, got ${typed}`);
    const [year, month, day, hour, minute] = read.slice(1).map((digits) => Number(digits ?? 0));
    return serialOf(year!, month!, day!, this.places.dateSystem) + (hour! * 60 + minute!) / 1440;
  }
}

/** The page of a sheet. @throws Error that names sheet and cell where two things meet or a value does not fit. */
export function layOut(sheet: Sheet, places: Places): Page {
  const builder = new PageBuilder(sheet, places);
  const widths = builder.widths();
  for (const [letters, width] of Object.entries(sheet.widths ?? {})) {
    const column = areaAt(`${letters}1`).left;
    while (widths.length <= column) widths.push(GAP_WIDTH);
    widths[column] = width;
  }
  const { cells, tables, charts, validations, names, tallRows } = builder;
  return { sheet, cells, tables, charts, validations, names, tallRows, widths };
}

/** Cells below each other that look alike. */
export interface Run {
  readonly area: Area;
  readonly cells: readonly PageCell[];
}

/** The cells of a page in as few runs as they make, for hosts that write ranges rather than cells. */
export function runsOf({ cells }: Page): readonly Run[] {
  const runs: { area: Area; cells: PageCell[] }[] = [];
  const open = new Map<number, (typeof runs)[number]>();
  for (const [row, inRow] of [...cells].sort(([a], [b]) => a - b)) {
    for (const [column, cell] of inRow) {
      const run = open.get(column);
      const [first] = run?.cells ?? [];
      if (run?.area.bottom === row - 1 && first!.role === cell.role && first!.reads === cell.reads) {
        run.area = { ...run.area, bottom: row };
        run.cells.push(cell);
      } else {
        const begun = { area: { top: row, left: column, bottom: row, right: column }, cells: [cell] };
        open.set(column, begun);
        runs.push(begun);
      }
    }
  }
  return runs;
}

/** Where a header breaks best: the width of its longer half and the number of lines. */
function headerSize(header: string): { width: number; lines: number } {
  const words = header.split(' ');
  if (header.length <= 12 || words.length === 1) return { width: header.length * 1.1, lines: 1 };
  const halves = words.slice(1).map((_, i) => {
    const first = words.slice(0, i + 1).join(' ').length;
    return Math.max(first, header.length - first - 1);
  });
  return { width: Math.min(...halves) * 1.15, lines: 2 };
}

const widthOf = (value: Cell, reads: Reads): number => shownLength(value, reads) * 1.1 + 2;

function shownLength(value: Cell, reads: Reads): number {
  if (value === null) return 0;
  if (isCellError(value)) return value.code.length;
  if (typeof value !== 'number') return String(value).length;
  if (reads === 'date') return 10;
  if (reads === 'dateTime') return 16;
  if (reads === 'percent') return (100 * value).toFixed(1).length + 1;
  if (reads === 'text') return Math.min(12, String(value).length);
  const whole = Math.trunc(value).toString().length;
  return whole + Math.floor((whole - 1) / 3) + 3;
}
