import { headerKey, otherKey } from '../../worksheet/cells/headerWords';
import { onceForText } from './once';
import { bareNames, foreignNames, unaccented } from './otherLanguages';
import { isTold } from './tellingWords';

/** How well a header names a column. */
export const NAMED = { beforeAll: 5, exactly: 4, otherwise: 3, foreign: 2.5, alike: 2, bare: 1 } as const;

/** How sure one telling word of a header is, beside a likeness of all its words. */
const TOLD = 0.75;

/** Words that growers shorten so far that they no longer begin alike. */
const SHORT: Readonly<Record<string, string>> = {
  wt: 'weight',
  wgt: 'weight',
  qty: 'quantity',
  no: 'number',
  nr: 'number',
  num: 'number',
  amt: 'amount',
  dt: 'date',
  day: 'date',
  pct: 'percent',
  temp: 'temperature',
  ea: 'each',
  avg: 'average',
  cd: 'code',
  desc: 'description',
  blk: 'block',
  blks: 'block',
  rm: 'room',
};

/** Words of a header that say nothing of what its column holds. */
const EMPTY = new Set([
  ...['the', 'of', 'a', 'in', 'into', 'on', 'at', 'by', 'to', 'per', 'and', 'for', 'our'],
  ...['number', 'id', 'code', 'name', 'ts', 'timestamp', 'datetime', 'std', 'standard'],
  // German, French, Spanish, Dutch, Italian.
  ...[
    'der',
    'die',
    'das',
    'den',
    'am',
    'je',
    'pro',
    'nach',
    'nb',
    'le',
    'la',
    'les',
    'de',
    'du',
    'des',
    'par',
    'en',
  ],
  ...[
    'el',
    'los',
    'por',
    'del',
    'van',
    'op',
    'di',
    'il',
    'per',
    'tage',
    'tagen',
    'jours',
    'dias',
    'dagen',
    'giorni',
    'j',
    'dia',
    'jour',
    'giorno',
    'dag',
    'tag',
  ],
]);
const UNITS = new Set([
  'kg',
  'kgs',
  'g',
  'lb',
  'lbs',
  'oz',
  'pounds',
  'kilos',
  'grams',
  'c',
  'f',
  'days',
  'd',
  'weeks',
  'week',
  'wks',
  'wk',
]);

/** The words of a header that matter, written out. */
function wordsOf(header: string): string[] {
  const words = header
    .toLowerCase()
    .replace(/\([^)]*\)|\[[^\]]*\]/g, ' ')
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '')
    .map((word) => SHORT[word] ?? word);
  const telling = words.filter((word) => !EMPTY.has(word) && !UNITS.has(word));
  return telling.length > 0 ? telling : words;
}

const stem = onceForText((word) => word.replace(/(?:ed|ing|s)$/, ''));

/** Whether one word is the other, its stem or a shortening of it. */
function areAlike(one: string, other: string): boolean {
  const [a, b] = [stem(one), stem(other)];
  if (a === b) return true;
  const [short, long] = a.length < b.length ? [a, b] : [b, a];
  return short.length >= 3 && long.startsWith(short);
}

/** Whether a word of another language is one, or a long beginning of one. */
function areForeign(one: string, other: string): boolean {
  const [short, long] = one.length < other.length ? [one, other] : [other, one];
  return short === long || (short.length >= 5 && long.startsWith(short));
}

/** How much of two lists of words is the same, from 0 to 1. */
function shared(words: readonly string[], others: readonly string[], alike = areAlike): number {
  if (words.length === 0 || others.length === 0) return 0;
  const found = others.filter((other) => words.some((word) => alike(word, other))).length;
  return found / Math.max(words.length, others.length);
}

/** A figure of money has its unit of mass under a stroke: `€/kg`, `each/lb`; `kg/bag` is a mass. */
const OF_MONEY = /[$€£¥]|price|cost|worth|\/\s*(?:k?gs?|kilos?|grams?|lbs?|pounds?|oz)\b/i;

