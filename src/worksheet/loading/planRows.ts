import type { LoadPlan } from '../../maths/loading/loadPlan';
import { picksByDay } from '../../maths/loading/pickCalendar';
import { labelKey } from '../../maths/shared/labels';
import type { ResultRow } from '../cells/results';
import { forOrders } from './loadOrders';
import { byLabel, lotsByLabel, type PlanCall } from './solvedPlan';
import type { planViews } from './views';

/** Headed so that the rows can be put below those of the standing table, or given to PICKCALENDAR and SHELFUSE. */
export function planRows(
  { problem, lots, dateSystem }: PlanCall,
  plan: LoadPlan,
): ResultRow<typeof planViews.plan>[] {
  const byLot = lotsByLabel(problem);
  const viewAt = new Map(plan.view.lots.map(({ key }, at) => [key, at]));
  return plan.loads.map(({ lot: name, room, day, blocks }) => {
    const row = lots.find(name, 'lots');
    const lot = byLot.get(labelKey(name))!;
    return {
      loaded: day,
      lot: lot.lot,
      strain: lot.strain,
      room,
      blocks,
      age: row.inoculated === undefined ? '' : day - Math.floor(row.inoculated),
      'first pick': day + lot.curve.firstPick,
      'block mass': row['block mass'],
      moisture: row.moisture,
      product: lot.product,
      for: forOrders(plan, viewAt.get(labelKey(name))!, day - problem.start, blocks, dateSystem),
    };
  });
}

/** What is picked on each day from the start, as PICKCALENDAR works it out. */
export function pickRows({ problem }: PlanCall, plan: LoadPlan): ResultRow<typeof planViews.picks>[] {
  const byLot = lotsByLabel(problem);
  const planned = plan.loads.map(({ lot, day, blocks }) => ({
    ...byLot.get(labelKey(lot))!,
    loaded: day,
    blocks,
  }));
  const days = [...problem.standing, ...planned].reduce(
    (last, { loaded, curve }) => Math.max(last, Math.floor(loaded) - problem.start + curve.stay),
    problem.days,
  );
  const strainOf = ({ strain }: { readonly strain: string }): string => strain;
  const standing = picksByDay(problem.standing, strainOf, problem.start, days);
  const fromPlan = picksByDay(planned, strainOf, problem.start, days);
  const strains = [...new Set([...standing.byGroup.keys(), ...fromPlan.byGroup.keys()])].sort();
  return Array.from({ length: days }, (_, day) => {
    const expected = standing.total[day]! + fromPlan.total[day]!;
    const limit = problem.limitsOn(problem.start + day).pick;
    const isLimited = limit < Infinity;
    return {
      date: problem.start + day,
      expected,
      'from standing': standing.total[day]!,
      'from plan': fromPlan.total[day]!,
      limit: isLimited ? limit : 'none',
      spare: isLimited ? limit - expected : '',
      'one in ten': plan.expected && oneInTen(plan.expected.picks.map((picks) => picks[day] ?? 0)),
      strain: new Map(
        strains.map((strain) => [
          strain,
          (standing.byGroup.get(strain)?.[day] ?? 0) + (fromPlan.byGroup.get(strain)?.[day] ?? 0),
        ]),
      ),
    };
  });
}

/** What is left of each lot, those that are at their best first on top. */
export function lotRows(
  { problem }: Pick<PlanCall, 'problem'>,
  plan: LoadPlan,
): ResultRow<typeof planViews.lots>[] {
  const loadedOf = new Map<string, number>();
  for (const { lot, blocks } of plan.loads) {
    loadedOf.set(labelKey(lot), (loadedOf.get(labelKey(lot)) ?? 0) + blocks);
  }
  return [...problem.lots]
    .sort((a, b) => a.best - b.best || byLabel(a.lot, b.lot))
    .map(({ lot, strain, blocks, latest, notAfter }) => {
      const expires = Math.min(Math.floor(latest), Math.floor(notAfter ?? Infinity));
      const left = blocks - (loadedOf.get(labelKey(lot)) ?? 0);
      const goesOver = expires < problem.start + problem.days;
      return {
        lot,
        strain,
        blocks,
        loaded: blocks - left,
        waiting: goesOver ? 0 : left,
        'going over age': goesOver ? left : 0,
        expires,
      };
    });
}

/** The mass that one season in ten exceeds. */
function oneInTen(masses: readonly number[]): number {
  const inOrder = [...masses].sort((a, b) => a - b);
  return inOrder[Math.min(inOrder.length - 1, Math.floor(0.9 * inOrder.length))]!;
}
