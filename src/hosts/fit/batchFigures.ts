import type { Cell } from '../../worksheet/cells/cell';
import { cellAt, placeText, textOf } from './book';
import type { Candidate } from './candidate';
import { unaccented } from './otherLanguages';
import type { FigureName } from './question';
import type { Said } from './saidInBook';

// What stands of the batch below the ingredients of a recipe, over them or at their side: `Blocks 48`, `Block kg 2.5`,
// `Target moisture 61%`. It is no ingredient.

const BLOCK = String.raw`(?:blocks?|bags?|logs?|sacs?|blocs?|beutel|bl[oö]cke?|poser|blokke|zakken)`;
const LABELS: Readonly<Record<FigureName, RegExp>> = {
  'block mass': new RegExp(
    String.raw`\b${BLOCK}\b.*\b(?:kgs?|kilos?|lbs?|g|oz|mass|weigh\w*|wt)\b|\b(?:kgs?|lbs?|mass|weight|wt)\b.*\b${BLOCK}\b`,
    'i',
  ),
  blocks: new RegExp(String.raw`^(?:(?:no\.?|number|#|how many)\s*(?:of\s+)?)?${BLOCK}\b`, 'i'),
  moisture: /\bmoist\w*|\bwater content|\bwetness|\bmc\b|\bhumidit\w*|\bfeucht\w*|\bvocht\w*/i,
};
const NAMES = ['block mass', 'blocks', 'moisture'] as const;

/** Which figure of a batch a label names. */
export const batchFigureOf = (label: string): FigureName | undefined => {
  const plain = unaccented(label).trim();
  return NAMES.find((name) => LABELS[name].test(plain));
};

/** Where labels of such a figure stand beside the ingredients, with the figure. */
export function labelledFigures({ sheet, dataRows, matches }: Candidate, figure: FigureName): Said[] {
  const last = Math.max(...matches.map(({ column }) => column));
  return sheet.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column): Said[] => {
      const isOfRecipe = dataRows.includes(row) && column <= last;
      if (typeof cell !== 'string' || isOfRecipe || batchFigureOf(cell) !== figure) return [];
      const beside = cellAt(sheet, row, column + 1);
      const value = figureIn(figure, beside);
      // A label has one figure; a header or an ingredient has more beside it.
      if (value === undefined || figureIn(figure, cellAt(sheet, row, column + 2)) !== undefined) return [];
      const says = `${cell.trim()} ${typeof beside === 'number' ? value : textOf(beside).trim()}`;
      return [{ sheet: sheet.name, place: placeText(sheet.name, row, column), says, value }];
    }),
  );
}

/** A figure as it is answered: `48`, `2.5 kg`, `61%`. */
function figureIn(name: FigureName, cell: Cell): string | undefined {
  if (typeof cell === 'number' && cell > 0) {
    const isShare = name === 'moisture' && cell < 1;
    return isShare ? `${Number((cell * 100).toPrecision(6))}%` : `${Number(cell.toPrecision(12))}`;
  }
  const text =
    typeof cell === 'string' ? /^\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*(\p{L}{0,4})\.?\s*$/u.exec(cell) : null;
  return text ? `${text[1]!.replace(',', '.')}${text[2]!}${text[3]! && ` ${text[3]}`}` : undefined;
}
