import { openWorkbook } from '../../src/hosts/engine/openWorkbook';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import type { Workbook } from '../describe';
import type { Results } from './places';
import { workbookFile } from './workbookFile';

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
  return workbookFile(workbook, await resultsOf(workbookFile(workbook, () => undefined)));
}
