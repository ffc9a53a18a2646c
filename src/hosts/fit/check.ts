import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { cellAt, textOf, type GrowersBook } from './book';
import { candidates, isDateColumn, isFigureColumn, overlap, type Candidate } from './find';
import { commonest } from './labels';
import { JOB, type TableName, type WantedTable } from './jobs';
import { readEitherWay, readings, valuesOf, type ColumnReading, type Reader } from './reading';
import { isMassUnit, isShare, massUnitIn, slipFrom } from './units';
import type { DateOrder } from '../../worksheet/writtenDates';
import { isDash, isDitto, isTextDate } from './values';

/** A cell of the grower's book. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** What a cell holds and what it would hold. */
export interface Correction extends CellPlace {
  readonly before: Cell;
  readonly after: Cell;
  /** The number format it would have, where it is another. */
  readonly format?: string;
}

export type DataCause =
  | 'text dates'
  | 'text figures'
  | 'per cent'
  | 'unreadable'
  | 'spellings'
  | 'twice'
  | 'totals'
  | 'units';

/** One cause of trouble in one column, with every cell it is in. */
export interface DataFinding {
  readonly cause: DataCause;
  readonly words: string;
  readonly cells: readonly CellPlace[];
  /** What would be corrected on the grower's click; several ways where only the grower knows which. */
  readonly ways: readonly { readonly name: string; readonly corrections: readonly Correction[] }[];
}

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
    .filter(({ missing }) => missing.length <= 1)
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

const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
const areOrIs = (count: number): string => (count === 1 ? 'is' : 'are');

/** `Date inoc on Grow log` */
const where = ({ sheet }: Candidate, { match }: ColumnReading): string =>
  `“${match.header}” on ${sheet.name}`;

interface Held extends CellPlace {
  readonly held: Cell;
  readonly isFormula: boolean;
}

const cellsOf = ({ sheet, dataRows }: Candidate, { match: { column } }: ColumnReading): Held[] =>
  dataRows.map((row) => ({
    sheet: sheet.name,
    row,
    column,
    held: cellAt(sheet, row, column),
    isFormula: sheet.isFormula(row, column),
  }));

const DATE_FORMAT = 'yyyy-mm-dd';
const PERCENT_FORMAT = '0.0%';

function columnFindings(table: Candidate, reading: ColumnReading, reader: Reader): DataFinding[] {
  const cells = cellsOf(table, reading);
  // A moisture that is a dash is one that a plan will miss; a day that is a dash has not come.
  const mayBeDash = isDateColumn(reading.wanted) && !reading.wanted.isNeeded;
  const saysNothing = (held: Cell): boolean => isDitto(held) || (mayBeDash && isDash(held));
  const texts = cells.filter(({ held }) => typeof held === 'string' && !isBlank(held) && !saysNothing(held));
  if (isDateColumn(reading.wanted)) return dateFindings(table, reading, texts, reader);
  if (isFigureColumn(reading.wanted)) {
    return [...figureFindings(table, reading, texts, reader), ...slips(table, reading, cells)];
  }
  return [];
}

/** Corrections of those cells whose reading succeeds; a formula is never typed over. */
const corrected = (cells: readonly Held[], read: readonly Cell[], format?: string): Correction[] =>
  cells.flatMap(({ held, isFormula, ...place }, i) => {
    const after = read[i]!;
    if (isFormula || typeof after !== 'number') return [];
    return [{ ...place, before: held, after, ...(format !== undefined && { format }) }];
  });

const placesOf = (cells: readonly CellPlace[]): CellPlace[] =>
  cells.map(({ sheet, row, column }) => ({ sheet, row, column }));

function dateFindings(
  table: Candidate,
  reading: ColumnReading,
  texts: readonly Held[],
  reader: Reader,
): DataFinding[] {
  const dates = texts.filter(({ held }) => isTextDate(textOf(held)));
  const others = texts.filter(({ held }) => !isTextDate(textOf(held)));
  const findings: DataFinding[] = [];
  if (dates.length > 0) {
    const { proven } = reading;
    const orders: readonly DateOrder[] = proven?.order
      ? [proven.order]
      : proven?.isNeeded
        ? ['day first', 'month first']
        : ['day first'];
    findings.push({
      cause: 'text dates',
      words:
        `${counted(dates.length, 'date')} in ${where(table, reading)} ${areOrIs(dates.length)} text: ` +
        (proven?.order
          ? `${proven.order}, as ${counted(proven.proofs, 'of them proves', 'of them prove')}`
          : proven?.isContradicted
            ? 'some can only be day first, others only month first'
            : proven?.isNeeded
              ? 'none of them proves whether day or month is first'
              : 'no calculation takes it for a day'),
      cells: placesOf(dates),
      ways: orders.flatMap((order) => {
        const corrections = corrected(
          dates,
          reader.dates(
            dates.map(({ held }) => held),
            order,
            undefined,
          ),
          DATE_FORMAT,
        );
        return corrections.length === 0 ? [] : [{ name: orders.length === 1 ? '' : order, corrections }];
      }),
    });
  }
  return others.length === 0 ? findings : [...findings, unreadable(table, reading, others, 'no date')];
}

