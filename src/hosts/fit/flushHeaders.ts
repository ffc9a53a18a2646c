import { unaccented } from './otherLanguages';

// Headers that speak of a flush, or of what lots gave: `F1 kg`, `2nd flush`, `kg picked`.

/** Words for a flush, without accents. */
const FLUSH =
  /\b(?:flush|break|wave|pick|picking|harvest|f|schub|welle|volee|oleada|vlucht|ernte|recolte)(?=\b|\d)\s*(?:no\.?|#)?/i;
const NUMBER = /(?:^|[^\d])([1-9])(?:st|nd|rd|th)?(?!\d)/i;
const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** A header of one flush. */
interface FlushHeader {
  readonly flush: number;
  /** What else it says. */
  readonly rest: string;
  /** Whether it has a word for a flush, and not the number alone. */
  readonly isNamed: boolean;
}

/** The flush that a header is of, and what else it says. */
export function flushIn(header: string): FlushHeader | undefined {
  const plain = unaccented(header).toLowerCase();
  const word = ORDINALS.findIndex((one) => new RegExp(`\\b${one}\\b`).test(plain));
  const figure = NUMBER.exec(plain)?.[1];
  const flush = word >= 0 ? word + 1 : Number(figure ?? 0);
  if (flush === 0) return undefined;
  const rest = plain
    .replace(FLUSH, ' ')
    .replace(word >= 0 ? ORDINALS[word]! : /[1-9](?:st|nd|rd|th)?/, ' ')
    .replace(/[^\p{L}()/]+/gu, ' ')
    .trim();
  return { flush, rest, isNamed: FLUSH.test(plain) };
}

/** Whether a header is of one flush: `F1 kg`. */
export const isOfFlush = (header: string): boolean => flushIn(header)?.isNamed ?? false;

/** Words of what came off, without accents. */
const CAME_OFF =
  /\b(?:flush(?:es)?|break|wave|pick(?:s|ed|ing)?|harvest(?:s|ed)?|yield(?:s|ed)?|crop(?:s|ped)?|came off|taken off|sold|schub|welle|ernte|geerntet|ertrag|volee|recolte|oleada|cosecha|cosechad[oa]s?|vlucht|oogst|geoogst|volata|raccolt[oa]|colheita|rzut|zbior|hoest)(?=\b|\d)/i;

/** Whether a header is of what lots gave, and so neither of their blocks nor of the days they were made and loaded. */
export const isOfWhatCameOff = (header: string): boolean =>
  CAME_OFF.test(unaccented(header)) || isOfFlush(header);
