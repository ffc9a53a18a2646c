import { openWorkbook } from '../src/hosts/engine/openWorkbook';
import type { Workbook } from '../src/hosts/xlsx/describe';
import { newWorkbook } from '../src/hosts/xlsx/newSheets';
import type { Results } from '../src/hosts/xlsx/places';
import { readWorkbook } from '../src/hosts/xlsx/read';

/** The results of a workbook's formulas, calculated from its bytes by the embedded engine. */
export async function resultsOf(bytes: Uint8Array): Promise<Results> {
  const calculating = await openWorkbook(readWorkbook(bytes));
  return (sheet, address) => {
    const { value, block, unsupported } = calculating.result(sheet, address);
    if (unsupported !== undefined)
      throw new Error(`${sheet}!${address} cannot be calculated: ${unsupported}`);
    return block ?? [[value]];
  };
}

/**
 * The bytes of a workbook with every result in place. It is written twice: how much room a result takes, and what a
 * chart draws, is known only once the formulas have been calculated.
 */
export async function calculatedFile(workbook: Workbook): Promise<Uint8Array> {
  return newWorkbook(workbook, await resultsOf(newWorkbook(workbook)));
}
