import {
  parseA1Ref,
  stringifyA1Ref,
  translateFormulaToA1,
  translateFormulaToR1C1,
  type ReferenceA1Xlsx,
} from '@borgar/fx/xlsx';
import { CompiledFormula, registries } from '@odoo/o-spreadsheet';
import { addressOf, type Area, type Place } from '../xlsx/address';
import { cut } from '../xlsx/formula';

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

/**
 * A formula of a sorted area in another of its rows: it speaks of that row, and of the same cells outside.
 * @throws Error in a sentence where it speaks of other rows of the area
 */
export function inOtherRow(formula: string, sheet: string, from: Place, to: number, area: Area): string {
  const moved = cut(formula.slice(1)).map(({ type, value }) => {
    if (type !== 'range' && type !== 'range_beam') return value;
    const reference = parseA1Ref(value) as ReferenceA1Xlsx | undefined;
    if (!reference || !('range' in reference)) return value;
    const { sheetName = '', range } = reference;
    const { top, bottom, $top, $bottom } = range;
    const isHere = sheetName === '' || sheetName.toLowerCase() === sheet.toLowerCase();
    if (!isHere || top === null || top === undefined || bottom === null || bottom === undefined) return value;
    if ($top && $bottom) return value;
    if (top === from.row && bottom === from.row) {
      return stringifyA1Ref({ ...reference, range: { ...range, top: to, bottom: to } });
    }
    const isOutside = bottom < area.top || top > area.bottom;
    const isAll = top <= area.top && bottom >= area.bottom;
    if (isOutside || isAll) return value;
    throw new Error(`the formula in ${addressOf(from)} speaks of other rows that would be sorted (${value})`);
  });
  return `=${moved.join('')}`;
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

const compile = CompiledFormula.Compile.bind(CompiledFormula);

/** How the names begin that stand in for table references while the grid reads a formula. */
const STAND_IN = 'tableReference';

/**
 * Table references such as `Lots[Blocks]` are names to the grid, which moves all else that the formula refers to.
 * Undefined where it cannot read the rest either.
 */
function compiledWithTables(
  ...[text, sheetId, getters]: Parameters<typeof compile>
): CompiledFormula | undefined {
  const tables: string[] = [];
  const names = cut(text.slice(1)).map(({ type, value }) =>
    type === 'structured' ? `${STAND_IN}${tables.push(value)}_` : value,
  );
  if (tables.length === 0) return undefined;
  const formula = compile(`=${names.join('')}`, sheetId, getters);
  if (formula.isBadExpression) return undefined;
  const asWritten = (word: string): string =>
    word.startsWith(STAND_IN) ? (tables[parseInt(word.slice(STAND_IN.length), 10) - 1] ?? word) : word;
  const { tokens } = formula as unknown as { tokens: readonly { type: string; value: string }[] };
  Object.assign(formula, {
    tokens: tokens.map((token) =>
      token.type === 'SYMBOL' ? { ...token, value: asWritten(token.value) } : token,
    ),
    symbols: formula.symbols.map(asWritten),
  });
  return formula;
}

CompiledFormula.Compile = (...given): CompiledFormula => {
  const formula = (given[0].includes('[') ? compiledWithTables(...given) : undefined) ?? compile(...given);
  // The grid moves only what it knows to refer to something.
  if (formula.isBadExpression) Object.assign(formula, { hasDependencies: true });
  return formula;
};
