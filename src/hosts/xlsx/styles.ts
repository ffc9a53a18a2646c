import {
  appended,
  child,
  childrenOf,
  escapeAttribute,
  parseXml,
  prefixAt,
  spliced,
  withAttribute,
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

export interface Styles {
  readonly root: Element;
  /** The number format of each cell style; undefined for General. */
  readonly formats: readonly (string | undefined)[];
}

export function readStyles(xml: string, part: string): Styles {
  const root = parseXml(xml, part);
  const written = new Map(
    childrenOf(child(root, 'numFmts'), 'numFmt').map(({ attributes }) => [
      Number(attributes['numFmtId']),
      attributes['formatCode'] ?? '',
    ]),
  );
  const formats = childrenOf(child(root, 'cellXfs'), 'xf').map(({ attributes }) => {
    const id = Number(attributes['numFmtId'] ?? 0);
    const code = written.get(id) ?? BUILT_IN.get(id);
    return code === 'General' ? undefined : code;
  });
  return { root, formats };
}

/** The styles of a file to which formats are added. */
export class CellStyles {
  private readonly styles: Styles;
  private readonly xfs: readonly Element[];
  private readonly added = new Map<string, number>();
  private readonly newXfs: string[] = [];
  private readonly newFonts: string[] = [];
  private readonly newFormats = new Map<string, number>();

  constructor(
    private readonly xml: string,
    part: string,
  ) {
    this.styles = readStyles(xml, part);
    this.xfs = childrenOf(child(this.styles.root, 'cellXfs'), 'xf');
  }

  /** The style that differs from `style` in its number format alone; `style` itself where that has one already. */
  withFormat(style: number, code: string): number {
    if (!this.source(style) || this.styles.formats[style] !== undefined) return style;
    return this.withAttributes(style, code, () => ({
      numFmtId: String(this.formatId(code)),
      applyNumberFormat: '1',
    }));
  }

  /** The style that differs from `style` in its letters: bold, and of another size where one is given. */
  withBold(style: number, size?: number): number {
    const xf = this.source(style);
    if (xf === undefined) return style;
    return this.withAttributes(style, `bold ${size ?? ''}`, () => {
      const fonts = childrenOf(child(this.styles.root, 'fonts'), 'font');
      const font = fonts[Number(this.xfs[style]?.attributes['fontId'] ?? 0)];
      const prefix = font ? prefixAt(this.xml, font.start) : '';
      const kept = (font?.children ?? []).filter(({ name }) => name !== 'b' && (name !== 'sz' || !size));
      const bold = `<${prefix}b/>${size === undefined ? '' : `<${prefix}sz val="${size}"/>`}`;
      const rest = kept.map(({ start, end }) => this.xml.slice(start, end)).join('');
      this.newFonts.push(`<${prefix}font>${bold}${rest}</${prefix}font>`);
      return { fontId: String(fonts.length + this.newFonts.length - 1), applyFont: '1' };
    });
  }

  /** The text of a style, of the file or added. */
  private source(style: number): string | undefined {
    const xf = this.xfs[style];
    return xf ? this.xml.slice(xf.start, xf.end) : this.newXfs[style - this.xfs.length];
  }

  private withAttributes(style: number, what: string, attributes: () => Record<string, string>): number {
    const key = `${style} ${what}`;
    let index = this.added.get(key);
    if (index === undefined) {
      index = this.xfs.length + this.newXfs.length;
      this.added.set(key, index);
      let xf = this.source(style)!;
      for (const [name, value] of Object.entries(attributes())) {
        xf = spliced(xf, [withAttribute(xf, { start: 0, inner: xf.indexOf('>') + 1 }, name, value)]);
      }
      this.newXfs.push(xf);
    }
    return index;
  }

  /** The part with what was added; undefined where nothing was. */
  changed(): string | undefined {
    if (this.newXfs.length === 0) return undefined;
    const { root } = this.styles;
    const cellXfs = child(root, 'cellXfs')!;
    const edits = [
      appended(this.xml, cellXfs, this.newXfs.join('')),
      withAttribute(this.xml, cellXfs, 'count', String(this.xfs.length + this.newXfs.length)),
    ];
    const fonts = child(root, 'fonts');
    if (this.newFonts.length > 0 && fonts) {
      const count = childrenOf(fonts, 'font').length + this.newFonts.length;
      edits.push(
        appended(this.xml, fonts, this.newFonts.join('')),
        withAttribute(this.xml, fonts, 'count', String(count)),
      );
    }
    if (this.newFormats.size > 0) {
      const prefix = prefixAt(this.xml, root.start);
      const xml = [...this.newFormats]
        .map(([code, id]) => `<${prefix}numFmt numFmtId="${id}" formatCode="${escapeAttribute(code)}"/>`)
        .join('');
      const numFmts = child(root, 'numFmts');
      if (numFmts) {
        const count = childrenOf(numFmts, 'numFmt').length + this.newFormats.size;
        edits.push(
          appended(this.xml, numFmts, xml),
          withAttribute(this.xml, numFmts, 'count', String(count)),
        );
      } else {
        const text = `<${prefix}numFmts count="${this.newFormats.size}">${xml}</${prefix}numFmts>`;
        edits.push({ start: root.inner, end: root.inner, text });
      }
    }
    return spliced(this.xml, edits);
  }

  private formatId(code: string): number {
    const standing = childrenOf(child(this.styles.root, 'numFmts'), 'numFmt');
    const same = standing.find(({ attributes }) => attributes['formatCode'] === code);
    if (same) return Number(same.attributes['numFmtId']);
    let id = this.newFormats.get(code);
    if (id === undefined) {
      id = Math.max(163, ...standing.map(({ attributes }) => Number(attributes['numFmtId']))) + 1;
      id += this.newFormats.size;
      this.newFormats.set(code, id);
    }
    return id;
  }
}
