import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { isTotalsWord } from '../../worksheet/cells/totals';
import { batchFigureOf } from './batchFigures';
import { cellAt, textOf } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { looksIn } from './looks';
import { unaccented } from './otherLanguages';
import { areSums } from './sums';
import type { ColumnReading } from './reading';
import { massUnitIn, mostOf } from './units';
import type { CountedRows } from './whichRows';

// Recipes as they hang beside the mixer: kilograms or parts of what is weighed out, water and a total among the ingredients.

/** What the figures of a recipe are parts of: the dry mass, or what is weighed out, moist as it comes. */
export type Basis = 'dry' | 'as weighed';

const DRY = /\bdry\b|trocken|\bsec(?:he|hes|s)?\b|\bsec[oa]s?\b|\bdroge?\b|\bsuch[aey]/i;
const AS_WEIGHED =
  /\bas[ -](?:is|received|bought|delivered|weighed)\b|\b(?:wet|fresh|moist|feucht|frisch|humide)\b/i;
const PARTS = /\b(?:parts?|teile?|partes?|delen|deler|parti|czesci)\b/i;
const WEIGHT = /\b(?:weight|wt|mass|gewicht|poids|peso|masa)\b/i;
/** Buckets say nothing of mass. */
const VOLUME = /\b(?:vol\w*|l|lit(?:er|re)s?|gal\w*|buckets?|scoops?|cups?|cu)\b/i;
/** A sack as bought and a price are no part of a recipe. */
const OTHER = /\b(?:packs?|sacks?|bags?|price|cost|stock)\b|[$€£]/i;
const PERCENT = /%|\b(?:per ?cent|percentage|pct|prozent|pour ?cent|porcentaje)\b/i;
const PACK = /pack|bag|sack|bale|tote|drum/i;
const WATER = /^(?:(?:tap|added|hot|cold|clean)\s+)?(?:water|wasser|eau|agua|h2o|acqua|woda|vand|vatten)\b/i;

/** What the figures under a header are parts of; undefined where they are shares already, as they stand. */
function basisOf(header: string, hasWater: boolean): Basis | undefined {
  const plain = unaccented(header).replaceAll('_', ' ');
  if (VOLUME.test(plain)) return undefined;
  const isPercent = PERCENT.test(plain);
  const isMass = massUnitIn(plain) !== undefined || WEIGHT.test(plain) || PARTS.test(plain);
  if (DRY.test(plain)) return isMass && !isPercent ? 'dry' : undefined;
  // Per cent by weight may well be of the dry weight: only with water among them they are of all.
  if (AS_WEIGHED.test(plain) || hasWater) return 'as weighed';
  return isMass && !isPercent ? 'as weighed' : undefined;
}

/** A recipe whose shares, where no header names them, are the masses or parts in it; water and totals are no ingredients. */
export function asRecipe(candidate: Candidate): Candidate {
  const { table, parts, lies } = candidate;
  if (table.name !== 'recipe' || parts || lies) return candidate;
  return withoutTotals(withoutWater(withoutBatch(withoutMassAsPack(withShare(candidate)))));
}

const columnOf = ({ matches }: Candidate, wanted: string): number | undefined =>
  matches.find((match) => match.wanted === wanted)?.column;

