import { prepareFunctions } from './functions';
import { EngineWorkbook } from './engineWorkbook';
import type { CalculatingWorkbook, WorkbookContent } from './workbook';

/** Opens a workbook for calculation. Loads first what its functions cannot do without. */
export async function openWorkbook(content: WorkbookContent): Promise<CalculatingWorkbook> {
  const workbook = new EngineWorkbook(content);
  await prepareFunctions(workbook.functionsUsed());
  workbook.calculate();
  return workbook;
}
