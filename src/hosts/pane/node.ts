/**
 * A piece of a page, as plain data. The same guide is written to a file as text and shown in a pane as elements; text
 * goes in as text in both, so nothing from a cell or a definition is ever read as markup.
 */
export interface PageNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly (PageNode | string)[];
}

type Child = PageNode | string | false | undefined | readonly (PageNode | string)[];

/** A node; children that are false or undefined are left out. */
export function node(
  tag: string,
  attributes: Readonly<Record<string, string | false | undefined>> = {},
  ...children: readonly Child[]
): PageNode {
  const kept = Object.entries(attributes).filter(
    (entry): entry is [string, string] => typeof entry[1] === 'string',
  );
  return {
    tag,
    attributes: Object.fromEntries(kept),
    children: children
      .flat()
      .filter((child): child is PageNode | string => child !== false && child !== undefined),
  };
}

const ESCAPES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string): string => text.replace(/[&<>"]/g, (character) => ESCAPES[character]!);
const VOID_TAGS = new Set(['input', 'br', 'hr', 'link', 'meta', 'img', 'wbr']);

/** The node as HTML text, for pages that are written to a file. */
export function toHtml(piece: PageNode | string): string {
  if (typeof piece === 'string') return escaped(piece);
  const attributes = Object.entries(piece.attributes).map(([name, value]) => ` ${name}="${escaped(value)}"`);
  const open = `<${piece.tag}${attributes.join('')}>`;
  return VOID_TAGS.has(piece.tag) ? open : `${open}${piece.children.map(toHtml).join('')}</${piece.tag}>`;
}

const SVG = 'http://www.w3.org/2000/svg';

/** The node as an element of a page. What is inside a drawing is of the drawing. */
export function toElement(piece: PageNode, page: Document = document, isDrawn = false): HTMLElement {
  const inDrawing = isDrawn || piece.tag === 'svg';
  const element = inDrawing
    ? (page.createElementNS(SVG, piece.tag) as Element as HTMLElement)
    : page.createElement(piece.tag);
  for (const [name, value] of Object.entries(piece.attributes)) element.setAttribute(name, value);
  element.append(
    ...piece.children.map((child) => (typeof child === 'string' ? child : toElement(child, page, inDrawing))),
  );
  return element;
}
