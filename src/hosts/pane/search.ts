import MiniSearch from 'minisearch';
import { FAMILY_TITLES } from '../../worksheet/constants';
import type { DescribedFunction } from '../../worksheet/words';
import { ASKED, ASKED_OF_JOBS, ASKED_OF_VIEWS } from './asked';

/** A starter sheet that the pane can add. */
export interface FoundSheet {
  readonly kind: 'sheet';
  readonly name: string;
  readonly title: string;
  readonly notes: readonly string[];
}

/** A job that “Use my sheet” does. */
export interface FoundJob {
  readonly kind: 'job';
  readonly name: string;
  readonly title: string;
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
  | FoundSheet
  | FoundJob;

/** More answers than these are no answer. */
export const MOST_ANSWERS = 5;

/** A function answers more than one of its views, a sheet that calls it, or a job that needs it. */
const BESIDE_FUNCTIONS = 0.7;

/** Unless the words ask for such a thing. */
const CALLED_FOR = {
  sheet: /\b(starter|template|blank|empty|example)\b/i,
  job: /\b(own|existing|already)\b.*\b(spreadsheet|workbook|sheets?|tabs?|books?|logs?|files?)\b|\b(spreadsheet|workbook|sheets?|tabs?|files?)\b.*\b(own|existing|already)\b|\bmy\b.*\b(spreadsheet|workbook|tabs?|files?)\b/i,
  view: /\bview\b|\b(in|of|after) the plan\b/i,
};
const WEIGHT_CALLED_FOR = 1.5;

const weightOf = ({ kind }: Found, words: string): number => {
  if (kind === 'function') return 1;
  return CALLED_FOR[kind].test(words) ? WEIGHT_CALLED_FOR : BESIDE_FUNCTIONS;
};

interface Entry {
  /** What people ask, each by itself: the nearest counts. */
  readonly questions: readonly string[];
  readonly name: string;
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

const apart = (questions: string | undefined): string[] => questions?.split(/; ?/) ?? [];

function entryOf(found: Found): Entry {
  switch (found.kind) {
    case 'function': {
      const { f } = found;
      return {
        questions: [...f.questions, ...apart(ASKED[f.name])],
        name: f.name,
        summary: f.summary,
        arguments: f.arguments.map(({ name, meaning }) => `${name} ${meaning}`).join('. '),
        more: [FAMILY_TITLES[f.family], ...f.notes, ...f.faults.map(({ remedy }) => remedy)].join('. '),
      };
    }
    case 'view':
      return {
        questions: [
          found.meaning,
          ...found.meaning.split(/, | and /),
          ...apart(ASKED_OF_VIEWS[`${found.f.name} ${found.view}`]),
        ],
        name: found.view,
        summary: `${found.f.name} view`,
        arguments: '',
        more: '',
      };
    case 'sheet':
      return {
        questions: [found.title, `starter sheet ${found.title}`, `blank template ${found.name}`],
        name: found.name,
        summary: 'starter sheet, an empty template or example to fill in',
        arguments: '',
        more: found.notes.join('. '),
      };
    case 'job':
      return {
        questions: [found.title, ...apart(ASKED_OF_JOBS[found.name])],
        name: found.name,
        summary: 'use my own existing sheet, spreadsheet, workbook',
        arguments: '',
        more: '',
      };
  }
}

/** Finds by plain words: "water", "too old", "recall". Best first, at most five. */
export function finder(
  functions: readonly DescribedFunction[],
  sheets: readonly Omit<FoundSheet, 'kind'>[] = [],
  jobs: readonly Omit<FoundJob, 'kind'>[] = [],
): (words: string) => readonly Found[] {
  const all: readonly Found[] = [
    ...functions.map((f): Found => ({ kind: 'function', f })),
    ...functions.flatMap(viewsOf),
    ...sheets.map(({ name, title, notes }): Found => ({ kind: 'sheet', name, title, notes })),
    ...jobs.map(({ name, title }): Found => ({ kind: 'job', name, title })),
  ];
  const entries = all.map(entryOf);
  const searchOptions = {
    prefix: (term: string) => term.length > 2,
    fuzzy: (term: string) => (term.length > 4 ? 0.2 : false),
  };
  const said = new MiniSearch({
    fields: ['name', 'questions', 'summary', 'arguments', 'more'],
    tokenize: wordsOf,
    processTerm: (word) => word,
    searchOptions: { ...searchOptions, boost: { name: 6, questions: 6, summary: 3 } },
  });
  said.addAll(entries.map((entry, id) => ({ ...entry, questions: entry.questions.join('. '), id })));
  const asked = new MiniSearch({
    fields: ['question'],
    storeFields: ['of', 'size'],
    tokenize: wordsOf,
    processTerm: (word) => word,
    searchOptions,
  });
  asked.addAll(
    entries
      .flatMap(({ questions }, of) =>
        questions.map((question) => ({ question, of, size: new Set(wordsOf(question)).size })),
      )
      .map((one, id) => ({ ...one, id })),
  );

  /** How near the nearest question of each answer is to the words. */
  const nearestOf = (words: string): ReadonlyMap<number, number> => {
    const nearest = new Map<number, number>();
    for (const result of asked.search(words)) {
      const of = result['of'] as number;
      // Of two questions that hold the same of the words, the shorter is nearer.
      const share = Math.min(1, result.terms.length / (result['size'] as number));
      nearest.set(of, Math.max(nearest.get(of) ?? 0, scoreOf(result) * Math.sqrt(share)));
    }
    return nearest;
  };

  return (words) => {
    const found = said.search(words);
    const nearest = nearestOf(words);
    const [most, nearestOfAll] = [Math.max(...found.map(scoreOf)), Math.max(...nearest.values())];
    return found
      .map((result) => {
        const answer = all[result.id as number]!;
        const near = (nearest.get(result.id as number) ?? 0) / (nearest.size === 0 ? 1 : nearestOfAll);
        const score = (scoreOf(result) / most + near) * weightOf(answer, words);
        return { answer, score: isNamed(answer, words) ? Infinity : score };
      })
      .sort((a, b) => b.score - a.score)
      .slice(0, MOST_ANSWERS)
      .map(({ answer }) => answer);
  };
}

/** What holds more of the words goes before what holds one of them often. */
const scoreOf = ({ score, queryTerms }: { score: number; queryTerms: readonly string[] }): number =>
  score * queryTerms.length;

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

/** The words of a text as they are looked for, those left out that say nothing. */
const wordsOf = (text: string): string[] =>
  text
    .replace(/\bBE\b/g, 'biological efficiency')
    .toLowerCase()
    .replace(/\p{L}+/gu, (word) => WRITTEN_OUT.get(word) ?? word)
    .replace(/\bright (now|away)\b/g, '$1')
    .replace(/\bhow (many|much|long|far|big|high|fast|soon)\b/g, 'how$1')
    .split(/[\s\p{P}]+/u)
    .filter((word) => word !== '' && !saysNothing(word))
    .map((word) => SYNONYMS.get(stem(word)) ?? stem(word));

/** Words as people shorten and mistype them. */
const WRITTEN_OUT = new Map(
  [
    'week wk wks',
    'weekly wkly',
    'day dy',
    'month mth mo mnth',
    'year yr yrs',
    'hour hr hrs',
    'minute mins',
    'room rm rms',
    'weight wt wgt wieght weigth',
    'average avg ave',
    'quantity qty',
    'inoculated inoc',
    'contamination contams',
    'temperature tmp',
    'customer cust',
    'tomorrow tmrw tomorow',
    'thursday thurs thur thu',
    'tuesday tues tue',
    'wednesday wed weds wensday',
    'friday fri',
    'saturday sat',
    'monday mon',
    'sunday sun',
    'much mutch moch',
    'which wich whitch',
    'when wen',
    'yield yeild',
    'shiitake shitake shiitaki',
    'because cos cuz',
    'deviation sd stdev',
    'litre liter liters litres gallon gallons gal',
    'ingredient ingrediant ingredients ingrediants',
  ].flatMap((row) => {
    const [full, ...others] = row.split(' ');
    return others.map((word) => [word, full!] as const);
  }),
);

/** A number is a figure of the grower's case, not what is wanted of it. */
const saysNothing = (word: string): boolean => COMMON_WORDS.has(word) || /^\d+$/.test(word);

/** Words of a question that say nothing about the function wanted. When, where, which and how many do. */
const COMMON_WORDS = new Set(
  (
    'a an and any are at be been but can could did do does each for from go has have her here how i if in into is it ' +
    'its like make made many me mine much must my need needs no not now of on one or our own please put really s say so ' +
    'some still take than that the them then there these they thing this those to up us want was we went were what ' +
    'while who why will with work would wrote you your'
  ).split(' '),
);

/** Enough for one page of words: "blocks" finds "block", "sterilising" finds "steriliser", "planned" finds "plan". */
const stem = (word: string): string =>
  (word.length > 4 ? word.replace(/(ings?|ies|ed|es|ers?|s|e)$/, '') : word.replace(/(?<=..)s$/, '')).replace(
    /(?<=..)([b-df-hj-np-tv-z])\1$/,
    '$1',
  );

/** Words that growers use for one and the same: the first of a row is the one that is kept. */
const SYNONYMS = new Map(
  [
    'mass weight weigh lb pound kg kilo kilogram ounce gram',
    'pick harvest crop',
    'mould mold contamination contaminat contaminant contam infect trich green',
    'fridge refrigerator chiller cooler coolroom',
    'block bag log bottle',
    'spreadsheet workbook sheet',
    'steril sterilis steriliz autoclave cook retort steamer',
    'moisture moist wet wetness',
    'lot batch batche',
    'ready ripe mature done',
    'mistake error slip typo wrong incorrect mistyp blunder',
    'label code',
    'place space shelv shelf shelve rack tier',
    'best better most highest',
    'plan schedule timetable',
    'strain variet variety cultivar species',
    'temperature temp temperatur temprature',
    'cost price expens expensive dear money dollar',
    'humidity rh humid',
    'profit margin earn profitable',
    'minute min',
    'percent percentage',
    'give giv gave given bring brought produc',
    'open crack cut',
    'throw thrown threw toss bin discard',
    'fan blower ventilator extractor',
    'heat hot warm',
    'cold cool chilly',
    'inoculate spawn seed',
    'week weekly',
    'day monday tuesday wednesday thursday friday saturday sunday',
    'order customer restaurant hotel chef client buyer shop',
  ].flatMap((row) => {
    const [kept, ...others] = row.split(' ');
    return others.map((word) => [stem(word), stem(kept!)] as const);
  }),
);
