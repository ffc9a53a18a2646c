/**
 * The words in which a sheet is described, be it of a sample workbook or a starter. A sheet is a list of things, each
 * with the cell where its top left corner goes; two things in one cell are refused, a spilled result included.
 *
 * Formulas are what a grower would type in Excel: `=PINSET.READYDATE(Lots[Inoculated], Lots[Strain], Strains[#All])`,
 * `=COUNTIF(K8#, "<="&Today)`. Their results are not written here: whatever prints the sheet calculates them.
 */

/** How the cells read. Units stand in the header: `Block mass (kg)`. `{code}` is a number format of your own. */
export type Reads =
  | 'text'
  | 'number'
  | 'count'
  | 'mass'
  | 'money'
  | 'percent'
  | 'date'
  | 'dateTime'
  | 'days'
  | 'temperature'
  | { readonly code: string };

/** What a cell is typed with. In a `date` or `dateTime` column a date is written `2026-03-01` or `2026-03-01 14:30`. */
export type Typed = number | string | boolean | null | AsTyped;

/** Text that stays text in a column of dates or numbers: for the mistakes a sheet shows on purpose. */
export interface AsTyped {
  readonly asTyped: string;
}

export const asTyped = (text: string): AsTyped => ({ asTyped: text });

/**
 * What may be chosen in a cell: words, the column of a table (`Strains[Strain]`) or cells of the same sheet (`A5:A8`).
 * Anything else can still be typed, after a warning.
 */
export type Choices = readonly string[] | string;

export interface Column {
  readonly header: string;
  readonly reads: Reads;
  readonly choices?: Choices;
  /** For a column calculated row by row with the sheet's own functions: `=SUMIFS(Picks[Mass (kg)], Picks[Lot], [@Lot])`. */
  readonly formula?: string;
}

export const column = (header: string, reads: Reads = 'text', choices?: Choices): Column => ({
  header,
  reads,
  ...(choices === undefined ? {} : { choices }),
});

export const calculatedColumn = (header: string, reads: Reads, formula: string): Column => ({
  header,
  reads,
  formula,
});

/** A worksheet table: its name is what formulas call it. Calculated columns take no value in `rows`. */
export interface SheetTable {
  readonly kind: 'table';
  readonly at: string;
  readonly name: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Typed[])[];
}

export const table = (
  at: string,
  name: string,
  columns: readonly Column[],
  rows: readonly (readonly Typed[])[],
): SheetTable => ({ kind: 'table', at, name, columns, rows });

export interface Input {
  readonly label: string;
  readonly value: Typed;
  readonly reads: Reads;
  /** A name for the cell, so that formulas read `Today` and not `Start!$B$6`. */
  readonly name?: string;
  readonly choices?: Choices;
  /** A few words to the right of the cell. */
  readonly remark?: string;
}

/** Cells to type in, one a row: label, cell, remark. */
export interface Inputs {
  readonly kind: 'inputs';
  readonly at: string;
  readonly inputs: readonly Input[];
}

export const inputs = (at: string, ...list: readonly Input[]): Inputs => ({
  kind: 'inputs',
  at,
  inputs: list,
});

export interface Figure {
  readonly label: string;
  readonly formula: string;
  readonly reads: Reads;
  readonly remark?: string;
}

/** Single results, one a row: label, result, remark. */
export interface Figures {
  readonly kind: 'figures';
  readonly at: string;
  readonly figures: readonly Figure[];
}

export const figures = (at: string, ...list: readonly Figure[]): Figures => ({
  kind: 'figures',
  at,
  figures: list,
});

/** One formula, whose result may spill down and to the right. */
export interface Formula {
  readonly kind: 'formula';
  /** The cell of the formula itself. */
  readonly at: string;
  readonly formula: string;
  /** How the result reads, column by column; the last one holds for the columns after it. */
  readonly reads: readonly Reads[];
  /** Headers put in the cells above, for a result that brings none. */
  readonly headers?: readonly string[];
  /** The result's first row is a header row: it comes out as one. */
  readonly headed?: boolean;
  /** The result may be more than one cell though none of its functions alone says so: `=IF(A2:A9="","",B2:B9)`. */
  readonly spills?: boolean;
  /** Rows below the present result kept in the same format, for results that grow. */
  readonly growth?: number;
  /** Rows that the result never exceeds: no format is kept below them. */
  readonly rows?: number;
  /** Widths in characters, column by column, for words that are not known before the sheet is calculated. */
  readonly widths?: readonly number[];
}

type FormulaOptions = Pick<Formula, 'headers' | 'headed' | 'spills' | 'growth' | 'rows' | 'widths'>;

