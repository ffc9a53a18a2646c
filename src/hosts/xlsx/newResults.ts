import { addressOf, COLUMNS, placeOf } from './address';
import { cellElement, storesAlready } from './cellText';
import type { Change } from './change';
import { callsPinset } from './formula';
import { walkSheet, type StoredCell } from './sheet';
import { prefixAt } from './xml';

interface Written {
  readonly text: string;
  /** Changes that are yet to be made. */
  readonly others: readonly Change[];
}

/**
 * A sheet's part with the new results of formulas that stay and fill one cell; other changes are left for later. It is
 * written as it is read, and nothing is kept of its cells: files of libraries need a result in each of them.
 */
export function withNewResults(xml: string, part: string, changes: readonly Change[]): Written {
  const results = new Map<number, Change | 'written'>();
  for (const change of changes) {
    const key = isResult(change) ? keyOf(change.address) : undefined;
    if (key !== undefined) results.set(key, change);
  }
  if (results.size === 0) return { text: xml, others: changes };
  // The cell with the text of a shared formula may stand anywhere.
  const mayShare = !/pinset/i.test(xml);
  const pieces: string[] = [];
  let [at, prefix, isTwice] = [0, '', false];
  walkSheet(xml, part, {
    other(element, _attributes, start) {
      if (element === 'sheetData') prefix = prefixAt(xml, start);
    },
    cell(cell) {
      const key = cell.row * COLUMNS + cell.column;
      const change = results.get(key);
      isTwice ||= change === 'written';
      if (change === undefined || change === 'written' || !isOne(cell, mayShare)) return;
      results.set(key, 'written');
      const { attributes, value, formulaAt, start, end } = cell;
      const held = { formula: xml.slice(...formulaAt!), value: change.values[0]![0]!, calculated: true };
      if (storesAlready(attributes, value, held)) return;
      pieces.push(
        xml.slice(at, start),
        cellElement(prefix, addressOf(cell), attributes, attributes['s'], undefined, held),
      );
      at = end;
    },
  });
  // A damaged file may have a cell twice, and which counts is not for here.
  if (isTwice) return { text: xml, others: changes };
  pieces.push(xml.slice(at));
  const isWritten = (change: Change): boolean =>
    isResult(change) && results.get(keyOf(change.address) ?? -1) === 'written';
  return { text: pieces.join(''), others: changes.filter((change) => !isWritten(change)) };
}

const keyOf = (address: string): number | undefined => {
  const place = placeOf(address);
  return place && place.row * COLUMNS + place.column;
};

/** Whether a change is a result of one cell and nothing else. */
const isResult = ({ formula, spills, values, formats, numberFormat }: Change): boolean =>
  formula === undefined &&
  spills === undefined &&
  formats === undefined &&
  numberFormat === undefined &&
  values.length === 1 &&
  values[0]!.length === 1;

/** Whether the formula of a cell stays as it is written, and its result is that cell's alone. */
const isOne = ({ formula, attributes }: StoredCell, mayShare: boolean): boolean =>
  formula !== undefined &&
  (formula.kind === 'normal' || (mayShare && formula.kind === 'shared')) &&
  attributes['cm'] === undefined &&
  !callsPinset(formula.text);
