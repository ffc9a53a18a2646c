import { CellError } from '../../worksheet/cells/cell';
import { openWorkbook } from '../engine/openWorkbook';
import { asWritten, cut, type Formula } from '../xlsx/formula';
import { CommandFault, type Output, type Status } from './command';
import { faultsIn, faultText, jsonValue, rowText, shownResult } from './shown';
import { jsonText, oneLine } from './terminal';

const SHEET = 'Sheet1';
const CELL = 'A1';

/** Calculates one formula in an empty workbook and prints its value, a table as rows of tab-separated cells. */
export async function calc(typed: string, json: boolean, { out, error }: Output): Promise<Status> {
  // The command line of Windows passes single quotes on.
  const text = typed
    .trim()
    .replace(/^'(.*)'$/s, '$1')
    .replace(/^=/, '');
  if (text === '') throw new CommandFault('a formula needed, got nothing');
  const tokens = cut(text);
  const complaint = complaintAbout(tokens);
  if (complaint !== undefined) throw new CommandFault(complaint);
  const formula = `=${asWritten(tokens)}`;
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
      jsonText({
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

/** Why a formula cannot be calculated by itself, in words; undefined where nothing speaks against it. */
function complaintAbout(tokens: Formula): string | undefined {
  const open: string[] = [];
  const hasVariables = tokens.some(({ type, value }) => type === 'func' && /LET|LAMBDA/i.test(value));
  for (const { type, value, unterminated } of tokens) {
    if (unterminated === true) return `a closing quotation mark needed behind ${value}`;
    if (type === 'range_named' ? !hasVariables : /^(range|range_beam|structured)$/.test(type)) {
      return `${value} is a cell or a name of a workbook, and calc has none: write the value itself, or use recalc`;
    }
    if (value === '(' || value === '{') open.push(value);
    if (value === ')' || value === '}') {
      if (open.pop() !== (value === ')' ? '(' : '{')) return `one ${value} too many in the formula`;
    }
    if (value === ';' && open.at(-1) !== '{') return 'commas needed between arguments, got ;';
  }
  return open.length === 0
    ? undefined
    : `${open.at(-1) === '(' ? ')' : '}'} needed at the end of the formula`;
}
