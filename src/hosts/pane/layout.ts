import { parseStructRef, stringifyStructRef, stringifyTokens, tokenize } from '@borgar/fx';
import type { Cell } from '../../worksheet/cells/cell';
import { addressOf, fixedRangeOf, rangeOf } from '../xlsx/address';
import type { OfferedList, Written } from './book';

/** A column of a starter's table. */
export interface PlannedColumn {
  readonly header: string;
  readonly numberFormat?: string;
  /** Words a cell may hold, offered as a list. */
  readonly list?: readonly string[];
  /** A column of another starter's table whose values are offered as a list: `Strains[strain]`. */
  readonly listFrom?: string;
}

/** One spilled call to the right of the table. */
export interface PlannedFormula {
  readonly header: string;
  readonly formula: string;
  readonly numberFormat?: string;
  /** The columns that the answer fills, where it is more than one. */
  readonly spans?: readonly string[];
  /** The answer brings its own header row. */
  readonly headed?: boolean;
}

/** A sheet to be laid down: a table to fill in, calls beside it, a chart where one helps. */
export interface SheetPlan {
  readonly name: string;
  readonly title: string;
  readonly note: string;
  readonly table: {
    readonly name: string;
    readonly columns: readonly PlannedColumn[];
    readonly rows: readonly (readonly Cell[])[];
  };
  readonly formulas: readonly PlannedFormula[];
  /** Columns over days, drawn from the formula headed `of`, with a line for a limit. */
  readonly chart?: {
    readonly title: string;
    readonly of: string;
    readonly rows: number;
    readonly limit: number;
  };
}

/** A chart of a layout: columns over days, and a line that they are held against. */
export interface PlacedChart {
  readonly title: string;
  /** The cells it lies over. */
  readonly over: string;
  readonly days: string;
  readonly columns: { readonly title: string; readonly values: string };
  readonly line: { readonly title: string; readonly values: string };
}

/** A sheet plan with every place settled: what a host has to put where on an empty sheet. */
export interface Layout {
  readonly writes: readonly { readonly address: string; readonly cells: readonly (readonly Written[])[] }[];
  readonly title: string;
  readonly headers: readonly string[];
  readonly table: { readonly name: string; readonly range: string; readonly columns: readonly string[] };
  readonly formats: readonly { readonly range: string; readonly numberFormat: string }[];
  readonly lists: readonly OfferedList[];
  readonly chart?: PlacedChart;
}

/** The table's header row, counted from 0: title and note stand above it. */
const HEADER_ROW = 3;
/** How far down a column of answers is formatted, for rows to come. */
const FORMATTED_ROWS = 500;
/** How high a chart is. */
const CHART_ROWS = 17;

/** The formula with references to one table made to another: `Lots[strain]` to `Lots2[strain]`. */
export function withTableRenamed(formula: string, from: string, to: string): string {
  const tokens = tokenize(formula).map((token) => {
    if (token.type !== 'structured') return token;
    const reference = parseStructRef(token.value);
    return reference?.table === from
      ? { ...token, value: stringifyStructRef({ ...reference, table: to }) }
      : token;
  });
  return stringifyTokens(tokens);
}

/** Names of the tables that a plan's calls refer to, its own left out. */
export function tablesWanted({ table, formulas }: SheetPlan): readonly string[] {
  const named = formulas.flatMap(({ formula }) =>
    tokenize(formula).flatMap(({ type, value }) =>
      type === 'structured' ? [parseStructRef(value)?.table ?? table.name] : [],
    ),
  );
  return [...new Set(named)].filter((name) => name !== table.name);
}

/** The name, or the name and the first number that makes it new; case does not count. */
export function freeName(name: string, taken: readonly string[]): string {
  const others = new Set(taken.map((one) => one.toLowerCase()));
  let free = name;
  for (let n = 2; others.has(free.toLowerCase()); n++) free = `${name}${n}`;
  return free;
}

