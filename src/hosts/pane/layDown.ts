import { parseStructRef, stringifyStructRef, stringifyTokens, tokenize } from '@borgar/fx';
import type { Cell } from '../../worksheet/cells/cell';
import { cellAt, textOf, type GrowersBook } from '../fit/book';
import type { Column, PlainSheet, SheetTable, Thing, Typed } from '../xlsx/describe';
import { freeName, type Book } from './book';
import { STARTERS, startersIn } from './starters';
import type { Units } from './units';

// Starter sheets in a workbook that has sheets and tables of its own. A starter reads the tables that starters laid down
// before it, and never the grower's own of the same name: those have other columns, or rows that a starter cannot read.

/** A table of the workbook: what each of its columns holds, by header. */
type Held = ReadonlyMap<string, readonly Cell[]>;

/** What a starter finds in the workbook. */
export interface Found {
  /** Names that a new table cannot have. */
  readonly taken: readonly string[];
  /** The name in the workbook of each table that a starter refers to, by the name that the starter has for it. */
  readonly names: ReadonlyMap<string, string>;
  /** The tables of the workbook by their names. */
  readonly held: ReadonlyMap<string, Held>;
}

const isTable = (thing: Thing): thing is SheetTable => thing.kind === 'table';
const tablesOf = ({ things }: PlainSheet): SheetTable[] => things.filter(isTable);

/** The thing with each of its formulas changed. */
function withFormulas(thing: Thing, change: (formula: string) => string): Thing {
  switch (thing.kind) {
    case 'formula':
      return { ...thing, formula: change(thing.formula) };
    case 'figures':
      return { ...thing, figures: thing.figures.map((one) => ({ ...one, formula: change(one.formula) })) };
    case 'table':
      return {
        ...thing,
        columns: thing.columns.map((one) =>
          one.formula === undefined ? one : { ...one, formula: change(one.formula) },
        ),
      };
    case 'inputs':
    case 'words':
    case 'chart':
      return thing;
  }
}

/** The formula with its references to tables under other names: `Lots[strain]` as `Lots2[strain]`. */
export function withTablesRenamed(formula: string, names: ReadonlyMap<string, string>): string {
  const tokens = tokenize(formula).map((token) => {
    if (token.type !== 'structured') return token;
    const reference = parseStructRef(token.value);
    const to = names.get(reference?.table ?? '');
    return to === undefined ? token : { ...token, value: stringifyStructRef({ ...reference, table: to }) };
  });
  return stringifyTokens(tokens);
}

/** Names of the tables that a sheet's formulas refer to, its own left out. */
function tablesWanted(sheet: PlainSheet): ReadonlySet<string> {
  const named = new Set<string>();
  const note = (formula: string): string => {
    for (const { type, value } of tokenize(formula)) {
      const wanted = type === 'structured' ? parseStructRef(value)?.table : undefined;
      if (wanted !== undefined) named.add(wanted);
    }
    return formula;
  };
  sheet.things.forEach((thing) => withFormulas(thing, note));
  for (const { name } of tablesOf(sheet)) named.delete(name);
  return named;
}

/** The sheets to lay down so that `sheet` finds every table its formulas refer to, that sheet last. */
function withWhatItNeeds(
  sheet: PlainSheet,
  found: ReadonlyMap<string, string>,
  starters: readonly PlainSheet[],
): readonly PlainSheet[] {
  const wanted = tablesWanted(sheet);
  const missing = starters.filter((other) =>
    tablesOf(other).some(({ name }) => wanted.has(name) && !found.has(name)),
  );
  return [...new Set([...missing.flatMap((other) => withWhatItNeeds(other, found, starters)), sheet])];
}

/** The tables of a workbook. */
function heldIn({ sheets, tables }: GrowersBook): ReadonlyMap<string, Held> {
  return new Map(
    tables.map(({ name, sheet, area: { top, left, bottom, right } }) => {
      const cells = sheets.find((one) => one.name === sheet)!;
      const columns = Array.from({ length: right - left + 1 }, (_, i): [string, readonly Cell[]] => [
        textOf(cellAt(cells, top, left + i)),
        Array.from({ length: bottom - top }, (__, row) => cellAt(cells, top + 1 + row, left + i)),
      ]);
      return [name, new Map(columns)];
    }),
  );
}

