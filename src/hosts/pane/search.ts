import MiniSearch from 'minisearch';
import { FAMILY_TITLES } from '../../worksheet/constants';
import type { DescribedFunction } from '../../worksheet/words';

/** Finds functions by plain words: "water", "too old", "recall". Best first. */
export function searcher(functions: readonly DescribedFunction[]): (words: string) => DescribedFunction[] {
  const index = new MiniSearch({
    fields: ['name', 'questions', 'summary', 'arguments', 'more'],
    searchOptions: {
      boost: { name: 6, questions: 5, summary: 3, arguments: 1.5 },
      prefix: (term) => term.length > 2,
      fuzzy: (term) => (term.length > 4 ? 0.2 : false),
      combineWith: 'AND',
    },
    processTerm: (term) => (saysNothing(term.toLowerCase()) ? null : stem(term.toLowerCase())),
  });
  index.addAll(
    functions.map((f, id) => ({
      id,
      name: f.name,
      questions: f.questions.join('. '),
      summary: f.summary,
      arguments: f.arguments.map(({ name, meaning }) => `${name} ${meaning}`).join('. '),
      more: [FAMILY_TITLES[f.family], ...f.notes, ...f.faults.map(({ remedy }) => remedy)].join('. '),
    })),
  );
  return (words) => {
    const found = index.search(words);
    const results = found.length > 0 ? found : index.search(words, { combineWith: 'OR' });
    return results.map(({ id }) => functions[id as number]!);
  };
}

/** A number is a figure of the grower's case, not what is wanted of it. */
const saysNothing = (word: string): boolean => COMMON_WORDS.has(word) || /^\d+$/.test(word);

/** Words of a question that say nothing about the function wanted. */
const COMMON_WORDS = new Set(
  'a an and are at be can do does for from how i in is it many much my of on or should that the this to what when which will with'.split(
    ' ',
  ),
);

/** Enough for one page of words: "blocks" finds "block", "sterilising" finds "steriliser". */
const stem = (word: string): string => (word.length > 4 ? word.replace(/(ing|ies|es|ers?|s)$/, '') : word);
