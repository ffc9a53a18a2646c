import { planWorth, type Change } from '../../maths/loading/planWorth';
import type { LinearSolver } from '../../maths/shared/linearProgram';
import type { ResultRow } from '../cells/results';
import { shownPercent } from '../wording/phrases';
import { about, type PlanCall } from './solvedPlan';
import type { planViews } from './views';

type WorthRow = ResultRow<typeof planViews.worth>;

const UNCERTAIN = {
  yieldShare: 'not knowing yields',
  pickDays: 'not knowing the days of flushes',
  readyDays: 'not knowing when lots are ripe',
};

function wordsOf(change: Change): string {
  switch (change.of) {
    case 'shelf':
      return `one more shelf in ${change.room}`;
    case 'picking':
      return `${shownPercent(change.share)} more picking every day`;
    case 'blocks':
      return `${change.blocks} more blocks of ${change.lot}`;
    case 'certainty':
      return UNCERTAIN[change.spread];
  }
}

/** What more of something would be worth, and what not knowing costs; each worked out by planning again with it. */
export function worthRows({ problem }: PlanCall, solver: LinearSolver | null): WorthRow[] {
  if (!solver || solver.isOutOfTime) {
    const note = solver
      ? 'planning again for each line took longer than can be waited for here'
      : 'this needs a solver, which needs WebAssembly: it cannot run here';
    return [{ what: 'not worked out', worth: '', note }];
  }
  const { short, worths } = planWorth(problem, solver);
  return worths.map(({ change, worth, short: left }) => ({
    what: wordsOf(change),
    worth: Math.max(0, worth),
    note:
      change.of === 'certainty'
        ? `this is what it costs: if they were known, ${about(left)} of value would be short instead of ${about(short)}`
        : `planned again with it: ${about(left)} of value short instead of ${about(short)}`,
  }));
}
