import type { Cell } from '../../worksheet/cells/cell';
import type { DateOrder } from '../../worksheet/writtenDates';
import type { GrowersBook } from './book';
import type { Candidate } from './candidate';
import { onceFor } from './once';
import { isOurs } from './ours';
import type { Reader } from './readCells';
import { readings } from './reading';
import type { DecimalMark } from './units';
import { isTextDate, lookAt, provenOrder } from './values';

/** What text dates and figures prove somewhere in the book, where no others contradict it. */
export interface ProvenElsewhere {
  readonly order: DateOrder | undefined;
  /** The sheet whose dates prove their order. */
  readonly from: string | undefined;
  readonly mark: DecimalMark | undefined;
}

/** What a column of dates proves, on which sheet. */
interface Proof {
  readonly sheet: string;
  readonly order: DateOrder | undefined;
}

export function provenAnywhere(book: GrowersBook, found: readonly Candidate[]): ProvenElsewhere {
  const all = found.flatMap(readings);
  const only = <T>(proven: readonly T[]): T | undefined =>
    new Set(proven).size === 1 ? proven[0] : undefined;
  const proofs = proofsIn(book);
  const order = only(proofs.map((one) => one.order));
  return {
    order,
    from: order && proofs[0]!.sheet,
    mark: only(all.flatMap(({ decimalMark }) => decimalMark ?? [])),
  };
}

/** The columns of dates of a book that prove an order of day and month; without one where they contradict themselves. */
const proofsIn = onceFor((book: GrowersBook): Proof[] =>
  book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => {
      const width = sheet.rows.reduce((most, row) => Math.max(most, row.length), 0);
      return Array.from({ length: width }, (_, column) => column).flatMap((column): Proof[] => {
        const cells = sheet.rows.map((row) => row[column] ?? null);
        const texts = cells.filter((cell): cell is string => typeof cell === 'string' && isTextDate(cell));
        const { order, isContradicted } = provenOrder(texts);
        if (!isContradicted && (order === undefined || order === 'year first')) return [];
        const days = cells.filter((_, row) => ['date', 'text date'].includes(lookAt(sheet, row, column)));
        const filled = cells.filter((cell) => cell !== null && cell !== '');
        return days.length * 2 >= filled.length ? [{ sheet: sheet.name, order }] : [];
      });
    }),
);

/** How often the days of a column go back, or on where they mostly go back. */
function turnsIn(days: readonly Cell[]): number {
  const known = days.filter((day) => typeof day === 'number');
  const steps = known.slice(1).map((day, i) => Math.sign(day - known[i]!));
  return Math.min(steps.filter((step) => step < 0).length, steps.filter((step) => step > 0).length);
}

/** Whether the rows of a column follow each other better in the other order than in one that is proven elsewhere. */
export function doRowsContradict(cells: readonly Cell[], order: DateOrder, reader: Reader): boolean {
  const other = order === 'day first' ? 'month first' : 'day first';
  const turns = (own: DateOrder): number => turnsIn(reader.dates(cells, own, undefined));
  return turns(other) < turns(order);
}
