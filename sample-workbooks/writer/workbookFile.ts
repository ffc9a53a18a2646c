import { strToU8, zipSync, type Zippable } from 'fflate';
import { addressOf } from '../../src/hosts/xlsx/address';
import { patchWorkbook } from '../../src/hosts/xlsx/patch';
import type { Cell } from '../../src/worksheet/cells/cell';
import type { Workbook } from '../describe';
import { chartPart, drawingPart, type ValuesOf } from './chartPart';
import { Styles } from './look';
import { layOut, type Page } from './page';
import { Places, reference, type Results } from './places';
import { sheetPart, tablePart, Texts } from './sheetPart';
import { element, escapeText, MAIN, part, RELATIONSHIPS } from './xml';

const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const SPREADSHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
const CHARTS = 'application/vnd.openxmlformats-officedocument';

/** The first moment a zip can hold, so that the same description makes the same bytes. */
const ZIP_DATE = new Date(1980, 0, 1);

interface Relationship {
  readonly kind: string;
  readonly target: string;
}

/** The bytes of a workbook, with the results of its formulas as given. */
export function workbookFile(workbook: Workbook, results: Results): Uint8Array {
  const places = new Places(workbook, results);
  const pages = workbook.sheets.map((sheet) => layOut(sheet, places));
  const zipped: Zippable = {};
  for (const [name, text] of workbookParts(workbook, pages, places)) zipped[name] = strToU8(text);
  const withoutFormulas = zipSync(zipped, { mtime: ZIP_DATE, level: 9 });
  return patchWorkbook(
    withoutFormulas,
    formulasOf(pages).map(({ sheet, address, formula }) => ({
      sheet,
      address,
      formula,
      values: results(sheet, address) ?? [[null]],
    })),
  );
}

/** A formula of a workbook, as typed. */
interface PlacedFormula {
  readonly sheet: string;
  readonly address: string;
  readonly formula: string;
}

/** Every formula of the pages, sheet by sheet. */
function formulasOf(pages: readonly Page[]): PlacedFormula[] {
  return pages.flatMap(({ sheet, cells }) =>
    [...cells].flatMap(([row, inRow]) =>
      [...inRow].flatMap(([column, { formula }]) =>
        formula === undefined ? [] : [{ sheet: sheet.name, address: addressOf({ row, column }), formula }],
      ),
    ),
  );
}

function workbookParts(workbook: Workbook, pages: readonly Page[], places: Places): Map<string, string> {
  const styles = new Styles();
  const texts = new Texts();
  const parts = new Map<string, string>();
  const types = new Map<string, string>();
  const add = (name: string, type: string, text: string): void => {
    parts.set(name, text);
    types.set(name, type);
  };
  const valuesOf = valuesIn(pages);
  let tableCount = 0;
  let chartCount = 0;
  let drawingCount = 0;
  pages.forEach((page, i) => {
    const relationships: Relationship[] = [];
    if (page.charts.length > 0) {
      drawingCount += 1;
      relationships.push({ kind: 'drawing', target: `../drawings/drawing${drawingCount}.xml` });
      add(`xl/drawings/drawing${drawingCount}.xml`, `${CHARTS}.drawing+xml`, drawingPart(page.charts));
      const charts = page.charts.map((chart): Relationship => {
        chartCount += 1;
        const text = chartPart(chart, page.sheet, places, valuesOf);
        add(`xl/charts/chart${chartCount}.xml`, `${CHARTS}.drawingml.chart+xml`, text);
        return { kind: 'chart', target: `../charts/chart${chartCount}.xml` };
      });
      parts.set(`xl/drawings/_rels/drawing${drawingCount}.xml.rels`, relationshipsPart(charts));
    }
    for (const table of page.tables) {
      tableCount += 1;
      relationships.push({ kind: 'table', target: `../tables/table${tableCount}.xml` });
      const text = tablePart(table, places.areaOfTable(table.name), tableCount);
      add(`xl/tables/table${tableCount}.xml`, `${SPREADSHEET}.table+xml`, text);
    }
    const sheetText = sheetPart(page, places, styles, texts, i === 0);
    add(`xl/worksheets/sheet${i + 1}.xml`, `${SPREADSHEET}.worksheet+xml`, sheetText);
    if (relationships.length > 0) {
      parts.set(`xl/worksheets/_rels/sheet${i + 1}.xml.rels`, relationshipsPart(relationships));
    }
  });
  add('xl/workbook.xml', `${SPREADSHEET}.sheet.main+xml`, workbookPart(pages));
  add('xl/styles.xml', `${SPREADSHEET}.styles+xml`, styles.xml());
  add('xl/sharedStrings.xml', `${SPREADSHEET}.sharedStrings+xml`, texts.xml());
  parts.set(
    'xl/_rels/workbook.xml.rels',
    relationshipsPart([
      ...pages.map((_, i) => ({ kind: 'worksheet', target: `worksheets/sheet${i + 1}.xml` })),
      { kind: 'styles', target: 'styles.xml' },
      { kind: 'sharedStrings', target: 'sharedStrings.xml' },
    ]),
  );
  parts.set('_rels/.rels', packageRelationships());
  add(
    'docProps/core.xml',
    'application/vnd.openxmlformats-package.core-properties+xml',
    corePart(workbook.title),
  );
  return new Map([['[Content_Types].xml', contentTypesPart(types)], ...parts]);
}

