import type { Cell } from '../../worksheet/cells/cell';
import { isCellError } from '../../worksheet/cells/cell';
import { addressOf, rangeOf, type Area, type Place } from './address';
import { listText, type ListedCells } from './lists';
import { CONTENT_TYPES, freeId, withChild } from './metadata';
import { chartText, drawingText, type NewChart } from './newChart';
import { Package } from './package';
import { onlyPart, partsOf, relationshipsOf, relationshipsPart, type WorkbookParts } from './parts';
import { CellStyles } from './styles';
import {
  appended,
  child,
  childrenOf,
  encodeCellText,
  escapeAttribute,
  parseXml,
  prefixAt,
  spliced,
} from './xml';

/** A cell of a new sheet: a constant, or a blank that has a look. */
export interface NewCell {
  readonly place: Place;
  readonly value: Cell;
  readonly numberFormat?: string;
  readonly look?: 'heading' | 'title';
}

/** A sheet to be added to a file. Its formulas are put in afterwards, as changes of its cells. */
export interface NewSheet {
  readonly name: string;
  readonly cells: readonly NewCell[];
  /** Widths of the first columns, in characters. */
  readonly widths: readonly number[];
  readonly table?: { readonly name: string; readonly area: Area; readonly headers: readonly string[] };
  readonly lists: readonly ListedCells[];
  readonly chart?: NewChart;
}

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE_RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const CONTENT = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
const DRAWING_CONTENT = 'application/vnd.openxmlformats-officedocument.drawing';
const CHART_CONTENT = 'application/vnd.openxmlformats-officedocument.drawingml.chart';
/** Ids of a new sheet's relationships. */
const RELATED = { table: 'rId1', drawing: 'rId2' } as const;
const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const TITLE_SIZE = 14;
/** Points a row needs for a title of that size. */
const TITLE_HEIGHT = 21;

/** The file with one more sheet behind the others; every other sheet stays byte for byte. */
export function withNewSheet(bytes: Uint8Array, sheet: NewSheet): Uint8Array {
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const folder = parts.workbook.slice(0, parts.workbook.lastIndexOf('/') + 1);
  const sheetPart = freePart(file, `${folder}worksheets/sheet`);
  const tablePart = freePart(file, `${folder}tables/table`);
  const drawingPart = freePart(file, `${folder}drawings/drawing`);
  const chartPart = freePart(file, `${folder}charts/chart`);
  const stylesPart = onlyPart(parts, 'styles');
  const styles = stylesPart === undefined ? undefined : new CellStyles(file.text(stylesPart), stylesPart);
  const id = freeId(parts);
  const changes = new Map<string, string>([
    [sheetPart, sheetText(sheet, styles)],
    [parts.workbook, withSheetListed(file, parts, sheet.name, id)],
    withChild(
      file,
      relationshipsPart(parts.workbook),
      (prefix) =>
        `<${prefix}Relationship Id="${id}" Type="${RELATIONSHIPS}/worksheet" Target="${sheetPart.slice(folder.length)}"/>`,
    ),
    withChild(file, CONTENT_TYPES, (prefix) => {
      const typed = (part: string, kind: string): string =>
        `<${prefix}Override PartName="/${part}" ContentType="${kind}+xml"/>`;
      return (
        typed(sheetPart, `${CONTENT}.worksheet`) +
        (sheet.table ? typed(tablePart, `${CONTENT}.table`) : '') +
        (sheet.chart ? typed(drawingPart, DRAWING_CONTENT) + typed(chartPart, CHART_CONTENT) : '')
      );
    }),
  ]);
  const related: string[] = [];
  const relate = (kind: keyof typeof RELATED, part: string): void => {
    related.push(relationship(RELATED[kind], kind, `../${part.slice(folder.length)}`));
  };
  if (sheet.table) {
    changes.set(tablePart, tableText(sheet.table, freeTableId(file, parts)));
    relate('table', tablePart);
  }
  if (sheet.chart) {
    changes.set(drawingPart, drawingText(sheet.chart));
    changes.set(chartPart, chartText(sheet.chart, sheet.name));
    relate('drawing', drawingPart);
    const chart = relationship('rId1', 'chart', `../${chartPart.slice(folder.length)}`);
    changes.set(relationshipsPart(drawingPart), relationships([chart]));
  }
  if (related.length > 0) changes.set(relationshipsPart(sheetPart), relationships(related));
  const changedStyles = styles?.changed();
  if (changedStyles !== undefined) changes.set(stylesPart!, changedStyles);
  return file.with(changes);
}

const relationship = (id: string, kind: string, target: string): string =>
  `<Relationship Id="${id}" Type="${RELATIONSHIPS}/${kind}" Target="${target}"/>`;

