import type { EngineWorkbook } from '../engine/engineWorkbook';
import { addressOf, placeOf, type Area } from '../xlsx/address';
import { callsPinset, withoutSpillsOf } from '../xlsx/formula';
import type { Change } from '../xlsx/patch';

/**
 * Constants in place of Pinset's formulas, for people without them. Other formulas stay, but `I8#` on a result that no
 * longer spills becomes the range it covers.
 */
export function plainNumberChanges(workbook: EngineWorkbook, sheets: readonly string[]): Change[] {
  const formulas = sheets.flatMap((sheet) =>
    [...workbook.entries(sheet)].flatMap(({ address }) => {
      const formula = workbook.formulaAt(sheet, address);
      return formula === undefined
        ? []
        : [{ sheet, address, formula, result: workbook.result(sheet, address) }];
    }),
  );
  const covered = new Map<string, Area>();
  for (const { sheet, address, formula, result } of formulas) {
    if (!callsPinset(formula.slice(1)) || !result.block) continue;
    const { row, column } = placeOf(address)!;
    const { length } = result.block;
    covered.set(`${sheet}!${address}`.toLowerCase(), {
      top: row,
      left: column,
      bottom: row + length - 1,
      right: column + result.block[0]!.length - 1,
    });
  }
  return formulas.flatMap(({ sheet, address, formula, result }): Change[] => {
    const values = result.block ?? [[result.value]];
    if (callsPinset(formula.slice(1))) {
      // A result that could not be calculated may be old: it is not made to last.
      if (result.unsupported !== undefined) return [];
      return [{ sheet, address, formula: null, values, formats: workbook.formatsFrom(sheet, address) }];
    }
    if (covered.size === 0 || !formula.includes('#')) return [];
    const fixed = withoutSpillsOf(formula.slice(1), sheet, (other, first) =>
      covered.get(`${other}!${addressOf(first)}`.toLowerCase()),
    );
    return fixed === formula.slice(1) ? [] : [{ sheet, address, formula: `=${fixed}`, values }];
  });
}