function valuesIn(pages: readonly Page[]): ValuesOf {
  return ({ sheet, area }) => {
    const page = pages.find((one) => one.sheet.name === sheet);
    if (!page) throw new Error(`there is no sheet named ${sheet}`);
    const values: Cell[] = [];
    for (let row = area.top; row <= area.bottom; row++) {
      for (let column = area.left; column <= area.right; column++) {
        values.push(page.cells.get(row)?.get(column)?.value ?? null);
      }
    }
    return values;
  };
}

function workbookPart(pages: readonly Page[]): string {
  const names = pages.flatMap(({ sheet, names: own }) =>
    own.map(({ name, place: { row, column } }) => ({
      name,
      refersTo: reference({
        sheet: sheet.name,
        area: { top: row, left: column, bottom: row, right: column },
      }),
    })),
  );
  names.sort((a, b) => (a.name < b.name ? -1 : 1));
  return part(
    element(
      'workbook',
      { xmlns: MAIN, 'xmlns:r': RELATIONSHIPS },
      '<bookViews><workbookView xWindow="0" yWindow="0" windowWidth="24000" windowHeight="14000" tabRatio="800"/></bookViews>',
      element(
        'sheets',
        {},
        ...pages.map(({ sheet }, i) =>
          element('sheet', { name: sheet.name, sheetId: i + 1, 'r:id': `rId${i + 1}` }),
        ),
      ),
      names.length === 0
        ? ''
        : element(
            'definedNames',
            {},
            ...names.map(({ name, refersTo }) => element('definedName', { name }, escapeText(refersTo))),
          ),
      '<calcPr calcId="191029"/>',
    ),
  );
}

const relationshipsPart = (list: readonly Relationship[]): string =>
  part(
    element(
      'Relationships',
      { xmlns: `${PACKAGE}/relationships` },
      ...list.map(({ kind, target }, i) =>
        element('Relationship', { Id: `rId${i + 1}`, Type: `${RELATIONSHIPS}/${kind}`, Target: target }),
      ),
    ),
  );

const packageRelationships = (): string =>
  part(
    element(
      'Relationships',
      { xmlns: `${PACKAGE}/relationships` },
      element('Relationship', {
        Id: 'rId1',
        Type: `${RELATIONSHIPS}/officeDocument`,
        Target: 'xl/workbook.xml',
      }),
      element('Relationship', {
        Id: 'rId2',
        Type: `${PACKAGE}/relationships/metadata/core-properties`,
        Target: 'docProps/core.xml',
      }),
    ),
  );

const corePart = (title: string): string =>
  part(
    element(
      'cp:coreProperties',
      {
        'xmlns:cp': `${PACKAGE}/metadata/core-properties`,
        'xmlns:dc': 'http://purl.org/dc/elements/1.1/',
      },
      element('dc:title', {}, escapeText(title)),
    ),
  );

const contentTypesPart = (types: ReadonlyMap<string, string>): string =>
  part(
    element(
      'Types',
      { xmlns: `${PACKAGE}/content-types` },
      '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>',
      '<Default Extension="xml" ContentType="application/xml"/>',
      ...[...types].map(([name, type]) => element('Override', { PartName: `/${name}`, ContentType: type })),
    ),
  );
