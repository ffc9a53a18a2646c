import { cellAt } from './book';
import type { Candidate } from './candidate';
import type { TableName } from './jobs';
import { isOfLosses, lostAt } from './lost';
import type { UnreadCell } from './unreadCells';
import { FIRST_SERIAL } from './values';

// Words that say of a record that it no longer counts.

/** How such words of lots begin; each is read wherever it begins a remark, now and later. */
const BEGINNINGS = [
  ...['contam', 'trich', 'trih', 'mould', 'mold', 'toss', 'discard', 'thrown', 'threw', 'binned', 'dead'],
  ...['dump', 'compost', 'spent', 'finish', 'done', 'lost', 'cull', 'destroy', 'scrap', 'reject', 'sold'],
  ...['emptied', 'cleared', 'used up', 'all out', 'chucked', 'trashed'],
  // German, French, Spanish and Portuguese, Dutch, Italian, Polish, Danish.
  ...[
    'entsorgt',
    'verworfen',
    'kontaminiert',
    'weggeworfen',
    'verschimmelt',
    'kompost',
    'jeté',
    'jete',
    'perdu',
  ],
  ...[
    'descartad',
    'perdid',
    'contaminad',
    'weggegooid',
    'besmet',
    'beschimmeld',
    'scartat',
    'buttat',
    'wyrzucon',
  ],
  ...['zepsut', 'kasseret', 'smidt ud'],
];
/** Those that are alone in a cell. */
const ALONE = ['gone', 'opened', 'loaded'];
/** Those that tell it behind a comma too: `went green, binned`. */
const THROWN = [
  ...['toss', 'discard', 'thrown', 'threw', 'binned', 'dump', 'compost', 'chucked', 'trashed', 'scrap'],
  ...['entsorgt', 'weggeworfen', 'jeté', 'jete', 'descartad', 'weggegooid', 'buttat', 'wyrzucon', 'kasseret'],
];
/** What was done with a lot, wherever in a remark it is said: `bad spawn - tossed`. */
const DONE_WITH = [
  ...['tossed', 'thrown', 'binned', 'discarded', 'dumped', 'threw', 'chucked', 'trashed', 'scrapped'],
  ...['entsorgt', 'weggeworfen', 'jeté', 'descartad', 'weggegooid', 'buttat', 'wyrzucon', 'kasseret'],
];
/** The first of them are said with a `not` too. */
const COMMON = 3;
/** Of how many it is said where that is not all of them, and where it is not done. */
const SOME = [
  ...['some', 'few', 'several', 'couple', 'one', 'two', 'three', 'half', 'part', 'partly', 'most'],
  ...['worst', 'rest'],
];
const NOT_DONE = ['not', 'none', 'nothing', 'almost', 'nearly'];
const LATER = ['if', 'may', 'might', 'maybe', 'will', 'should', 'unless'];
/** Words before them that say nothing more. */
const BEFORE =
  '(?:(?:all|whole|entire|everything|batch|lot|it|was|were|went|got|are|is|has|have|been|had|to|be|completely|totally|now|then|they)\\s+)*';

const DONE = `(?:${DONE_WITH.join('|')})`;
const oneOf = (some: readonly string[]): string => `(?<!\\p{L})(?:${some.join('|')})`;
/** `some tossed`, `tossed the worst`, with no more than four words between. */
const SOME_DONE = new RegExp(
  `${oneOf(SOME)}(?:\\s+\\p{L}+){0,4}\\s+${DONE}|${DONE}\\p{L}*\\s+(?:out\\s+|away\\s+)?(?:only\\s+|about\\s+)?(?:a\\s+|the\\s+)?${oneOf(SOME)}(?!\\p{L})`,
  'iu',
);
const NO_DONE = new RegExp(
  `(?:${oneOf([...NOT_DONE, ...LATER])}|n['’]t)(?:\\s+\\p{L}+){0,4}\\s+${DONE}`,
  'iu',
);
const ANY_DONE = new RegExp(`(?<!\\p{L})${DONE}`, 'iu');

/** Whether a remark says anywhere that its whole lot was thrown away. */
const isThrown = (text: string): boolean =>
  ANY_DONE.test(text) && !NO_DONE.test(text) && !SOME_DONE.test(text);

