import type { Highlight, Reads } from './describe';
import { codeOf, COLOURS, HEADS, LOOKS, TINTS, type Font, type Look, type Role } from './look';
import { isTrue } from './parts';
import {
  appended,
  child,
  childrenOf,
  element,
  MAIN,
  parseXml,
  part,
  prefixAt,
  spliced,
  withAttribute,
  type Edit,
  type Element,
} from './xml';

/**
 * The number formats a file may use without spelling them out (ISO/IEC 29500-1, 18.8.30), for the locale en-US.
 * 0 is General.
 */
const BUILT_IN: ReadonlyMap<number, string> = new Map([
  [1, '0'],
  [2, '0.00'],
  [3, '#,##0'],
  [4, '#,##0.00'],
  [9, '0%'],
  [10, '0.00%'],
  [11, '0.00E+00'],
  [12, '# ?/?'],
  [13, '# ??/??'],
  [14, 'm/d/yyyy'],
  [15, 'd-mmm-yy'],
  [16, 'd-mmm'],
  [17, 'mmm-yy'],
  [18, 'h:mm AM/PM'],
  [19, 'h:mm:ss AM/PM'],
  [20, 'h:mm'],
  [21, 'h:mm:ss'],
  [22, 'm/d/yyyy h:mm'],
  [37, '#,##0 ;(#,##0)'],
  [38, '#,##0 ;[Red](#,##0)'],
  [39, '#,##0.00;(#,##0.00)'],
  [40, '#,##0.00;[Red](#,##0.00)'],
  [45, 'mm:ss'],
  [46, '[h]:mm:ss'],
  [47, 'mm:ss.0'],
  [48, '##0.0E+0'],
  [49, '@'],
]);

/**
 * Codes of the formats that show a day in the order of whoever reads it (numbers 14 and 22), by a spelling of our own:
 * a file may also hold `m/d/yyyy`, and means that order then.
 */
export const READERS_DAY = 'm/d/yyyy""';
export const READERS_DAY_AND_TIME = 'm/d/yyyy hh:mm""';
const READERS: ReadonlyMap<string, number> = new Map([
  [READERS_DAY, 14],
  [READERS_DAY_AND_TIME, 22],
]);

export interface Styles {
  readonly root: Element;
  /** The number format of each cell style; undefined for General. */
  readonly formats: readonly (string | undefined)[];
  /** Whether that format is one whose order is the reader's. */
  readonly followReader: readonly boolean[];
  /** Whether its letters are struck out. */
  readonly struck: readonly boolean[];
}

export function readStyles(xml: string, part: string): Styles {
  const root = parseXml(xml, part);
  const written = new Map(
    childrenOf(child(root, 'numFmts'), 'numFmt').map(({ attributes }) => [
      Number(attributes['numFmtId']),
      attributes['formatCode'] ?? '',
    ]),
  );
  const xfs = childrenOf(child(root, 'cellXfs'), 'xf');
  const ids = xfs.map(({ attributes }) => Number(attributes['numFmtId'] ?? 0));
  const struckFonts = childrenOf(child(root, 'fonts'), 'font').map((font) => {
    const strike = child(font, 'strike');
    return strike !== undefined && isTrue(strike.attributes['val'] ?? '1');
  });
  const formats = ids.map((id) => {
    const code = written.get(id) ?? BUILT_IN.get(id);
    return code === 'General' ? undefined : code;
  });
  return {
    root,
    formats,
    followReader: ids.map((id) => !written.has(id) && (id === 14 || id === 22)),
    struck: xfs.map(({ attributes }) => struckFonts[Number(attributes['fontId'] ?? 0)] === true),
  };
}

/** The lists of a styles part, in the order in which they stand (ISO/IEC 29500-1, 18.8.39). */
const LISTS = [
  'numFmts',
  'fonts',
  'fills',
  'borders',
  'cellStyleXfs',
  'cellXfs',
  'cellStyles',
  'dxfs',
  'tableStyles',
  'colors',
  'extLst',
] as const;

/** A list of a file to which entries are added; equal entries stand once. */
class Additions {
  readonly standing: readonly Element[];
  private readonly list: Element | undefined;
  private readonly places = new Map<string, number>();
  private readonly added: string[] = [];
  private readonly prefix: string;

  constructor(
    private readonly xml: string,
    private readonly root: Element,
    private readonly name: (typeof LISTS)[number],
  ) {
    this.prefix = prefixAt(xml, root.start);
    this.list = child(root, name);
    this.standing = this.list?.children ?? [];
    this.standing.forEach((_, place) => {
      const text = this.text(place)!;
      if (!this.places.has(text)) this.places.set(text, place);
    });
  }

  /** The text of the entry in a place; undefined where there is none. */
  text(place: number): string | undefined {
    const standing = this.standing[place];
    return standing ? this.xml.slice(standing.start, standing.end) : this.added[place - this.standing.length];
  }

  /** The place of an entry, which is added where it is not there. */
  place(entry: string): number {
    // An entry of ours carries its namespace where the file writes that of its own with a prefix.
    const text = this.prefix === '' ? entry : entry.replace(/^<\w+(?=[\s/>])/, `$& xmlns="${MAIN}"`);
    let place = this.places.get(text);
    if (place === undefined) {
      place = this.standing.length + this.added.length;
      this.places.set(text, place);
      this.added.push(text);
    }
    return place;
  }

  edits(): Edit[] {
    if (this.added.length === 0) return [];
    const count = this.standing.length + this.added.length;
    if (this.list) {
      return [
        appended(this.xml, this.list, this.added.join('')),
        withAttribute(this.xml, this.list, 'count', String(count)),
      ];
    }
    const behind: readonly string[] = LISTS.slice(LISTS.indexOf(this.name) + 1);
    const next = this.root.children.find(({ name }) => behind.includes(name));
    const text = element(`${this.prefix}${this.name}`, { count }, ...this.added);
    return [next ? { start: next.start, end: next.start, text } : appended(this.xml, this.root, text)];
  }
}

