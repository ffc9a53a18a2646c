import type { WorkbookContent } from '../workbook';

// How the people of a workbook write days and numbers. A file stores neither the order of day and month that its people
// type nor their decimal mark: its formats and texts tell, or else the browser's language.

/** In which order day, month and year are written. */
export type DateOrder = 'mdy' | 'dmy' | 'ymd';

export interface Habits {
  readonly order: DateOrder;
  readonly decimal: '.' | ',';
  /** What says so: the workbook, the browser's language, or the person at it. */
  readonly orderFrom: 'book' | 'browser' | 'person';
  readonly decimalFrom: 'book' | 'browser' | 'person';
}

/** What parts the arguments of a formula: the comma is the decimal mark where that is a comma. */
export const separatorOf = ({ decimal }: Habits): ',' | ';' => (decimal === ',' ? ';' : ',');

/** Languages by the number that number formats name them with, `[$-409]` (Windows language identifiers). */
const LANGUAGES: Readonly<Record<number, string>> = {
  0x403: 'ca-ES',
  0x404: 'zh-TW',
  0x405: 'cs-CZ',
  0x406: 'da-DK',
  0x407: 'de-DE',
  0x409: 'en-US',
  0x40a: 'es-ES',
  0x40b: 'fi-FI',
  0x40c: 'fr-FR',
  0x40e: 'hu-HU',
  0x410: 'it-IT',
  0x411: 'ja-JP',
  0x412: 'ko-KR',
  0x413: 'nl-NL',
  0x414: 'nb-NO',
  0x415: 'pl-PL',
  0x416: 'pt-BR',
  0x41d: 'sv-SE',
  0x804: 'zh-CN',
  0x807: 'de-CH',
  0x809: 'en-GB',
  0x80a: 'es-MX',
  0x80c: 'fr-BE',
  0x813: 'nl-BE',
  0x816: 'pt-PT',
  0xc07: 'de-AT',
  0xc09: 'en-AU',
  0xc0a: 'es-ES',
  0xc0c: 'fr-CA',
  0x1009: 'en-CA',
  0x1409: 'en-NZ',
  0x1809: 'en-IE',
  0x1c09: 'en-ZA',
};

/** The order in which a number format shows day and month as digits; undefined where it does not show both. */
export function orderOfFormat(code: string): DateOrder | undefined {
  const [section = ''] = code.replace(/"[^"]*"|\\.|\[[^\]]*\]|_.|\*./g, '').split(';');
  const letters = section.match(/d+|m+|y+|h+|s+/gi) ?? [];
  const parts = letters.flatMap((run, at): string[] => {
    const kind = run[0]!.toLowerCase();
    const isMinutes =
      kind === 'm' && (/^h/i.test(letters[at - 1] ?? '') || /^s/i.test(letters[at + 1] ?? ''));
    return 'dmy'.includes(kind) && !isMinutes ? [kind === 'y' ? 'y' : run.length > 2 ? '' : kind] : [];
  });
  const day = parts.indexOf('d');
  const month = parts.indexOf('m');
  if (day < 0 || month < 0 || parts.includes('')) return undefined;
  if (parts[0] === 'y') return 'ymd';
  return day < month ? 'dmy' : 'mdy';
}

/** The language that a number format names, `[$-409]` or `[$€-407]`. */
function languageOf(code: string): string | undefined {
  const named = /\[\$[^\]-]*-([0-9A-F]+)\]/i.exec(code)?.[1];
  return named === undefined ? undefined : LANGUAGES[parseInt(named, 16) & 0xffff];
}

export function orderOfLanguage(language: string): DateOrder {
  const parts = new Intl.DateTimeFormat(language, { year: 'numeric', month: 'numeric', day: 'numeric' })
    .formatToParts(0)
    .map(({ type }) => type);
  if (parts.indexOf('year') < parts.indexOf('day')) return 'ymd';
  return parts.indexOf('day') < parts.indexOf('month') ? 'dmy' : 'mdy';
}

const decimalOfLanguage = (language: string): '.' | ',' =>
  new Intl.NumberFormat(language)
    .formatToParts(1.5)
    .some(({ type, value }) => type === 'decimal' && value === ',')
    ? ','
    : '.';

/** Text cells that are looked at. */
const MOST_TEXTS = 20_000;

/**
 * The habits of a workbook's people: of orders and marks that speak against each other the one in more cells counts.
 * A format that shows days as the reader's own system does says nothing, and neither does one that begins with the year:
 * who keeps such a column types days in another order as well.
 */
export function habitsOf({ sheets }: WorkbookContent, language: string): Habits {
  const orders = new Map<DateOrder, number>();
  const decimals = new Map<'.' | ',', number>();
  const add = <K>(votes: Map<K, number>, key: K): void => void votes.set(key, (votes.get(key) ?? 0) + 1);
  const known = new Map<string, { order: DateOrder | undefined; language: string | undefined }>();
  let texts = 0;
  for (const { cells } of sheets) {
    for (const { numberFormat, followsReader, value, formula } of cells) {
      if (numberFormat !== undefined && !followsReader) {
        let says = known.get(numberFormat);
        if (!says) {
          says = { order: orderOfFormat(numberFormat), language: languageOf(numberFormat) };
          known.set(numberFormat, says);
        }
        const order =
          says.order ?? (says.language === undefined ? undefined : orderOfLanguage(says.language));
        if (order !== undefined && order !== 'ymd') add(orders, order);
        if (says.language !== undefined) add(decimals, decimalOfLanguage(says.language));
      }
      if (typeof value !== 'string' || formula !== undefined || ++texts > MOST_TEXTS) continue;
      const day = /^(\d\d?)[/.-](\d\d?)[/.-]\d\d(?:\d\d)?$/.exec(value.trim());
      if (day && Number(day[1]) > 12 && Number(day[2]) <= 12) add(orders, 'dmy');
      if (day && Number(day[2]) > 12 && Number(day[1]) <= 12) add(orders, 'mdy');
      // Three digits behind a comma may be thousands.
      if (/^-?\d+,(\d\d?|\d{4,})$/.test(value.trim())) add(decimals, ',');
      if (/^-?\d+\.(\d\d?|\d{4,})$/.test(value.trim())) add(decimals, '.');
    }
  }
  const order = most(orders);
  const decimal = most(decimals);
  return {
    order: order ?? orderOfLanguage(language),
    orderFrom: order === undefined ? 'browser' : 'book',
    decimal: decimal ?? decimalOfLanguage(language),
    decimalFrom: decimal === undefined ? 'browser' : 'book',
  };
}

function most<K>(votes: ReadonlyMap<K, number>): K | undefined {
  const [first, second] = [...votes].sort(([, a], [, b]) => b - a);
  return first === undefined || first[1] === second?.[1] ? undefined : first[0];
}

/** How a day looks in a format that follows the reader. */
export const dayFormatOf = ({ order }: Pick<Habits, 'order'>): string =>
  ({ mdy: 'm/d/yyyy', dmy: 'd/m/yyyy', ymd: 'yyyy-mm-dd' })[order];
