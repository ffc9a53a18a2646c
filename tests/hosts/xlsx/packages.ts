import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** A sheet of a workbook written out by hand: its `sheetData` and tables. */
interface Sheet {
  readonly name: string;
  readonly data: string;
  readonly before?: string;
  readonly tables?: readonly string[];
}

interface Written {
  readonly sheets: readonly Sheet[];
  readonly names?: string;
  readonly workbookPr?: string;
  readonly styles?: string;
  readonly sharedStrings?: string;
  readonly calcChain?: string;
  readonly metadata?: string;
}

/** A table part over `ref` with these columns. */
export const table = (name: string, ref: string, columns: readonly string[], more = '', id = 1): string =>
  `<table xmlns="${MAIN}" id="${id}" name="${name}" displayName="${name}" ref="${ref}"${more}><tableColumns count="${columns.length}">` +
  columns.map((column, n) => `<tableColumn id="${n + 1}" name="${column}"/>`).join('') +
  '</tableColumns></table>';

const relationship = (id: string, kind: string, target: string): string =>
  `<Relationship Id="${id}" Type="${RELATIONS}/${kind}" Target="${target}"/>`;

const relationships = (...entries: string[]): string =>
  `${DECLARATION}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${entries.join('')}</Relationships>`;

const override = (part: string, kind: string): string =>
  `<Override PartName="/xl/${part}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${kind}+xml"/>`;

/** The bytes of a workbook whose XML a test writes itself, the shell around it added. */
export function workbookOf(written: Written): Uint8Array {
  const parts: Record<string, string> = {};
  const extra = (['styles', 'sharedStrings', 'calcChain', 'metadata'] as const).filter(
    (kind) => written[kind] !== undefined,
  );
  const kindOf = (part: (typeof extra)[number]): string => (part === 'metadata' ? 'sheetMetadata' : part);
  parts['[Content_Types].xml'] =
    `${DECLARATION}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
    '<Default Extension="xml" ContentType="application/xml"/>' +
    override('workbook', 'sheet.main') +
    written.sheets.map((_, n) => override(`worksheets/sheet${n + 1}`, 'worksheet')).join('') +
    written.sheets
      .flatMap(({ tables = [] }, n) =>
        tables.map((_, t) => override(`tables/table${n + 1}${t + 1}`, 'table')),
      )
      .join('') +
    extra.map((kind) => override(kind, kindOf(kind))).join('') +
    '</Types>';
  parts['_rels/.rels'] = relationships(relationship('rId1', 'officeDocument', 'xl/workbook.xml'));
  parts['xl/workbook.xml'] =
    `${DECLARATION}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}">${written.workbookPr ?? ''}<sheets>` +
    written.sheets
      .map(({ name }, n) => `<sheet name="${name}" sheetId="${n + 1}" r:id="rId${n + 1}"/>`)
      .join('') +
    `</sheets>${written.names === undefined ? '' : `<definedNames>${written.names}</definedNames>`}</workbook>`;
  parts['xl/_rels/workbook.xml.rels'] = relationships(
    ...written.sheets.map((_, n) => relationship(`rId${n + 1}`, 'worksheet', `worksheets/sheet${n + 1}.xml`)),
    ...extra.map((kind, n) => relationship(`rId${n + 100}`, kindOf(kind), `/xl/${kind}.xml`)),
  );
  written.sheets.forEach(({ data, before = '', tables = [] }, n) => {
    const part = `xl/worksheets/sheet${n + 1}.xml`;
    parts[part] = `${DECLARATION}<worksheet xmlns="${MAIN}">${before}${data}</worksheet>`;
    tables.forEach((xml, t) => (parts[`xl/tables/table${n + 1}${t + 1}.xml`] = DECLARATION + xml));
    if (tables.length > 0) {
      parts[`xl/worksheets/_rels/sheet${n + 1}.xml.rels`] = relationships(
        ...tables.map((_, t) => relationship(`rId${t + 1}`, 'table', `../tables/table${n + 1}${t + 1}.xml`)),
      );
    }
  });
  for (const kind of extra) parts[`xl/${kind}.xml`] = DECLARATION + written[kind]!;
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])));
}

/** The parts of a file, unpacked by fflate rather than by the code under test, in their order. */
export const partsIn = (bytes: Uint8Array): Record<string, Uint8Array> => unzipSync(bytes);

export const textIn = (bytes: Uint8Array, part: string): string => strFromU8(partsIn(bytes)[part]!);
