import { addressOf, areaOf, fixedRangeOf, rangeOf, type Area } from './address';
import type { Highlight, Sheet, SheetTable } from './describe';
import { stored } from './formula';
import { listOfWords, listText } from './lists';
import { HEADS, TALL_HEADER_HEIGHT } from './look';
import type { Page, PageCell, ValidatedCells } from './page';
import { areaAt, placeAt, reference, type Places } from './places';
import type { CellStyles } from './styles';
import { element, encodeCellText, escapeText, MAIN, part, RELATIONSHIPS } from './xml';

const ROW_HEIGHT = 17;
const HEADER_HEIGHT = 21;
const TITLE_HEIGHT = 30;

/**
 * The part of a sheet, its formulas and results left out. Its drawing, if it has charts, is `rId1`; its tables follow.
 * `opens` is whether the workbook opens on it.
 */
export function sheetPart(page: Page, places: Places, styles: CellStyles, opens: boolean): string {
  const { sheet, tables, charts } = page;
  const before = charts.length > 0 ? 1 : 0;
  return part(
    element(
      'worksheet',
      { xmlns: MAIN, 'xmlns:r': RELATIONSHIPS },
      '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>',
      view(page, opens),
      element('sheetFormatPr', { defaultRowHeight: ROW_HEIGHT, customHeight: 1 }),
      list(
        'cols',
        page.widths.map((width, i) =>
          element('col', { min: i + 1, max: i + 1, width: width.toFixed(2), customWidth: 1 }),
        ),
      ),
      element('sheetData', {}, rows(page, styles).join('')),
      ...(sheet.highlights ?? []).map((highlight, i) => highlightXml(page, places, highlight, i + 1, styles)),
      list(
        'dataValidations',
        page.validations.map(({ area, choices }) => listText({ area, source: sourceOf(choices, places) })),
        page.validations.length,
      ),
      '<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/>',
      element('pageSetup', {
        paperSize: 9,
        orientation: sheet.upright ? 'portrait' : 'landscape',
        fitToWidth: 1,
        fitToHeight: 0,
      }),
      '<headerFooter><oddFooter>&amp;L&amp;8&amp;F – &amp;A&amp;R&amp;8&amp;P / &amp;N</oddFooter></headerFooter>',
      before === 0 ? '' : '<drawing r:id="rId1"/>',
      list(
        'tableParts',
        tables.map((_, i) => element('tablePart', { 'r:id': `rId${i + 1 + before}` })),
        tables.length,
      ),
    ),
  );
}

/** The names by which programs know what of a sheet goes on paper, and the row that heads each of its pages. */
export function printNames({ name, prints, freeze }: Sheet): { name: string; refersTo: string }[] {
  const on = `'${name.replaceAll("'", "''")}'!`;
  const head = freeze === undefined ? 0 : placeAt(freeze).row;
  const [from, to] = prints?.split(':') ?? [];
  return [
    ...(prints === undefined ? [] : [{ name: '_xlnm.Print_Area', refersTo: `${on}$${from}:$${to}` }]),
    ...(head === 0 ? [] : [{ name: '_xlnm.Print_Titles', refersTo: `${on}$${head}:$${head}` }]),
  ];
}

/** An element that a sheet has only where it has something in it. */
const list = (name: string, inside: readonly string[], count?: number): string =>
  inside.length === 0 ? '' : element(name, { count }, ...inside);

function view({ sheet: { freeze, gridLines } }: Page, opens: boolean): string {
  let pane = '';
  if (freeze !== undefined) {
    const { row, column } = placeAt(freeze);
    const name = row > 0 && column > 0 ? 'bottomRight' : row > 0 ? 'bottomLeft' : 'topRight';
    pane =
      element('pane', {
        xSplit: column > 0 ? column : undefined,
        ySplit: row > 0 ? row : undefined,
        topLeftCell: freeze,
        activePane: name,
        state: 'frozen',
      }) + element('selection', { pane: name, activeCell: freeze, sqref: freeze });
  }
  return element(
    'sheetViews',
    {},
    element(
      'sheetView',
      { showGridLines: gridLines ? undefined : 0, tabSelected: opens ? 1 : undefined, workbookViewId: 0 },
      pane,
    ),
  );
}