/** What says that a row no longer counts, as a word of its own or as the header over a yes. */
const GONE: Partial<Record<TableName, { readonly word: RegExp; readonly header: RegExp }>> = {
  lots: {
    word: new RegExp(
      `^${BEFORE}(?:${BEGINNINGS.join('|')}|(?:${ALONE.join('|')})$)|, ${BEFORE}(?:${THROWN.join('|')})`,
      'i',
    ),
    header:
      /contam|toss|discard|thrown|binned|dead|spent|finished|scrapped|lost|mou?ldy|\b(?:opened|loaded|gone|emptied|used|in fruiting|fruited)\b/i,
  },
  // Rooms in which nothing fruits.
  rooms: {
    word: /^(?:incub|spawn|colon|stor(?:e|age)|cold|fridge|cooler|lab|prep|pack|steril|office|warehouse)/i,
    header: /$^/,
  },
  orders: {
    word: /^(?:cancel|cx|void|ship|sh$|deliver|dlv|clos|fulfil|filled|complete|invoic|done|sent|picked up|collected)/i,
    header: /deliver|shipped|cancel|\bdone\b|fulfil|\bfilled\b|\bsent\b|complete|collected|picked up/i,
  },
};

/** A header over words that say how far something is. */
export const OF_STATE = /(?:^|[^a-z])(?:stat|status|state|stage)(?:[^a-z]|$)/i;

/** Whether a header may say which orders are still open. */
export const saysOfOrders = (header: string): boolean =>
  OF_STATE.test(header) || GONE.orders!.header.test(header);

/** A lot in one of these is loaded, where nothing else says so. */
const IN_ROOM =
  /^(?:tent|room|house|chamber|tunnel|shed|barn|greenhouse|fruit|pick|harvest|flush|on shel|loaded|moved|in (?:the )?(?:tent|room|house|tunnel|shed))/i;

export const OF_REMARKS =
  /note|remark|comment|memo|bemerk|notiz|anmerk|remarque|observa|opmerk|uwagi|bem[æa]erk|\bnotas?\b/i;
const YES = /^(?:y|yes|x|✓|✔|ja|oui|sí|si|tak|sim|ticked)$/i;

/** `3 tossed`, `tossed 3 bags`: some blocks of a lot, and not all of them. */
const CONTAINER = '(?:\\s*(?:x|of them|blocks?|bags?|pcs|jars?|logs?|bricks?))?';
const STEMS = BEGINNINGS.filter((one) => !one.includes(' ') && one !== 'done' && one !== 'finish').join('|');
const PART = new RegExp(
  `(?:^|[^\\d./-])\\d{1,3}${CONTAINER}(?:\\s+(?:were|was|went|got|are))?\\s+(?:${STEMS})|(?:${STEMS})\\w*:?\\s+\\d{1,3}${CONTAINER}(?:\\s*$|\\s*[,;.(]|\\s+(?:of|to|from)\\b)`,
  'i',
);

/** Whether a remark says that some blocks of its lot are gone, and not all. */
const isOfPart = (text: string): boolean =>
  (/\d/.test(text) && PART.test(text)) || (SOME_DONE.test(text) && !NO_DONE.test(text));

/** `only 30 in, 10 still on the trolley`, `10 left`, `half went in`: not all of a lot was loaded. */
const STILL =
  /\b\d{1,3}(?:\s*(?:blocks?|bags?|bricks?|pcs))?\s+(?:(?:are|is)\s+)?(?:still|left|not\s+(?:in|out|yet|loaded)|to go|remain\w*|waiting)\b|\bonly\s+\d{1,3}\s+(?:in|out|loaded|moved|went)\b|\bhalf\s+(?:of it\s+)?(?:went|in|out|loaded|moved|still|left)\b|\brest\s+(?:is\s+)?still\b/i;

/** Remarks on lots with a day of loading that say that not all of their blocks were loaded. */
function loadedInPart({ matches, sheet, dataRows, headers, origin }: Candidate): UnreadCell[] {
  const loaded = matches.find(({ wanted }) => wanted === 'loaded')?.column;
  if (loaded === undefined) return [];
  const others = [...headers.keys()].filter((column) => !matches.some((one) => one.column === column));
  const why =
    'says that some of its blocks are still to be loaded: put how many were loaded into a column of their own, headed blocks loaded';
  return dataRows.flatMap((row) => {
    const day = cellAt(sheet, row, loaded);
    const isDay = typeof day === 'string' || (typeof day === 'number' && day >= FIRST_SERIAL);
    return others.flatMap((column): UnreadCell[] => {
      const held = cellAt(sheet, row, column);
      if (!isDay || typeof held !== 'string' || !STILL.test(held)) return [];
      return [{ ...origin(row, column), about: 'lots, loaded', held, why }];
    });
  });
}