const unreadable = (
  table: Candidate,
  reading: ColumnReading,
  cells: readonly Held[],
  what: string,
): DataFinding => ({
  cause: 'unreadable',
  words: `${counted(cells.length, 'cell')} in ${where(table, reading)} ${areOrIs(cells.length)} ${what}: ${some(cells.map(({ held }) => `“${textOf(held)}”`))}`,
  cells: placesOf(cells),
  ways: [],
});

const MOST_NAMED = 3;
function some(words: readonly string[]): string {
  const own = [...new Set(words)];
  return own.length <= MOST_NAMED
    ? own.join(', ')
    : `${own.slice(0, MOST_NAMED).join(', ')} and ${own.length - MOST_NAMED} more`;
}

function figureFindings(
  table: Candidate,
  reading: ColumnReading,
  texts: readonly Held[],
  reader: Reader,
): DataFinding[] {
  const wanted = texts.filter(({ held }) => !/^(none|free|off)$/i.test(textOf(held).trim()));
  if (wanted.length === 0) return [];
  const read = reader.figures(
    wanted.map(({ held }) => held),
    reading.unit,
    reading.decimalMark,
  );
  const readable = wanted.filter((_, i) => typeof read[i] === 'number');
  const either = readEitherWay(
    wanted.map(({ held }) => held),
    reading,
    reader,
  ).map((i) => wanted[i]!);
  const others = wanted.filter((one, i) => isCellError(read[i]) && !either.includes(one));
  const findings: DataFinding[] = either.length === 0 ? [] : [eitherWay(table, reading, either, reader)];
  if (readable.length > 0) {
    const units = new Set(readable.flatMap(({ held }) => massUnitIn(textOf(held)) ?? []));
    const corrections = corrected(wanted, read, isShare(reading.wanted) ? PERCENT_FORMAT : undefined);
    findings.push({
      cause: units.size > 1 ? 'units' : 'text figures',
      words:
        `${counted(readable.length, 'figure')} in ${where(table, reading)} ${areOrIs(readable.length)} text` +
        (units.size > 1
          ? `, in ${[...units].join(' and ')}: all would be in ${reading.unit}`
          : isMassUnit(reading.unit)
            ? `, in ${reading.unit}`
            : ''),
      cells: placesOf(readable),
      ways: [{ name: '', corrections: [...headerCorrection(table, reading), ...corrections] }],
    });
  }
  return others.length === 0 ? findings : [...findings, unreadable(table, reading, others, 'no figure')];
}

/** Figures of which only the grower knows whether a mark parts thousands or begins the decimals. */
function eitherWay(
  table: Candidate,
  reading: ColumnReading,
  cells: readonly Held[],
  reader: Reader,
): DataFinding {
  const held = cells.map((one) => one.held);
  return {
    cause: 'text figures',
    words: `${counted(cells.length, 'figure')} in ${where(table, reading)} ${areOrIs(cells.length)} text, and the mark in ${some(held.map(textOf))} may part thousands or begin the decimals`,
    cells: placesOf(cells),
    ways: (['point', 'comma'] as const).map((mark) => ({
      name: `decimal ${mark}`,
      corrections: corrected(cells, reader.figures(held, reading.unit, mark)),
    })),
  };
}

/** A figure that loses its unit leaves it in the header. */
function headerCorrection({ sheet, area }: Candidate, { match, unit }: ColumnReading): Correction[] {
  if (!isMassUnit(unit) || massUnitIn(match.header) !== undefined) return [];
  const place = { sheet: sheet.name, row: area.top, column: match.column };
  if (sheet.isFormula(place.row, place.column)) return [];
  return [{ ...place, before: match.header, after: `${match.header} (${unit})` }];
}

/** Shares written as per cent without the sign: 62 for 62%. */
function slips(table: Candidate, reading: ColumnReading, cells: readonly Held[]): DataFinding[] {
  if (!isShare(reading.wanted)) return [];
  const from = slipFrom(reading.wanted);
  const slipped = cells.filter(({ held }) => typeof held === 'number' && held > from && held <= 100 * from);
  if (slipped.length === 0) return [];
  return [
    {
      cause: 'per cent',
      words: `${counted(slipped.length, 'share')} in ${where(table, reading)} ${areOrIs(slipped.length)} above 100%: ${some(slipped.map(({ held }) => textOf(held)))} is read as that many times the whole`,
      cells: placesOf(slipped),
      ways: [
        {
          name: '',
          corrections: corrected(
            slipped,
            slipped.map(({ held }) => Number(((held as number) / 100).toPrecision(15))),
            PERCENT_FORMAT,
          ),
        },
      ],
    },
  ];
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
