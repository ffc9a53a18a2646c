import { addressOf } from './address';
import { chartPart, drawingPart, valuesIn } from './chartPart';
import type { Sheet, Workbook } from './describe';
import { CONTENT_TYPES, freeId, withChild } from './metadata';
import { Package } from './package';
import { layOut, type Page } from './page';
import {
  onlyPart,
  partsOf,
  relationshipsOf,
  relationshipsPart,
  type Relationship,
  type WorkbookParts,
} from './parts';
import { patchWorkbook } from './patch';
import { Places, reference, type Results } from './places';
import { dateSystemOf, readTables } from './read';
import { printNames, sheetPart, tablePart } from './sheetPart';
import { BLANK_STYLES, CellStyles } from './styles';
import {
  appended,
  child,
  childrenOf,
  element,
  escapeText,
  MAIN,
  parseXml,
  part,
  prefixAt,
  RELATIONSHIPS,
  spliced,
  type Edit,
} from './xml';

const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const OFFICE = 'application/vnd.openxmlformats-officedocument';
const PROPERTIES = 'application/vnd.openxmlformats-package.core-properties+xml';

/** The content types of parts, by the kind of relationship that leads to them. */
const CONTENT = {
  worksheet: `${OFFICE}.spreadsheetml.worksheet+xml`,
  table: `${OFFICE}.spreadsheetml.table+xml`,
  styles: `${OFFICE}.spreadsheetml.styles+xml`,
  drawing: `${OFFICE}.drawing+xml`,
  chart: `${OFFICE}.drawingml.chart+xml`,
} as const;

type Kind = keyof typeof CONTENT;

/** How the names of parts begin, of which there are several. */
const STEMS = {
  worksheet: 'worksheets/sheet',
  table: 'tables/table',
  drawing: 'drawings/drawing',
  chart: 'charts/chart',
} as const;

/** The bytes of a workbook with these sheets. The same description and results give the same bytes. */
export const newWorkbook = ({ title, sheets }: Workbook, results?: Results): Uint8Array =>
  withSheets(blankWorkbook(title), sheets, results);

/**
 * The file with more sheets behind its own, which stay byte for byte. `results` are put beside the formulas; left out,
 * formulas have none until the file is calculated.
 * @throws Error that names sheet and cell where the description does not fit
 */
export function withSheets(
  bytes: Uint8Array,
  sheets: readonly Sheet[],
  results: Results = () => undefined,
): Uint8Array {
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const places = new Places(sheets, {
    results,
    tables: readTables(file, parts),
    dateSystem: dateSystemOf(parts),
  });
  const pages = sheets.map((sheet) => layOut(sheet, places));
  const added = new AddedParts(file, parts);
  pages.forEach((page) => added.page(page, pages, places));
  const formulas = pages.flatMap(({ sheet, cells }) =>
    [...cells].flatMap(([row, inRow]) =>
      [...inRow].flatMap(([column, { formula, spills }]) => {
        const address = addressOf({ row, column });
        if (formula === undefined) return [];
        const values = results(sheet.name, address) ?? [[null]];
        return [{ sheet: sheet.name, address, formula, values, ...(spills && { spills }) }];
      }),
    ),
  );
  return patchWorkbook(file.with(added.changes(pages)), formulas);
}

/** The parts that new sheets bring into a file. */
class AddedParts {
  private readonly texts = new Map<string, string>();
  private readonly types = new Map<string, string>();
  private readonly sheets: string[] = [];
  private readonly folder: string;
  private readonly relationships: Relationship[];
  private readonly stylesPart: string;
  private readonly styles: CellStyles;
  private nextTable: number;