export const formula = (
  at: string,
  text: string,
  reads: Reads | readonly Reads[],
  options: FormulaOptions = {},
): Formula => ({
  kind: 'formula',
  at,
  formula: text,
  reads: Array.isArray(reads) ? (reads as readonly Reads[]) : [reads as Reads],
  ...options,
});

/** Words in a cell, running on over empty cells to the right: a heading, or lines of remark. */
export interface Words {
  readonly kind: 'words';
  readonly at: string;
  readonly role: 'heading' | 'remark';
  readonly lines: readonly string[];
}

export const heading = (at: string, words: string): Words => ({
  kind: 'words',
  at,
  role: 'heading',
  lines: [words],
});
export const remark = (at: string, ...lines: readonly string[]): Words => ({
  kind: 'words',
  at,
  role: 'remark',
  lines,
});

/**
 * Cells a chart draws. A range of a sheet is `Picks!B8:B20`, or `B8:B20` of its own; a table's column is
 * `Picks[Mass (kg)]`. A column of a spilled result, without its header row, is `spilled('F8', 2)`.
 */
export type Source = string | Spilled;

export interface Spilled {
  /** The cell of the formula, on the chart's sheet. */
  readonly spillOf: string;
  /** Which column of the result, from 1. */
  readonly column: number;
}

export const spilled = (at: string, columnNumber = 1): Spilled => ({ spillOf: at, column: columnNumber });

export interface Series {
  readonly title: string;
  readonly values: Source;
}

/** How far the whiskers of each point of a chart's first series reach, never below 0. */
export interface Whiskers {
  readonly down: Source;
  readonly up: Source;
  /** They are stems that mark points; points without one are as they should be. */
  readonly mark?: boolean;
}

/**
 * `stacked` is columns on top of each other, `dots` are points without a line. A limit is a dashed line; over columns it
 * is a step over each.
 */
export interface Chart {
  readonly kind: 'chart';
  /** The cells it covers: `F3:M20`. */
  readonly over: string;
  readonly type: 'line' | 'column' | 'stacked' | 'scatter' | 'dots';
  readonly title: string;
  /** What it shows and how to read it, for those who cannot see it. */
  readonly says: string;
  readonly across: Source;
  readonly series: readonly Series[];
  /** What the points should lie about, as a thin whole line. */
  readonly centre?: Series;
  readonly limits?: readonly Series[];
  readonly whiskers?: Whiskers;
  readonly acrossTitle?: string;
  readonly upTitle?: string;
  /** How the values up the side and along the bottom read. */
  readonly upReads?: Reads;
  readonly acrossReads?: Reads;
}

export const chart = (
  over: string,
  type: Chart['type'],
  title: string,
  rest: Omit<Chart, 'kind' | 'over' | 'type' | 'title'>,
): Chart => ({ kind: 'chart', over, type, title, ...rest });

export type Thing = SheetTable | Inputs | Figures | Formula | Words | Chart;

/** Tints cells for which a formula, written for the first cell of the range, is true: `=$K8<Today`. */
export interface Highlight {
  readonly range: string;
  readonly when: string;
  readonly tint: 'good' | 'soon' | 'late' | 'quiet';
}

/** Results that are errors on purpose: the cells, the code, and words their reason holds. */
export interface Fault {
  readonly cells: string;
  readonly code: '#VALUE!' | '#N/A' | '#DIV/0!' | '#NUM!';
  readonly says: string;
}

export interface Sheet {
  readonly name: string;
  readonly title: string;
  /** Lines under the title, from A2 down. */
  readonly notes: readonly string[];
  readonly things: readonly Thing[];
  /** Widths in characters where the writer's own choice will not do: `{ A: 30 }`. */
  readonly widths?: Readonly<Record<string, number>>;
  /** Grid lines stay where a sheet is for filling on. */
  readonly gridLines?: boolean;
  /** The first cell that scrolls: rows above it and columns to its left stay. */
  readonly freeze?: string;
  /** What goes on paper where it is not the whole sheet: its columns, as many rows as they hold (`A:I`). */
  readonly prints?: string;
  /** The paper stands upright. */
  readonly upright?: boolean;
  readonly highlights?: readonly Highlight[];
  readonly faults?: readonly Fault[];
}

/** A sheet that every host can write: only files have tints, frozen rows and pages. */
export type PlainSheet = Sheet & {
  readonly freeze?: never;
  readonly prints?: never;
  readonly upright?: never;
  readonly highlights?: never;
};

export interface Workbook {
  /** File name without `.xlsx`. */
  readonly file: string;
  readonly title: string;
  readonly sheets: readonly Sheet[];
}
