import { isCellError } from '../../worksheet/cells/cell';
import type { EngineWorkbook } from '../engine/engineWorkbook';
import { keptBecause } from './reading';

/** A cell a person should look at, and why. */
export interface Finding {
  readonly sheet: string;
  readonly address: string;
  readonly kind: 'fault' | 'kept';
  readonly text: string;
}

/** A longer list helps nobody. */
const MOST = 200;

/** Cells that show a fault, and formulas that keep the file's result because the engine lacks something. */
export function findingsIn(workbook: EngineWorkbook): Finding[] {
  const findings: Finding[] = [];
  for (const { sheet, address, value, unsupported } of workbook.troubled()) {
    if (findings.length === MOST) break;
    if (unsupported !== undefined) {
      findings.push({ sheet, address, kind: 'kept', text: keptBecause(unsupported) });
    } else if (isCellError(value) && value.code !== '#BUSY!') {
      const text = value.reason === '' ? value.code : `${value.code} ${value.reason}`;
      findings.push({ sheet, address, kind: 'fault', text });
    }
  }
  return findings;
}
