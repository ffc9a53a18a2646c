import { describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
import { finder, MOST_ANSWERS, searcher } from '../../../src/hosts/pane/search';
import { STARTERS } from '../../../src/hosts/pane/starters';
import { JOB } from '../../../src/hosts/fit/jobs';
import { ASKED, ASKED_OF_JOBS } from '../../../src/hosts/pane/asked';
import {
  FOUR_SETS_TUNED_BY,
  FRESH,
  GROWERS_QUESTIONS,
  HELD_BACK,
  MIXED_SEEN_ONCE,
  MIXED_QUESTIONS,
  OTHER_QUESTIONS,
  SHORT_WORDS,
  SHORT_WORDS_SEEN_ONCE,
  TUNED_BY,
} from './growersQuestions';

const search = searcher(described);
const firstThree = (words: string): string[] =>
  search(words)
    .slice(0, 3)
    .map((f) => f.name);

// How growers put it, in words of this test's own: not the phrases the search has been given.
test.each([
  ['water', 'MIXWATER'],
  ['how much water', 'MIXWATER'],
  ['how much water do I add to the mixer', 'MIXWATER'],
  ['is my sawdust too wet', 'MIXMOISTURE'],
  ['weighing list', 'MIX'],
  ['sawdust and bran recipe for 40 blocks', 'MIX'],
  ['c:n', 'MIXRATIO'],
  ['cheapest mix', 'CHEAPESTMIX'],
  ['cost of ingredients', 'MIXCOST'],
  ['autoclave runs', 'BATCHES'],
  ['too old', 'READYWINDOW'],
  ['when is a lot ready', 'READYDATE'],
  ['when can I open my blocks', 'READYDATE'],
  ['inoculate by what date', 'INOCULATEBY'],
  ['which stage', 'STAGE'],
  ['temperature and growth speed', 'GROWTHRATE'],
  ['ripening from a temperature logger', 'READYFROMLOG'],
  ['days to colonise in my own records', 'READYSTATS'],
  ['blocks ripe next week', 'RIPECALENDAR'],
  ['recall', 'DESCENDANTS'],
  ['bad spawn', 'DESCENDANTS'],
  ['where did this lot come from', 'ANCESTORS'],
  ['bag labels', 'LOTCODE'],
  ['mistyped lot label', 'LOTPART'],
  ['when do I start grain spawn', 'SPAWNCHAIN'],
  ['did it sterilise', 'LETHALITY'],
  ['sterilised long enough', 'LETHALITY'],
  ['how long to cook the blocks', 'HOLDMINUTES'],
  ['psi to temperature', 'STEAMTEMP'],
  ['boiling at altitude', 'BOILINGPOINT'],
  ['condensation on the walls', 'DEWPOINT'],
  ['air is too dry', 'VPD'],
  ['co2', 'CARBONDIOXIDE'],
  ['fresh air', 'FRESHAIR'],
  ['fan', 'FRESHAIR'],
  ['humidifier', 'FOGWATER'],
  ['set points for today', 'CLIMATEPLAN'],
  ['how many blocks for an order', 'BLOCKSFOR'],
  ['first harvest date', 'PICKDATE'],
  ['blocks on a shelf', 'SHELFBLOCKS'],
  ['picking per day', 'PICKCALENDAR'],
  ['is there space on the shelves', 'SHELFUSE'],
  ['too many mushrooms in one day', 'SPLITLOAD'],
  ['what should I open this week', 'LOADPLAN'],
  ['check my plan', 'CHECKLOADS'],
  ['start list from orders', 'BACKPLAN'],
  ['bioefficiency', 'BIOEFFICIENCY'],
  ['how much will 60 blocks give', 'EXPECTEDYIELD'],
  ['total picked per lot', 'CROPTABLE'],
  ['which strain yields best', 'STRAINTABLE'],
  ['fridge', 'SHELFLIFE'],
  ['contamination', 'LOSSRATE'],
  ['mould losses', 'LOSSRATE'],
  ['is the difference between strains real', 'COMPARE'],
  ['typing errors in picks', 'YIELDAUDIT'],
  ['cost per block', 'BLOCKCOST'],
  ['what does a kilogram cost', 'COSTPERMASS'],
  ['profit', 'SHELFDAYMARGIN'],
])('"%s" finds %s among the first three', (words, name) => {
  expect(firstThree(words)).toContain(name);
});

describe.each(described.map(({ name, questions }) => [name, questions] as const))('%s', (name, questions) => {
  test('is found by its name, first, and by each of its questions, among the first three', () => {
    expect(firstThree(name.toLowerCase())[0]).toBe(name);
    for (const question of questions) expect(firstThree(question)).toContain(name);
  });
});

test('nothing is found for nonsense', () => {
  expect(search('xqzzv')).toEqual([]);
});

/** What the pane searches, and the names of what it finds. */
const find = finder(described, STARTERS, Object.values(JOB));
const namesOf = (words: string): string[] =>
  find(words).map((found) => {
    if (found.kind === 'function') return found.f.name;
    return found.kind === 'view' ? `view:${found.f.name}:${found.view}` : `${found.kind}:${found.name}`;
  });

test.each([
  ['plain questions', GROWERS_QUESTIONS, 49, 45],
  ['questions that words and weights were chosen by', TUNED_BY, 101, 96],
  ['questions that were kept back', HELD_BACK, 102, 96],
  ['mixed questions', MIXED_QUESTIONS, 53, 48],
  ['mixed questions that were looked at once', MIXED_SEEN_ONCE, 27, 22],
  ['short and misspelt questions', SHORT_WORDS, 40, 40],
  ['short and misspelt questions that were looked at once', SHORT_WORDS_SEEN_ONCE, 30, 24],
  ['four sets that words were chosen by', FOUR_SETS_TUNED_BY, 196, 188],
  ['fresh questions, by which nothing was chosen', FRESH, 49, 45],
] as const)('%s find the right function among five answers, and mostly first', (_, asked, all, first) => {
  const places = asked.map(([question, name]) => ({ question, place: namesOf(question).indexOf(name) }));
  expect(places).toHaveLength(all);
  expect(places.filter(({ place }) => place < 0)).toEqual([]);
  expect(places.filter(({ place }) => place === 0).length).toBeGreaterThanOrEqual(first);
});

test.each(OTHER_QUESTIONS)('"%s" finds %s', (question, name) => {
  expect(namesOf(question)).toContain(name);
});

test('every function and job has words of growers, and each is a function or job', () => {
  expect(Object.keys(ASKED).sort()).toEqual(described.map(({ name }) => name).sort());
  expect(Object.keys(ASKED_OF_JOBS).sort()).toEqual(Object.keys(JOB).sort());
});

describe('starter sheets and views are found too', () => {
  test.each(STARTERS.map(({ name, title }) => [title, name] as const))(
    '"starter sheet %s" finds the sheet %s',
    (title, name) => {
      expect(find(`starter sheet ${title}`)).toContainEqual(expect.objectContaining({ kind: 'sheet', name }));
    },
  );

  test('the view of the plan that tells why an order falls short', () => {
    expect(find('why does an order fall short')).toContainEqual(
      expect.objectContaining({ kind: 'view', view: 'orders' }),
    );
  });

  test('no more than five answers', () => {
    for (const [question] of GROWERS_QUESTIONS)
      expect(find(question).length).toBeLessThanOrEqual(MOST_ANSWERS);
  });
});