function rows(page: Page, styles: CellStyles): string[] {
  const numbers = [...page.cells.keys()].sort((a, b) => a - b);
  return numbers.map((row) => {
    const cells = [...page.cells.get(row)!].sort(([a], [b]) => a - b);
    return element(
      'row',
      { r: row + 1, ...height(page, row, cells) },
      ...cells.map(([column, cell]) => cellXml(addressOf({ row, column }), cell, styles)),
    );
  });
}

function height(page: Page, row: number, cells: readonly (readonly [number, PageCell])[]): object {
  const head = cells.some(([, { role }]) => HEADS.has(role));
  const title = cells.some(([, { role }]) => role === 'title');
  const ht = title
    ? TITLE_HEIGHT
    : page.tallRows.has(row)
      ? TALL_HEADER_HEIGHT
      : head
        ? HEADER_HEIGHT
        : ROW_HEIGHT;
  return { ht, customHeight: 1 };
}

/** A cell with its constant. */
function cellXml(r: string, { role, reads, value, calculated }: PageCell, styles: CellStyles): string {
  const s = styles.styleOf(role, reads);
  if (value === null || calculated) return element('c', { r, s });
  if (typeof value === 'boolean') return element('c', { r, s, t: 'b' }, `<v>${value ? 1 : 0}</v>`);
  if (typeof value === 'number') return element('c', { r, s }, `<v>${value}</v>`);
  if (typeof value !== 'string') throw new Error(`${r}: an error cannot be typed into a cell`);
  const text = `<t xml:space="preserve">${encodeCellText(value)}</t>`;
  return element('c', { r, s, t: 'inlineStr' }, element('is', {}, text));
}

function highlightXml(
  page: Page,
  places: Places,
  highlight: Highlight,
  priority: number,
  styles: CellStyles,
): string {
  return element(
    'conditionalFormatting',
    { sqref: rangeOf(highlighted(page, places, highlight.range)) },
    element(
      'cfRule',
      { type: 'expression', dxfId: styles.tint(highlight.tint), priority },
      element('formula', {}, escapeText(stored(highlight.when))),
    ),
  );
}

/** A range, a table's column, or a spilled result (`K8#`) with the rows kept for its growth. */
function highlighted({ sheet }: Page, places: Places, range: string): Area {
  if (range.includes('[')) return places.tableColumn(range).area;
  if (!range.endsWith('#')) return areaAt(range);
  const at = range.slice(0, -1);
  const spill = places.spill(sheet, at);
  const growth = sheet.things.find((thing) => thing.kind === 'formula' && thing.at === at);
  return { ...spill, bottom: spill.bottom + ((growth?.kind === 'formula' && growth.growth) || 0) };
}

function sourceOf(choices: ValidatedCells['choices'], places: Places): string {
  if (typeof choices !== 'string') return listOfWords(choices);
  return choices.includes('[') ? reference(places.tableColumn(choices)) : fixedRangeOf(areaOf(choices)!);
}

/** Tables of fewer rows go without filter buttons. */
const ROWS_WORTH_A_FILTER = 12;

export function tablePart(table: SheetTable, area: Area, id: number): string {
  const ref = rangeOf(area);
  return part(
    element(
      'table',
      { xmlns: MAIN, id, name: table.name, displayName: table.name, ref, totalsRowShown: 0 },
      table.rows.length < ROWS_WORTH_A_FILTER ? '' : element('autoFilter', { ref }),
      element(
        'tableColumns',
        { count: table.columns.length },
        ...table.columns.map(({ header, formula }, i) =>
          element(
            'tableColumn',
            { id: i + 1, name: header },
            formula === undefined
              ? ''
              : element('calculatedColumnFormula', {}, escapeText(stored(formula, table.name))),
          ),
        ),
      ),
      '<tableStyleInfo showFirstColumn="0" showLastColumn="0" showRowStripes="0" showColumnStripes="0"/>',
    ),
  );
}
