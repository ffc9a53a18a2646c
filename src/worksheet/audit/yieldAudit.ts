import { USUAL_LIMITS, yieldAudit } from '../../maths/audit/yieldAudit';
import {
  RULES,
  type Entry,
  type Finding,
  type LotRecord,
  type PickRecord,
  type StrainFacts,
} from '../../maths/audit/yieldRecords';
import { labelKey } from '../../maths/shared/labels';
import type { DateSystem } from '../calendar';
import { optionalTable, table } from '../cells/arguments';
import { formatted, isBlankOrZero, isCellError, type Cell, type Formatted } from '../cells/cell';
import { key, only, required, type RowOf } from '../cells/columns';
import { choice, number } from '../cells/kinds';
import { amount, label, mixed, tableResult, type ResultRow } from '../cells/results';
import { shownCell } from '../cells/shown';
import { defineFunction } from '../define';
import { auditedHarvestColumns, auditedLotColumns, strainColumns } from '../tables';

const auditedStrainColumns = only(
  strainColumns,
  'strain',
  'earliest',
  'first pick',
  'pick days',
  'flush gap',
  'flushes',
  'efficiency',
);

const settingColumns = {
  setting: key(
    choice({
      deviations: 'standard deviations from which a mass is out of place; 3 if left out',
      'lowest efficiency': 'lowest biological efficiency of a finished lot; 10% if left out',
      'highest efficiency': 'highest biological efficiency of a lot; 200% if left out',
    }),
    'what is set',
  ),
  value: required(number({ above: 0 }), 'what it is set to'),
};

const columns = {
  table: label('table that the row is in'),
  row: amount('row of the table, its header row being row 1'),
  lot: label(),
  code: label('short name of the rule'),
  finding: label('what is wrong'),
  value: mixed('what the cell holds'),
  expected: mixed('what was expected'),
  'if mended': mixed('what it would be without the suspected slip'),
  'suspected slip': label(),
  'how sure': label(),
};

/** A cell as the audit reads it. */
function entryOf(cell: Cell | undefined): Entry {
  if (cell === undefined || cell === null || isBlankOrZero(cell)) return undefined;
  if (typeof cell === 'number' || typeof cell === 'string') return cell;
  return isCellError(cell) ? cell.code : String(cell).toUpperCase();
}

const labelOf = (cell: Cell | undefined): string => String(entryOf(cell) ?? '').trim();

const pickOf = (pick: RowOf<typeof auditedHarvestColumns>): PickRecord => ({
  row: pick.at,
  lot: labelOf(pick.lot),
  date: entryOf(pick.date),
  mass: entryOf(pick.mass),
  flush: entryOf(pick.flush),
  blocks: entryOf(pick.blocks),
});

const lotOf = (lot: RowOf<typeof auditedLotColumns>): LotRecord => ({
  row: lot.at,
  lot: labelOf(lot.lot),
  strain: labelOf(lot.strain),
  blocks: entryOf(lot.blocks),
  blockMass: entryOf(lot['block mass']),
  moisture: entryOf(lot.moisture),
  inoculated: entryOf(lot.inoculated),
  loaded: entryOf(lot.loaded),
  total: entryOf(lot.total),
});

const factsOf = (strain: RowOf<typeof auditedStrainColumns>): StrainFacts => ({
  earliest: strain.earliest,
  firstPick: strain['first pick'],
  pickDays: strain['pick days'],
  flushGap: strain['flush gap'],
  flushes: strain.flushes,
  efficiency: strain.efficiency,
});

function findingRow(finding: Finding, dateSystem: DateSystem): ResultRow<typeof columns> {
  const { severity, says } = RULES[finding.code];
  // Written dates: the column holds masses and dates, and not every host can format cell by cell.
  const shown = (figure: number | string): number | string | Formatted => {
    if (typeof figure === 'string' || finding.measure === 'plain') return figure;
    return finding.measure === 'date' ? shownCell(figure, 'date', dateSystem) : formatted(figure, 'percent');
  };
  return {
    table: finding.table,
    row: finding.row,
    lot: finding.lot,
    code: finding.code,
    finding: says,
    value: shown(finding.value),
    expected: shown(finding.expected),
    'if mended': shown(finding.corrected),
    'suspected slip': finding.slip,
    'how sure': severity,
  };
}

const nothingFound = (picks: number, lots: number): ResultRow<typeof columns> => ({
  table: '',
  row: '',
  lot: '',
  code: '',
  finding: `nothing found in ${picks} picks and ${lots} lots`,
  value: '',
  expected: '',
  'if mended': '',
  'suspected slip': '',
  'how sure': '',
});

export const YIELDAUDIT = defineFunction({
  name: 'YIELDAUDIT',
  family: 'audit',
  arguments: [
    table(
      'harvests',
      auditedHarvestColumns,
      'table with lot, date, mass, and flush and blocks (picked) where recorded',
    ),
    table(
      'lots',
      auditedLotColumns,
      'table with lot, strain, blocks, block mass, moisture, inoculated, loaded, total where recorded',
    ),
    table(
      'strains',
      auditedStrainColumns,
      'table with strain, first pick, pick days, flush gap, flushes, efficiency, earliest',
    ),
    optionalTable(
      'settings',
      settingColumns,
      'table with setting and value: deviations, lowest efficiency, highest efficiency',
    ),
  ],
  result: tableResult(columns),
  needsDateSystem: true,
  whole: (harvests, lots, strains, settings, { dateSystem }) => {
    const limit = (name: string): number | undefined =>
      settings?.rows.find(({ setting }) => setting === name)?.value;
    const picks = harvests.rows.map(pickOf);
    const records = lots.rows.map(lotOf);
    const facts = new Map(strains.rows.map((strain) => [labelKey(strain.strain), factsOf(strain)]));
    const findings = yieldAudit(picks, records, facts, {
      deviations: limit('deviations') ?? USUAL_LIMITS.deviations,
      lowestEfficiency: limit('lowest efficiency') ?? USUAL_LIMITS.lowestEfficiency,
      highestEfficiency: limit('highest efficiency') ?? USUAL_LIMITS.highestEfficiency,
    });
    if (findings.length === 0) return [nothingFound(picks.length, records.length)];
    return findings.map((finding) => findingRow(finding, dateSystem));
  },
});
