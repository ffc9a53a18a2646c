import { ripeCalendar, type RipeningLot } from '../../maths/ripening/ripeCalendar';
import { requireInOrder } from '../../maths/ripening/readyDate';
import { invalid, missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import { loadedBlocks, loadedDay } from '../../maths/shared/loadedBlocks';
import { optionalSetting, optionalTable, setting, table } from '../cells/arguments';
import { key, only, optional, required, type RowOf } from '../cells/columns';
import { choice, count, dayOrBlocks, orNone, serial, text } from '../cells/kinds';
import { amount, date, label, sometimes, tableResult } from '../cells/results';
import type { Table } from '../cells/table';
import { defineFunction } from '../define';
import { HEADERS, strainColumns } from '../tables';

const lotColumns = {
  lot: key(text(), 'name of the lot', ...HEADERS.lot),
  strain: required(text(), 'strain of the lot', ...HEADERS.strain),
  blocks: required(orNone(count()), 'number of blocks in the lot', ...HEADERS.blocks),
  inoculated: optional(serial(), 'day of inoculation', ...HEADERS.inoculated),
  earliest: optional(serial(), 'first day it may be opened, where it is not the strain’s'),
  latest: optional(serial(), 'last day it may be opened, where it is not the strain’s'),
  loaded: optional(dayOrBlocks(), 'day it was loaded, or number of blocks loaded so far', ...HEADERS.loaded),
};

const loadColumns = {
  loaded: key(serial(), 'day the blocks were set on the shelf', ...HEADERS.loaded),
  blocks: required(count(), 'number of blocks loaded', ...HEADERS.blocks),
  lot: optional(text(), 'lot they were taken from', ...HEADERS.lot),
  strain: optional(text(), 'strain they were taken from, where no lot is named', ...HEADERS.strain),
};

const daysColumns = only(strainColumns, 'strain', 'earliest', 'latest');

/**
 * A lot with its dates: its own where it has them, otherwise its inoculation and the strain's days; undefined where it
 * has neither.
 */
function ripeningLot(
  row: RowOf<typeof lotColumns>,
  strains: Table<RowOf<typeof daysColumns>>,
): RipeningLot | undefined {
  const { inoculated: from, earliest, latest, loaded } = row;
  const blocks = row.blocks - (loadedBlocks(row) ?? 0);
  const own = { ...row, blocks, latestSerial: latest, loadedSerial: loadedDay(loaded) };
  if (earliest !== undefined && (from === undefined || latest !== undefined))
    return { ...own, earliestSerial: earliest };
  if (from === undefined) return undefined;
  const days = strains.find(row.strain, 'lots, strain', row.at);
  if (earliest === undefined && days.earliest === undefined) {
    const details = { header: 'earliest', table: 'strains', of: row.strain };
    throw missing('lots, strain', 'blank', details, row);
  }
  requireInOrder(days);
  return {
    ...own,
    earliestSerial: earliest ?? from + days.earliest!,
    latestSerial: latest ?? (days.latest === undefined ? undefined : from + days.latest),
  };
}

/** Refuses a number of blocks loaded of a lot that the loads have too: nobody can tell whether they are the same. */
function requireToldOnce(
  lots: Table<RowOf<typeof lotColumns>>,
  loads: Table<RowOf<typeof loadColumns>> | undefined,
): void {
  const loaded = new Set(loads?.rows.flatMap(({ lot }) => (lot === undefined ? [] : labelKey(lot))));
  for (const row of lots.rows) {
    if (loadedBlocks(row) === undefined || !loaded.has(labelKey(row.lot))) continue;
    throw invalid('lots, loaded', 'loadedTwice', { lot: row.lot }, row);
  }
}

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A lot with a number of blocks loaded in its own row, and with loads of its own. */
    loadedTwice: { readonly lot: string };
  }
}

export const RIPECALENDAR = defineFunction({
  name: 'RIPECALENDAR',
  family: 'ripening',
  arguments: [
    table(
      'lots',
      lotColumns,
      'table with lot, strain, blocks, inoculated (or earliest, latest dates); loaded if wanted',
    ),
    table('strains', daysColumns, 'table with strain and its days to ready: earliest, latest'),
    setting('from', serial(), 'first day shown'),
    setting('to', serial(), 'last day shown'),
    optionalSetting(
      'step',
      choice({ day: 'a row for each day', week: 'a row for each seven days' }),
      'day',
      'day or week; day if left out',
    ),
    optionalTable('loads', loadColumns, 'table with loaded (date), blocks, and lot or strain'),
    optionalSetting('strain', text(), undefined, 'the strain shown; every strain if left out'),
  ],
  result: tableResult({
    date: date('first day of the step'),
    strain: label(),
    'coming ready': amount('blocks that reach their earliest date'),
    loaded: amount('blocks set on the shelf'),
    'going over age': amount('blocks not loaded by the end of their latest date'),
    'in hand': amount('blocks ready and not loaded at the end of the step'),
    'loaded over age': sometimes(amount('blocks loaded after their latest date, where there are any')),
  }),
  whole: (lots, strains, fromSerial, toSerial, step, loads, oneStrain) => {
    const only = oneStrain && labelKey(strains.find(oneStrain, 'strain').strain);
    const isShown = ({ strain }: { readonly strain: string }): boolean => !only || labelKey(strain) === only;
    requireToldOnce(lots, loads);
    const dated = lots.rows.flatMap((row) => ripeningLot(row, strains) ?? []);
    const steps = ripeCalendar(
      dated,
      (loads?.rows ?? []).map((row) => ({ ...row, loadedSerial: row.loaded })),
      { fromSerial, toSerial, stepDays: step === 'week' ? 7 : 1 },
    ).filter(isShown);
    const tellsOverAge = steps.some(({ loadedOverAge }) => loadedOverAge > 0);
    const rows = steps.map((each) => ({
      date: each.fromSerial,
      strain: each.strain,
      'coming ready': each.comingReady,
      loaded: each.loaded,
      'going over age': each.goingOverAge,
      'in hand': each.inHand,
      'loaded over age': tellsOverAge ? each.loadedOverAge : undefined,
    }));
    const undated = lots.rows.filter(isShown).length - dated.filter(isShown).length;
    if (undated === 0) return rows;
    const told = `${undated} ${undated === 1 ? 'lot' : 'lots'} without dates left out`;
    const nothing = {
      date: '',
      'coming ready': '',
      loaded: '',
      'going over age': '',
      'in hand': '',
    } as const;
    return [...rows, { ...nothing, strain: told, 'loaded over age': undefined }];
  },
});
