import type { Cell } from '../../worksheet/cells/cell';
import { fixedRangeOf, type Area } from '../xlsx/address';
import type { ReadRange } from './columns';
import type { TableFit } from './fitted';

/** Rows of a sheet of readings, from 1. The grower's own headers lie above those that Pinset asks for. */
export const ROWS = { part: 4, own: 5, how: 6, head: 7, first: 8 } as const;

/** Where a table that is read column by column lies: its columns side by side, the parts of each below the other. */
export class ReadPlaces {
  /** Rows of each part. */
  readonly lengths: readonly number[];
  /** Columns that say where on the grower's sheets a record is, counted from the first; undefined where none is needed. */
  readonly rowColumn: number | undefined;
  readonly sheetColumn: number | undefined;
  readonly letterColumn: number | undefined;

  constructor(
    { candidate, readings }: TableFit,
    ranges: readonly ReadRange[],
    leavesOut: boolean,
    private readonly left: number,
    columns: number,
  ) {
    this.lengths = ranges.map(({ first, last }) => last - first + 1);
    const isStacked = candidate.parts !== undefined;
    const isFilledDown = readings.some((one) => one.isFilledDown || one.hasDittos);
    const isSifted = isStacked || ranges[0]!.test !== undefined || leavesOut || isFilledDown;
    const isBlock = candidate.parts?.some(({ block, lies }) => block && lies) === true;
    this.rowColumn = isSifted ? columns : undefined;
    this.sheetColumn = isStacked ? columns + 1 : undefined;
    this.letterColumn = isBlock ? columns + 2 : undefined;
  }

  ofColumn(at: number): Area {
    const rows = this.lengths.reduce((sum, length) => sum + length, 0);
    return {
      top: ROWS.first - 1,
      bottom: ROWS.first - 2 + rows,
      left: this.left + at,
      right: this.left + at,
    };
  }

  /** The rows of a part, below those of the parts before it. */
  ofPart(at: number, part: number): Area {
    const top = ROWS.first - 1 + this.lengths.slice(0, part).reduce((sum, length) => sum + length, 0);
    return { ...this.ofColumn(at), top, bottom: top + this.lengths[part]! - 1 };
  }

  /** The cells that say which rows of a part are records. */
  maskOf(part: number): string | undefined {
    return this.rowColumn === undefined ? undefined : fixedRangeOf(this.ofPart(this.rowColumn, part));
  }
}

const [LEAST_WIDTH, MOST_WIDTH] = [10, 26];

/** Room for the words of a column, and for what it holds. */
export const widthFor = (words: readonly Cell[]): number =>
  words.reduce<number>(
    (width, word) =>
      typeof word === 'string' ? Math.min(MOST_WIDTH, Math.max(width, word.length * 1.1 + 2)) : width,
    LEAST_WIDTH,
  );