/** The tables that these starters have laid down before, by the name that a starter has for each. */
function laidDown(
  held: ReadonlyMap<string, Held>,
  starters: readonly PlainSheet[],
): ReadonlyMap<string, string> {
  return new Map(
    starters.flatMap(tablesOf).flatMap(({ name, columns }): [string, string][] => {
      const numbered = new RegExp(`^${name}\\d*$`, 'i');
      const own = [...held].find(
        ([one, headers]) => numbered.test(one) && columns.every(({ header }) => headers.has(header)),
      );
      return own ? [[name, own[0]]] : [];
    }),
  );
}

const TABLE_COLUMN = /^(\w+)\[(.+)\]$/;

/** The sheet as it fits a workbook: its tables under names that are free, its formulas and lists with the tables found. */
export function fitted(sheet: PlainSheet, { taken, names, held }: Found): PlainSheet {
  const own = tablesOf(sheet).map(({ name }): [string, string] => [name, freeName(name, taken)]);
  const all = new Map([...names, ...own]);
  /** What a list offers, and the labels in it; undefined where the table is not there. */
  const offered = (choices: string): { choices: string; labels: readonly Cell[] | undefined } | undefined => {
    const [, table, header] = TABLE_COLUMN.exec(choices)!;
    const name = all.get(table!);
    return name === undefined
      ? undefined
      : { choices: `${name}[${header!}]`, labels: held.get(name)?.get(header!) };
  };
  const column = (one: Column): Column => {
    const { choices, ...rest } = one;
    if (typeof choices !== 'string') return one;
    const list = offered(choices);
    return list ? { ...rest, choices: list.choices } : rest;
  };
  /** Invented rows are no use beside labels that are not theirs: the grower fills in the first one. */
  const rows = ({ columns, rows: invented }: SheetTable): SheetTable['rows'] => {
    const fits = columns.every(({ choices }, i) => {
      const labels = typeof choices === 'string' ? offered(choices)?.labels : undefined;
      return labels === undefined || invented.every((row) => labels.includes(row[i] as Cell));
    });
    return fits ? invented : [columns.map((): Typed => null)];
  };
  const things = sheet.things.map((thing): Thing => {
    const one = withFormulas(thing, (formula) => withTablesRenamed(formula, all));
    if (!isTable(one)) return one;
    return { ...one, name: all.get(one.name)!, columns: one.columns.map(column), rows: rows(one) };
  });
  return { ...sheet, things };
}

/** What became of laying a starter down. */
export interface LaidDown {
  /** Names of the new sheets, the starter's own last. */
  readonly sheets: readonly string[];
  /** The grower's own tables whose names the starter's tables would have had, and the names that those have now. */
  readonly beside: readonly (readonly [own: string, new: string])[];
}

/** Lays a starter down, after the starters its calls refer to. */
export async function layDownStarter(name: string, book: Book, units: Units = 'metric'): Promise<LaidDown> {
  const held = new Map(heldIn(await book.everything()));
  const taken = [...(await book.takenNames())];
  const starters = inUnitOf(held, units, name);
  const names = new Map(laidDown(held, starters));
  const sheet = starters.find((one) => one.name === name)!;
  const sheets: string[] = [];
  const beside: [string, string][] = [];
  for (const wanted of withWhatItNeeds(sheet, names, starters)) {
    const asIs = tablesOf(wanted);
    const laid = fitted(wanted, { taken, names, held });
    tablesOf(laid).forEach(({ name: own, columns, rows }, i) => {
      const { name: usual } = asIs[i]!;
      if (own !== usual && !names.has(usual)) beside.push([usual, own]);
      taken.push(own);
      names.set(usual, own);
      held.set(own, new Map(columns.map(({ header }, at) => [header, rows.map((row) => row[at] as Cell)])));
    });
    sheets.push(await book.layDown(laid));
  }
  return { sheets, beside };
}

/** The starters in a unit, or in the other one where more of the tables that they refer to are in that. */
function inUnitOf(held: ReadonlyMap<string, Held>, units: Units, name: string): readonly PlainSheet[] {
  const [asked, other] = [units, units === 'us' ? 'metric' : 'us'] as const;
  const wanted = withWhatItNeeds(
    STARTERS.find((one) => one.name === name)!,
    new Map(),
    STARTERS,
  );
  const found = (starters: readonly PlainSheet[]): number =>
    laidDown(
      held,
      starters.filter((one) => one.name !== name && wanted.some((other) => other.name === one.name)),
    ).size;
  const [inAsked, inOther] = [startersIn(asked), startersIn(other)];
  return found(inOther) > found(inAsked) ? inOther : inAsked;
}
