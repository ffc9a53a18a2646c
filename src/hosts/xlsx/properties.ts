import { CONTENT_TYPES, withChild } from './metadata';
import { Package } from './package';
import { relationshipsOf, relationshipsPart } from './parts';
import { childrenOf, escapeAttribute, escapeText, parseXml, spliced } from './xml';

// Custom properties of a workbook (ISO/IEC 29500-1, 22.3).

const PROPERTIES = 'http://schemas.openxmlformats.org/officeDocument/2006/custom-properties';
const TYPES = 'http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes';
const RELATIONSHIP = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties';
const CONTENT_TYPE = 'application/vnd.openxmlformats-officedocument.custom-properties+xml';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
/** The one set of custom properties there is. */
const SET = '{D5CDD505-2E9C-101B-9397-08002B2CF9AE}';
const FIRST_ID = 2;

const partOf = (file: Package): string | undefined =>
  relationshipsOf(file, '').find(({ kind, target }) => kind === 'custom-properties' && file.has(target))
    ?.target;

/** The text of a custom property; undefined where the workbook has none of that name. */
export function propertyOf(bytes: Uint8Array, name: string): string | undefined {
  const file = Package.open(bytes);
  const part = partOf(file);
  if (part === undefined) return undefined;
  const property = childrenOf(parseXml(file.text(part), part), 'property').find(
    ({ attributes }) => attributes['name'] === name,
  );
  return property?.children[0]?.text;
}

/** The workbook with a custom property set to a text; every other part stays byte for byte. */
export function withProperty(bytes: Uint8Array, name: string, value: string): Uint8Array {
  if (propertyOf(bytes, name) === value) return bytes;
  const file = Package.open(bytes);
  const part = partOf(file);
  // Written with its own namespaces, whatever prefixes the part has.
  const property = (id: number): string =>
    `<property xmlns="${PROPERTIES}" fmtid="${SET}" pid="${id}" name="${escapeAttribute(name)}">` +
    `<vt:lpwstr xmlns:vt="${TYPES}">${escapeText(value)}</vt:lpwstr></property>`;
  if (part !== undefined) {
    const text = file.text(part);
    const properties = childrenOf(parseXml(text, part), 'property');
    const before = properties.find(({ attributes }) => attributes['name'] === name);
    const ids = properties.map(({ attributes }) => Number(attributes['pid'] ?? 0));
    const xml = property(before ? Number(before.attributes['pid']) : Math.max(FIRST_ID - 1, ...ids) + 1);
    return file.with(
      new Map([
        before
          ? [part, spliced(text, [{ start: before.start, end: before.end, text: xml }])]
          : withChild(file, part, () => xml),
      ]),
    );
  }
  let added = 'docProps/custom.xml';
  for (let n = 2; file.has(added); n++) added = `docProps/custom${n}.xml`;
  const ids = new Set(relationshipsOf(file, '').map(({ id }) => id));
  let id = 'rIdPinset';
  for (let n = 2; ids.has(id); n++) id = `rIdPinset${n}`;
  return file.with(
    new Map([
      [added, `${DECLARATION}<Properties xmlns="${PROPERTIES}">${property(FIRST_ID)}</Properties>`],
      withChild(
        file,
        CONTENT_TYPES,
        (prefix) => `<${prefix}Override PartName="/${added}" ContentType="${CONTENT_TYPE}"/>`,
      ),
      withChild(
        file,
        relationshipsPart(''),
        (prefix) => `<${prefix}Relationship Id="${id}" Type="${RELATIONSHIP}" Target="${added}"/>`,
      ),
    ]),
  );
}