/** The styles of a file to which formats are added. */
export class CellStyles {
  private readonly styles: Styles;
  private readonly numFmts: Additions;
  private readonly fonts: Additions;
  private readonly fills: Additions;
  private readonly borders: Additions;
  private readonly xfs: Additions;
  private readonly dxfs: Additions;
  private readonly numberFormats: Map<string, number>;
  private readonly known = new Map<string, number>();

  constructor(
    private readonly xml: string,
    part: string,
  ) {
    this.styles = readStyles(xml, part);
    const list = (name: (typeof LISTS)[number]): Additions => new Additions(xml, this.styles.root, name);
    this.numFmts = list('numFmts');
    this.fonts = list('fonts');
    this.fills = list('fills');
    this.borders = list('borders');
    this.xfs = list('cellXfs');
    this.dxfs = list('dxfs');
    this.numberFormats = new Map(
      this.numFmts.standing.map(({ attributes }) => [
        attributes['formatCode'] ?? '',
        Number(attributes['numFmtId']),
      ]),
    );
  }

  /** The style that differs from `style` in its number format alone; `style` itself where that has one already. */
  withFormat(style: number, code: string): number {
    return this.styles.formats[style] === undefined ? this.inFormat(style, code) : style;
  }

  /** The style that differs from `style` in its number format alone. */
  inFormat(style: number, code: string): number {
    return this.once(`${style} ${code}`, () => {
      const xf = this.xfs.text(style);
      if (xf === undefined) return style;
      const tag = { start: 0, inner: xf.indexOf('>') + 1 };
      return this.xfs.place(
        spliced(xf, [
          withAttribute(xf, tag, 'numFmtId', String(this.formatId(code))),
          withAttribute(xf, tag, 'applyNumberFormat', '1'),
        ]),
      );
    });
  }

  /** The style of a cell of a described sheet; headers stand on the side of what they head. */
  styleOf(role: Role, reads: Reads): number {
    return this.once(`${role} ${codeOf(reads)} ${reads === 'text'}`, () => {
      const look = LOOKS[role];
      const head = HEADS.has(role);
      const left = reads === 'text' && !look.plain;
      const right = reads !== 'text' && (head || role === 'input');
      const alignment = element('alignment', {
        horizontal: left ? 'left' : right ? 'right' : undefined,
        vertical: look.vertical,
        wrapText: look.wrap ? 1 : undefined,
        indent: left ? 1 : undefined,
      });
      const isAligned = alignment !== '<alignment/>';
      const numFmtId = head ? 0 : this.formatId(codeOf(reads));
      const attributes = {
        numFmtId,
        fontId: this.fonts.place(this.fontXml(look.font)),
        fillId: look.fill === undefined ? 0 : this.fills.place(fillXml(look.fill)),
        borderId: this.borders.place(borderXml(look)),
        xfId: 0,
        applyNumberFormat: numFmtId === 0 ? undefined : 1,
        applyFont: 1,
        applyFill: look.fill === undefined ? undefined : 1,
        applyBorder: look.below === undefined && look.around === undefined ? undefined : 1,
        applyAlignment: isAligned ? 1 : undefined,
      };
      return this.xfs.place(element('xf', attributes, isAligned ? alignment : ''));
    });
  }

  /** The number of the conditional format for a tint. */
  tint(tint: Highlight['tint']): number {
    const { font, fill } = TINTS[tint];
    return this.dxfs.place(
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

  /** The part with what was added; undefined where nothing was. */
  changed(): string | undefined {
    const { numFmts, fonts, fills, borders, xfs, dxfs } = this;
    const edits = [numFmts, fonts, fills, borders, xfs, dxfs].flatMap((list) => list.edits());
    return edits.length === 0 ? undefined : spliced(this.xml, edits);
  }

  private once(key: string, style: () => number): number {
    let known = this.known.get(key);
    if (known === undefined) this.known.set(key, (known = style()));
    return known;
  }

  private formatId(code: string): number {
    if (code === 'General') return 0;
    let id = this.numberFormats.get(code) ?? READERS.get(code);
    if (id === undefined) {
      id = Math.max(LAST_BUILT_IN, ...this.numberFormats.values()) + 1;
      this.numberFormats.set(code, id);
      this.numFmts.place(element('numFmt', { numFmtId: id, formatCode: code }));
    }
    return id;
  }

  /** A font of the file's own typeface. */
  private fontXml({ size = SIZE, bold, italic, colour = COLOURS.ink }: Font): string {
    const typeface = this.fonts.standing[0]?.children ?? [];
    return element(
      'font',
      {},
      bold ? '<b/>' : '',
      italic ? '<i/>' : '',
      element('sz', { val: size }),
      element('color', { rgb: colour }),
      ...typeface
        .filter(({ name }) => ['name', 'family', 'charset', 'scheme'].includes(name))
        .map(({ start, end }) => this.xml.slice(start, end)),
    );
  }
}

/** The highest number of a format that needs no spelling out. */
const LAST_BUILT_IN = 163;
/** The size of letters in points. */
const SIZE = 11;

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

/** Styles of a workbook that has none yet. */
export const BLANK_STYLES = part(
  element(
    'styleSheet',
    { xmlns: MAIN },
    '<fonts count="1"><font>',
    element('sz', { val: SIZE }),
    element('color', { rgb: COLOURS.ink }),
    '<name val="Calibri"/><family val="2"/></font></fonts>',
    '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>',
    '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>',
    '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>',
    '<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>',
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>',
  ),
);