  constructor(
    private readonly file: Package,
    private readonly parts: WorkbookParts,
  ) {
    this.folder = parts.workbook.slice(0, parts.workbook.lastIndexOf('/') + 1);
    this.relationships = [...parts.relationships];
    const styles = onlyPart(parts, 'styles');
    this.stylesPart = styles ?? `${this.folder}styles.xml`;
    if (styles === undefined) {
      this.texts.set(this.stylesPart, BLANK_STYLES);
      this.types.set(this.stylesPart, CONTENT.styles);
      this.relate('styles', this.stylesPart);
    }
    this.styles = new CellStyles(styles === undefined ? BLANK_STYLES : file.text(styles), this.stylesPart);
    const tables = parts.sheets.flatMap(({ part: sheet }) =>
      relationshipsOf(file, sheet).filter(({ kind }) => kind === 'table'),
    );
    const ids = tables.map(({ target }) => Number(parseXml(file.text(target), target).attributes['id'] ?? 0));
    this.nextTable = Math.max(0, ...ids) + 1;
  }

  page(page: Page, pages: readonly Page[], places: Places): void {
    const related: [Kind, string][] = [];
    if (page.charts.length > 0) {
      const charts = page.charts.map((chart): [Kind, string] => [
        'chart',
        this.add('chart', chartPart(chart, page.sheet, places, valuesIn(pages))),
      ]);
      const drawing = this.add('drawing', drawingPart(page.charts));
      this.texts.set(relationshipsPart(drawing), this.related(charts));
      related.push(['drawing', drawing]);
    }
    for (const table of page.tables) {
      const text = tablePart(table, places.areaOfTable(table.name), this.nextTable++);
      related.push(['table', this.add('table', text)]);
    }
    const opens = this.parts.allSheets.length + this.sheets.length === 0;
    const sheet = this.add('worksheet', sheetPart(page, places, this.styles, opens));
    if (related.length > 0) this.texts.set(relationshipsPart(sheet), this.related(related));
    this.sheets.push(this.relate('worksheet', sheet));
  }

  changes(pages: readonly Page[]): ReadonlyMap<string, string> {
    const { file, parts } = this;
    const styles = this.styles.changed();
    const relationships = this.relationships.slice(parts.relationships.length);
    return new Map([
      ...this.texts,
      ...(styles === undefined ? [] : [[this.stylesPart, styles] as const]),
      [parts.workbook, this.workbook(pages)],
      withChild(file, relationshipsPart(parts.workbook), (prefix) =>
        relationships
          .map(({ id, kind, target }) =>
            element(`${prefix}Relationship`, {
              Id: id,
              Type: `${RELATIONSHIPS}/${kind}`,
              Target: target.slice(this.folder.length),
            }),
          )
          .join(''),
      ),
      withChild(file, CONTENT_TYPES, (prefix) =>
        [...this.types]
          .map(([name, type]) => element(`${prefix}Override`, { PartName: `/${name}`, ContentType: type }))
          .join(''),
      ),
    ]);
  }

  /** Adds a part under a name that is free, which it gives. */
  private add(kind: keyof typeof STEMS, text: string): string {
    const stem = `${this.folder}${STEMS[kind]}`;
    let n = 1;
    while (this.file.has(`${stem}${n}.xml`) || this.texts.has(`${stem}${n}.xml`)) n++;
    const name = `${stem}${n}.xml`;
    this.texts.set(name, text);
    this.types.set(name, CONTENT[kind]);
    return name;
  }

  /** Makes a part one of the workbook's; gives the id under which it is. */
  private relate(kind: Kind, target: string): string {
    const id = freeId({ relationships: this.relationships });
    this.relationships.push({ id, kind, target });
    return id;
  }

  /** The relationships of a part one folder down, `rId1` on. */
  private related(list: readonly (readonly [Kind, string])[]): string {
    const relationships = list.map(([kind, target], i) =>
      relationship(`rId${i + 1}`, `${RELATIONSHIPS}/${kind}`, `../${target.slice(this.folder.length)}`),
    );
    return relationshipsText(relationships);
  }