const relationships = (all: readonly string[]): string =>
  `${DECLARATION}<Relationships xmlns="${PACKAGE_RELATIONSHIPS}">${all.join('')}</Relationships>`;

function freePart(file: Package, stem: string): string {
  let n = 1;
  while (file.has(`${stem}${n}.xml`)) n++;
  return `${stem}${n}.xml`;
}

function freeTableId(file: Package, { sheets }: WorkbookParts): number {
  const ids = sheets.flatMap(({ part }) =>
    relationshipsOf(file, part)
      .filter(({ kind }) => kind === 'table')
      .map(({ target }) => Number(parseXml(file.text(target), target).attributes['id'] ?? 0)),
  );
  return Math.max(0, ...ids) + 1;
}

function withSheetListed(file: Package, { workbook, root }: WorkbookParts, name: string, id: string): string {
  const text = file.text(workbook);
  const list = child(root, 'sheets')!;
  const listed = childrenOf(list, 'sheet');
  const sheetId = Math.max(0, ...listed.map(({ attributes }) => Number(attributes['sheetId'] ?? 0))) + 1;
  const prefix = prefixAt(text, list.start);
  const sheet =
    `<${prefix}sheet xmlns:r="${RELATIONSHIPS}" name="${escapeAttribute(name)}" ` +
    `sheetId="${sheetId}" r:id="${id}"/>`;
  return spliced(text, [appended(text, list, sheet)]);
}

function sheetText({ cells, widths, table, lists, chart }: NewSheet, styles: CellStyles | undefined): string {
  const rows = new Map<number, NewCell[]>();
  for (const cell of cells) rows.set(cell.place.row, [...(rows.get(cell.place.row) ?? []), cell]);
  const data = [...rows]
    .sort(([a], [b]) => a - b)
    .map(([row, inRow]) => {
      const sorted = [...inRow].sort((a, b) => a.place.column - b.place.column);
      const height = inRow.some(({ look }) => look === 'title')
        ? ` ht="${TITLE_HEIGHT}" customHeight="1"`
        : '';
      return `<row r="${row + 1}"${height}>${sorted.map((cell) => cellText(cell, styles)).join('')}</row>`;
    });
  const cols = widths.map(
    (width, at) => `<col min="${at + 1}" max="${at + 1}" width="${width}" customWidth="1"/>`,
  );
  const list = (name: string, items: readonly string[], count = ''): string =>
    items.length === 0 ? '' : `<${name}${count}>${items.join('')}</${name}>`;
  return (
    `${DECLARATION}<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONSHIPS}">` +
    '<sheetFormatPr defaultRowHeight="15"/>' +
    list('cols', cols) +
    `<sheetData>${data.join('')}</sheetData>` +
    list(
      'dataValidations',
      lists.map((one) => listText(one)),
      ` count="${lists.length}"`,
    ) +
    (chart ? `<drawing r:id="${RELATED.drawing}"/>` : '') +
    (table ? `<tableParts count="1"><tablePart r:id="${RELATED.table}"/></tableParts>` : '') +
    '</worksheet>'
  );
}

function cellText({ place, value, numberFormat, look }: NewCell, styles: CellStyles | undefined): string {
  const plain = look && styles ? styles.withBold(0, look === 'title' ? TITLE_SIZE : undefined) : 0;
  const style = numberFormat && styles ? styles.withFormat(plain, numberFormat) : plain;
  const start = `<c r="${addressOf(place)}"${style === 0 ? '' : ` s="${style}"`}`;
  if (value === null || value === '') return `${start}/>`;
  if (isCellError(value)) return `${start} t="e"><v>${value.code}</v></c>`;
  if (typeof value === 'number') return `${start}><v>${value}</v></c>`;
  if (typeof value === 'boolean') return `${start} t="b"><v>${value ? 1 : 0}</v></c>`;
  return `${start} t="inlineStr"><is><t xml:space="preserve">${encodeCellText(value)}</t></is></c>`;
}

function tableText({ name, area, headers }: NonNullable<NewSheet['table']>, id: number): string {
  const range = rangeOf(area);
  return (
    `${DECLARATION}<table xmlns="${MAIN}" id="${id}" name="${escapeAttribute(name)}" ` +
    `displayName="${escapeAttribute(name)}" ref="${range}" totalsRowShown="0"><autoFilter ref="${range}"/>` +
    `<tableColumns count="${headers.length}">` +
    headers.map((header, n) => `<tableColumn id="${n + 1}" name="${escapeAttribute(header)}"/>`).join('') +
    '</tableColumns><tableStyleInfo name="TableStyleLight1" showFirstColumn="0" showLastColumn="0" ' +
    'showRowStripes="1" showColumnStripes="0"/></table>'
  );
}
