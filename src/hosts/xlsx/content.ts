import type { DateSystem } from '../../worksheet/calendar';
import type { Cell } from '../../worksheet/cells/cell';
import type { Area } from './address';
import type { Vocabulary } from './formula';

/** A cell as a workbook holds it. */
export interface CellContent {
  /** `B7` */
  readonly address: string;
  /** A constant, or a formula's result as last stored. Null with a `numberFormat`: a blank cell that has a format. */
  readonly value: Cell;
  /**
   * With leading `=`, in plain A1 references with explicit sheets where it crosses sheets, Pinset's functions as
   * `PINSET.NAME(…)`; defined names, table references and shared formulas already written out.
   */
  readonly formula?: string;
  /** The formula as its author wrote it, names and table references kept, where `formula` differs. */
  readonly written?: string;
  /** What a formula needs that could not be written out: the cell keeps its stored value and the report says why. */
  readonly unsupported?: string;
  /**
   * Set where names, table references or variables could not be written out of `formula`, and why: a host that knows
   * none keeps the stored value.
   */
  readonly notWrittenOut?: string;
  /** For a stored array, spilling formula or what-if table: the range its result filled when stored. */
  readonly spill?: string;
  /** Set where the formula fills exactly `spill`, as `{=…}` of older files does, whatever the size of its result. */
  readonly isFixedArray?: true;
  /**
   * For a cell that a stored spill filled: the address of its formula. `value` is then part of that formula's stored
   * result, not a constant: it stands only where the formula's stored result is kept.
   */
  readonly spilledFrom?: string;
  /** Number format code of the sheet, `yyyy-mm-dd`. */
  readonly numberFormat?: string;
  /** Set where the format is the file's "short date", which every reader's system shows in its own order. */
  readonly followsReader?: true;
  /** Set where its letters are struck out. */
  readonly isStruck?: true;
}

/** Whether a cell holds a formula, one that could not be written out included. */
export const isFormula = ({ formula, unsupported }: CellContent): boolean =>
  formula !== undefined || unsupported !== undefined;

export interface SheetContent {
  readonly name: string;
  /** Rows hidden, from 0, and whether a filter hides them. */
  readonly hiddenRows?: ReadonlyMap<number, 'hand' | 'filter'>;
  /** Cells of several rows that are merged into one. */
  readonly merged?: readonly Area[];
  readonly cells: readonly CellContent[];
}

/** A workbook as a host opens it. */
export interface WorkbookContent {
  readonly dateSystem: DateSystem;
  /** The workbook's names and tables; without it formulas can use none. */
  readonly vocabulary?: Vocabulary;
  readonly sheets: readonly SheetContent[];
  /** Set where the file says that its stored results are not those of a complete calculation. */
  readonly isStale?: true;
}
