import { isCellError } from '../../worksheet/cells/cell';
import type { EngineWorkbook } from '../engine/engineWorkbook';
import { grouped, keptGroup } from '../engine/keptGroups';
import type { CellName } from '../engine/workbook';
import { byCause, type Faulty } from '../pane/causes';
import type { Finding } from '../pane/check';

/** More faults are of no more causes that a person could look at. */
const MOST = 2000;

/**
 * What a person should look at, by what it comes from: cells that show a fault; formulas that keep the file's result,
 * the most first; and formulas that depend on those.
 */
export function findingsIn(workbook: EngineWorkbook): Finding[] {
  const faults: Faulty[] = [];
  const kept: CellName[] = [];
  const dependents: (CellName & { readonly on: CellName })[] = [];
  for (const { sheet, address, value, unsupported, restsOn } of workbook.troubled()) {
    const source = workbook.filledFrom(sheet, address);
    if (unsupported !== undefined) kept.push({ sheet, address });
    else if (isCellError(value) && value.code !== '#BUSY!' && faults.length < MOST) {
      const { code, reason } = value;
      const words = reason === '' ? `Shows ${code}` : `${code}: ${reason}`;
      const formula = source === undefined ? undefined : workbook.formulaAt(sheet, source);
      faults.push({
        place: { sheet, address },
        code,
        reason,
        words,
        ...(formula !== undefined && { formula }),
      });
    }
    // Of a result that fills many cells the first speaks for all.
    if (restsOn && source === address) dependents.push({ sheet, address, on: restsOn });
  }
  return [...byCause(faults), ...keptFindings(workbook, kept), ...dependentFindings(dependents)];
}

const keptFindings = (workbook: EngineWorkbook, kept: readonly CellName[]): Finding[] =>
  grouped(kept, ({ sheet, address }) => {
    const { why, functions } = workbook.whyKept(sheet, address);
    return keptGroup(why, functions, workbook.formulaAt(sheet, address) ?? '');
  }).map(([name, of]) => found(of, `${name}: the file’s own result is kept`));

const dependentFindings = (dependents: readonly (CellName & { readonly on: CellName })[]): Finding[] =>
  grouped(dependents, ({ on: { sheet, address } }) => `${sheet}!${address}`).map(([on, of]) =>
    found(of, `Depends on ${on}, which keeps the file’s own result`),
  );

const found = (of: readonly CellName[], words: string): Finding => ({
  kind: 'kept',
  place: of[0]!,
  places: of,
  words: words.charAt(0).toUpperCase() + words.slice(1),
});
