import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { cellAt, textOf, type GrowersBook } from './book';
import { overlap, type Candidate } from './candidate';
import { columnFindings, some } from './columnFindings';
import {
  areOrIs,
  cellsOf,
  counted,
  placesOf,
  where,
  type Correction,
  type DataFinding,
  type Held,
} from './dataFinding';
import { candidates } from './find';
import { JOB, type TableName, type WantedTable } from './jobs';
import { commonest } from './labels';
import type { Reader } from './readCells';
import { readings, valuesOf } from './reading';

/** The tables that any job reads, each with all columns that a job takes of it. */
function everyTable(): WantedTable[] {
  const byName = new Map<TableName, WantedTable>();
  for (const { tables } of Object.values(JOB)) {
    for (const table of tables) {
      const known = byName.get(table.name)?.columns ?? [];
      // What only some jobs need does not make a part of a sheet less of a table.
      const more = table.columns
        .filter(({ name }) => !known.some((one) => one.name === name))
        .map((one) => (known.length === 0 ? one : { ...one, isNeeded: false }));
      byName.set(table.name, { ...table, columns: [...known, ...more] });
    }
  }
  return [...byName.values()];
}

/** The tables of a book, each part of a sheet as what it most likely is. */
function tablesIn(book: GrowersBook): Candidate[] {
  const found = everyTable()
    .flatMap((table) => candidates(book, table))
    .filter(
      ({ missing, matches }) =>
        missing.length + matches.filter(({ by }) => by === 'its only wait').length <= 1,
    )
    .sort((a, b) => b.score - a.score);
  const taken: Candidate[] = [];
  for (const one of found) {
    if (!taken.some((other) => overlap(one, other))) taken.push(one);
  }
  return taken;
}

/** What of the data in a book no calculation can read, or reads as another thing than was meant. */
export function checkData(book: GrowersBook, reader: Reader): DataFinding[] {
  const tables = tablesIn(book);
  return tables.flatMap((table) => [
    ...readings(table).flatMap((reading) => columnFindings(table, reading, reader)),
    ...twice(table),
    ...totals(table),
    ...spellings(table, tables, reader),
  ]);
}

const ONCE: ReadonlySet<TableName> = new Set<TableName>(['lots', 'strains', 'rooms', 'recipe']);

const key = (cell: Cell): string => textOf(cell).trim().toLowerCase();

const isLabel = (cell: Cell): boolean =>
  !isBlank(cell) && !isCellError(cell) && !(typeof cell === 'string' && isTotalsWord(cell));

/** Names that may be there only once and are there again. */
function twice(table: Candidate): DataFinding[] {
  const [reading] = readings(table);
  if (!ONCE.has(table.table.name) || !reading) return [];
  const byKey = new Map<string, Held[]>();
  for (const cell of cellsOf(table, reading)) {
    // What a formula gives is nobody's entry.
    if (!isLabel(cell.held) || cell.isFormula) continue;
    byKey.set(key(cell.held), [...(byKey.get(key(cell.held)) ?? []), cell]);
  }
  const again = [...byKey.values()].filter((cells) => cells.length > 1);
  if (again.length === 0) return [];
  return [
    {
      cause: 'twice',
      words: `${some(again.map(([first]) => textOf(first!.held).trim()))} ${again.length === 1 ? 'is' : 'are'} in more than one row of ${where(table, reading)}`,
      cells: placesOf(again.flat()),
      ways: [],
    },
  ];
}

/** Totals between the records: whatever sums the column counts them again. */
function totals(table: Candidate): DataFinding[] {
  const { sheet, area, passedOver, dataRows, tableName } = table;
  const last = dataRows.at(-1)!;
  const rows = passedOver.filter(
    (row) => (row < last || tableName !== undefined) && totalsColumn(table, row) !== undefined,
  );
  if (rows.length === 0) return [];
  return [
    {
      cause: 'totals',
      words: `${counted(rows.length, 'row')} of totals ${areOrIs(rows.length)} among the records on ${sheet.name}: Pinset leaves ${rows.length === 1 ? 'it' : 'them'} out, your own sums of the column may not`,
      cells: rows.map((row) => ({ sheet: sheet.name, row, column: totalsColumn(table, row) ?? area.left })),
      ways: [],
    },
  ];
}

function totalsColumn({ sheet, area }: Candidate, row: number): number | undefined {
  for (let column = area.left; column <= area.right; column++) {
    const cell = cellAt(sheet, row, column);
    if (typeof cell === 'string' && isTotalsWord(cell)) return column;
  }
  return undefined;
}

/** The labels that a column's are to be the same as: those of another table, or its own commonest. */
const REFERS: Partial<Record<TableName, readonly { column: string; to: TableName }[]>> = {
  lots: [{ column: 'strain', to: 'strains' }],
  harvests: [{ column: 'lot', to: 'lots' }],
};

/** Labels that differ from another only in spelling. */
function spellings(table: Candidate, tables: readonly Candidate[], reader: Reader): DataFinding[] {
  return (REFERS[table.table.name] ?? []).flatMap(({ column, to }): DataFinding[] => {
    const reading = readings(table).find(({ name }) => name === column);
    if (!reading) return [];
    const cells = cellsOf(table, reading).filter(({ held }) => isLabel(held));
    const other = tables.find(({ table: { name } }) => name === to);
    const list = other ? keysOf(other) : commonest(cells.map(({ held }) => held));
    if (list.length === 0) return [];
    const read = reader.labels(
      cells.map(({ held }) => held),
      list,
    );
    const changed = cells.flatMap(({ held, isFormula, ...place }, i): Correction[] => {
      const after = read[i]!;
      return isFormula || isCellError(after) || key(after) === key(held)
        ? []
        : [{ ...place, before: held, after }];
    });
    if (changed.length === 0) return [];
    return [
      {
        cause: 'spellings',
        words: `${counted(changed.length, 'label')} in ${where(table, reading)} ${changed.length === 1 ? 'is' : 'are'} another by its spelling: ${some(changed.map(({ before, after }) => `${textOf(before)} for ${textOf(after)}`))}`,
        cells: placesOf(changed),
        ways: [{ name: '', corrections: changed }],
      },
    ];
  });
}

function keysOf(table: Candidate): string[] {
  const [reading] = readings(table);
  if (!reading) return [];
  const values = valuesOf(table.sheet, table.dataRows, reading.match.column);
  return [...new Set(values.filter(isLabel).map((cell) => textOf(cell).trim()))];
}
