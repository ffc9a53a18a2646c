import type { BackProblem } from '../../maths/loading/backPlan';
import type { PlanSettings } from '../../maths/loading/loadingProblem';
import { invalid, type CalcError, type Given } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import type { settingColumns } from './orderTables';

type SettingKind = 'cost' | 'days' | 'share' | 'yesNo' | 'blocks' | 'count';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    noSuchSetting: { readonly given: string; readonly names: readonly string[] };
    settingTwice: { readonly name: string };
    settingValue: { readonly name: string; readonly kind: SettingKind; readonly given: Given };
  }
}

type Settings = Table<RowOf<typeof settingColumns>>;

/** The settings of LOADPLAN, by the name a grower writes. */
const SETTINGS = {
  'early cost': { property: 'earlyCost', kind: 'cost' },
  'late cost': { property: 'lateCost', kind: 'cost' },
  'discard cost': { property: 'discardCost', kind: 'cost' },
  'waiting cost': { property: 'waitCost', kind: 'cost' },
  'surplus cost': { property: 'surplusCost', kind: 'cost' },
  'peak cost': { property: 'peakCost', kind: 'cost' },
  'load cost': { property: 'loadCost', kind: 'cost' },
  'comfort days': { property: 'comfortDays', kind: 'days' },
  'turn-round days': { property: 'turnRound', kind: 'days' },
  margin: { property: 'margin', kind: 'share' },
  'keep tolerance': { property: 'keepTolerance', kind: 'share' },
  'freeze days': { property: 'freezeDays', kind: 'days' },
  'whole shelves': { property: 'wholeShelves', kind: 'yesNo' },
  'smallest load': { property: 'smallestLoad', kind: 'blocks' },
  'order tolerance': { property: 'orderTolerance', kind: 'share' },
  'move cost': { property: 'moveCost', kind: 'cost' },
  scenarios: { property: 'scenarios', kind: 'count' },
  'overtime cost': { property: 'overtimeCost', kind: 'cost' },
  'service level': { property: 'serviceLevel', kind: 'share' },
} as const satisfies Record<string, { property: keyof PlanSettings; kind: SettingKind }>;

const DEFAULTS: PlanSettings = {
  earlyCost: undefined,
  lateCost: undefined,
  discardCost: undefined,
  waitCost: undefined,
  surplusCost: undefined,
  peakCost: undefined,
  loadCost: undefined,
  comfortDays: 2,
  turnRound: 0,
  margin: 0,
  keepTolerance: 0.003,
  freezeDays: 0,
  wholeShelves: false,
  smallestLoad: 1,
  orderTolerance: 0.001,
  moveCost: undefined,
  scenarios: undefined,
  overtimeCost: undefined,
  serviceLevel: undefined,
};

/** The highest whole number of each kind. More possible seasons than these would not fit the solver's time. */
const MOST = { days: 366, count: 64, blocks: Infinity } as const;

const settingKey = (name: string): string => labelKey(name).replace(/[\s_-]+/g, '');

/** What the settings say: a setting without a row has its default, `none` is a cost or number of 0. */
export function settingsOf(settings: Settings | undefined): PlanSettings {
  const said: Record<string, number | boolean> = {};
  const byName = new Map(
    Object.entries(SETTINGS).map(([name, setting]) => [settingKey(name), { name, ...setting }]),
  );
  for (const row of settings?.rows ?? []) {
    const setting = byName.get(settingKey(row.name));
    if (!setting) {
      const details = { given: row.name, names: Object.keys(SETTINGS) };
      throw invalid('settings, name', 'noSuchSetting', details, row);
    }
    if (setting.property in said) throw invalid('settings, name', 'settingTwice', { name: row.name }, row);
    said[setting.property] = valueOf(setting.name, setting.kind, row.value, row.at);
  }
  return { ...DEFAULTS, ...said };
}

const refused = (name: string, kind: SettingKind, given: Given, at: number): CalcError =>
  invalid('settings, value', 'settingValue', { name, kind, given }, { at });

function valueOf(name: string, kind: SettingKind, value: number | string, at: number): number | boolean {
  if (kind === 'yesNo') {
    if (typeof value === 'number') throw refused(name, kind, value, at);
    return value === 'yes';
  }
  const amount = value === 'none' || value === 'no' ? 0 : value;
  const good =
    typeof amount === 'number' &&
    (kind === 'cost' || (kind === 'share' ? amount < 1 : Number.isInteger(amount) && amount <= MOST[kind]));
  if (!good) throw refused(name, kind, value, at);
  return kind === 'blocks' || kind === 'count' ? Math.max(1, amount) : amount;
}

/** The settings of BACKPLAN, by the name a grower writes. */
const CONFIDENCES = ['confidence', 'chain confidence'];

/** The chance of enough good units in each start, and behind each load, where the settings ask for them. */
export function confidencesOf(
  settings: Settings | undefined,
): Pick<BackProblem, 'confidence' | 'chainConfidence'> {
  const said = new Map<string, number | undefined>();
  const byName = new Map(CONFIDENCES.map((name) => [settingKey(name), name]));
  for (const { name: written, value, at } of settings?.rows ?? []) {
    const name = byName.get(settingKey(written));
    if (name === undefined) {
      const details = { given: written, names: [...byName.values()] };
      throw invalid('settings, name', 'noSuchSetting', details, { at });
    }
    if (said.has(name)) throw invalid('settings, name', 'settingTwice', { name: written }, { at });
    if (value !== 'none' && (typeof value !== 'number' || value >= 1))
      throw refused(name, 'share', value, at);
    said.set(name, value === 'none' ? undefined : value);
  }
  return { confidence: said.get('confidence'), chainConfidence: said.get('chain confidence') };
}
