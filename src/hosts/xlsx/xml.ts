import { SaxesParser } from 'saxes';
import { WorkbookFileError } from './package';

/** An element of a small part, with where it stands in the text. */
export interface Element {
  /** Without prefix. */
  readonly name: string;
  /** By name as written, prefix included. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
  readonly start: number;
  /** Behind its start tag. */
  readonly inner: number;
  /** Before its end tag; equal to `end` for a self-closing tag. */
  innerEnd: number;
  end: number;
}

export interface Listener {
  /** `start` and `end` are the tag's place in the text. */
  open(name: string, attributes: Readonly<Record<string, string>>, start: number, end: number): void;
  close(name: string, start: number, end: number): void;
  text(text: string): void;
}

/**
 * Walks an XML part; names are given without prefix. Parts with a document type declaration are refused
 * (ISO/IEC 29500-2 forbids them), so no entity beyond the five of XML is ever resolved.
 */
export function walk(xml: string, part: string, listener: Listener): void {
  const parser = new SaxesParser<{ position: true; xmlns: false }>({ position: true, xmlns: false });
  const broken = (why: string): WorkbookFileError =>
    new WorkbookFileError(`the file is damaged: its part ${part} is not well-formed (${why})`);
  parser.on('error', (error) => {
    throw broken(error.message.replace(/^\d+:\d+: /, '').replace(/\.$/, ''));
  });
  parser.on('doctype', () => {
    throw broken('a document type declaration');
  });
  parser.on('opentag', ({ name, attributes }) => {
    const end = parser.position;
    listener.open(local(name), attributes, xml.lastIndexOf('<', end - 1), end);
  });
  parser.on('closetag', ({ name, isSelfClosing }) => {
    const end = parser.position;
    listener.close(local(name), isSelfClosing ? end : xml.lastIndexOf('<', end - 1), end);
  });
  parser.on('text', (text) => listener.text(text));
  parser.on('cdata', (text) => listener.text(text));
  parser.write(xml).close();
}

const local = (name: string): string => {
  const colon = name.indexOf(':');
  return colon < 0 ? name : name.slice(colon + 1);
};

/** Far above the styles, names and relationships of any workbook; a tree of more would fill the memory. */
const MOST_ELEMENTS = 500_000;

/** A small part as a tree. */
export function parseXml(xml: string, part: string): Element {
  let elements = 0;
  const root: Element = {
    name: '',
    attributes: {},
    children: [],
    text: '',
    start: 0,
    inner: 0,
    innerEnd: xml.length,
    end: xml.length,
  };
  const open: Element[] = [root];
  walk(xml, part, {
    open(name, attributes, start, end) {
      if (++elements > MOST_ELEMENTS) throw new WorkbookFileError(`its part ${part} is too large`);
      const element = { name, attributes, children: [], text: '', start, inner: end, innerEnd: end, end };
      open.at(-1)!.children.push(element);
      open.push(element);
    },
    close(_, start, end) {
      const element = open.pop()!;
      element.innerEnd = start;
      element.end = end;
    },
    text(text) {
      open.at(-1)!.text += text;
    },
  });
  return root.children[0]!;
}

export const child = (element: Element | undefined, name: string): Element | undefined =>
  element?.children.find((one) => one.name === name);

export const childrenOf = (element: Element | undefined, name: string): Element[] =>
  element?.children.filter((one) => one.name === name) ?? [];

/** The value of an attribute that must have a prefix (`r:id`), whichever prefix the writer chose. */
export function prefixed(element: Element, name: string): string | undefined {
  const key = Object.keys(element.attributes).find((one) => one.endsWith(`:${name}`));
  return key === undefined ? undefined : element.attributes[key];
}

/** `x:` where the element is written as `<x:name`, else empty. */
export function prefixAt(xml: string, start: number): string {
  const match = /^<([^\s/>:]+:)/.exec(xml.slice(start, start + 64));
  return match ? match[1]! : '';
}

export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text with each stretch replaced; stretches do not overlap. Equal places keep their order. */
export function spliced(xml: string, edits: readonly Edit[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { start, end, text } of [...edits].sort((a, b) => a.start - b.start)) {
    pieces.push(xml.slice(at, start), text);
    at = end;
  }
  pieces.push(xml.slice(at));
  return pieces.join('');
}

/** The edit that puts `xml` at the end inside an element; a self-closing tag is opened for it. */
export function appended(
  source: string,
  element: Pick<Element, 'start' | 'innerEnd' | 'end'>,
  xml: string,
): Edit {
  if (element.innerEnd < element.end) return { start: element.innerEnd, end: element.innerEnd, text: xml };
  const name = /^<([^\s/>]+)/.exec(source.slice(element.start, element.end))![1]!;
  const slash = source.lastIndexOf('/', element.end);
  return { start: slash, end: element.end, text: `>${xml}</${name}>` };
}

/** The edit that sets an attribute in an element's start tag. */
export function withAttribute(
  source: string,
  element: { readonly start: number; readonly inner: number },
  name: string,
  value: string,
): Edit {
  const tag = source.slice(element.start, element.inner);
  const match = new RegExp(`(\\s${name}\\s*=\\s*)("[^"]*"|'[^']*')`).exec(tag);
  if (match) {
    const start = element.start + match.index + match[1]!.length;
    return { start, end: start + match[2]!.length, text: `"${escapeAttribute(value)}"` };
  }
  const at = element.inner - (tag.endsWith('/>') ? 2 : 1);
  return { start: at, end: at, text: ` ${name}="${escapeAttribute(value)}"` };
}

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** The text of an element; `inside` is markup already. Attributes that are undefined are left out. */
export function element(name: string, attributes: Attributes, ...inside: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escapeAttribute(String(value))}"`)
    .join('');
  const content = inside.join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

/** The text of a part. */
export const part = (root: string): string =>
  `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${root}`;

export const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
export const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

export const escapeText = (text: string): string =>
  text.replace(/[&<>]/g, (sign) => (sign === '&' ? '&amp;' : sign === '<' ? '&lt;' : '&gt;'));

export const escapeAttribute = (text: string): string => escapeText(text).replace(/"/g, '&quot;');

/** Undoes the `_x000D_` of spreadsheet texts (ISO/IEC 29500-1, 22.9.2.19). */
export const decodeCellText = (text: string): string =>
  text.includes('_x')
    ? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)))
    : text;

/** Text as a spreadsheet's string holds it: what XML cannot hold is written as `_x0001_`. */
export function encodeCellText(text: string): string {
  return escapeText(
    text
      .replace(/_x[0-9A-Fa-f]{4}_/g, '_x005F$&')
      .replace(
        /[\u0000-\u0008\u000b\u000c\u000d\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
        (sign) => `_x${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`,
      ),
  );
}
