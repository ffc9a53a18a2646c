import type { Cell } from '../../worksheet/cells/cell';
import type { DateOrder } from '../../worksheet/writtenDates';
import type { Answer, Answers } from './answers';
import type { GrowersBook } from './book';
import type { Candidate } from './candidate';
import type { ColourKey } from './colourKeys';
import type { Job, TableName } from './jobs';
import type { Question } from './question';
import type { UnreadCell } from './unreadCells';
import type { ColumnReading } from './reading';

/** A table of the job as the book gives it. */
export interface TableFit {
  readonly candidate: Candidate;
  readonly readings: readonly ColumnReading[];
  /** The order of the text dates of each column, by its name, where it is known. */
  readonly orders: ReadonlyMap<string, DateOrder>;
  /** What each column's cells become, by its name, one for each data row. */
  readonly values: ReadonlyMap<string, readonly Cell[]>;
  /** The first rows as the grower sees them, by the name of the column. */
  readonly evidence: readonly Readonly<Record<string, string>>[];
  /** Other parts of the book that could serve. */
  readonly others: readonly Candidate[];
}

/** A label that is read in the spelling of the table it refers to. */
export interface Joined {
  readonly table: TableName;
  readonly label: string;
  readonly as: string;
  readonly cells: number;
}

export interface Fit {
  readonly job: Job;
  readonly book: GrowersBook;
  readonly answers: Answers;
  readonly tables: ReadonlyMap<TableName, TableFit>;
  /** Tables that the grower filled in, as the book has none. */
  readonly filled: ReadonlyMap<TableName, readonly Readonly<Record<string, Answer>>[]>;
  readonly questions: readonly Question[];
  readonly unread: readonly UnreadCell[];
  /** Labels that are read as another: `Fernbank 7` as `Fernbank-7`. */
  readonly joined: readonly Joined[];
  /** Cells that say what colours mean, which nothing reads. */
  readonly colourKeys: readonly ColourKey[];
  /** What is said of answers that name what the book does not have. */
  readonly unused: readonly string[];
  /** The strain of each product word, where orders name products. */
  readonly products: ReadonlyMap<string, readonly string[]>;
  /** Whether the lots say what is on the shelves. */
  readonly hasShelves: boolean;
  /** What each of these words is read as. */
  readonly productNames: ReadonlyMap<string, string>;
}