function withShare(candidate: Candidate): Candidate {
  const { headers, matches, sheet, dataRows } = candidate;
  if (columnOf(candidate, 'share') !== undefined) return candidate;
  const isFree = (column: number): boolean =>
    matches.every((match) => match.column !== column || match.wanted === 'pack');
  const hasFigures = (column: number): boolean => {
    const looks = looksIn(sheet, dataRows, column);
    return (looks.get('number') ?? 0) + (looks.get('text number') ?? 0) >= dataRows.length / 2;
  };
  const found = [...headers].filter(
    ([column, header]) =>
      isFree(column) &&
      hasFigures(column) &&
      !OTHER.test(unaccented(header)) &&
      basisOf(header, false) !== undefined,
  );
  const isPercent = ([, header]: readonly [number, string]): boolean => header.includes('%');
  const isParts = ([, header]: readonly [number, string]): boolean => PARTS.test(unaccented(header));
  const kinds = [
    found.filter(([, header]) => DRY.test(unaccented(header))),
    found.filter((one) => isPercent(one)),
    found.filter((one) => !isPercent(one) && !isParts(one)),
    found.filter(isParts),
  ];
  const [only, more] = kinds.find((some) => some.length > 0) ?? [];
  // Several recipes side by side: only the grower knows which is to be mixed.
  if (!only || more) return candidate;
  const [column, header] = only;
  const share: ColumnMatch = { wanted: 'share', header, column, by: 'a name like it' };
  return {
    ...candidate,
    matches: inTurn([...matches.filter((match) => match.column !== column), share], candidate),
    missing: candidate.missing.filter((name) => name !== 'share'),
  };
}

/** A mass is that of a pack only where its header says so: what is weighed out is none. */
function withoutMassAsPack(candidate: Candidate): Candidate {
  const isNoPack = ({ wanted, by, header }: ColumnMatch): boolean =>
    wanted === 'pack' && by === 'a name like it' && !PACK.test(unaccented(header));
  return { ...candidate, matches: candidate.matches.filter((match) => !isNoPack(match)) };
}

const inTurn = (matches: readonly ColumnMatch[], { table }: Candidate): ColumnMatch[] => {
  const at = ({ wanted }: ColumnMatch): number => table.columns.findIndex(({ name }) => name === wanted);
  return [...matches].sort((a, b) => at(a) - at(b));
};

/** Without the rows of these words, which a column says. */
function without(
  candidate: Candidate,
  column: number,
  isWord: (word: string, row: number) => boolean,
): Candidate {
  const { sheet, dataRows, headers } = candidate;
  const wordAt = (row: number): string => textOf(cellAt(sheet, row, column)).trim();
  const rows = dataRows.filter((row) => !isWord(wordAt(row), row));
  if (rows.length === dataRows.length || rows.length === 0) return candidate;
  const words = (some: readonly number[]): string[] => [...new Set(some.map(wordAt))];
  const counted: CountedRows = {
    column,
    header: headers.get(column)!,
    words: words(rows),
    without: words(dataRows.filter((row) => !rows.includes(row))).map((word) => word || 'blank'),
    leftOut: dataRows.length - rows.length,
  };
  return { ...candidate, dataRows: rows, counted: [...(candidate.counted ?? []), counted] };
}

/** The water that a recipe names is worked out anew, for the moisture that is wanted. */
function withoutWater(candidate: Candidate): Candidate {
  const ingredient = columnOf(candidate, 'ingredient');
  if (ingredient === undefined) return candidate;
  return without(candidate, ingredient, (word) => WATER.test(unaccented(word)));
}

/** Without what is said of the batch below the ingredients, a blank row between. */
function withoutBatch(candidate: Candidate): Candidate {
  const { dataRows } = candidate;
  const ingredient = columnOf(candidate, 'ingredient');
  const below = dataRows.find((row, i) => i > 0 && row - dataRows[i - 1]! > 1);
  if (ingredient === undefined || below === undefined) return candidate;
  return without(candidate, ingredient, (word, row) => row >= below && batchFigureOf(word) !== undefined);
}

/** Without a total under a word that no rule knows, and without what a recipe of several side by side has none of. */
function withoutTotals(candidate: Candidate): Candidate {
  const { sheet, area, dataRows, matches, headers } = candidate;
  const [ingredient, share] = ['ingredient', 'share'].map((wanted) => columnOf(candidate, wanted));
  if (ingredient === undefined || share === undefined) return candidate;
  const last = dataRows.at(-1)!;
  const above = Array.from({ length: last - area.top - 1 }, (_, i) => area.top + 1 + i);
  const own =
    isTotalsWord(textOf(cellAt(sheet, last, ingredient))) || areSums(sheet, last, above, [...headers.keys()])
      ? without(candidate, ingredient, (_, row) => row === last)
      : candidate;
  const isChosen = matches.some(({ wanted, by }) => wanted === 'share' && by === 'you');
  const isNone = (word: string): boolean => word === '' || word === '-' || word === '–';
  return isChosen ? without(own, share, isNone) : own;
}

