import { readFile } from 'node:fs/promises';
import { isCellError, type Format } from '../../worksheet/cells/cell';
import { openProven } from '../engine/openWorkbook';
import { isFormula, isPinset } from '../engine/proof';
import { addressOf, placeOf } from '../xlsx/address';
import { readWorkbook } from '../xlsx/read';

/** A formula of the workbook that calls Pinset: why cells of its result have no answer, and how its numbers read. */
export interface Reported {
  readonly sheet: string;
  readonly cell: string;
  readonly faults: readonly { readonly cell: string; readonly code: string; readonly reason: string }[];
  /** Cells with a format of their own, row by row; `plain` for the others. */
  readonly formats: readonly (readonly Format[])[];
}

/**
 * Looks through a saved copy of a workbook. Calc shows no reason beside an error and keeps none, so the copy is
 * calculated as the command does it.
 */
export async function reportOn(path: string): Promise<{ readonly formulas: readonly Reported[] }> {
  const content = readWorkbook(new Uint8Array(await readFile(path)));
  const { workbook } = await openProven(content);
  const formulas = content.sheets.flatMap(({ name: sheet, cells }) =>
    cells
      .filter((cell) => isFormula(cell) && isPinset(cell))
      .map(({ address }): Reported => {
        const { value, block = [[value]] } = workbook.result(sheet, address);
        const { row, column } = placeOf(address)!;
        const at = (r: number, c: number): string => addressOf({ row: row + r, column: column + c });
        return {
          sheet,
          cell: address,
          faults: block.flatMap((cellsOfRow, r) =>
            cellsOfRow.flatMap((cell, c) =>
              isCellError(cell) ? [{ cell: at(r, c), code: cell.code, reason: cell.reason }] : [],
            ),
          ),
          formats: block.map((cellsOfRow, r) =>
            cellsOfRow.map((_, c) => workbook.result(sheet, at(r, c)).format ?? 'plain'),
          ),
        };
      }),
  );
  return { formulas };
}
