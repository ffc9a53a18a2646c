import { telling, type LinearSolver } from '../../maths/shared/linearProgram';
import type { Context } from '../definition';
import { boardRows } from './boardRows';
import { headlineRows } from './headline';
import { orderRows } from './orderRows';
import { lotRows, pickRows, planRows } from './planRows';
import { solvedPlan, type PlanCall } from './solvedPlan';
import { summaryRows } from './summaryRows';
import type { planResult, PlanViewName } from './views';
import { weekRows } from './weekRows';
import { worthRows } from './worthRows';

// What the functions of the family calculate with, loaded once a sheet asks for one of them: what Excel loads at first
// only has to read the tables.

export { backPlan } from '../../maths/loading/backPlan';
export { checkLoads } from '../../maths/loading/checkLoads';
export { pickCalendar } from '../../maths/loading/pickCalendar';
export { shelfUse } from '../../maths/loading/shelfUse';
export { splitLoad } from '../../maths/loading/splitLoad';
export { backProblemOf } from './backProblem';
export { backRows } from './backRows';
export { brokenRows } from './brokenRules';
export { drawnBoard } from './drawnBoard';
export { curveOf, limitsOf, lotsOf, ordersOf, plannedOf, planRoomsOf, roomsOf, yieldOf } from './problem';
export { problemOf } from './problemOf';
export { seasonRows } from './seasonRows';
export { confidencesOf, settingsOf } from './settings';
export { standingOf } from './standing';

/** One view of the plan that a call asks for; without a solver a rule of thumb makes it. Each programme is a step. */
export function planView(
  call: PlanCall,
  view: PlanViewName,
  given: LinearSolver | null,
  onProgress: Context['onProgress'] = undefined,
): NonNullable<(typeof planResult)['type']> {
  let done = 0;
  const solver = given && onProgress ? telling(given, () => onProgress({ done: ++done })) : given;
  if (view === 'worth') return { view, rows: worthRows(call, solver) };
  const solved = solvedPlan(call, solver);
  switch (view) {
    case 'plan':
      return { view, rows: [...headlineRows(call, solved.plan), ...planRows(call, solved.plan)] };
    case 'picks':
      return { view, rows: pickRows(call, solved.plan) };
    case 'orders':
      return { view, rows: orderRows(call, solved) };
    case 'lots':
      return { view, rows: lotRows(call, solved.plan) };
    case 'week':
      return { view, rows: weekRows(call, solved.plan) };
    case 'board':
      return { view, rows: boardRows(call, solved.plan) };
    case 'summary':
      return { view, rows: summaryRows(call, solved) };
  }
}
