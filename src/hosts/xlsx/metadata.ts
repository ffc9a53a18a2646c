import { Package } from './package';
import { onlyPart, relationshipsPart, type WorkbookParts } from './parts';
import {
  appended,
  child,
  childrenOf,
  parseXml,
  prefixAt,
  spliced,
  withAttribute,
  type Edit,
  type Element,
} from './xml';

const TYPE_NAME = 'XLDAPR';
const TYPE =
  `metadataType name="${TYPE_NAME}" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" ` +
  'splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"';
const EXTENSION = '{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}';
const NAMESPACE = 'http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONSHIP = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata';
const CONTENT_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
export const CONTENT_TYPES = '[Content_Types].xml';

/** The metadata of a workbook that marks cells as spilling: a `cm` of `index` in each, and the parts it takes. */
export interface DynamicArrays {
  readonly index: number;
  /** New text of the parts that had to change; none where the workbook has the record already. */
  readonly parts: ReadonlyMap<string, string>;
}

/** Finds or adds the record by which Excel knows a spilling formula from an array formula of the older kind. */
export function withDynamicArrays(file: Package, parts: WorkbookParts): DynamicArrays {
  const folder = parts.workbook.slice(0, parts.workbook.lastIndexOf('/') + 1);
  const named = onlyPart(parts, 'sheetMetadata');
  const part = named ?? freeName(file, folder);
  const before = file.has(part)
    ? file.text(part)
    : `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="${MAIN}"></metadata>`;
  const { index, text } = withRecord(before, part);
  const changed = new Map(text === before ? [] : [[part, text]]);
  if (!file.has(part) && !hasType(file, part)) {
    const type = `Override PartName="/${part}" ContentType="${CONTENT_TYPE}"`;
    changed.set(...withChild(file, CONTENT_TYPES, (prefix) => `<${prefix}${type}/>`));
  }
  if (named === undefined) {
    const relationship = `Relationship Id="${freeId(parts)}" Type="${RELATIONSHIP}" Target="${part.slice(folder.length)}"`;
    changed.set(
      ...withChild(file, relationshipsPart(parts.workbook), (prefix) => `<${prefix}${relationship}/>`),
    );
  }
  return { index, parts: changed };
}

const hasType = (file: Package, part: string): boolean =>
  parseXml(file.text(CONTENT_TYPES), CONTENT_TYPES).children.some(
    ({ attributes }) => attributes['PartName']?.toLowerCase() === `/${part}`.toLowerCase(),
  );

/** The records that a cell's `cm` may name: those whose type, and for spilling formulas whose properties, are there. */
export function soundRecords(file: Package, parts: WorkbookParts): ReadonlySet<string> {
  const part = onlyPart(parts, 'sheetMetadata');
  if (part === undefined || !file.has(part)) return new Set();
  const root = parseXml(file.text(part), part);
  const types = childrenOf(child(root, 'metadataTypes'), 'metadataType');
  const properties = childrenOf(dynamicProperties(root), 'bk');
  const isSound = ({ attributes: { t, v } }: Element): boolean => {
    const type = types[Number(t) - 1]?.attributes['name'];
    return type === TYPE_NAME ? properties[Number(v)] !== undefined : type !== undefined;
  };
  const records = childrenOf(child(root, 'cellMetadata'), 'bk');
  return new Set(records.flatMap(({ children }, n) => (children.every(isSound) ? [String(n + 1)] : [])));
}

const dynamicProperties = (root: Element): Element | undefined =>
  childrenOf(root, 'futureMetadata').find(({ attributes }) => attributes['name'] === TYPE_NAME);

function freeName(file: Package, folder: string): string {
  let name = `${folder}metadata.xml`;
  for (let n = 2; file.has(name); n++) name = `${folder}metadata${n}.xml`;
  return name;
}

/** An id that no relationship of the workbook has. */
export function freeId({ relationships }: Pick<WorkbookParts, 'relationships'>): string {
  const taken = new Set(relationships.map(({ id }) => id));
  let n = relationships.length + 1;
  while (taken.has(`rId${n}`)) n++;
  return `rId${n}`;
}

/** A part's name and its text with more at the end of its root element. */
export function withChild(file: Package, part: string, xml: (prefix: string) => string): [string, string] {
  const text = file.text(part);
  const root = parseXml(text, part);
  return [part, spliced(text, [appended(text, root, xml(prefixAt(text, root.start)))])];
}

/** A metadata part with a record for spilling cells, and that record's number. */
function withRecord(before: string, part: string): { index: number; text: string } {
  let text = before;
  const root = (): Element => parseXml(text, part);
  const prefix = prefixAt(before, root().start);
  const put = (...edits: Edit[]): void => {
    text = spliced(text, edits);
  };
  /** Adds a child to a list, made where it is missing, and keeps the list's count. Returns its position in the list. */
  const add = (list: Element | undefined, open: string, before: readonly string[], xml: string): number => {
    if (list) {
      const count = list.children.filter(({ name }) => name !== 'extLst').length;
      put(appended(text, list, xml), withAttribute(text, list, 'count', String(count + 1)));
      return count;
    }
    const next = root().children.find(({ name }) => before.includes(name));
    const element = `<${prefix}${open} count="1">${xml}</${prefix}${open.split(' ')[0]}>`;
    put(next ? { start: next.start, end: next.start, text: element } : appended(text, root(), element));
    return 0;
  };

  let type = childrenOf(child(root(), 'metadataTypes'), 'metadataType').findIndex(
    ({ attributes }) => attributes['name'] === TYPE_NAME,
  );
  if (type < 0) {
    const rest = [
      'metadataStrings',
      'mdxMetadata',
      'futureMetadata',
      'cellMetadata',
      'valueMetadata',
      'extLst',
    ];
    type = add(child(root(), 'metadataTypes'), 'metadataTypes', rest, `<${prefix}${TYPE}/>`);
  }

  let properties = childrenOf(dynamicProperties(root()), 'bk').findIndex(isDynamic);
  if (properties < 0) {
    const xml =
      `<${prefix}bk><${prefix}extLst><${prefix}ext uri="${EXTENSION}"><xda:dynamicArrayProperties ` +
      `xmlns:xda="${NAMESPACE}" fDynamic="1" fCollapsed="0"/></${prefix}ext></${prefix}extLst></${prefix}bk>`;
    const rest = ['cellMetadata', 'valueMetadata', 'extLst'];
    properties = add(dynamicProperties(root()), `futureMetadata name="${TYPE_NAME}"`, rest, xml);
  }

  const [t, v] = [String(type + 1), String(properties)];
  const records = childrenOf(child(root(), 'cellMetadata'), 'bk');
  let record = records.findIndex(({ children }) => {
    const [only, ...more] = children;
    return more.length === 0 && only?.attributes['t'] === t && only.attributes['v'] === v;
  });
  if (record < 0) {
    const xml = `<${prefix}bk><${prefix}rc t="${t}" v="${v}"/></${prefix}bk>`;
    record = add(child(root(), 'cellMetadata'), 'cellMetadata', ['valueMetadata', 'extLst'], xml);
  }
  return { index: record + 1, text };
}

function isDynamic(element: Element): boolean {
  if (element.name === 'dynamicArrayProperties') {
    return element.attributes['fDynamic'] === '1' && element.attributes['fCollapsed'] !== '1';
  }
  return element.children.some(isDynamic);
}