/** Whether a recipe says how much water is weighed out: its other figures then are of what is weighed out as well. */
const hasWater = ({ sheet, counted = [], matches, area }: Candidate): boolean => {
  const share = matches.find(({ wanted }) => wanted === 'share')?.column;
  if (share === undefined) return false;
  return counted.some(({ column, without = [] }) =>
    sheet.rows
      .slice(area.top + 1, area.bottom + 1)
      .some(
        (cells) =>
          WATER.test(unaccented(textOf(cells[column] ?? null))) &&
          without.includes(textOf(cells[column] ?? null).trim()) &&
          !isBlank(cells[share] ?? null),
      ),
  );
};

/** Each figure as a share of the dry mass of all, given the moisture of each where it is weighed moist. */
export function sharesOfDry(figures: readonly Cell[], moistures: readonly Cell[] | undefined): Cell[] {
  const dry = figures.map((figure, i): Cell => {
    if (typeof figure !== 'number' || !moistures) return figure;
    const moisture = moistures[i]!;
    if (isCellError(moisture)) return moisture;
    return figure * (1 - (typeof moisture === 'number' ? moisture : 0));
  });
  const all = dry.reduce<number>((sum, cell) => (typeof cell === 'number' ? sum + cell : sum), 0);
  return dry.map((cell) => (typeof cell === 'number' && all > 0 ? cell / all : cell));
}

/** The same as a formula says it, of the records alone. */
export function sharesText(figures: string, moistures: string | undefined, isRecord: string): string {
  const dry =
    moistures === undefined ? `(${figures})` : `(${figures})*(1-IF(ISNUMBER(${moistures}),${moistures},0))`;
  return `${dry}/SUM(IF(${isRecord},${dry},0))`;
}

/** `0`, `0,0` and `0%`. */
export const isZero = (cell: Cell): boolean => /^\s*0+(?:[.,]0*)?\s*%?\s*$/.test(textOf(cell));

/** The figures of a recipe as parts of what it is weighed by, and a moisture of 0 as none. */
export function ofRecipe(
  candidate: Candidate,
  reading: ColumnReading,
  all: readonly ColumnReading[],
): ColumnReading {
  const { sheet, dataRows } = candidate;
  const { column, header, wanted } = reading.match;
  const cells = dataRows.map((row) => cellAt(sheet, row, column));
  if (wanted === 'moisture') {
    // A 0 that the sheet calculates may be that of a blank.
    const zeros = dataRows.filter((_, i) => isZero(cells[i]!));
    const isTyped = zeros.length > 0 && !zeros.some((row) => sheet.isFormula(row, column));
    return isTyped ? { ...reading, hasZeros: true } : reading;
  }
  const basis = wanted === 'share' ? basisOf(header, hasWater(candidate)) : undefined;
  if (!basis) return reading;
  const moisture = all.find((one) => one.match.wanted === 'moisture');
  const texts = cells.filter((cell): cell is string => typeof cell === 'string');
  const unit = texts.some((text) => text.includes('%'))
    ? 'percent'
    : (massUnitIn(header) ?? mostOf(texts.map(massUnitIn)) ?? 'number');
  return {
    ...reading,
    unit,
    conversion: texts.length > 0 ? 'figures' : 'none',
    ofRecipe: {
      basis,
      ...(basis === 'as weighed' && moisture && { moisture: ofRecipe(candidate, moisture, []) }),
    },
  };
}