/** Remarks that say that a part of a lot is gone, which no column counts. */
export function partsInWords(candidate: Candidate): UnreadCell[] {
  const { headers, matches, sheet, dataRows, table, lost, left, lies, parts, origin } = candidate;
  const isCounted = left !== undefined || lies || parts?.some((part) => part.lies);
  if (table.name !== 'lots' || !mayBeGone(candidate) || isCounted) return [];
  const others = [...headers.keys()].filter((column) => !matches.some((one) => one.column === column));
  const gone = dataRows.flatMap((row) =>
    others.flatMap((column): UnreadCell[] => {
      const held = cellAt(sheet, row, column);
      if (typeof held !== 'string' || !isOfPart(held) || (lost && lostAt(candidate, lost, row) > 0))
        return [];
      const why =
        'says that some of its blocks are gone: put how many into a column of their own, headed lost';
      return [{ ...origin(row, column), about: 'lots, blocks', held, why }];
    }),
  );
  return [...gone, ...loadedInPart(candidate)];
}

/** Whether words of a table may say that their row no longer counts: an audit judges the lots that are finished. */
export const mayBeGone = ({ table }: Candidate): boolean =>
  GONE[table.name] !== undefined &&
  (table.name !== 'lots' || table.columns.some((one) => one.isOfWhatIsLeft));

/** Whether a word says of itself that its row no longer counts. */
export const isGone = ({ table }: Candidate, word: string): boolean =>
  table.name === 'lots'
    ? (GONE.lots!.word.test(word) || isThrown(word)) && !isOfPart(word)
    : GONE[table.name]!.word.test(word);

/** Words that say of themselves, or by their header, that a row no longer counts. */
export function goneIn(candidate: Candidate, header: string, words: readonly string[]): string[] {
  const { table, matches } = candidate;
  if (!mayBeGone(candidate)) return [];
  const byHeader = GONE[table.name]!.header.test(header) || (table.name === 'lots' && isOfLosses(header));
  const isOfLots = table.name === 'lots' && OF_STATE.test(header);
  const isLoaded = isOfLots && !matches.some(({ wanted }) => wanted === 'loaded');
  return words.filter(
    (word) => isGone(candidate, word) || (byHeader && YES.test(word)) || (isLoaded && IN_ROOM.test(word)),
  );
}

/** Columns of remarks in which a lot that is gone later would not be seen: nothing in them says it now. */
export function notFollowed(candidate: Candidate): string[] {
  const { headers, matches, counted = [] } = candidate;
  return mayBeGone(candidate)
    ? [...headers].flatMap(([column, header]) => {
        const isRead = [...matches, ...counted].some((one) => one.column === column);
        return !isRead && (OF_REMARKS.test(header) || OF_STATE.test(header)) ? [header] : [];
      })
    : [];
}

/** Whether cells say that a lot is gone, as a formula says it: in words that are written later too. */
export function goneText(cells: string): string {
  const text = `SUBSTITUTE(LOWER(TRIM(${cells})),"all ","")`;
  // Between signs of its beginning and its end, one list has the words that begin a cell, are alone or stand behind a comma.
  const words = [
    ...BEGINNINGS.map((word) => `^${word}`),
    ...ALONE.map((word) => `^${word}$`),
    ...THROWN.filter((word) => !DONE_WITH.includes(word)).map((word) => `, ${word}`),
  ];
  const found = hasOneOf(words, `"^"&${text}&"$"`);
  // A number behind the word is a part of the lot, if it is no day.
  const second = `MID(${text}&" ",FIND(" ",${text}&" ")+1,1)`;
  const isPart = `ISNUMBER(VALUE(${second}))*ISERROR(FIND("/",${text}))`;
  // Within a remark it counts where nothing says that it is of some, or not done.
  const spaced = `SUBSTITUTE(" "&${text}&" ","("," ")`;
  const done = hasOneOf(
    DONE_WITH.map((word) => ` ${word}`),
    spaced,
  );
  const some = hasOneOf(
    SOME.map((word) => ` ${word} `),
    spaced,
  );
  const undone = [...NOT_DONE.map((word) => ` ${word}`), "n't", 'n’t'].flatMap((word) =>
    DONE_WITH.slice(0, COMMON).map((done) => `${word} ${done}`),
  );
  const notDone = hasOneOf([...undone, ...LATER.map((word) => ` ${word} `)], spaced);
  const figures = `${hasOneOf([...'0123456789'], spaced)}*ISERROR(FIND("/",${spaced}))`;
  const within = `${done}*(1-${notDone})*(1-${figures})`;
  return `((1-(1-${found}*(1-${isPart}))*(1-${within}))*(1-${done}*${some}))`;
}

/** Whether cells have one of some texts, as a formula says it. */
function hasOneOf(texts: readonly string[], cells: string): string {
  const list = `{${texts.map((text) => `"${text}"`).join(',')}}`;
  const ones = `{${texts.map(() => 1).join(';')}}`;
  return `(MMULT(--ISNUMBER(SEARCH(${list},${cells})),${ones})>0)`;
}
