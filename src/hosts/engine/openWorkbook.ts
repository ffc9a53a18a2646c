import { isCellError } from '../../worksheet/cells/cell';
import { EvaluatedWorkbook } from './evaluator/evaluatedWorkbook';
import { prepareFunctions } from './evaluator/pinsetFunctions';
import { isNeverCalculated, proofOf, reasonOf, withoutZeros, type KeptFormula, type Proof } from './proof';
import { isProvenByTable } from './provenFunctions';
import type { ProvableWorkbook, WorkbookContent } from './workbook';

/** Opens a workbook for calculation, whatever it stores. Loads first what its functions cannot do without. */
export async function openWorkbook(content: WorkbookContent): Promise<ProvableWorkbook> {
  const workbook = await opened(content);
  workbook.calculate();
  return workbook;
}

/** A workbook, and what its stored results say about the calculation. */
export interface ProvenWorkbook {
  readonly workbook: ProvableWorkbook;
  readonly proof: Proof;
}

/** Opens a workbook for calculation; formulas that the file does not prove keep what it stores for them. */
export async function openProven(content: WorkbookContent): Promise<ProvenWorkbook> {
  const workbook = await opened(content);
  const proof = proofOf(workbook, content, isProvenByTable);
  if (isNeverCalculated(content, proof)) return openProven(withoutZeros(content));
  calculateKeeping(workbook, proof.kept);
  const worse = turnedIntoErrors(workbook, proof);
  if (worse.length === 0) return { workbook, proof };
  const again = await opened(content);
  const kept = [...proof.kept, ...worse];
  calculateKeeping(again, kept);
  return { workbook: again, proof: { ...proof, kept } };
}

async function opened(content: WorkbookContent): Promise<EvaluatedWorkbook> {
  const workbook = new EvaluatedWorkbook(content);
  await prepareFunctions(workbook.functionsUsed());
  return workbook;
}

function calculateKeeping(workbook: ProvableWorkbook, kept: readonly KeptFormula[]): void {
  for (const { sheet, address, why } of kept) workbook.keep(sheet, address, reasonOf(why));
  workbook.calculate();
}

/** Formulas the file proves nothing about and whose stored value would give way to an error. */
const turnedIntoErrors = (workbook: ProvableWorkbook, { believed }: Proof): KeptFormula[] =>
  believed.flatMap((formula): KeptFormula[] => {
    const { sheet, address, cell } = formula;
    if (cell.value === null || isCellError(cell.value)) return [];
    const { value: here, unsupported } = workbook.result(sheet, address);
    if (!isCellError(here) || unsupported !== undefined) return [];
    const functions = workbook.functionsOf(sheet, address);
    return [{ ...formula, functions, why: { because: 'other result', here } }];
  });
