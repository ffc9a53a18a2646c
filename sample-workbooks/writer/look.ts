import type { Highlight, Reads } from '../describe';
import { element, MAIN, part } from './xml';

/** The colours of the workbooks: moss and linen. */
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

/** Series of a chart, in order, and its limit line. */
export const CHART_COLOURS = ['4E7A62', 'C98F4A', '7C8FA6', 'A9B97C', '8C6A7F', 'B9B4A4', '5B8C99', 'D6B98C'];
export const LIMIT_COLOUR = 'A6442E';

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

interface Font {
  readonly size?: number;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly colour?: string;
}

interface Look {
  readonly font: Font;
  readonly fill?: string;
  readonly below?: string;
  readonly around?: string;
  readonly vertical?: 'center' | 'bottom';
  readonly wrap?: boolean;
}

const LOOKS: Record<Role, Look> = {
  title: { font: { size: 18, bold: true, colour: COLOURS.moss }, vertical: 'center' },
  note: { font: { colour: COLOURS.muted } },
  heading: { font: { size: 13, bold: true, colour: COLOURS.moss } },
  remark: { font: { size: 10, colour: COLOURS.muted } },
  aside: { font: { size: 10, italic: true, colour: COLOURS.muted } },
  label: { font: {} },
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

const TINTS: Record<Highlight['tint'], { font: string; fill?: string }> = {
  good: { font: 'FF2F5E3F', fill: 'FFDDEBDD' },
  soon: { font: 'FF7A5A12', fill: 'FFF7E6B8' },
  late: { font: 'FF8A3320', fill: 'FFF6DDD4' },
  quiet: { font: 'FF9AA19B' },
};

/** A list in which equal entries stand once. */
class Registry {
  private readonly places = new Map<string, number>();

  constructor(...first: readonly string[]) {
    first.forEach((entry) => this.place(entry));
  }

  place(entry: string): number {
    const known = this.places.get(entry);
    if (known !== undefined) return known;
    this.places.set(entry, this.places.size);
    return this.places.size - 1;
  }

  list(name: string): string {
    return this.places.size === 0 ? '' : element(name, { count: this.places.size }, ...this.places.keys());
  }
}

const FIRST_OWN_NUMBER_FORMAT = 164;

function fontXml({ size = 11, bold, italic, colour = COLOURS.ink }: Font): string {
  return element(
    'font',
    {},
    bold ? '<b/>' : '',
    italic ? '<i/>' : '',
    element('sz', { val: size }),
    element('color', { rgb: colour }),
    element('name', { val: 'Calibri' }),
    element('family', { val: 2 }),
  );
}

const fillXml = (colour: string): string =>
  element(
    'fill',
    {},
    element(
      'patternFill',
      { patternType: 'solid' },
      element('fgColor', { rgb: colour }),
      element('bgColor', { indexed: 64 }),
    ),
  );

function borderXml({ below, around }: Look): string {
  const side = (name: string, colour: string | undefined): string =>
    colour === undefined ? `<${name}/>` : element(name, { style: 'thin' }, element('color', { rgb: colour }));
  return element(
    'border',
    {},
    side('left', around),
    side('right', around),
    side('top', around),
    side('bottom', around ?? below),
    '<diagonal/>',
  );
}

/** The styles of one workbook: cell formats are added as they are asked for. */
export class Styles {
  private readonly numberFormats = new Map<string, number>();
  private readonly fonts = new Registry(fontXml({}));
  private readonly fills = new Registry(
    '<fill><patternFill patternType="none"/></fill>',
    '<fill><patternFill patternType="gray125"/></fill>',
  );
  private readonly borders = new Registry('<border><left/><right/><top/><bottom/><diagonal/></border>');
  private readonly formats = new Registry('<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>');
  private readonly tints = new Registry();

  /** The number of the cell format for a role; headers stand on the side of what they head. */
  format(role: Role, reads: Reads): number {
    const look = LOOKS[role];
    const head = role === 'typedHead' || role === 'resultHead';
    const plain =
      role === 'title' || role === 'note' || role === 'heading' || role === 'remark' || role === 'label';
    const left = reads === 'text' && !plain;
    const right = reads !== 'text' && (head || role === 'input');
    const alignment = {
      horizontal: left ? 'left' : right ? 'right' : undefined,
      vertical: look.vertical,
      wrapText: look.wrap ? 1 : undefined,
      indent: left ? 1 : undefined,
    };
    const numFmtId = head ? 0 : this.numberFormat(codeOf(reads));
    return this.formats.place(
      element(
        'xf',
        {
          numFmtId,
          fontId: this.fonts.place(fontXml(look.font)),
          fillId: look.fill === undefined ? 0 : this.fills.place(fillXml(look.fill)),
          borderId: this.borders.place(borderXml(look)),
          xfId: 0,
          applyNumberFormat: numFmtId === 0 ? undefined : 1,
          applyFont: 1,
          applyFill: look.fill === undefined ? undefined : 1,
          applyBorder: look.below === undefined && look.around === undefined ? undefined : 1,
          applyAlignment: Object.values(alignment).some((value) => value !== undefined) ? 1 : undefined,
        },
        Object.values(alignment).some((value) => value !== undefined) ? element('alignment', alignment) : '',
      ),
    );
  }

  /** The number of the conditional format for a tint. */
  tint(tint: Highlight['tint']): number {
    const { font, fill } = TINTS[tint];
    return this.tints.place(
      element(
        'dxf',
        {},
        element('font', {}, element('color', { rgb: font })),
        fill === undefined
          ? ''
          : element('fill', {}, element('patternFill', {}, element('bgColor', { rgb: fill }))),
      ),
    );
  }

  private numberFormat(code: string): number {
    if (code === 'General') return 0;
    const known = this.numberFormats.get(code);
    if (known !== undefined) return known;
    const id = FIRST_OWN_NUMBER_FORMAT + this.numberFormats.size;
    this.numberFormats.set(code, id);
    return id;
  }

  xml(): string {
    const numberFormats = [...this.numberFormats].map(([formatCode, numFmtId]) =>
      element('numFmt', { numFmtId, formatCode }),
    );
    return part(
      element(
        'styleSheet',
        { xmlns: MAIN },
        numberFormats.length === 0
          ? ''
          : element('numFmts', { count: numberFormats.length }, ...numberFormats),
        this.fonts.list('fonts'),
        this.fills.list('fills'),
        this.borders.list('borders'),
        '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>',
        this.formats.list('cellXfs'),
        '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>',
        this.tints.list('dxfs'),
      ),
    );
  }
}
