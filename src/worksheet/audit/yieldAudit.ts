import type { MassUnit } from '../../maths/audit/yieldRecords';
import { labelKey } from '../../maths/shared/labels';
import type { DateSystem } from '../calendar';
import { optionalSetting, optionalTable, table } from '../cells/arguments';
import { key, required, type RowOf } from '../cells/columns';
import { SheetFault } from '../cells/fault';
import { anything, choice, efficiency, fraction, type Kind } from '../cells/kinds';
import type { Table } from '../cells/table';
import { defineFunction } from '../define';
import { isRefusal, readCell } from '../readCell';
import { auditedHarvestColumns, auditedLotColumns } from './tables';
import { METRIC } from '../voice';
import { auditedStrainColumns, factsOf, lotOf, pickOf } from './auditedBook';
import { auditResult, AUDIT_VIEWS } from './auditViews';

const settingColumns = {
  setting: key(
    choice({
      sureness: 'share from which a finding is told; 50% if left out',
      unit: 'unit of the masses: kg, lb, g or oz; that of the header if left out',
      'lowest efficiency':
        'lowest biological efficiency of a finished lot; judged by your other lots if left out',
      'highest efficiency': 'highest biological efficiency of a lot; judged by your other lots if left out',
    }),
    'what is set',
  ),
  value: required(anything(), 'what it is set to'),
};

const units = choice({ kg: 'kilograms', lb: 'pounds', g: 'grams', oz: 'ounces' });
const isUnit = (unit: string | undefined): unit is MassUnit =>
  unit === 'kg' || unit === 'lb' || unit === 'g' || unit === 'oz';

/** The value of a setting; undefined where it is not set. */
function settingIn<T>(
  settings: Table<RowOf<typeof settingColumns>> | undefined,
  name: RowOf<typeof settingColumns>['setting'],
  kind: Kind<T>,
  dateSystem: DateSystem,
): T | undefined {
  const row = settings?.rows.find(({ setting }) => setting === name);
  if (!row) return undefined;
  const place = { argument: `settings, ${name}`, row: row.at };
  const read = readCell(kind, row.value, place, { dateSystem, voice: METRIC });
  if (isRefusal(read)) throw new SheetFault(read.error);
  return read;
}

export const YIELDAUDIT = defineFunction({
  name: 'YIELDAUDIT',
  family: 'audit',
  arguments: [
    table(
      'harvests',
      auditedHarvestColumns,
      'table with lot, date, mass; flush, blocks, picker, scale, grade, crate where recorded',
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
      'table with setting and value: sureness, unit, lowest efficiency, highest efficiency',
    ),
    optionalSetting(
      'view',
      choice(AUDIT_VIEWS),
      'findings',
      'findings, evidence, harvests or lots; findings if left out',
    ),
  ],
  result: auditResult,
  needs: ['auditing'],
  needsDateSystem: true,
  whole: (harvests, lots, strains, settings, view, { dateSystem, tools: { auditing } }) => {
    const headed = harvests.units.get('mass')?.unit;
    return auditing.auditView(
      harvests.rows.map(pickOf),
      lots.rows.map(lotOf),
      new Map(strains.rows.map((strain) => [labelKey(strain.strain), factsOf(strain)])),
      {
        sureness: settingIn(settings, 'sureness', fraction(), dateSystem),
        unit: settingIn(settings, 'unit', units, dateSystem) ?? (isUnit(headed) ? headed : undefined),
        lowestEfficiency: settingIn(settings, 'lowest efficiency', efficiency(), dateSystem),
        highestEfficiency: settingIn(settings, 'highest efficiency', efficiency(), dateSystem),
        dateSystem,
      },
      view,
    );
  },
});
