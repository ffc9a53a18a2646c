import type {
  AuditedColumn,
  Entry,
  Finding,
  LotRecord,
  MassUnit,
  PickRecord,
} from '../../maths/audit/yieldRecords';
import { loadedDay } from '../../maths/shared/loadedBlocks';
import type { DateSystem } from '../calendar';
import { formatted, type Formatted } from '../cells/cell';
import type { ResultRow } from '../cells/results';
import { shownCell } from '../cells/shown';
import { counted } from '../wording/phrases';
import type { auditViews } from './auditViews';
import { Evidence } from './evidenceSaid';
import { expectedSaid, findingSaid, slipSaid, slipsSaid, surenessSaid } from './findingsSaid';

const roundedSure = (sure: number): number => Number(sure.toFixed(4));

const isDate = (column: AuditedColumn): boolean =>
  column === 'date' || column === 'loaded' || column === 'inoculated';

export function findingRow(
  finding: Finding,
  unit: MassUnit | undefined,
  dateSystem: DateSystem,
): ResultRow<typeof auditViews.findings> {
  // Written dates: the column holds masses and dates, and not every host can format cell by cell.
  const shown = (figure: number | string | undefined): number | string | Formatted => {
    if (typeof figure !== 'number') return figure ?? '';
    if (isDate(finding.column)) return shownCell(figure, 'date', dateSystem);
    if (finding.column === 'moisture' || finding.cause === 'efficiency' || finding.cause === 'book')
      return formatted(figure, 'percent');
    return figure;
  };
  const { expected, corrected } = finding;
  const isRounded = typeof expected === 'number' && !isDate(finding.column);
  return {
    table: finding.table,
    row: finding.row,
    lot: finding.lot,
    'what is wrong': findingSaid(finding),
    value: shown(finding.value),
    expected:
      expected === undefined
        ? expectedSaid(finding)
        : shown(isRounded ? Number(expected.toPrecision(3)) : expected),
    'if corrected': shown(typeof corrected === 'number' ? Number(corrected.toPrecision(9)) : corrected),
    'suspected slip': slipsSaid(finding, unit),
    'how sure': surenessSaid(finding.sure),
    sureness: roundedSure(finding.sure),
  };
}

/** The findings with what speaks for each; one line that says so where there are none. */
export function evidenceRows(
  findings: readonly Finding[],
  picks: readonly PickRecord[],
  lots: readonly LotRecord[],
  unit: MassUnit | undefined,
  dateSystem: DateSystem,
): ResultRow<typeof auditViews.evidence>[] {
  const evidence = new Evidence(picks, lots, unit, dateSystem);
  const rows = findings.map((finding) => ({
    table: finding.table,
    row: finding.row,
    lot: finding.lot,
    'what is wrong': findingSaid(finding),
    evidence: evidence.of(finding),
    'how sure': surenessSaid(finding.sure),
  }));
  if (rows.length > 0) return rows;
  const {
    table,
    row,
    lot,
    'what is wrong': said,
    'how sure': sure,
  } = nothingFound(picks.length, lots.length);
  return [{ table, row, lot, 'what is wrong': said, evidence: '', 'how sure': sure }];
}

export const nothingFound = (picks: number, lots: number): ResultRow<typeof auditViews.findings> => ({
  table: '',
  row: '',
  lot: '',
  'what is wrong': `nothing found in ${counted(picks, 'pick')} and ${counted(lots, 'lot')}`,
  value: '',
  expected: '',
  'if corrected': '',
  'suspected slip': '',
  'how sure': '',
  sureness: '',
});

interface Change {
  readonly values: Map<AuditedColumn, number | string>;
  readonly said: string[];
  sure: number;
}

/** The changes of each row: by column the value instead, and what is said of it. */
class Changes {
  private readonly byRow = new Map<number, Change>();
  readonly leftOut = new Set<number>();

  constructor(
    table: Finding['table'],
    findings: readonly Finding[],
    private readonly unit: MassUnit | undefined,
    private readonly dateSystem: DateSystem,
    valueIn: (row: number) => Entry,
  ) {
    for (const finding of findings) {
      if (finding.table !== table) continue;
      if (finding.cause === 'twice') {
        this.leftOut.add(finding.row);
        this.add(Number(finding.about), finding, undefined, `row ${finding.row}, the same again, left out`);
      } else if (finding.factor !== undefined) {
        for (const row of finding.rows) {
          const mass = valueIn(row);
          if (typeof mass === 'number')
            this.change(row, finding, mass, Number((mass / finding.factor).toPrecision(9)));
        }
      } else if (finding.corrected !== undefined) {
        for (const row of finding.rows) this.change(row, finding, finding.value, finding.corrected);
      }
    }
  }

