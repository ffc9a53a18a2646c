import { CellError } from '../../worksheet/cells/cell';
import { openWorkbook } from '../engine/openWorkbook';
import { asWritten, cut } from '../xlsx/formula';
import { CommandFault, oneLine, type Output, type Status } from './command';
import { faultsIn, faultText, jsonValue, rowText, shownResult } from './shown';

const SHEET = 'Sheet1';
const CELL = 'A1';

/** Calculates one formula in an empty workbook and prints its value, a table as rows of tab-separated cells. */
export async function calc(typed: string, json: boolean, { out, error }: Output): Promise<Status> {
  const text = typed.trim().replace(/^=/, '');
  if (text === '') throw new CommandFault('a formula is needed');
  const formula = `=${asWritten(cut(text))}`;
  // A stored range, if only of one cell, lets the result spill.
  const workbook = await openWorkbook({
    dateSystem: 1900,
    sheets: [{ name: SHEET, cells: [{ address: CELL, value: null, formula, spill: CELL }] }],
  });
  const result = workbook.result(SHEET, CELL);
  if (result.unsupported !== undefined) {
    error(`#NAME? this formula needs ${oneLine(result.unsupported)}, which the calculation here lacks`);
    return 1;
  }
  const shown = shownResult(workbook, SHEET, CELL, result);
  const faults = faultsIn(shown, CELL);
  const single = !result.block;
  if (json) {
    out(
      JSON.stringify({
        formula,
        ...(single
          ? { value: jsonValue(result.value) }
          : { values: shown.rows.map((row) => row.map(jsonValue)) }),
        ...(faults[0] && { error: faults[0].error.code, reason: faults[0].error.reason }),
      }),
    );
    return faults.length ? 1 : 0;
  }
  if (!(single && result.value instanceof CellError)) {
    shown.rows.forEach((row, r) => out(rowText(row, shown.formats[r]!, 1900).join('\t')));
  }
  const reasons = new Set(faults.map((fault) => oneLine(faultText(fault.error))));
  for (const reason of reasons) error(reason);
  return faults.length ? 1 : 0;
}
