import type { DateSystem } from './calendar';
import type { CalcError } from '../maths/shared/fault';
import type { Argument, RowValues, WholeReadable, WholeValues } from './cells/arguments';
import type { Block, Grid } from './cells/cell';
import type { Result } from './cells/results';
import type { Family } from './constants';
import type { ToolName, Tools } from './tools';

/** How far a call that takes long has come: so many steps, and of how many where that is known. */
export interface Progress {
  readonly done: number;
  readonly of?: number;
}

/** What a calculation may need to know beyond its arguments. */
export interface Context<N extends ToolName = never> {
  readonly dateSystem: DateSystem;
  /** What the definition says it needs. */
  readonly tools: Pick<Tools, N>;
  /** For each entry of the column arguments, its row in the range given (from 1). Only in calls for whole columns. */
  readonly rowNumbers: readonly number[];
  /** Whether each argument is a column that was given as one cell for all rows. Only in calls for whole columns. */
  readonly isSingle: readonly boolean[];
  /** Told meanwhile by a call that takes long, where the host shows it. */
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

interface Properties<A extends readonly Argument[], N extends ToolName, O> {
  /** Letters only, three or more; never renamed. */
  readonly name: string;
  readonly family: Family;
  readonly arguments: A;
  readonly result: Result<O>;
  /** What the calculation cannot do without; the boundary loads it and hands it in. */
  readonly needs?: readonly N[];
  /** Set where a call may take seconds: a host works it out aside, lets it be cancelled and does not preview it. */
  readonly takesLong?: true;
  /** Set where an answer holds a weekday or a written date: a host then finds out what the workbook counts from. */
  readonly needsDateSystem?: true;
}

type Calculation<A extends readonly Argument[], N extends ToolName, O> =
  | {
      /** Called once per row with plain values. */
      readonly eachRow: (...values: [...RowValues<A>, Context<N>]) => O;
      /**
       * Called before with the columns of a call of several rows: the faults of rows that do not go together, by their
       * place. A cell that cannot be read is undefined there.
       */
      readonly atOdds?: (...values: WholeReadable<A>) => ReadonlyMap<number, CalcError>;
    }
  | {
      /** Called once, columns as arrays of equal length; gives one answer per entry, set beside its row. */
      readonly beside: (...values: [...WholeValues<A>, Context<N>]) => readonly O[];
    }
  | {
      /** Called once, columns as arrays of equal length; gives the whole result. */
      readonly whole: (...values: [...WholeValues<A>, Context<N>]) => O;
    };

export type Definition<A extends readonly Argument[], N extends ToolName, O> = Properties<A, N, O> &
  Calculation<A, N, O>;

/** What a call is worked out with. */
export interface Setting {
  readonly dateSystem?: DateSystem;
  readonly tools?: Partial<Tools>;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** A worksheet function as hosts and tests see it, without its words. */
export interface WorksheetFunction extends Properties<readonly Argument[], ToolName, unknown> {
  readonly needs: readonly ToolName[];
  /** Whether it answers row by row, or once for whole columns: beside each row, or with one result. */
  readonly calculates: 'eachRow' | 'beside' | 'whole';
  /**
   * The result for the given arguments; null or undefined is one left out. Never throws for what cells hold: a
   * fault is an error cell, in its own row where it concerns one row. Inputs are not changed. `setting.tools` must hold
   * what the function needs. Hosts use `call.ts`, which sees to that.
   */
  readonly evaluate: (given: readonly (Grid | null | undefined)[], setting?: Setting) => Block;
}
