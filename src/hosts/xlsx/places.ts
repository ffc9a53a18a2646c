import type { Cell } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import { areaOf, fixedRangeOf, type Area, type Place } from './address';
import type { Sheet, Source } from './describe';
import type { TableShape } from './formula';

/** The cells of `B7` or `B7:D20`. */
export function areaAt(range: string): Area {
  const area = areaOf(range);
  if (!area) throw new Error(`a range such as B7 or B7:D20 needed, got ${range}`);
  return area;
}

/** The cell `B7`. */
export function placeAt(address: string): Place {
  const { top, left } = areaAt(address);
  return { row: top, column: left };
}

/** The whole result of the formula in a cell; undefined while it is not known yet. */
export type Results = (sheet: string, address: string) => readonly (readonly Cell[])[] | undefined;

/** An area of a sheet. */
export interface SheetArea {
  readonly sheet: string;
  readonly area: Area;
}

/** What a workbook has before the sheets are added. */
interface Surroundings {
  readonly results: Results;
  readonly tables: readonly TableShape[];
  readonly dateSystem: DateSystem;
}

/** Where everything of described sheets goes, and where the tables of their workbook are. */
export class Places {
  readonly results: Results;
  readonly dateSystem: DateSystem;
  private readonly tables = new Map<string, TableShape>();

  constructor(
    sheets: readonly Sheet[],
    { results = () => undefined, tables = [], dateSystem = 1900 }: Partial<Surroundings> = {},
  ) {
    this.results = results;
    this.dateSystem = dateSystem;
    for (const table of tables) this.tables.set(table.name, table);
    for (const sheet of sheets) {
      for (const thing of sheet.things) {
        if (thing.kind !== 'table') continue;
        if (this.tables.has(thing.name)) throw new Error(`${sheet.name}: a second table named ${thing.name}`);
        const { row, column } = placeAt(thing.at);
        this.tables.set(thing.name, {
          name: thing.name,
          sheet: sheet.name,
          area: {
            top: row,
            left: column,
            bottom: row + thing.rows.length,
            right: column + thing.columns.length - 1,
          },
          headerRows: 1,
          totalsRows: 0,
          columns: thing.columns.map(({ header }) => header),
        });
      }
    }
  }

  areaOfTable(name: string): Area {
    return this.tableNamed(name).area;
  }

  /** The data cells of `Table[Column]`. */
  tableColumn(reference: string): SheetArea {
    const match = /^(\w+)\[(.+)\]$/.exec(reference);
    if (!match) throw new Error(`a table's column such as Lots[Strain] needed, got ${reference}`);
    const { name, sheet, area, headerRows, totalsRows, columns } = this.tableNamed(match[1]!);
    const at = columns.indexOf(match[2]!);
    if (at < 0) throw new Error(`${name} has no column ${match[2]!}`);
    const [top, bottom] = [area.top + headerRows, area.bottom - totalsRows];
    return { sheet, area: { top, bottom, left: area.left + at, right: area.left + at } };
  }

  /** The area the result of a formula fills now. */
  spill(sheet: Sheet, address: string): Area {
    const { row, column } = placeAt(address);
    const block = this.results(sheet.name, address);
    return {
      top: row,
      left: column,
      bottom: row + (block?.length ?? 1) - 1,
      right: column + (block?.[0]?.length ?? 1) - 1,
    };
  }

  source(sheet: Sheet, source: Source): SheetArea {
    if (typeof source !== 'string') {
      const { top, left, bottom } = this.spill(sheet, source.spillOf);
      const headed = sheet.things.some(
        (thing) => thing.kind === 'formula' && thing.at === source.spillOf && thing.headed,
      );
      const column = left + source.column - 1;
      return {
        sheet: sheet.name,
        area: { top: Math.min(bottom, top + (headed ? 1 : 0)), left: column, bottom, right: column },
      };
    }
    if (source.includes('[')) return this.tableColumn(source);
    const [range, name] = source.split('!').reverse() as [string, string | undefined];
    return { sheet: name?.replace(/^'|'$/g, '') ?? sheet.name, area: areaAt(range) };
  }

  private tableNamed(name: string): TableShape {
    const table = this.tables.get(name);
    if (!table) throw new Error(`there is no table named ${name}`);
    return table;
  }
}

/** An area as a formula refers to it: `Picks!$B$8:$B$20`. */
export function reference({ sheet, area }: SheetArea): string {
  const name = /^[A-Za-z_]\w*$/.test(sheet) ? sheet : `'${sheet.replace(/'/g, "''")}'`;
  return `${name}!${fixedRangeOf(area)}`;
}
