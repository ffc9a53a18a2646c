import type { LinearSolver } from '../../maths/shared/linearProgram';
import { headlineRows } from './headline';
import { orderRows } from './orderRows';
import { lotRows, pickRows, planRows } from './planRows';
import { solvedPlan, type PlanCall } from './solvedPlan';
import { summaryRows } from './summaryRows';
import type { planResult, PlanViewName } from './views';
import { worthRows } from './worthRows';

export { seasonRows } from './seasonRows';

// The code of LOADPLAN and SEASON, which no other function needs: loaded once a sheet asks for one of them.

/** One view of the plan that a call asks for; without a solver a rule of thumb makes it. */
export function planView(
  call: PlanCall,
  view: PlanViewName,
  solver: LinearSolver | null,
): NonNullable<(typeof planResult)['type']> {
  if (view === 'worth') return { view, rows: worthRows(call, solver) };
  const solved = solvedPlan(call, solver);
  switch (view) {
    case 'plan':
      return { view, rows: [...headlineRows(call, solved.plan), ...planRows(call, solved.plan)] };
    case 'picks':
      return { view, rows: pickRows(call, solved.plan) };
    case 'orders':
      return { view, rows: orderRows(solved) };
    case 'lots':
      return { view, rows: lotRows(call, solved.plan) };
    case 'summary':
      return { view, rows: summaryRows(call, solved) };
  }
}
