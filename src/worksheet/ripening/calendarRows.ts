import { requireInOrder } from '../../maths/ripening/readyDate';
import { ripeCalendar, type CalendarSpan, type RipeningLot } from '../../maths/ripening/ripeCalendar';
import { invalid, missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import { loadedBlocks, loadedDay } from '../../maths/shared/loadedBlocks';
import type { CalendarLoads, CalendarLot, CalendarLots, CalendarDays } from './tables';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A lot with a number of blocks loaded in its own row, and with loads of its own. */
    loadedTwice: { readonly lot: string };
  }
}

/**
 * A lot with its dates: its own where it has them, otherwise its inoculation and the strain's days; undefined where it
 * has neither.
 */
function ripeningLot(row: CalendarLot, strains: CalendarDays): RipeningLot | undefined {
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
function requireToldOnce(lots: CalendarLots, loads: CalendarLoads | undefined): void {
  const loaded = new Set(loads?.rows.flatMap(({ lot }) => (lot === undefined ? [] : labelKey(lot))));
  for (const row of lots.rows) {
    if (loadedBlocks(row) === undefined || !loaded.has(labelKey(row.lot))) continue;
    throw invalid('lots, loaded', 'loadedTwice', { lot: row.lot }, row);
  }
}

/** The rows of RIPECALENDAR: the steps of each strain, or of the one asked for, and how many lots have no dates. */
export function calendarRows(
  lots: CalendarLots,
  strains: CalendarDays,
  span: CalendarSpan,
  loads: CalendarLoads | undefined,
  oneStrain: string | undefined,
) {
  const only = oneStrain && labelKey(strains.find(oneStrain, 'strain').strain);
  const isShown = ({ strain }: { readonly strain: string }): boolean => !only || labelKey(strain) === only;
  requireToldOnce(lots, loads);
  const dated = lots.rows.flatMap((row) => ripeningLot(row, strains) ?? []);
  const steps = ripeCalendar(
    dated,
    (loads?.rows ?? []).map((row) => ({ ...row, loadedSerial: row.loaded })),
    span,
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
}
