import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, textOf, type BookSheet, type GrowersBook } from './book';
import type { Candidate, Lies } from './candidate';
import { countPicks, entryPart, entryText, formOfPicks, type EntryForm } from './entries';
import { headerRuns, type HeaderRun } from './headerRuns';
import type { WantedTable } from './jobs';
import { couldBe, looksIn } from './looks';
import { namedPairs } from './matching';
import { isOurs } from './ours';
import { rowsBelow } from './recordRows';
import type { WidePart } from './wide';

// A notebook in which a cell says all that was picked on a day: `B12 4.2 kg, B13 3.1 kg`. The first pick of each cell is read as
// a list, the second of each as another.

const FEWEST = 3;
/** So many of the cells must name known lots: a slip in one is told. */
const MOST = 0.5;

export function picksInCells(
  book: GrowersBook,
  table: WantedTable,
  isKnown: (label: string) => boolean,
): WidePart[] {
  return book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => {
      const parts = headerRuns(sheet)
        .map((run) => partsIn(sheet, run, table, isKnown))
        .find((some) => some.length > 0);
      return (parts ?? []).map((part) => ({ on: sheet, part }));
    });
}

function partsIn(
  sheet: BookSheet,
  run: HeaderRun,
  table: WantedTable,
  isKnown: (label: string) => boolean,
): Candidate[] {
  const dates = namedPairs(run.names, table).filter(({ wanted }) => wanted.name === 'date');
  if (dates.length === 0) return [];
  const headers = new Map([...run.names].map(([column, [text]]) => [column, text!]));
  const { bottom, dataRows, passedOver } = rowsBelow(sheet, run, headers);
  const [date] = dates
    .filter(({ column }) => couldBe('date', 'date', looksIn(sheet, dataRows, column)))
    .sort((one, other) => other.points - one.points);
  if (!date) return [];
  const filledIn = (column: number): number[] =>
    dataRows.filter((row) => !isBlank(cellAt(sheet, row, column)));
  const [column, ...more] = [...headers.keys()].filter((at) => {
    const rows = filledIn(at);
    const known = rows.filter((row) => countPicks(cellAt(sheet, row, at), isKnown) > 0);
    return at !== date.column && known.length >= Math.max(FEWEST, MOST * rows.length);
  });
  if (column === undefined || more.length > 0) return [];
  const records = filledIn(column);
  const cells = records.map((row) => cellAt(sheet, row, column));
  const form = formOfPicks(cells);
  const most = Math.max(...cells.map((cell) => countOf(cell, form)));
  const others = [...headers].flatMap(([at, header]) =>
    at === column || at === date.column ? [] : [header],
  );
  return Array.from({ length: most }, (_, which): Candidate => {
    const part = (own: 'words' | 'figure'): Lies => ({ column, entry: { which, part: own, ...form } });
    const lies: Lies[] = [part('words'), date.column, part('figure')];
    const heldAt = (row: number, at: number): Cell =>
      at === 1
        ? cellAt(sheet, row, date.column)
        : entryPart(cellAt(sheet, row, column), { which, part: at === 0 ? 'words' : 'figure', ...form });
    const placeOf = (at: number): number => (at === 1 ? date.column : column);
    const texts = [headers.get(column)!, headers.get(date.column)!, headers.get(column)!];
    return {
      table,
      sheet: {
        name: sheet.name,
        rows: sheet.rows.map((__, row): Cell[] => lies.map((___, at) => heldAt(row, at))),
        formatAt: (row, at) => (at === 1 ? sheet.formatAt(row, date.column) : undefined),
        isFormula: (row, at) => sheet.isFormula(row, placeOf(at)),
      },
      area: { top: run.row, left: column, bottom, right: column },
      tableName: undefined,
      headers: new Map(texts.map((text, at) => [at, text])),
      ignored: others,
      isGrouped: run.isGrouped,
      isPart: true,
      lies,
      record: (cellsOf) =>
        `(${entryText(cellsOf(column), { which, part: 'words', ...form })}<>"")*(${cellsOf(date.column)}&${cellsOf(column)}<>"")`,
      matches: ['lot', 'date', 'mass'].map((wanted, at) => ({
        wanted,
        column: at,
        header: texts[at]!,
        by: 'its data' as const,
      })),
      missing: [],
      dataRows: records.filter((row) => heldAt(row, 0) !== null),
      passedOver,
      origin: (row, at) => ({ sheet: sheet.name, row, column: placeOf(at) }),
      score: 12,
    };
  });
}

/** How many picks a cell has in a form, whatever they say. */
function countOf(cell: Cell, form: EntryForm): number {
  let which = 0;
  while (entryPart(cell, { which, part: 'words', ...form }) !== null) which++;
  return textOf(cell).trim() === '' ? 0 : which;
}
