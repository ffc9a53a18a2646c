import type { Caller } from '../../../worksheet/call';
import type { Grid } from '../../../worksheet/cells/cell';
import type { Solve } from '../../worker/solver';
import type { BookContents, FormulaCell } from '../book';
import { argumentTexts, givenTo } from '../reasons';

/** A plan of the workbook: what LOADPLAN is given there, but the view. */
export interface PlanInBook {
  /** The first formula that asks for it. */
  readonly cell: FormulaCell;
  readonly given: readonly (Grid | undefined)[];
  /** The same as a formula on another sheet writes it. */
  readonly texts: readonly string[];
}

export interface PlansInBook {
  readonly plans: readonly PlanInBook[];
  /** Formulas with an argument that only the host could calculate. */
  readonly unreadable: readonly FormulaCell[];
}

/** LOADPLAN's arguments but the view. */
const TABLES = 10;

/** The plans of a workbook. Formulas that ask for several views of one plan are one. */
export async function plansIn(contents: BookContents, caller: Caller, solve: Solve): Promise<PlansInBook> {
  const plans = new Map<string, PlanInBook>();
  const unreadable: FormulaCell[] = [];
  for (const cell of contents.formulas) {
    const given = await givenTo('LOADPLAN', cell, contents, caller, solve);
    if (given === 'unreadable') unreadable.push(cell);
    if (given === undefined || given === 'unreadable') continue;
    const tables = Array.from({ length: TABLES }, (_, n) => given[n]);
    const key = JSON.stringify(tables);
    if (!plans.has(key)) plans.set(key, { cell, given: tables, texts: argumentTexts('LOADPLAN', cell) });
  }
  return { plans: [...plans.values()], unreadable };
}
