import type { GrowersBook } from './book';
import type { Candidate } from './candidate';
import type { WantedTable } from './jobs';
import { ordersOn } from './ordersAcross';
import { isOurs } from './ours';
import { picksOn } from './picksAcross';

// Figures in a block: customers down and products across, lots down and days across, or the other way round. Each column
// is read as if it were a list of its own, of which its header says one thing about every record.

/** Rows below the last record of each column that are read as well. */
const [MOST_GROWTH, ALL_GROWTH] = [100, 600];

/** The columns of blocks that serve for picks or orders, each as a list; none where the book has no such block. */
export function crosstabParts(
  book: GrowersBook,
  table: WantedTable,
  isKnown: (label: string) => boolean,
): Candidate[] {
  const all = book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) =>
      table.name === 'harvests'
        ? picksOn(sheet, table, isKnown)
        : table.name === 'orders'
          ? ordersOn(sheet, table, isKnown)
          : [],
    );
  const growth = Math.max(5, Math.min(MOST_GROWTH, Math.floor(ALL_GROWTH / Math.max(1, all.length))));
  return all.map((part) => (part.growth === undefined ? { ...part, growth } : part));
}
