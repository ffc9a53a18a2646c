import { isCellError } from '../../worksheet/cells/cell';
import type { EngineWorkbook } from '../engine/engineWorkbook';
import { grouped, keptGroup } from '../engine/keptGroups';
import type { CellName } from '../engine/workbook';

/** Something a person should look at, and why. */
export interface Finding {
  /** The cell to go to. */
  readonly sheet: string;
  readonly address: string;
  /** What it is about: the cell, or how many there are of its kind. */
  readonly about: string;
  readonly kind: 'fault' | 'kept';
  readonly text: string;
}

/** A longer list helps nobody. */
const MOST = 200;
const MOST_NAMED = 5;

/**
 * Cells that show a fault, one by one; formulas that keep the file's result by what they have in common, the most first;
 * and formulas that depend on those.
 */
export function findingsIn(workbook: EngineWorkbook): Finding[] {
  const faults: Finding[] = [];
  const kept: CellName[] = [];
  const dependents: (CellName & { readonly on: CellName })[] = [];
  for (const { sheet, address, value, unsupported, restsOn } of workbook.troubled()) {
    if (unsupported !== undefined) kept.push({ sheet, address });
    else if (isCellError(value) && value.code !== '#BUSY!') {
      const text = value.reason === '' ? value.code : `${value.code} ${value.reason}`;
      if (faults.length < MOST) {
        faults.push({ sheet, address, about: `${sheet} ${address}`, kind: 'fault', text });
      }
    }
    // Of a result that fills many cells the first speaks for all.
    const isFirst = workbook.filledFrom(sheet, address) === address;
    if (restsOn && isFirst) dependents.push({ sheet, address, on: restsOn });
  }
  return [...faults, ...keptFindings(workbook, kept), ...dependentFindings(dependents)].slice(0, MOST);
}

const keptFindings = (workbook: EngineWorkbook, kept: readonly CellName[]): Finding[] =>
  grouped(kept, ({ sheet, address }) => {
    const { why, functions } = workbook.whyKept(sheet, address);
    return keptGroup(why, functions, workbook.formulaAt(sheet, address) ?? '');
  }).map(([name, of]) => found(of, `${of.length} × ${name}: the file's own result is kept`));

const dependentFindings = (dependents: readonly (CellName & { readonly on: CellName })[]): Finding[] =>
  grouped(dependents, ({ on }) => placeOf(on)).map(([on, of]) =>
    found(of, `${of.length} × depends on ${on}, which keeps the file's own result`),
  );

const placeOf = ({ sheet, address }: CellName): string => `${sheet} ${address}`;

function found(of: readonly CellName[], text: string): Finding {
  const [first] = of;
  const more = of.length - MOST_NAMED;
  const names = of.slice(0, MOST_NAMED).map(placeOf).join(', ');
  return {
    ...first!,
    about: more > 0 ? `${names} and ${more} more` : names,
    kind: 'kept',
    text,
  };
}
