import { monthOf } from '../../worksheet/writtenDates';
import { unaccented } from './otherLanguages';

// Months in the names of sheets and in titles, in the languages that dates are read in.

/** Words that shorten a month's name only where they are alone: `Lot list` is no November, `Set 2` no September. */
const RATHER_OTHERS = new Set(['list', 'sie', 'set']);

/** The month that a word names, from 1. */
export const monthNamed = (word: string): number | undefined =>
  monthOf(unaccented(word).toLowerCase().replace(/\.$/, ''));

/** The months that the words of a text name, each once. */
export function monthsIn(text: string): number[] {
  const words = text.match(/\p{L}{3,}/gu) ?? [];
  const telling = words.length === 1 ? words : words.filter((one) => !RATHER_OTHERS.has(one.toLowerCase()));
  return [...new Set(telling.flatMap((word) => monthNamed(word) ?? []))];
}
