import type { LoadPlan } from '../../maths/loading/loadPlan';
import { picksAfterLoading } from '../../maths/loading/pickCurve';
import { labelKey } from '../../maths/shared/labels';
import { weekdayOf } from '../calendar';
import type { ResultRow } from '../cells/results';
import { about, byLabel, lotsByLabel, type PlanCall } from './solvedPlan';
import type { planViews } from './views';

type WeekRow = ResultRow<typeof planViews.week>;

const DAYS = 7;

/**
 * What the crew does on each day of the plan's first week, in the order in which it is best done: what is ripe is
 * picked, lots are looked at, and blocks are opened. A day with nothing to do has a row that says so.
 */
export function weekRows({ problem, dateSystem }: PlanCall, plan: LoadPlan): WeekRow[] {
  const { start, standing } = problem;
  const byLot = lotsByLabel(problem);
  const planned = plan.loads.map(({ lot, room, day, blocks }) => ({
    ...byLot.get(labelKey(lot))!,
    room,
    loaded: day,
    blocks,
  }));
  return Array.from({ length: DAYS }, (_, n) => start + n).flatMap((day): WeekRow[] => {
    const row = (job: string, more: Partial<WeekRow>): WeekRow => ({
      day,
      weekday: weekdayOf(day, dateSystem),
      job,
      lot: '',
      strain: '',
      room: '',
      blocks: '',
      mass: '',
      note: '',
      ...more,
    });
    const picks = picksOn(day, [...standing, ...planned]);
    const mass = picks.reduce((sum, pick) => sum + pick.mass, 0);
    const limit = problem.limitsOn(day).pick;
    const over = mass > limit * (1 + 1e-9) ? `${about(mass)} in all today; the limit is ${about(limit)}` : '';
    const rows = [
      ...picks.map((pick) => row('pick', { ...pick, note: over })),
      ...problem.lots
        .filter(({ earliest }) => Math.floor(earliest) === day)
        .map(({ lot, strain, blocks }) =>
          row('look at', {
            lot,
            strain,
            blocks,
            note: 'may be ripe from today on; if not, write the day under not ripe on',
          }),
        ),
      ...planned
        .filter(({ loaded }) => loaded === day)
        .map(({ lot, strain, room, blocks }) => row('open', { lot, strain, room, blocks })),
      ...lastCalls(plan, problem, day).map(({ lot, strain, blocks }) =>
        row('look at', { lot, strain, blocks, note: 'last day to open these, and the plan does not' }),
      ),
    ];
    return rows.length > 0 ? rows : [row('nothing', {})];
  });
}

interface Picked {
  readonly strain: string;
  readonly room: string;
  readonly mass: number;
}

/** What is picked on a day of each strain in each room. */
function picksOn(
  day: number,
  loads: readonly Pick<
    LoadPlan['view']['problem']['standing'][number],
    'strain' | 'room' | 'loaded' | 'blocks' | 'yieldPerBlock' | 'curve'
  >[],
): Picked[] {
  const picks = new Map<string, Picked>();
  for (const { strain, room, loaded, blocks, yieldPerBlock, curve } of loads) {
    const after = day - Math.floor(loaded);
    const [, mass] = picksAfterLoading(curve, blocks * yieldPerBlock).find(([k]) => k === after) ?? [0, 0];
    if (!(mass > 0)) continue;
    const key = `${labelKey(room)}\n${labelKey(strain)}`;
    picks.set(key, { strain, room, mass: mass + (picks.get(key)?.mass ?? 0) });
  }
  return [...picks.values()].sort((a, b) => byLabel(a.room, b.room) || byLabel(a.strain, b.strain));
}

/** The lots whose last day this is, with the blocks that the plan leaves unopened. */
function lastCalls(
  plan: LoadPlan,
  { lots }: PlanCall['problem'],
  day: number,
): { lot: string; strain: string; blocks: number }[] {
  return lots.flatMap(({ lot, strain, blocks, latest, notAfter }) => {
    if (Math.min(Math.floor(latest), Math.floor(notAfter ?? Infinity)) !== day) return [];
    const opened = plan.loads.reduce(
      (sum, load) => sum + (labelKey(load.lot) === labelKey(lot) ? load.blocks : 0),
      0,
    );
    return blocks > opened ? [{ lot, strain, blocks: blocks - opened }] : [];
  });
}
