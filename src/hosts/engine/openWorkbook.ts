import { EvaluatedWorkbook } from './evaluator/evaluatedWorkbook';
import { prepareFunctions } from './evaluator/pinsetFunctions';
import type { ProvableWorkbook, WorkbookContent } from './workbook';

/** Opens a workbook for calculation. Loads first what its functions cannot do without. */
export async function openWorkbook(content: WorkbookContent): Promise<ProvableWorkbook> {
  const workbook = new EvaluatedWorkbook(content);
  await prepareFunctions(workbook.functionsUsed());
  workbook.calculate();
  return workbook;
}
