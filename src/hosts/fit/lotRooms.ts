import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { inOrder } from './inOrder';
import { looseKey } from './labels';
import { unreadHeaders } from './columnChoices';

// Where lots stand is often one word among others, under any header: `Long room`, `incubation shelf`, `done`. The names of
// the rooms tell which column it is.

/** Rooms that a lot is not in yet. */
const PLANNED = /\b(?:plan\w*|next|going|intended|future|then|geplant)\b/i;
/** Rows that must name a room: one alone may be chance. */
const FEWEST = 2;

/** Lots with the column that names their rooms, where no header does. */
export function withRoomByData(lots: Candidate, rooms: readonly string[]): Candidate {
  const { table, matches, lies, parts, sheet, dataRows } = lots;
  const isOpen =
    table.columns.some(({ name }) => name === 'room') && !matches.some(({ wanted }) => wanted === 'room');
  if (!isOpen || lies || parts || rooms.length === 0) return lots;
  const known = new Set(rooms.map(looseKey));
  const named = unreadHeaders(lots)
    .filter(([, header]) => !PLANNED.test(header))
    .map(([column, header]) => {
      const rows = dataRows.filter((row) => known.has(looseKey(textOf(cellAt(sheet, row, column)))));
      return { column, header, rows: rows.length };
    })
    .filter(({ rows }) => rows >= FEWEST)
    .sort((one, other) => other.rows - one.rows);
  const [first, second] = named;
  if (!first || first.rows === second?.rows) return lots;
  const { column, header } = first;
  return {
    ...lots,
    matches: inOrder(table, [...matches, { wanted: 'room', column, header, by: 'its data' }]),
  };
}
