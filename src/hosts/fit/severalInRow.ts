import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, type BookSheet, type GrowersBook } from './book';
import type { Candidate } from './candidate';
import { isOfFlush } from './flushHeaders';
import { headerRuns, type HeaderRun } from './headerRuns';
import type { WantedTable } from './jobs';
import { couldBe, looksIn } from './looks';
import { namedPairs } from './matching';
import { onceForText } from './once';
import { isOurs } from './ours';
import { rowsBelow } from './recordRows';
import type { WidePart } from './wide';

// A diary with several picks in one row: a date, then lot and mass, lot and mass. Each pair is read as if it were a list.

const FEWEST = 2;

/** The pairs of all sheets that have several picks in one row, in the order of the sheets. */
export function severalInRow(book: GrowersBook, table: WantedTable): WidePart[] {
  return book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => {
      const all = headerRuns(sheet).map((run) => partsIn(sheet, run, table));
      const most = Math.max(0, ...all.map((parts) => parts.length));
      return most < FEWEST
        ? []
        : all.find((parts) => parts.length === most)!.map((part) => ({ on: sheet, part }));
    });
}

/** `Lot`, `Lot 2` and `Lot (b)` are one header that is repeated. */
const repeatedKey = onceForText((header) =>
  header
    .toLowerCase()
    .replace(/[\s_.#-]*[([]?(?:\d{1,2}|\b[a-h])[)\]]?$/, '')
    .trim(),
);

function partsIn(sheet: BookSheet, run: HeaderRun, table: WantedTable): Candidate[] {
  const headers = new Map([...run.names].map(([column, [text]]) => [column, text!]));
  const named = namedPairs(run.names, table);
  // Most rows of words are no headers: what lies below them need not be looked at.
  if (named.filter(({ wanted }) => wanted.name === 'lot').length < FEWEST) return [];
  const { bottom, dataRows, passedOver } = rowsBelow(sheet, run, headers);
  /** The columns that the best header of a wanted one has, the first to the last. */
  const columnsOf = (wanted: string): number[] => {
    const { kind } = table.columns.find(({ name }) => name === wanted)!.column;
    const own = named
      .filter(
        (pair) =>
          pair.wanted.name === wanted && couldBe(kind.word, wanted, looksIn(sheet, dataRows, pair.column)),
      )
      .sort((a, b) => b.points - a.points || a.column - b.column);
    const key = own[0] && repeatedKey(headers.get(own[0].column)!);
    return own
      .map(({ column }) => column)
      .filter((column) => repeatedKey(headers.get(column)!) === key)
      .sort((a, b) => a - b);
  };
  const lots = columnsOf('lot');
  if (lots.length < FEWEST || lots.some((column) => isOfFlush(headers.get(column)!))) return [];
  const dates = columnsOf('date');
  /** The only one of some columns between a lot and the next. */
  const besideEach = (columns: readonly number[]): number[] | undefined => {
    const found = lots.map((lot, i) =>
      columns.filter((column) => column > lot && column < (lots[i + 1] ?? Infinity)),
    );
    return found.every((own) => own.length === 1) ? found.map(([own]) => own!) : undefined;
  };
  const masses = besideEach(columnsOf('mass'));
  const isShared = dates.length === 1 && dates[0]! < lots[0]!;
  if (!masses || !isShared) return [];
  const flushes = besideEach(columnsOf('flush'));
  const shared = [...run.names.keys()].filter((column) => column < lots[0]!);
  const words = new Set(
    passedOver.flatMap((row) =>
      shared.flatMap((column) => {
        const cell = cellAt(sheet, row, column);
        return typeof cell === 'string' && !isBlank(cell) ? [cell.trim()] : [];
      }),
    ),
  );
  const [date] = dates as [number];
  const read = new Set([date, ...lots, ...masses, ...(flushes ?? [])]);
  const ignored = [...headers].flatMap(([column, header]) => (read.has(column) ? [] : [header]));
  return lots.flatMap((lot, i): Candidate[] => {
    const columns = [lot, date, masses[i]!, ...(flushes ? [flushes[i]!] : [])];
    const own = [lot, masses[i]!];
    const records = dataRows.filter((row) => own.some((column) => !isBlank(cellAt(sheet, row, column))));
    if (records.length === 0) return [];
    const wanted = ['lot', 'date', 'mass', 'flush'].slice(0, columns.length);
    const texts = columns.map((column) => headers.get(column)!);
    const view: BookSheet = {
      name: sheet.name,
      rows: sheet.rows.map((_, row): Cell[] => columns.map((column) => cellAt(sheet, row, column))),
      formatAt: (row, column) => sheet.formatAt(row, columns[column]!),
      isFormula: (row, column) => sheet.isFormula(row, columns[column]!),
    };
    return [
      {
        table,
        sheet: view,
        area: { top: run.row, left: lot, bottom, right: masses[i]! },
        tableName: undefined,
        headers: new Map(texts.map((text, column) => [column, text])),
        ignored,
        isGrouped: run.isGrouped,
        isPart: true,
        lies: columns,
        record: (cells) =>
          [
            `(${own.map(cells).join('&')}<>"")`,
            ...[...words].flatMap((word) =>
              shared.map((column) => `(${cells(column)}<>"${word.replaceAll('"', '""')}")`),
            ),
          ].join('*'),
        matches: wanted.map((name, column) => ({
          wanted: name,
          column,
          header: texts[column]!,
          by: 'a name like it' as const,
        })),
        missing: [],
        dataRows: records,
        passedOver,
        origin: (row, column) => ({ sheet: sheet.name, row, column: columns[column] ?? lot }),
        score: 12,
      },
    ];
  });
}
