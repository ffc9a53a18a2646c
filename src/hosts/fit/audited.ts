import { isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Tools } from '../../worksheet/tools';
import type { Answer } from './answers';
import { cellAt, showsDate } from './book';
import type { Candidate } from './candidate';
import type { CellPlace, Correction } from './dataFinding';
import { isDateColumn } from './looks';
import type { Fit, TableFit } from './fitted';
import { figureOf } from './answered';
import { jobUnit, unitFactor } from './jobUnit';
import { ownNumber } from './lotWithin';
import type { Rest } from './massParts';
import type { ColumnReading } from './reading';
import { rowFactor } from './unitColumn';
import { isShare } from './units';

type Auditing = Tools['auditing'];
type Told = ReturnType<Auditing['toldFindings']>[number];
type Row = Parameters<Auditing['toldFindings']>[0]['harvests'][number];
type Strain = Parameters<Auditing['toldFindings']>[0]['strains'][number];

/** A finding of the audit at its place in the grower's book. */
export interface AuditedFinding {
  readonly told: Told;
  /** The cells that it is in; none where a table has no such column. */
  readonly cells: readonly CellPlace[];
  /** What would be corrected on the grower's click. */
  readonly corrections: readonly Correction[];
}

const DATE_FORMAT = 'yyyy-mm-dd';
const PERCENT_FORMAT = '0.0%';

/** What the audit finds in the grower's own tables, those of one lot together; nothing is changed. */
export function auditedFindings(fit: Fit, { toldFindings }: Auditing): AuditedFinding[] {
  const [harvests, lots] = [fit.tables.get('harvests')!, fit.tables.get('lots')!];
  const told = toldFindings({
    harvests: rowsOf(fit, harvests),
    lots: rowsOf(fit, lots),
    strains: strainsOf(fit),
    unit: jobUnit(fit.tables),
    dateSystem: fit.book.dateSystem,
  });
  return told.map((one) => placed(fit, one.table === 'harvests' ? harvests : lots, one));
}

/** The rows of a table as the functions read them; masses are in the unit of the job. */
function rowsOf(fit: Fit, { candidate, readings, values }: TableFit): Row[] {
  return candidate.dataRows.map((_, i) => {
    const row: Record<string, Cell | undefined> = {};
    for (const { name, unit, match } of readings) {
      const read = values.get(name)![i]!;
      // What cannot be read is judged as it stands there.
      const cell = isCellError(read) ? cellAt(candidate.sheet, candidate.dataRows[i]!, match.column) : read;
      const factor = unitFactor(fit, unit);
      row[name] = typeof cell === 'number' && factor !== 1 ? Number((cell * factor).toPrecision(12)) : cell;
    }
    return { ...row, at: i + 2 };
  });
}

const FACTS = {
  earliest: 'earliest',
  'first pick': 'firstPick',
  'pick days': 'pickDays',
  'flush gap': 'flushGap',
  flushes: 'flushes',
  efficiency: 'efficiency',
} as const;

function strainsOf(fit: Fit): Strain[] {
  const given = fit.tables.get('strains');
  const rows: Readonly<Record<string, Cell | Answer | undefined>>[] = given
    ? given.candidate.dataRows.map((_, i) =>
        Object.fromEntries(given.readings.map(({ name }) => [name, given.values.get(name)?.[i]])),
      )
    : [...(fit.filled.get('strains') ?? [])];
  return rows.flatMap((row) => {
    const strain = typeof row['strain'] === 'object' ? '' : String(row['strain'] ?? '').trim();
    if (strain === '') return [];
    const facts: Record<string, number> = {};
    for (const [column, name] of Object.entries(FACTS)) {
      const cell = row[column];
      const figure = typeof cell === 'string' ? figureOf(cell, column === 'efficiency') : cell;
      if (typeof figure === 'number' && figure > 0) facts[name] = figure;
    }
    return [{ strain, facts }];
  });
}

function placed(fit: Fit, table: TableFit, told: Told): AuditedFinding {
  const { sheet, dataRows, origin } = table.candidate;
  const reading = table.readings.find(({ name }) => name === told.column) ?? table.readings[0]!;
  const isHere = reading.name === told.column;
  const placeOf = (row: number): CellPlace => origin(dataRows[row - 2]!, reading.match.column);
  const factor = unitFactor(fit, reading.unit);
  // What is typed into a row is in the unit of that row.
  const asWritten = (value: number | string, row: number): Cell => {
    const ofRow = reading.unitColumn ? (rowFactor(reading.unitColumn, table.candidate, row) ?? 1) : 1;
    const all = factor * ofRow;
    return typeof value === 'number' && all !== 1 ? Number((value / all).toPrecision(9)) : value;
  };
  const corrections = told.corrections.flatMap(({ row, value }): Correction[] => {
    const [at, column] = [dataRows[row - 2]!, reading.match.column];
    if (!isHere || sheet.isFormula(at, column)) return [];
    const format = formatFor(reading, sheet.formatAt(at, column));
    const before = cellAt(sheet, at, column);
    if (reading.lookedUp || reading.months || !isOwnCell(table.candidate, column)) return [];
    const after = reading.within
      ? ownNumber(cellAt(sheet, at, reading.within.column), String(value), before)
      : reading.rest
        ? withTare(
            reading.rest,
            before,
            table.values.get(reading.name)![row - 2]!,
            asWritten(value, at),
            told,
          )
        : asWritten(value, at);
    if (after === undefined) return [];
    return [{ ...placeOf(row), before, after, ...(format !== undefined && { format }) }];
  });
  return {
    told,
    cells: told.rows.map(placeOf),
    // A part of a group that formulas calculate would leave the rest in another unit.
    corrections: corrections.length === told.corrections.length ? corrections : [],
  };
}

/** Whether a column holds what is read, and not a part of each cell, or what no cell says. */
function isOwnCell({ lies }: Candidate, column: number): boolean {
  const own = lies?.[column];
  return typeof own !== 'object' || 'cell' in own;
}

/**
 * What is to be on the scale for a mass that is calculated from two columns: the slip was made in what was weighed, crate and
 * all. Of two parts of a mass nobody knows which is wrong.
 */
function withTare(
  { isTakenOff }: Rest,
  gross: Cell,
  net: Cell,
  corrected: Cell,
  { factor }: Told,
): Cell | undefined {
  if (!isTakenOff || typeof corrected !== 'number') return undefined;
  if (typeof gross !== 'number' || typeof net !== 'number' || net === 0) return undefined;
  // A scale in another unit weighed crates in it too.
  const meant = factor === undefined ? corrected + (gross - net) : gross * (corrected / net);
  return Number(meant.toPrecision(9));
}

/** The format that a corrected figure needs, where the cell's own would show it as another thing. */
function formatFor({ wanted }: ColumnReading, own: string | undefined): string | undefined {
  if (isDateColumn(wanted)) return showsDate(own) ? undefined : DATE_FORMAT;
  if (isShare(wanted)) return own?.includes('%') ? undefined : PERCENT_FORMAT;
  return undefined;
}
