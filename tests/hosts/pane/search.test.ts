import { describe, expect, test } from '@jest/globals';
import { described } from '../../../src/worksheet/described';
import { finder, MOST_ANSWERS, searcher } from '../../../src/hosts/pane/search';
import { STARTERS } from '../../../src/hosts/pane/starters';
import { GROWERS_QUESTIONS } from './growersQuestions';

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

test('of 49 plain questions of growers the right function is first in 45, and always among five', () => {
  const answers = GROWERS_QUESTIONS.map(([question, name]) => ({
    question,
    place: search(question)
      .map((f) => f.name)
      .indexOf(name),
  }));
  expect(answers).toHaveLength(49);
  expect(answers.filter(({ place }) => place < 0)).toEqual([]);
  expect(answers.filter(({ place }) => place === 0).length).toBeGreaterThanOrEqual(45);
});

describe('starter sheets and views are found too', () => {
  const find = finder(described, STARTERS);

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
