import { isBlank } from '../../worksheet/cells/cell';
import { labelledFigures } from './batchFigures';
import { placeText, type GrowersBook } from './book';
import type { Candidate } from './candidate';
import type { TableFit } from './fitted';
import { JOB } from './jobs';
import type { FigureName, Question } from './question';
import { CONTAINER, LONGEST, saidInBook, type Said } from './saidInBook';
import { isMassUnit, massUnitIn } from './units';

// What is to be mixed is often said over the recipe: `target 62% wet. 60 blocks of 2.3 a batch`. It is proposed, and the grower
// says whether it holds.

const WANTED = JOB.plan.tables.find(({ name }) => name === 'lots')!.columns;

/** `60 blocks`, and nothing that would make it a size: `60 kg blocks`. */
const COUNT = new RegExp(
  `(?<![\\d.,])(\\d{1,4})\\s*(?:x\\s*)?${CONTAINER.source}(?!\\s*(?:per|a|each|on)\\b)`,
  'giu',
);
/** `blocks of 2.3`, `bags at 5 lb`. */
const MASS = new RegExp(
  `${CONTAINER.source}\\s*(?:of|at|@|à|a|zu|je|de|da|van|med)\\s*(\\d+(?:[.,]\\d+)?)(?!\\s*%|[\\d.,]*\\d)\\s*(\\p{L}*)`,
  'giu',
);

/** What a sentence says of a figure, where it says it once. */
function inSentence(text: string, figure: FigureName): string | undefined {
  if (figure === 'moisture') return undefined;
  const [only, more] = [...text.matchAll(figure === 'blocks' ? COUNT : MASS)];
  if (!only || more) return undefined;
  const unit = figure === 'blocks' ? undefined : massUnitIn(only[2]!);
  return unit === undefined ? only[1]! : `${only[1]!} ${unit}`;
}

/** What the sheet of a recipe says of a figure of the mix; of its moisture, where it does not, what the book says. */
function saidOfMix(book: GrowersBook, recipe: Candidate, figure: FigureName): Said[] {
  const wanted = WANTED.find(({ name }) => name === figure)!;
  const { sheet, dataRows } = recipe;
  const inBook = saidInBook(book, recipe, wanted);
  const onSheet = inBook.filter(({ sheet: name }) => name === sheet.name);
  const records = new Set(dataRows);
  const sentences = sheet.rows.flatMap((cells, row) =>
    records.has(row)
      ? []
      : cells.flatMap((cell, column): Said[] => {
          if (typeof cell !== 'string' || isBlank(cell) || cell.length > LONGEST) return [];
          const value = inSentence(cell, figure);
          const place = placeText(sheet.name, row, column);
          return value === undefined || onSheet.some((one) => one.place === place)
            ? []
            : [{ sheet: sheet.name, place, says: cell.trim(), value }];
        }),
  );
  const places = new Set([...onSheet, ...sentences].map(({ place }) => place));
  const labelled = labelledFigures(recipe, figure).filter(({ place }) => !places.has(place));
  const own = [...onSheet, ...sentences, ...labelled];
  return own.length > 0 || figure !== 'moisture' ? own : inBook;
}

/** The question for a figure of a mix, with what the book says of it. */
export function mixQuestion(book: GrowersBook, recipe: TableFit | undefined, figure: FigureName): Question {
  const said = recipe ? saidOfMix(book, recipe.candidate, figure) : [];
  const unit = recipe?.readings.find(({ name }) => name === 'pack')?.unit;
  const packs = unit !== undefined && isMassUnit(unit) ? unit : undefined;
  const values = new Set(said.map(({ value }) => figureIn(value)));
  const [value] = values;
  const isOther = said.some((one) => packs && (massUnitIn(one.value) ?? packs) !== packs);
  const hints = [
    ...said.slice(0, MOST_TOLD).map(({ place, says }) => `${place} says “${says}”`),
    ...(figure === 'block mass' && packs ? [`The packs of your recipe are in ${packs}`] : []),
  ];
  return {
    kind: 'figure',
    figure,
    ...(values.size === 1 && !isOther && { proposed: value! }),
    ...(hints.length > 0 && { hint: hints.join('. ') }),
  };
}

/** More places that say it are not told. */
const MOST_TOLD = 3;

/** Without the unit of mass, which is that of the scale. */
const figureIn = (value: string): string => value.replace(/\s*\p{L}+$/u, '');
