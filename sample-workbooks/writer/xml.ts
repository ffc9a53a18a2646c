import { escapeAttribute } from '../../src/hosts/xlsx/xml';

export { escapeText } from '../../src/hosts/xlsx/xml';

type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element; `inside` is markup already. Attributes that are undefined are left out. */
export function element(name: string, attributes: Attributes, ...inside: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escapeAttribute(String(value))}"`)
    .join('');
  const content = inside.join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

/** A part of the package. */
export const part = (root: string): string =>
  `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${root}`;

export const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
export const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
