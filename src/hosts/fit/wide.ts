import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, type BookSheet, type GrowersBook } from './book';
import { flushIn } from './flushHeaders';
import { couldBe, looksIn } from './looks';
import { headerRuns, type HeaderRun } from './headerRuns';
import { isOurs } from './ours';
import { namedPairs } from './matching';
import { rowsBelow } from './recordRows';
import type { Candidate } from './candidate';
import type { WantedTable } from './jobs';
import { naming } from './naming';
import { massUnitIn } from './units';

// Picks beside their lots: a date and a mass for each flush, in columns of their own. Each flush is read as if it were a list.

/** A flush of a sheet, and the sheet that it is on. */
export interface WidePart {
  readonly on: BookSheet;
  readonly part: Candidate;
}

/** The flushes of all sheets that have picks beside their lots, in the order of the sheets. */
export function wideParts(book: GrowersBook, table: WantedTable): WidePart[] {
  return book.sheets
    .filter((sheet) => !isOurs(sheet))
    .flatMap((sheet) => {
      const all = headerRuns(sheet).map((run) => partsIn(sheet, run, table));
      const most = Math.max(0, ...all.map((parts) => parts.length));
      // A flush alone is a list like any other.
      return most < 2 ? [] : all.find((parts) => parts.length === most)!.map((part) => ({ on: sheet, part }));
    });
}

function partsIn(sheet: BookSheet, run: HeaderRun, table: WantedTable): Candidate[] {
  const lots = namedPairs(run.names, table).filter(({ wanted }) => wanted.name === 'lot');
  const lot = lots.sort((a, b) => b.points - a.points)[0]?.column;
  if (lot === undefined) return [];
  const headers = new Map([...run.names].map(([column, [text]]) => [column, text!]));
  const { bottom, dataRows, passedOver } = rowsBelow(sheet, run, headers);
  const columns = { date: new Map<number, number>(), mass: new Map<number, number>() };
  const named = (rest: string, wanted: 'date' | 'mass'): boolean => {
    const { alsoCalled } = table.columns.find(({ name }) => name === wanted)!.column;
    const isMass = wanted === 'mass';
    return (
      naming(rest, wanted, alsoCalled, {
        isMass,
        isPrice: false,
        isShare: false,
        hasMassUnit: (header) => massUnitIn(header) !== undefined,
      }) > 0
    );
  };
  for (const [column, names] of run.names) {
    const looks = looksIn(sheet, dataRows, column);
    const told = names.flatMap((name) => flushIn(name) ?? []).at(-1);
    if (!told || looks.get('blank') === dataRows.length) continue;
    const { flush, rest } = told;
    if (!columns.date.has(flush) && named(rest, 'date') && couldBe('date', 'date', looks))
      columns.date.set(flush, column);
    else if (!columns.mass.has(flush) && named(rest, 'mass') && couldBe('mass', 'mass', looks))
      columns.mass.set(flush, column);
  }
  return [...columns.mass].flatMap(([flush, mass]) => {
    const date = columns.date.get(flush);
    const isPicked = dataRows.some((row) => !isBlank(cellAt(sheet, row, mass)));
    return date === undefined || !isPicked
      ? []
      : [partOf(sheet, run, table, { lot, date, mass, flush, bottom, dataRows, passedOver, headers })];
  });
}

interface Flush {
  readonly lot: number;
  readonly date: number;
  readonly mass: number;
  readonly flush: number;
  readonly bottom: number;
  readonly dataRows: readonly number[];
  readonly passedOver: readonly number[];
  readonly headers: ReadonlyMap<number, string>;
}

/** A flush as a list of its own: lot, date, mass and the number of the flush. */
function partOf(sheet: BookSheet, run: HeaderRun, table: WantedTable, found: Flush): Candidate {
  const { lot, date, mass, flush, bottom, headers } = found;
  const columns = [lot, date, mass];
  const isPicked = (row: number): boolean =>
    [date, mass].some((column) => !isBlank(cellAt(sheet, row, column)));
  const view: BookSheet = {
    name: sheet.name,
    rows: sheet.rows.map((_, row): Cell[] => [...columns.map((column) => cellAt(sheet, row, column)), flush]),
    formatAt: (row, column) => (column < columns.length ? sheet.formatAt(row, columns[column]!) : undefined),
    isFormula: (row, column) => column >= columns.length || sheet.isFormula(row, columns[column]!),
  };
  const texts = [...columns.map((column) => run.names.get(column)!.at(-1)!), `flush ${flush}`];
  const matches = ['lot', 'date', 'mass', 'flush'].map((wanted, column) => ({
    wanted,
    column,
    header: texts[column]!,
    by: 'a name like it' as const,
  }));
  return {
    table,
    sheet: view,
    area: { top: run.row, left: Math.min(date, mass), bottom, right: Math.max(date, mass) },
    tableName: undefined,
    headers: new Map(texts.map((text, column) => [column, text])),
    isGrouped: run.isGrouped,
    isPart: true,
    lies: [...columns, { figure: flush }],
    matches,
    missing: [],
    dataRows: found.dataRows.filter(isPicked),
    passedOver: found.passedOver,
    origin: (row, column) => ({
      sheet: sheet.name,
      row,
      column: columns[Math.min(column, columns.length - 1)]!,
    }),
    score: 12 + headers.size * 0.01,
  };
}