/** Where everything of a plan goes. `tableName` is the name the table can have in this workbook. */
export function layOut(plan: SheetPlan, tableName = plan.table.name): Layout {
  const { columns, rows } = plan.table;
  const lastRow = HEADER_ROW + rows.length;
  const at = (row: number, column: number): string => addressOf({ row, column });
  const down = (column: number, from: number, to: number): string =>
    rangeOf({ top: from, left: column, bottom: to, right: column });
  const writes: Layout['writes'][number][] = [
    { address: at(0, 0), cells: [[{ constant: plan.title }]] },
    { address: at(1, 0), cells: [[{ constant: plan.note }]] },
    {
      address: at(HEADER_ROW, 0),
      cells: [
        columns.map(({ header }) => ({ constant: header })),
        ...rows.map((row) => row.map((constant) => ({ constant }))),
      ],
    },
  ];
  const formats: Layout['formats'][number][] = columns.flatMap(({ numberFormat }, column) =>
    numberFormat === undefined ? [] : [{ range: down(column, HEADER_ROW + 1, lastRow), numberFormat }],
  );
  const lists = columns.flatMap(({ list, listFrom }, column): Layout['lists'] => {
    const range = down(column, HEADER_ROW + 1, lastRow);
    if (list) return [{ range, from: { words: list } }];
    return listFrom === undefined ? [] : [{ range, from: { column: listFrom } }];
  });
  const headers: string[] = [];
  let chart: Layout['chart'];
  let left = columns.length + 1;
  for (const planned of plan.formulas) {
    const spans = planned.spans ?? [planned.header];
    const formula = withTableRenamed(planned.formula, plan.table.name, tableName);
    headers.push(rangeOf({ top: HEADER_ROW, left, bottom: HEADER_ROW, right: left + spans.length - 1 }));
    if (!planned.headed) {
      writes.push({ address: at(HEADER_ROW, left), cells: [spans.map((constant) => ({ constant }))] });
    }
    writes.push({ address: at(HEADER_ROW + (planned.headed ? 0 : 1), left), cells: [[{ formula }]] });
    if (planned.numberFormat !== undefined) {
      const first = left + (planned.headed ? 1 : 0);
      formats.push({
        range: rangeOf({
          top: HEADER_ROW + 1,
          left: first,
          bottom: HEADER_ROW + FORMATTED_ROWS,
          right: left + spans.length - 1,
        }),
        numberFormat: planned.numberFormat,
      });
    }
    if (spans[0] === 'date') {
      formats.push({
        range: down(left, HEADER_ROW + 1, HEADER_ROW + FORMATTED_ROWS),
        numberFormat: 'yyyy-mm-dd',
      });
    }
    if (plan.chart?.of === planned.header) {
      const { rows: days, limit, title } = plan.chart;
      const limitColumn = left + spans.length;
      const first = { top: HEADER_ROW + 1, left: limitColumn, bottom: HEADER_ROW + 1, right: limitColumn };
      // The limit is typed once, in the first row; the rows below refer to it.
      writes.push({
        address: at(HEADER_ROW, limitColumn),
        cells: [
          [{ constant: 'limit' }],
          [{ constant: limit }],
          ...Array.from({ length: days - 1 }, () => [{ formula: `=${fixedRangeOf(first)}` }]),
        ],
      });
      headers.push(at(HEADER_ROW, limitColumn));
      const charted = (column: number): string => down(column, HEADER_ROW + 1, HEADER_ROW + days);
      chart = {
        title,
        over: rangeOf({
          top: lastRow + 3,
          left: 0,
          bottom: lastRow + 2 + CHART_ROWS,
          right: columns.length - 1,
        }),
        days: charted(left),
        columns: { title: planned.header, values: charted(limitColumn - 1) },
        line: { title: 'limit', values: charted(limitColumn) },
      };
      left++;
    }
    left += spans.length + 1;
  }
  return {
    writes,
    title: at(0, 0),
    headers,
    table: {
      name: tableName,
      range: rangeOf({ top: HEADER_ROW, left: 0, bottom: lastRow, right: columns.length - 1 }),
      columns: columns.map(({ header }) => header),
    },
    formats,
    lists,
    ...(chart ? { chart } : {}),
  };
}