  private change(row: number, finding: Finding, from: number | string, to: number | string): void {
    const { column, slip } = finding;
    const format = isDate(column) ? 'date' : column === 'moisture' ? 'percent' : 'plain';
    const [before, after] = [from, to].map((value) => shownCell(value, format, this.dateSystem));
    this.add(row, finding, to, `${column} was ${before}, now ${after}: ${slipSaid(slip, this.unit)}`);
  }

  private add(
    row: number,
    { column, sure }: Finding,
    value: number | string | undefined,
    said: string,
  ): void {
    const there: Change = this.byRow.get(row) ?? { values: new Map(), said: [], sure: 1 };
    if (value !== undefined) there.values.set(column, value);
    there.said.push(said);
    there.sure = Math.min(there.sure, sure);
    this.byRow.set(row, there);
  }

  /** The value of a column: as corrected, or else as it is. */
  value(row: number, column: AuditedColumn, entry: Entry): Entry {
    return this.byRow.get(row)?.values.get(column) ?? entry;
  }

  marks(row: number): { corrected: string; 'how sure': number | '' } {
    const there = this.byRow.get(row);
    return { corrected: there?.said.join('; ') ?? '', 'how sure': there ? roundedSure(there.sure) : '' };
  }
}

const dated = (entry: Entry): number | '' => (typeof entry === 'number' ? entry : '');
/** The day a lot was loaded, or as a plain figure how many of its blocks. */
const loadedCell = (entry: Entry): Formatted | '' =>
  typeof entry === 'number' ? formatted(entry, loadedDay(entry) === undefined ? 'plain' : 'date') : '';
/** A column is there where a row of the table has something in it. */
const isThere = <R>(rows: readonly R[], of: (row: R) => Entry): boolean =>
  rows.some((row) => of(row) !== undefined && of(row) !== '');

export function correctedHarvests(
  picks: readonly PickRecord[],
  findings: readonly Finding[],
  unit: MassUnit | undefined,
  dateSystem: DateSystem,
): ResultRow<typeof auditViews.harvests>[] {
  const masses = new Map(picks.map(({ row, mass }) => [row, mass]));
  const changes = new Changes('harvests', findings, unit, dateSystem, (row) => masses.get(row));
  const columns = (['flush', 'blocks', 'picker', 'scale', 'grade', 'crate'] as const).filter((column) =>
    isThere(picks, (pick) => pick[column]),
  );
  const has = new Set<string>(columns);
  return picks
    .filter(({ row }) => !changes.leftOut.has(row))
    .map((pick) => ({
      lot: String(changes.value(pick.row, 'lot', pick.lot) ?? ''),
      date: dated(changes.value(pick.row, 'date', pick.date)),
      mass: changes.value(pick.row, 'mass', pick.mass) ?? '',
      flush: has.has('flush') ? (changes.value(pick.row, 'flush', pick.flush) ?? '') : undefined,
      blocks: has.has('blocks') ? (changes.value(pick.row, 'blocks', pick.blocks) ?? '') : undefined,
      picker: has.has('picker') ? pick.picker : undefined,
      scale: has.has('scale') ? pick.scale : undefined,
      grade: has.has('grade') ? pick.grade : undefined,
      crate: has.has('crate') ? pick.crate : undefined,
      ...changes.marks(pick.row),
    }));
}

export function correctedLots(
  lots: readonly LotRecord[],
  findings: readonly Finding[],
  unit: MassUnit | undefined,
  dateSystem: DateSystem,
): ResultRow<typeof auditViews.lots>[] {
  const changes = new Changes('lots', findings, unit, dateSystem, () => undefined);
  const held = (key: 'blocks' | 'blockMass' | 'moisture' | 'inoculated' | 'loaded' | 'total'): boolean =>
    isThere(lots, (lot) => lot[key]);
  const there = {
    blocks: held('blocks'),
    blockMass: held('blockMass'),
    moisture: held('moisture'),
    inoculated: held('inoculated'),
    loaded: held('loaded'),
    total: held('total'),
  };
  return lots.map((lot) => {
    const now = (column: AuditedColumn, entry: Entry): Entry => changes.value(lot.row, column, entry);
    const moisture = now('moisture', lot.moisture);
    return {
      lot: lot.lot,
      strain: lot.strain,
      blocks: there.blocks ? (now('blocks', lot.blocks) ?? '') : undefined,
      'block mass': there.blockMass ? (now('block mass', lot.blockMass) ?? '') : undefined,
      moisture: there.moisture
        ? typeof moisture === 'number'
          ? formatted(moisture, 'percent')
          : (moisture ?? '')
        : undefined,
      inoculated: there.inoculated ? dated(now('inoculated', lot.inoculated)) : undefined,
      loaded: there.loaded ? loadedCell(now('loaded', lot.loaded)) : undefined,
      total: there.total ? (now('total', lot.total) ?? '') : undefined,
      ...changes.marks(lot.row),
    };
  });
}
