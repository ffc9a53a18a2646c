import { translateFormulaToA1, translateFormulaToR1C1 } from '@borgar/fx/xlsx';
import { CompiledFormula, registries } from '@odoo/o-spreadsheet';
import { addressOf } from '../xlsx/address';

// Formulas that the grid itself cannot read, such as `=Lots[Blocks]*A2` or `=A2#`, are copied, filled and sorted as all
// others are: what they refer to moves along.

/** Far from every edge, so that no distance leads past one. */
const MIDDLE = { row: 500_000, column: 8000 };

/** A formula as it reads so many columns further right and rows further down; unchanged where it cannot be read. */
export function shifted(formula: string, right: number, down: number): string {
  try {
    const distances = translateFormulaToR1C1(formula, addressOf(MIDDLE));
    const there = addressOf({ row: MIDDLE.row + down, column: MIDDLE.column + right });
    return translateFormulaToA1(distances, there, { wrapEdges: false });
  } catch {
    return formula;
  }
}

type Translate = (sheetId: string, right: number, down: number, formula: CompiledFormula) => string;

const cells = registries.corePluginRegistry.get('cell') as unknown as {
  prototype: { getTranslatedCellFormula: Translate };
};
const { getTranslatedCellFormula } = cells.prototype;
cells.prototype.getTranslatedCellFormula = function (sheetId, right, down, formula) {
  if (formula.isBadExpression) return shifted(formula.normalizedFormula, right, down);
  return getTranslatedCellFormula.call(this, sheetId, right, down, formula);
};

// The grid moves only what it knows to refer to something.
const compile = CompiledFormula.Compile.bind(CompiledFormula);
CompiledFormula.Compile = (...given): CompiledFormula => {
  const formula = compile(...given);
  if (formula.isBadExpression) Object.assign(formula, { hasDependencies: true });
  return formula;
};
