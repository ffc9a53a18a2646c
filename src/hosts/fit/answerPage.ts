import type { Cell, Grid } from '../../worksheet/cells/cell';
import { typedCell } from '../../worksheet/cells/shown';
import { PREFIX } from '../../worksheet/constants';
import { figures, formula, inputs, type Reads, type Thing } from '../xlsx/describe';
import { looksOf, type AnswerTable } from './answerTables';
import { figureOf } from './answered';
import type { Answer } from './answers';
import type { Fit } from './fitted';
import type { TableName } from './jobs';
import { ReadSheet } from './readSheet';
import type { Referred } from './referred';

/** A call of an answer: the formula, and what it is given now. */
export interface AnswerCall {
  readonly address: string;
  /** As the grower would type it. */
  readonly formula: string;
  readonly name: string;
  readonly grids: readonly (Grid | null)[];
}

/** What the sheets are written into. */
export interface Surroundings {
  /** Names that the workbook has already. */
  readonly sheets: readonly string[];
  readonly tables: readonly string[];
  /** Today's serial. */
  readonly today: number;
  /** The headers that each call's answer has now, where they are known: columns depend on the data. */
  readonly headers?: readonly (readonly string[] | undefined)[];
}

/** What a call is given: as its formula says it, and the cells that it then reads. */
export interface Given {
  readonly text: string;
  readonly grid: Grid | null;
}

export const LEFT_OUT: Given = { text: '', grid: null };

export const cell = (text: string, value: Cell): Given => ({ text, grid: [[value]] });

export const word = (value: string): Given => ({ text: `"${value}"`, grid: [[value]] });

/** Rows below an answer kept in its format. */
const GROWTH = 300;

const WRITTEN_DAY = /^\d{4}-\d\d-\d\d$/;

/** The day that the grower said to count from. */
function saidDay({ answers }: Fit): string | undefined {
  const said = answers.figures?.['today'];
  return typeof said === 'string' && WRITTEN_DAY.test(said) ? said : undefined;
}

export function firstSerial(fit: Fit, { today }: Surroundings): number {
  const said = saidDay(fit);
  const typed = said === undefined ? today : typedCell(said, fit.book.dateSystem);
  return typeof typed === 'number' ? typed : today;
}

/** The sheet of an answer as it is laid out. */
export class AnswerPage {
  readonly things: Thing[] = [];
  readonly calls: AnswerCall[] = [];

  constructor(
    readonly fit: Fit,
    readonly read: ReadSheet,
    private readonly around: Surroundings,
  ) {}

  add(...things: readonly Thing[]): void {
    this.things.push(...things);
  }

  /** A table of the job as a call is given it. */
  table(name: TableName): Given {
    const { whole, grid } = this.referred(name);
    return { text: whole, grid };
  }

  referred(name: TableName): Referred {
    return this.read.referred.get(name)!;
  }

  /** Whether a column of the grower's is read for a table. */
  reads(name: TableName, column: string): boolean {
    return this.fit.tables.get(name)?.readings.some((one) => one.name === column) ?? true;
  }

  /** A call of Pinset whose answer is a table with headers of its own; gives the number of its columns. */
  call(at: string, name: string, given: readonly Given[], table: AnswerTable): number {
    const formulaText = `=${PREFIX}${name}(${given.map(({ text }) => text).join(',')})`;
    const { reads, widths } = looksOf(table, this.around.headers?.[this.calls.length]);
    this.calls.push({ address: at, formula: formulaText, name, grids: given.map(({ grid }) => grid) });
    this.add(formula(at, formulaText, reads, { headed: true, growth: GROWTH, widths }));
    return reads.length;
  }

  /** The day from which the job counts, in B3: today's, or the one that was said. */
  firstDay(label: string): Given {
    const said = saidDay(this.fit);
    if (said !== undefined) {
      this.add(inputs('A3', { label, value: said, reads: 'date' }));
      return cell('B3', typedCell(said, this.fit.book.dateSystem));
    }
    this.add(figures('A3', { label, formula: '=TODAY()', reads: 'date', remark: 'or type any day' }));
    return cell('B3', this.around.today);
  }

  /** A figure of the job in a cell of its own: the one that was said, or the usual one. */
  figure(at: string, label: string, usual: Answer, reads: Reads, name = label): Given {
    const value = figureOf(this.fit.answers.figures?.[name] ?? usual, reads === 'percent');
    this.add(inputs(at, { label, value, reads }));
    return cell(at.replace(/^A/, 'B'), value);
  }
}
