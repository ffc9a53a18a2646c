import type { Cell } from '../../worksheet/cells/cell';
import { cellAt, placeText, textOf, type BookSheet } from './book';
import type { Candidate } from './candidate';
import { unaccented } from './otherLanguages';
import type { FigureName } from './question';
import type { Said } from './saidInBook';

// What a sheet with a recipe says of the batch: `Blocks 48`, `Block kg 2.5`, `Target moisture 61%`, below the ingredients or
// over them, or `60 blocks of 2.3 kg at 62%` in a title. It is no ingredient; it is proposed.

const BLOCK = String.raw`(?:blocks?|bags?|logs?|sacs?|blocs?|beutel|bl[oö]cke?|poser|blokke|zakken)`;
const LABELS: Readonly<Record<FigureName, RegExp>> = {
  'block mass': new RegExp(
    String.raw`\b${BLOCK}\b.*\b(?:kgs?|kilos?|lbs?|g|oz|mass|weigh\w*|wt)\b|\b(?:kgs?|lbs?|mass|weight|wt)\b.*\b${BLOCK}\b`,
    'i',
  ),
  blocks: new RegExp(String.raw`^(?:(?:no\.?|number|#|how many)\s*(?:of\s+)?)?${BLOCK}\b`, 'i'),
  moisture: /\bmoist\w*|\bwater content|\bwetness|\bmc\b|\bhumidit\w*|\bfeucht\w*|\bvocht\w*/i,
};
const SENTENCES: Readonly<Record<FigureName, RegExp>> = {
  'block mass': new RegExp(
    String.raw`\b${BLOCK}\s*(?:of|at|à|@|x|×|je|de|van)\s*(\d+(?:[.,]\d+)?)(?!\s*%|\d)`,
    'i',
  ),
  blocks: new RegExp(String.raw`(?<![\d.,])(\d{1,5})\s*${BLOCK}\b`, 'i'),
  moisture:
    /(\d{1,2}(?:[.,]\d+)?\s*%)(?=[^%]*\b(?:wet|moist\w*|water)\b)|(?:moist\w*|water|wet\w*)[^%\d]{0,20}(\d{1,2}(?:[.,]\d+)?\s*%)/i,
};
const NAMES = ['block mass', 'blocks', 'moisture'] as const;

/** Which figure of a batch a label names. */
export const batchFigureOf = (label: string): FigureName | undefined => {
  const plain = unaccented(label).trim();
  return NAMES.find((name) => LABELS[name].test(plain));
};

/** The figures of the batch that the sheet of a recipe says once, beside the ingredients. */
export function batchFigures({ sheet, dataRows, matches }: Candidate): ReadonlyMap<FigureName, Said> {
  const said = new Map<FigureName, Said[]>();
  const last = Math.max(...matches.map(({ column }) => column));
  sheet.rows.forEach((cells, row) => {
    cells.forEach((cell, column) => {
      if (dataRows.includes(row) && column <= last) return;
      for (const [name, one] of saidAt(sheet, row, column, cell))
        said.set(name, [...(said.get(name) ?? []), one]);
    });
  });
  return new Map(
    [...said].flatMap(([name, [first, ...more]]) =>
      first && more.every(({ value }) => value === first.value) ? [[name, first] as const] : [],
    ),
  );
}

function saidAt(sheet: BookSheet, row: number, column: number, cell: Cell): [FigureName, Said][] {
  if (typeof cell !== 'string') return [];
  const place = placeText(sheet.name, row, column);
  const name = batchFigureOf(cell);
  const beside = cellAt(sheet, row, column + 1);
  const value = name && figureIn(name, beside);
  // A label has one figure; a header or an ingredient has more beside it.
  if (name && value !== undefined && figureIn(name, cellAt(sheet, row, column + 2)) === undefined)
    return [[name, { place, says: `${cell.trim()} ${textOf(beside).trim()}`, value }]];
  return NAMES.flatMap((one): [FigureName, Said][] => {
    const found = SENTENCES[one].exec(cell);
    const figure = found?.[1] ?? found?.[2];
    return figure === undefined ? [] : [[one, { place, says: cell.trim(), value: plain(figure) }]];
  });
}

const plain = (figure: string): string => figure.replace(',', '.').replace(/\s/g, '');

/** A figure as it is answered: `48`, `2.5`, `61%`. */
function figureIn(name: FigureName, cell: Cell): string | undefined {
  if (typeof cell === 'number' && cell > 0) {
    const isShare = name === 'moisture' && cell < 1;
    return isShare ? `${Number((cell * 100).toPrecision(6))}%` : `${Number(cell.toPrecision(12))}`;
  }
  const text =
    typeof cell === 'string' ? /^\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*\p{L}{0,4}\.?\s*$/u.exec(cell) : null;
  return text ? plain(text[1]! + text[2]!) : undefined;
}
