import { expect, test } from '@jest/globals';
import { catalogue } from '../../../src/worksheet/catalogue';
import { searcher } from '../../../src/hosts/pane/search';

const search = searcher(catalogue);

test.each([
  ['water', 'MIXWATER'],
  ['how much water', 'MIXWATER'],
  ['bioefficiency', 'BIOEFFICIENCY'],
  ['when is a lot ready', 'READYDATE'],
  ['weighing list', 'MIX'],
  ['how many blocks for an order', 'BLOCKSFOR'],
])('"%s" finds %s among the first three', (words, name) => {
  expect(
    search(words)
      .slice(0, 3)
      .map((f) => f.name),
  ).toContain(name);
});

test('nothing is found for nonsense', () => {
  expect(search('xqzzv')).toEqual([]);
});
