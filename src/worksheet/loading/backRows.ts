import type { BackPlan, BackProblem, Task } from '../../maths/loading/backPlan';
import type { ResultRow } from '../cells/results';
import { shownNumber, shownPercent } from '../wording/phrases';
import type { backColumns } from './backPlan';

type BackRow = ResultRow<typeof backColumns>;

const WHY = {
  'no day': 'nothing loaded on a work day is picked in its days',
  limits: 'the pick limits and load limits of the calendar leave no room for it',
};

/** The tasks by date, with a line of its own for each order that stays short and each step that cannot be started. */
export function backRows({ strains }: BackProblem, plan: BackPlan, today: number | undefined): BackRow[] {
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
      step: '',
      strain: strains[order.strain]!.strain,
      units: '' as const,
      good: '' as const,
      'from stock': '' as const,
      ready: '' as const,
      note: `${shownMass(short)} of ${shownMass(order.mass)} short: ${WHY[why]}`,
    })),
  ];
  return rows.sort((a, b) => a.date - b.date);
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
