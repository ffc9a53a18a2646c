import type { DateOrder } from '../../worksheet/writtenDates';
import type { Answer } from './answers';
import type { TableName, WantedColumn } from './jobs';
import type { SaidDaysOff, SaidLimit } from './pickLimit';
import type { WeekLimits } from './weekLimits';
import type { YearTurn } from './years';
import type { DecimalMark } from './units';

/** What only the grower can know. Without an answer nothing that depends on it is written. */
export type Question =
  | {
      readonly kind: 'table';
      readonly table: TableName;
      /** Parts of the book to choose from; none where no sheet could serve. */
      readonly choices: readonly string[];
      /** Whether none of them has the headers that are needed. */
      readonly isGuess: boolean;
      /** What to do about a table that is laid out so that it cannot be read. */
      readonly hint?: string;
    }
  | {
      readonly kind: 'column';
      readonly table: TableName;
      readonly column: string;
      readonly meaning: string;
      readonly choices: readonly string[];
      /** Whether the book may have no such column. */
      readonly mayBeNone: boolean;
      /** Whether a figure for each record may be typed where the book has no such column. */
      readonly mayBeTyped?: boolean;
      /** Whether one figure or word for all records answers it as well. */
      readonly mayBeAlike?: boolean;
      /** The figure or word that the book itself says somewhere. */
      readonly proposed?: string;
      /** What else of the book may say it. */
      readonly hint?: string;
    }
  | {
      readonly kind: 'dates';
      /** `lots, inoculated` */
      readonly about: string;
      readonly texts: readonly string[];
      readonly isContradicted: boolean;
      /** The order that another column of the book proves. */
      readonly elsewhere: DateOrder | undefined;
    }
  | {
      readonly kind: 'years';
      /** `lots, inoculated` */
      readonly about: string;
      readonly texts: readonly string[];
      /** The only year that the sheet's name or the cells above the table say. */
      readonly elsewhere: number | undefined;
      /** Where they pass New Year: the year asked is that of the earlier ones. */
      readonly turn: YearTurn | undefined;
    }
  | {
      readonly kind: 'weekdays';
      /** `orders, due` */
      readonly about: string;
      /** Weeks in the place of days. */
      readonly texts: readonly string[];
    }
  | {
      readonly kind: 'decimals';
      /** `orders, mass` */
      readonly about: string;
      /** Figures whose mark may part thousands or begin the decimals. */
      readonly texts: readonly string[];
      /** The mark that another column of the book proves. */
      readonly elsewhere: DecimalMark | undefined;
    }
  | {
      readonly kind: 'blanks';
      /** `orders, due` */
      readonly about: string;
      /** The blank cells below filled ones. */
      readonly places: readonly string[];
    }
  | {
      readonly kind: 'struck';
      readonly table: TableName;
      /** A cell of each row that is struck out. */
      readonly places: readonly string[];
    }
  | {
      readonly kind: 'lost';
      readonly table: TableName;
      /** The column whose figures may be blocks that are gone. */
      readonly header: string;
    }
  | {
      readonly kind: 'rows';
      readonly table: TableName;
      /** The column that says what each row is, or what became of it. */
      readonly header: string;
      readonly words: ReadonlyMap<string, number>;
      readonly proposed: readonly string[];
      readonly isLog: boolean;
    }
  | {
      readonly kind: 'taken';
      readonly table: TableName;
      readonly header: string;
      readonly isElsewhere?: boolean;
      readonly words: ReadonlyMap<string, number>;
    }
  | {
      readonly kind: 'products';
      readonly words: readonly string[];
      readonly strains: readonly string[];
    }
  | {
      readonly kind: 'fill';
      readonly table: TableName;
      readonly columns: readonly WantedColumn[];
      /** Columns of which one figure for all records answers it as well. */
      readonly alike?: readonly string[];
      /** How many columns one that is numbered has. */
      readonly numbers: number;
      /** Rows to begin with: the strains of the lots. */
      readonly rows: readonly Readonly<Record<string, Answer>>[];
      /** What the book says of it, in words that no formula reads. */
      readonly said?: SaidLimit;
      readonly daysOff?: readonly SaidDaysOff[];
      readonly week?: WeekLimits;
      /** Where the rows to begin with are said, in sentences. */
      readonly told?: readonly string[];
    }
  | {
      readonly kind: 'figure';
      readonly figure: FigureName;
      /** The figure that the book itself says, and where. */
      readonly proposed?: string;
      readonly hint?: string;
    };

/** Single figures that a job cannot do without. */
export const FIGURES = {
  blocks: 'number of blocks to fill',
  'block mass': 'wet mass of a finished block, in the unit of the scale',
  moisture: 'water share of the substrate wanted: 62% is written 62% or 0.62',
} as const;

export type FigureName = keyof typeof FIGURES;
