// The words of headers: what counts in them, and which are the same.

/** Anything in brackets: a unit, a remark. */
export const BRACKETS = /\([^)]*\)|\[[^\]]*\]/g;

/** Two headers are the same where only case, spaces, punctuation or anything in brackets differs. */
export function headerKey(header: string): string {
  return header
    .replace(BRACKETS, '')
    .replace(/[^\p{L}\p{N}°]+/gu, '')
    .toLowerCase();
}

/** Words of a header that say nothing of what is under it: `No. of bags` is `bags`. */
export const FILLERS = new Set(['no', 'nr', 'n°', 'nº', 'num', 'number', 'of', 'the', 'per', 'on', 'in']);

/** Words that growers use for one and the same in headers, and short forms: the first of a row is the one that is kept. */
const SAME_WORDS = new Map(
  [
    'block bag blk bg',
    'mass weight wt wgt',
    'lot batch',
    'quantity qty count ct cnt',
    'inoculated inoc inoculation inoculate spawned',
    'strain variety cultivar',
    'moisture moist',
    'shelve rack',
    'closed shut',
    'pick picking',
    'temperature temp',
    'min minimum',
    'max maximum',
    'best optimum opt ideal',
    'percent pct percentage',
    'date dt',
    'average avg',
  ].flatMap((row) => {
    const [kept, ...others] = row.split(' ');
    return others.map((word) => [word, kept!] as const);
  }),
);

/** The words of a header that say what is under it, each in the singular. */
export function headerWords(header: string): string[] {
  const words =
    header
      .replace(BRACKETS, '')
      .toLowerCase()
      .match(/[\p{L}\p{N}°]+/gu) ?? [];
  const telling = words.filter((word) => !FILLERS.has(word));
  const singular = telling.map((word) =>
    word.length > 3 && !word.endsWith('ss') ? word.replace(/s$/, '') : word,
  );
  return singular.map((word) => SAME_WORDS.get(word) ?? word);
}

/** The form in which a header is one of the other names of a column: words in any order, `no.`, `#` and `of` aside. */
export const otherKey = (header: string): string => headerWords(header).sort().join(' ');

/** Words that many headers share: alike in them only, two headers are not alike. */
const SHARED_WORDS = new Set(
  'date day days first last best min max from to lot strain block bag mass weight wt total ripe ready'.split(
    ' ',
  ),
);

/** The words of a header that tell it from others. */
export const tellingWords = (header: string): string[] =>
  headerWords(header).filter((word) => word.length > 3 && !SHARED_WORDS.has(word));

/** Whether a word of one header begins as a word of another does: `inoc` and `inoculated`, `opening` and `opened`. */
export const shareWord = (some: readonly string[], others: readonly string[]): boolean =>
  some.some((one) => others.some((other) => one.slice(0, 4) === other.slice(0, 4)));