  private workbook(pages: readonly Page[]): string {
    const { workbook, root } = this.parts;
    const text = this.file.text(workbook);
    const prefix = prefixAt(text, root.start);
    const list = child(root, 'sheets')!;
    const ids = childrenOf(list, 'sheet').map(({ attributes }) => Number(attributes['sheetId'] ?? 0));
    const firstId = Math.max(0, ...ids) + 1;
    const listed = pages.map(({ sheet }, i) =>
      element(`${prefix}sheet`, {
        'xmlns:r': RELATIONSHIPS,
        name: sheet.name,
        sheetId: firstId + i,
        'r:id': this.sheets[i],
      }),
    );
    const names = pages
      .flatMap(({ sheet, names: own }, i) => [
        ...own.map(({ name, place: { row, column } }) => {
          const area = { top: row, left: column, bottom: row, right: column };
          return { name, localSheetId: undefined, refersTo: reference({ sheet: sheet.name, area }) };
        }),
        ...printNames(sheet).map((one) => ({ ...one, localSheetId: this.parts.allSheets.length + i })),
      ])
      .sort((a, b) => (a.name < b.name ? -1 : Number(a.name > b.name)))
      .map(({ name, localSheetId, refersTo }) =>
        element(`${prefix}definedName`, { name, localSheetId }, escapeText(refersTo)),
      );
    return spliced(text, [
      appended(text, list, listed.join('')),
      ...(names.length === 0 ? [] : [this.named(text, prefix, names.join(''))]),
    ]);
  }

  private named(text: string, prefix: string, names: string): Edit {
    const { root } = this.parts;
    const list = child(root, 'definedNames');
    if (list) return appended(text, list, names);
    // Names stand behind these (ISO/IEC 29500-1, 18.2.27).
    const before = ['sheets', 'functionGroups', 'externalReferences'].flatMap((name) =>
      childrenOf(root, name),
    );
    const { end } = before.at(-1)!;
    return { start: end, end, text: element(`${prefix}definedNames`, {}, names) };
  }
}

const relationship = (Id: string, Type: string, Target: string): string =>
  element('Relationship', { Id, Type, Target });

const relationshipsText = (list: readonly string[]): string =>
  part(element('Relationships', { xmlns: `${PACKAGE}/relationships` }, ...list));

/** A workbook without sheets, which no program opens until it has one. */
function blankWorkbook(title: string): Uint8Array {
  const override = (name: string, type: string): string =>
    element('Override', { PartName: `/${name}`, ContentType: type });
  return Package.EMPTY.with(
    new Map([
      [
        CONTENT_TYPES,
        part(
          element(
            'Types',
            { xmlns: `${PACKAGE}/content-types` },
            '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>',
            '<Default Extension="xml" ContentType="application/xml"/>',
            override('xl/workbook.xml', `${OFFICE}.spreadsheetml.sheet.main+xml`),
            override('docProps/core.xml', PROPERTIES),
          ),
        ),
      ],
      [
        '_rels/.rels',
        relationshipsText([
          relationship('rId1', `${RELATIONSHIPS}/officeDocument`, 'xl/workbook.xml'),
          relationship('rId2', `${PACKAGE}/relationships/metadata/core-properties`, 'docProps/core.xml'),
        ]),
      ],
      [
        'docProps/core.xml',
        part(
          element(
            'cp:coreProperties',
            {
              'xmlns:cp': `${PACKAGE}/metadata/core-properties`,
              'xmlns:dc': 'http://purl.org/dc/elements/1.1/',
            },
            element('dc:title', {}, escapeText(title)),
          ),
        ),
      ],
      [
        'xl/workbook.xml',
        part(
          element(
            'workbook',
            { xmlns: MAIN },
            '<bookViews><workbookView xWindow="0" yWindow="0" windowWidth="24000" windowHeight="14000" tabRatio="800"/></bookViews>',
            '<sheets/><calcPr calcId="191029"/>',
          ),
        ),
      ],
      ['xl/_rels/workbook.xml.rels', relationshipsText([])],
    ]),
  );
}
