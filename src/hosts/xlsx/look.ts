import type { Highlight, Reads } from './describe';

/** The colours of sheets: moss and linen. */
export const COLOURS = {
  ink: 'FF2B322F',
  muted: 'FF6A736D',
  moss: 'FF3E5F4C',
  sage: 'FFE2EAE3',
  linen: 'FFFBF7EC',
  straw: 'FFF8EDCF',
  line: 'FFE1E3DC',
  strawLine: 'FFD8C48A',
  white: 'FFFFFFFF',
} as const;

/** Series of a chart, in order, its limit and the line the points should lie about. */
export const CHART_COLOURS = ['4E7A62', 'C98F4A', '7C8FA6', 'A9B97C', '8C6A7F', 'B9B4A4', '5B8C99', 'D6B98C'];
export const LIMIT_COLOUR = 'A6442E';
export const CENTRE_COLOUR = '6A736D';

const CODES: Record<Extract<Reads, string>, string> = {
  text: 'General',
  number: '#,##0.00',
  count: '#,##0',
  mass: '#,##0.0',
  money: '#,##0.00',
  percent: '0.0%',
  date: 'yyyy-mm-dd',
  dateTime: 'yyyy-mm-dd hh:mm',
  days: '0.0',
  temperature: '0.0',
};

export const codeOf = (reads: Reads): string => (typeof reads === 'string' ? CODES[reads] : reads.code);

/** What a cell is on the page. */
export type Role =
  | 'title'
  | 'note'
  | 'heading'
  | 'remark'
  | 'aside'
  | 'label'
  | 'typedHead'
  | 'typed'
  | 'resultHead'
  | 'result'
  | 'room'
  | 'input';

export interface Font {
  readonly size?: number;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly colour?: string;
}

export interface Look {
  readonly font: Font;
  readonly fill?: string;
  readonly below?: string;
  readonly around?: string;
  readonly vertical?: 'center' | 'bottom';
  readonly wrap?: boolean;
  /** Words that begin at the edge of their cell. */
  readonly plain?: boolean;
}

/** Height in points of a header row whose words need two lines. */
export const TALL_HEADER_HEIGHT = 34;

/** Roles of headers: they show words whatever the cells below them show. */
export const HEADS: ReadonlySet<Role> = new Set(['typedHead', 'resultHead']);

export const LOOKS: Record<Role, Look> = {
  title: { font: { size: 18, bold: true, colour: COLOURS.moss }, vertical: 'center', plain: true },
  note: { font: { colour: COLOURS.muted }, plain: true },
  heading: { font: { size: 13, bold: true, colour: COLOURS.moss }, plain: true },
  remark: { font: { size: 10, colour: COLOURS.muted }, plain: true },
  aside: { font: { size: 10, italic: true, colour: COLOURS.muted } },
  label: { font: {}, plain: true },
  typedHead: {
    font: { bold: true, colour: COLOURS.white },
    fill: COLOURS.moss,
    vertical: 'center',
    wrap: true,
  },
  typed: { font: {}, fill: COLOURS.linen, below: COLOURS.line },
  resultHead: {
    font: { bold: true, colour: COLOURS.moss },
    fill: COLOURS.sage,
    below: COLOURS.moss,
    vertical: 'center',
    wrap: true,
  },
  result: { font: {}, below: COLOURS.line },
  room: { font: {} },
  input: { font: {}, fill: COLOURS.straw, around: COLOURS.strawLine },
};

export const TINTS: Record<Highlight['tint'], { font: string; fill?: string }> = {
  good: { font: 'FF2F5E3F', fill: 'FFDDEBDD' },
  soon: { font: 'FF7A5A12', fill: 'FFF7E6B8' },
  late: { font: 'FF8A3320', fill: 'FFF6DDD4' },
  quiet: { font: 'FF9AA19B' },
};

/** What a cell says to whatever its list does not have. */
export const NOT_IN_LIST = {
  title: 'Not in the list',
  message: 'This is not in the list. Keep it all the same?',
};
