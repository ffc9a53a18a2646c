import type { BackPlan, BackProblem, Task } from '../../maths/loading/backPlan';
import type { DateSystem } from '../calendar';
import { isCellError } from '../cells/cell';
import { amount, date, label, type ResultRow } from '../cells/results';
import { errorOf } from '../errorOf';
import { METRIC } from '../voice';
import { shownNumber, shownPercent } from '../wording/phrases';
import type { LeftOutOrder } from './backProblem';

export const backColumns = {
  date: date(),
  task: label(
    'start, use stock or load; order short, cannot start or order left out where the list cannot be kept',
  ),
  step: label(),
  strain: label(),
  units: amount('to start, to take from stock, or to load'),
  good: amount('of them, to come out good'),
  'from stock': amount('taken from stock as well'),
  ready: date(),
  note: label(),
};

type BackRow = ResultRow<typeof backColumns>;

const WHY = {
  'no day': 'nothing loaded on a work day is picked in its days',
  limits: 'the pick limits and load limits of the calendar leave no room for it',
};

/** The tasks by date, with a line of its own for each order that stays short or cannot be planned and each step that cannot be started. */
export function backRows(
  { strains }: Pick<BackProblem, 'strains'>,
  plan: BackPlan,
  leftOut: readonly LeftOutOrder[],
  { today, dateSystem }: { readonly today: number | undefined; readonly dateSystem: DateSystem },
): BackRow[] {
  const untold = { step: '', units: '', good: '', 'from stock': '', ready: '' } as const;
  const named = ({ strain, step }: { strain: number; step: number }) => ({
    step: strains[strain]!.steps[step]!.step,
    strain: strains[strain]!.strain,
  });
  const rows = [
    ...plan.tasks.map((task) => ({
      date: task.day,
      task: task.task === 'use' ? 'use stock' : task.task,
      ...named(task),
      units: task.units,
      good: task.good,
      'from stock': task.fromStock,
      ready: task.ready,
      note: noteOf(task, today),
    })),
    ...plan.unstarted.map((need) => ({
      date: need.day,
      task: 'cannot start',
      ...named(need),
      units: '' as const,
      good: need.good,
      'from stock': need.fromStock,
      ready: need.day,
      note: 'no work day to start it for this date: started any earlier, it would be too old',
    })),
    ...plan.unmet.map(({ order, short, why }) => ({
      date: order.due,
      task: 'order short',
      ...untold,
      strain: strains[order.strain]!.strain,
      note: `${shownMass(short)} of ${shownMass(order.mass)} short: ${WHY[why]}`,
    })),
  ];
  const orders = leftOut.map(({ product, due, fault }) => ({
    ...untold,
    date: due ?? ('' as const),
    task: 'order left out',
    strain: product,
    note: isCellError(fault) ? fault.reason : errorOf(fault, { dateSystem, voice: METRIC }).reason,
  }));
  // An order whose day cannot be read comes last.
  const dayOf = ({ date: day }: { readonly date: number | '' }): number => (day === '' ? Infinity : day);
  return [...rows, ...orders].sort((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : 0));
}

const shownMass = (mass: number): string => shownNumber(Math.round(mass * 100) / 100);

function noteOf({ day, inTime }: Task, today: number | undefined): string {
  const late = today === undefined ? 0 : Math.floor(today) - day;
  return [
    late > 0 ? `overdue by ${late} ${late === 1 ? 'day' : 'days'}` : '',
    inTime < 0.995
      ? `${shownPercent(Math.round((1 - inTime) * 100) / 100)} of its picking is outside the order’s days`
      : '',
  ]
    .filter(Boolean)
    .join('; ');
}
