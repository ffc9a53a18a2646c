import MiniSearch from 'minisearch';
import { FAMILY_TITLES } from '../../worksheet/constants';
import type { DescribedFunction } from '../../worksheet/words';

/** A starter sheet that the pane can add. */
export interface FoundSheet {
  readonly kind: 'sheet';
  readonly name: string;
  readonly title: string;
  readonly notes: readonly string[];
}

/** What a question can find. */
export type Found =
  | { readonly kind: 'function'; readonly f: DescribedFunction }
  | {
      readonly kind: 'view';
      readonly f: DescribedFunction;
      readonly view: string;
      readonly meaning: string;
    }
  | FoundSheet;

/** More answers than these are no answer. */
export const MOST_ANSWERS = 5;

/** A function answers more than one of its views, or a sheet that calls it. */
const BESIDE_FUNCTIONS = 0.7;

interface Entry {
  readonly name: string;
  readonly questions: string;
  readonly summary: string;
  readonly arguments: string;
  readonly more: string;
}

function viewsOf(f: DescribedFunction): Found[] {
  return f.arguments.flatMap((argument) =>
    argument.name === 'view' && argument.shape === 'setting'
      ? Object.entries(argument.kind.choices ?? {}).map(([view, meaning]): Found => ({
          kind: 'view',
          f,
          view,
          meaning,
        }))
      : [],
  );
}

function entryOf(found: Found): Entry {
  switch (found.kind) {
    case 'function': {
      const { f } = found;
      return {
        name: f.name,
        questions: f.questions.join('. '),
        summary: f.summary,
        arguments: f.arguments.map(({ name, meaning }) => `${name} ${meaning}`).join('. '),
        more: [FAMILY_TITLES[f.family], ...f.notes, ...f.faults.map(({ remedy }) => remedy)].join('. '),
      };
    }
    case 'view':
      return {
        name: found.view,
        questions: found.meaning,
        summary: `${found.f.name} view`,
        arguments: '',
        more: '',
      };
    case 'sheet':
      return {
        name: found.name,
        questions: found.title,
        summary: 'starter sheet',
        arguments: '',
        more: found.notes.join('. '),
      };
  }
}

/** Finds by plain words: "water", "too old", "recall". Best first, at most five. */
export function finder(
  functions: readonly DescribedFunction[],
  sheets: readonly Omit<FoundSheet, 'kind'>[] = [],
): (words: string) => readonly Found[] {
  const all: readonly Found[] = [
    ...functions.map((f): Found => ({ kind: 'function', f })),
    ...functions.flatMap(viewsOf),
    ...sheets.map(({ name, title, notes }): Found => ({ kind: 'sheet', name, title, notes })),
  ];
  const index = new MiniSearch({
    fields: ['name', 'questions', 'summary', 'arguments', 'more'],
    searchOptions: {
      boost: { name: 6, questions: 8, summary: 3, arguments: 1.5 },
      prefix: (term) => term.length > 2,
      fuzzy: (term) => (term.length > 4 ? 0.2 : false),
      boostDocument: (id) => (all[id as number]!.kind === 'function' ? 1 : BESIDE_FUNCTIONS),
    },
    processTerm: (term) => {
      const word = term.toLowerCase();
      if (saysNothing(word)) return null;
      const short = stem(word);
      return SYNONYMS.get(short) ?? short;
    },
  });
  index.addAll(all.map((found, id) => ({ id, ...entryOf(found) })));
  // What holds more of the words goes before what holds one of them often.
  return (words) =>
    index
      .search(words)
      .map(({ id, score, queryTerms }) => ({
        id: id as number,
        score: isNamed(all[id as number]!, words) ? Infinity : score * Math.sqrt(queryTerms.length),
      }))
      .sort((a, b) => (b.score > a.score ? 1 : b.score < a.score ? -1 : a.id - b.id))
      .slice(0, MOST_ANSWERS)
      .map(({ id }) => all[id]!);
}

/** Whether words are a function's name and nothing more. */
const isNamed = (found: Found, words: string): boolean =>
  found.kind === 'function' && found.f.name === words.trim().toUpperCase();

/** The functions among what plain words find. */
export function searcher(functions: readonly DescribedFunction[]): (words: string) => DescribedFunction[] {
  const find = finder(functions);
  return (words) => [
    ...new Set(
      find(words).flatMap((found) => (found.kind === 'function' || found.kind === 'view' ? [found.f] : [])),
    ),
  ];
}

/** A number is a figure of the grower's case, not what is wanted of it. */
const saysNothing = (word: string): boolean => COMMON_WORDS.has(word) || /^\d+$/.test(word);

/** Words of a question that say nothing about the function wanted. */
const COMMON_WORDS = new Set(
  (
    'a an and any are at be been but can could did do does each for from give gave given gives still go has have her here ' +
    'how i if in into is it its like make made many me mine much must my need needs no not now of on one or our own ' +
    'please put really s say so some take than that the them then there these they thing this those to up us ' +
    'want was we went were what when where which while who why will with work would wrote you your'
  ).split(' '),
);

/** Enough for one page of words: "blocks" finds "block", "sterilising" finds "steriliser". */
const stem = (word: string): string =>
  word.length > 4 ? word.replace(/(ings?|ies|ed|es|ers?|s|e)$/, '') : word.replace(/(?<=..)s$/, '');

/** Words, as `stem` leaves them, that growers use for one and the same: the first of a row is the one that is kept. */
const SYNONYMS = new Map(
  [
    'mass weight weigh lb pound kg kilo kilogram ounce gram',
    'pick harvest crop',
    'mould mold contamination contaminat contaminant infect trich',
    'fridge refrigerator cooler cool chiller',
    'block bag',
    'spreadsheet workbook sheet',
    'steril sterilis steriliz autoclave cook',
    'moisture moist wet wetness',
    'lot batch batche',
    'ready ripe',
    'mistake error slip typo wrong',
    'label code',
    'place space shelv shelf shelve',
    'best better most highest',
    'plan schedule',
  ].flatMap((row) => {
    const [kept, ...others] = row.split(' ');
    return others.map((word) => [word, kept!] as const);
  }),
);
