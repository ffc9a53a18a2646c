import { isCellError } from '../../worksheet/cells/cell';
import { EvaluatedWorkbook } from './evaluator/evaluatedWorkbook';
import { prepareFunctions } from './evaluator/pinsetFunctions';
import { isFormula } from '../xlsx/content';
import {
  isNeverCalculated,
  proofOf,
  reasonOf,
  withoutZeros,
  type KeptFormula,
  type Proof,
  type StoredFormula,
} from './proof';
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
  return proven(content, await opened(content), (held) => new EvaluatedWorkbook(held));
}

/**
 * As `openProven`, for a workbook over `content` that is yet to be calculated and whose functions have been prepared;
 * `open` makes another.
 */
export function proven<W extends ProvableWorkbook>(
  content: WorkbookContent,
  workbook: W,
  open: (content: WorkbookContent) => W,
): { readonly workbook: W; readonly proof: Proof } {
  let held = content;
  if (isNeverCalculated(workbook, content, isProvenByTable)) {
    held = withoutZeros(content);
    workbook.forgetZeros(held);
  }
  const proof = proofOf(workbook, held, isProvenByTable);
  calculateKeeping(workbook, proof.kept);
  const worse = turnedIntoErrors(workbook, proof);
  if (worse.length === 0) return { workbook, proof };
  const again = open(held);
  const kept = [...proof.kept, ...worse];
  calculateKeeping(again, kept);
  return { workbook: again, proof: { ...proof, kept } };
}

/**
 * A workbook that was changed here, as of its rows and columns: `kept` keep their results, which the file proved before
 * the change. What the file stores for the other formulas was calculated before it, and counts for nothing.
 */
export function withoutResults(content: WorkbookContent, kept: readonly StoredFormula[]): WorkbookContent {
  const held = new Map(
    kept.map(({ sheet, address, cell }) => [`${sheet.toLowerCase()}!${address}`, cell.value]),
  );
  return {
    ...content,
    sheets: content.sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((cell) =>
        isFormula(cell)
          ? { ...cell, value: held.get(`${sheet.name.toLowerCase()}!${cell.address}`) ?? null }
          : cell,
      ),
    })),
  };
}

async function opened(content: WorkbookContent): Promise<EvaluatedWorkbook> {
  const workbook = new EvaluatedWorkbook(content);
  await prepareFunctions(workbook.functionsUsed());
  return workbook;
}

/** Calculates a workbook in which some formulas keep their stored results. */
export function calculateKeeping(workbook: ProvableWorkbook, kept: readonly KeptFormula[]): void {
  for (const { sheet, address, why } of kept) workbook.keep(sheet, address, reasonOf(why));
  workbook.calculate();
}

/** Formulas the file proves nothing about and whose stored value would give way to an error. */
const turnedIntoErrors = (workbook: ProvableWorkbook, { givingWay }: Proof): KeptFormula[] =>
  givingWay.flatMap((formula): KeptFormula[] => {
    const { sheet, address, cell } = formula;
    if (isCellError(cell.value)) return [];
    const { value: here, unsupported } = workbook.result(sheet, address);
    // A cell whose answer takes long shows #BUSY! meanwhile.
    if (!isCellError(here) || here.code === '#BUSY!' || unsupported !== undefined) return [];
    const functions = workbook.functionsOf(sheet, address);
    return [{ ...formula, functions, why: { because: 'other result', here } }];
  });
