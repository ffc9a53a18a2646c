import type { WorksheetFunction } from '../../worksheet/define';
import { revivedRows, type Question, type Reply } from './messages';

/** Works out one call that came to the worker. Never rejects. */
export async function answerTo(
  { name, given, dateSystem }: Question,
  functions: readonly WorksheetFunction[],
): Promise<Reply> {
  try {
    const definition = functions.find((one) => one.name === name)!;
    await definition.prepare?.();
    const grids = given.map((grid) => grid && revivedRows(grid));
    return { block: definition.evaluate(grids, dateSystem) };
  } catch (fault) {
    return { defect: fault instanceof Error ? fault.message : String(fault) };
  }
}