/** What else of a header speaks for a column: a unit for a mass, a sign of per cent for a share, of money for a price. */
export interface Hint {
  readonly isMass: boolean;
  readonly isPrice: boolean;
  readonly isShare: boolean;
  readonly hasMassUnit: (header: string) => boolean;
}

const figuresOf = (header: string): string =>
  /\d/.test(header) ? header.replace(/\([^)]*\)|\[[^\]]*\]|[^\d]/g, '') : '';

/** Names of columns and headers are few, and each is held against each. */
const keyOf = onceForText(headerKey);
const otherKeyOf = onceForText(otherKey);
const wordsIn = onceForText(wordsOf);
const figuresIn = onceForText(figuresOf);
const plainOf = onceForText(unaccented);

/** How well a header names a column of this property and these other names; 0 where it does not. */
export function naming(header: string, property: string, alsoCalled: readonly string[], hint?: Hint): number {
  const own = namingOf(header, property, alsoCalled, hint);
  // `Yield (BE)` may be known by what is in its brackets.
  const inside = /[([]([^)\]]{2,})[)\]]/.exec(header)?.[1];
  if (own > 0 || inside === undefined) return own;
  return namingOf(inside, property, alsoCalled) > NAMED.foreign ? NAMED.alike : 0;
}

/** `%` alone is what the sheet is about: the share, of lots the moisture; a sign of money alone is the price. */
function ofSign(header: string, property: string): number {
  if (header.includes('%'))
    return property === 'share' ? NAMED.alike : property === 'moisture' ? NAMED.bare : 0;
  return property === 'price' && /[$€£¥]/.test(header) ? NAMED.alike : 0;
}

/** Of two other names the one that is listed first says it better: the variety of a lot before its species. */
const inTurn = (place: number): number => NAMED.otherwise - Math.min(place, 100) / 500;

function namingOf(header: string, property: string, alsoCalled: readonly string[], hint?: Hint): number {
  const key = keyOf(header);
  if (key === '') return ofSign(header, property);
  if (hint?.isMass && OF_MONEY.test(header)) return 0;
  if (key === keyOf(property)) return NAMED.exactly;
  const other = alsoCalled.findIndex((name) => keyOf(name) === key);
  if (other >= 0) return inTurn(other);
  const sameWords = otherKeyOf(header);
  const likeIt = [property, ...alsoCalled].findIndex((name) => otherKeyOf(name) === sameWords);
  if (sameWords !== '' && likeIt >= 0) return inTurn(likeIt);
  const plain = keyOf(plainOf(header));
  if (foreignNames(property).some((other) => keyOf(other) === plain)) return NAMED.foreign;
  const words = wordsIn(header);
  // `Flush 1` is a flush, not how many there are.
  const figures = figuresIn(header);
  const sameFigures = (name: string): boolean => figuresIn(name) === figures;
  const names = [property, ...alsoCalled].filter(sameFigures);
  const best = Math.max(0, ...names.map((name) => shared(words, wordsIn(name))));
  if (best > 0.6) return NAMED.alike * best;
  if (hint?.isShare && header.includes('%') && best >= 0.5) return NAMED.alike * best;
  const inOther = wordsIn(plainOf(header));
  if (
    foreignNames(property).some(
      (name) => sameFigures(name) && shared(inOther, wordsIn(name), areForeign) === 1,
    )
  ) {
    return NAMED.foreign - 0.3;
  }
  if (isTold(header, property)) return NAMED.alike * TOLD;
  // `ITEM_CD` is the item; of lots a code or a number is the name itself.
  const bare = property === 'lot' ? key : words.join('');
  if (bareNames(property).some((other) => [key, bare].includes(keyOf(other)))) return NAMED.bare;
  const speaks = (hint?.isMass && hint.hasMassUnit(header)) || (hint?.isPrice && /[$€£¥]/.test(header));
  return speaks ? NAMED.alike * 0.6 : 0;
}
