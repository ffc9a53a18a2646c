/** A cell of the records as it was typed: a number, text where a number should be, or nothing (0 counts as nothing). */
export type Entry = number | string | undefined;

/** A row of the harvests table. Labels are empty where the cell is blank or the column is not there. */
export interface PickRecord {
  /** Row in the table given, its header being row 1. */
  readonly row: number;
  readonly lot: string;
  readonly date: Entry;
  /** `none` is an honest 0: a crop that failed. */
  readonly mass: Entry;
  /** What was taken off for its crate, where the mass is what is left of a heavier one that was typed. */
  readonly tare?: Entry;
  readonly flush: Entry;
  /** Blocks picked from. */
  readonly blocks: Entry;
  readonly picker: string;
  readonly scale: string;
  readonly grade: string;
  readonly crate: string;
}

/** A row of the lots table. */
export interface LotRecord {
  readonly row: number;
  readonly lot: string;
  readonly strain: string;
  readonly blocks: Entry;
  readonly blockMass: Entry;
  readonly moisture: Entry;
  readonly inoculated: Entry;
  readonly loaded: Entry;
  /** Mass of the whole lot as the grower summed it. */
  readonly total: Entry;
}

/** A row of the strains table, days from load; undefined where the table does not say. */
export interface StrainFacts {
  /** Days from inoculation to ready at the earliest. */
  readonly earliest: number | undefined;
  readonly firstPick: number | undefined;
  readonly pickDays: number | undefined;
  readonly flushGap: number | undefined;
  readonly flushes: number;
  readonly efficiency: number | undefined;
}

/** The unit that masses are recorded in. */
export type MassUnit = 'kg' | 'lb' | 'g' | 'oz';

/** What is wrong. The worksheet has the words. */
export type Cause =
  | 'lot missing'
  | 'lot unknown'
  | 'lot spelling'
  | 'lot other'
  | 'lot twice'
  | 'lot not loaded'
  | 'lot not picked'
  | 'not a number'
  | 'out of range'
  | 'mass missing'
  | 'mass negative'
  | 'mass'
  | 'mass odd'
  | 'group'
  | 'book'
  | 'date missing'
  | 'date'
  | 'date odd'
  | 'load date'
  | 'inoculated'
  | 'unripe'
  | 'flush'
  | 'flush missing'
  | 'twice'
  | 'blocks over'
  | 'block mass'
  | 'moisture'
  | 'blocks'
  | 'efficiency'
  | 'total'
  | 'not judged';

/** How the hand slipped. */
export type Slip =
  | 'decimal right'
  | 'decimal left'
  | 'two decimals right'
  | 'two decimals left'
  | 'grams'
  | 'kilograms'
  | 'pounds'
  | 'ounces'
  | 'swapped date'
  | 'other year'
  | 'other month'
  | 'other day'
  | 'label'
  | 'other lot'
  | 'spelling'
  | 'flush'
  | 'twice'
  | 'minus'
  | 'text'
  | 'percent'
  | 'dry share'
  | 'swapped digits'
  | 'other strain'
  | 'unusual mass'
  | 'extra digit'
  | 'crate';

/** The column that a finding is about. */
export type AuditedColumn =
  | 'lot'
  | 'strain'
  | 'date'
  | 'mass'
  | 'flush'
  | 'blocks'
  | 'block mass'
  | 'moisture'
  | 'inoculated'
  | 'loaded'
  | 'total';

/** A slip that may explain a figure, a date or a label besides the one that is named. */
export interface Rival {
  readonly slip: Slip;
  readonly corrected: number | string;
  /** Its share of all explanations. */
  readonly sure: number;
}

/** One thing that is wrong, or looks it. */
export interface Finding {
  readonly table: 'harvests' | 'lots';
  /** The row to look at first. */
  readonly row: number;
  /** Every row that it concerns. */
  readonly rows: readonly number[];
  readonly lot: string;
  readonly cause: Cause;
  readonly column: AuditedColumn;
  /** What the cell holds. */
  readonly value: number | string;
  /** What was expected; undefined where the cause says all. */
  readonly expected: number | string | undefined;
  /** The value with the slip undone; undefined where no slip is suspected, or there is no one value. */
  readonly corrected: number | string | undefined;
  readonly slip: Slip | undefined;
  /**
   * How sure, from 0 to 1: the share that the slip named with its figure has of all explanations; where no slip is named,
   * the same as `wrong`.
   */
  readonly sure: number;
  /** The share of all explanations that is not "the figure is right": at least `sure`. */
  readonly wrong: number;
  /** Other slips that may explain a pick as well, the likeliest first; all of them where none is corrected. */
  readonly rivals?: readonly Rival[];
  /** What the sentence needs beside: another row, a flush, a group of rows, what is not known, a yield if converted. */
  readonly about?: number | string | undefined;
  /** Of a mass: what was taken off the one that was typed. */
  readonly tare?: number;
  /** For a group of masses: what each is divided by. */
  readonly factor?: number;
  /** For a group of masses: about what each is too heavy by. */
  readonly added?: number;
}
