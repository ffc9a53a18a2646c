import type { Cell } from '../../worksheet/cells/cell';
import type { Chart, Reads, Series, Sheet, Source } from './describe';
import { CENTRE_COLOUR, CHART_COLOURS, codeOf, LIMIT_COLOUR } from './look';
import { CHART_WIDTH, type Page } from './page';
import { areaAt, reference, type Places, type SheetArea } from './places';
import { element, escapeText, part, RELATIONSHIPS } from './xml';

const CHART = 'http://schemas.openxmlformats.org/drawingml/2006/chart';
const DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006/main';
const ON_SHEET = 'http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing';

/** The drawing of a sheet: its charts, `rId1` on, each over its cells. */
export function drawingPart(charts: readonly Chart[]): string {
  const corner = (name: string, column: number, row: number): string =>
    element(
      name,
      {},
      `<xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff>`,
      `<xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff>`,
    );
  return part(
    element(
      'xdr:wsDr',
      { 'xmlns:xdr': ON_SHEET, 'xmlns:a': DRAWING, 'xmlns:r': RELATIONSHIPS },
      ...charts.map(({ over, says }, i) => {
        const { top, left, bottom, right } = areaAt(over);
        return element(
          'xdr:twoCellAnchor',
          {},
          corner('xdr:from', left, top),
          corner('xdr:to', right + 1, bottom + 1),
          element(
            'xdr:graphicFrame',
            { macro: '' },
            element(
              'xdr:nvGraphicFramePr',
              {},
              element('xdr:cNvPr', { id: i + 2, name: `Chart ${i + 1}`, descr: says }),
              '<xdr:cNvGraphicFramePr/>',
            ),
            '<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm>',
            element(
              'a:graphic',
              {},
              element(
                'a:graphicData',
                { uri: CHART },
                element('c:chart', { 'xmlns:c': CHART, 'r:id': `rId${i + 1}` }),
              ),
            ),
          ),
          '<xdr:clientData/>',
        );
      }),
    ),
  );
}

/** The cells of an area as the workbook holds them now, for the copy of the values a chart carries. */
export type ValuesOf = (area: SheetArea) => readonly Cell[];

export const valuesIn =
  (pages: readonly Page[]): ValuesOf =>
  ({ sheet, area }) => {
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

export function chartPart(chart: Chart, sheet: Sheet, places: Places, valuesOf: ValuesOf): string {
  const across = places.source(sheet, chart.across);
  const limits = chart.limits ?? [];
  const scatter = chart.type === 'scatter';
  const acrossReads = chart.acrossReads ?? 'text';
  const data = (series: Series): SheetArea => places.source(sheet, series.values);
  const onColumns = chart.type === 'column' || chart.type === 'stacked';
  const line = (series: Series, i: number, shape: string, whiskers = ''): string =>
    element(
      'c:ser',
      {},
      seriesHead(series.title, i),
      shape,
      whiskers,
      categories(scatter ? 'c:xVal' : 'c:cat', across, acrossReads, valuesOf),
      numbers(scatter ? 'c:yVal' : 'c:val', data(series), chart.upReads ?? 'number', valuesOf),
      '<c:smooth val="0"/>',
    );
  const shapeOf = (i: number): string => {
    if (chart.type === 'dots') return NO_LINE + marker('circle', 8, colour(i));
    const dots = chart.whiskers?.mark === true && i === 0;
    return strokeXml(colour(i), 2.25) + (dots ? marker('circle', 5, colour(i)) : NO_MARKER);
  };
  const limitShape = onColumns
    ? NO_LINE + marker('dash', stepWidth(chart, valuesOf(across).length), LIMIT_COLOUR)
    : strokeXml(LIMIT_COLOUR, 1.75, true) + NO_MARKER;
  const besides = [
    ...(chart.centre ? [{ ...chart.centre, shape: strokeXml(CENTRE_COLOUR, 1) + NO_MARKER }] : []),
    ...limits.map((series) => ({ ...series, shape: limitShape })),
  ];
  const lines = [
    ...(onColumns ? [] : chart.series).map((series, i) =>
      line(series, i, shapeOf(i), i === 0 ? whiskersXml(chart, sheet, places, valuesOf) : ''),
    ),
    ...besides.map((series, i) => line(series, chart.series.length + i, series.shape)),
  ];
  const columns = (onColumns ? chart.series : []).map((series, i) =>
    element(
      'c:ser',
      {},
      seriesHead(series.title, i),
      `<c:spPr>${solid(colour(i))}</c:spPr>`,
      '<c:invertIfNegative val="0"/>',
      categories('c:cat', across, acrossReads, valuesOf),
      numbers('c:val', data(series), chart.upReads ?? 'number', valuesOf),
    ),
  );
  const axes = '<c:axId val="1"/><c:axId val="2"/>';
  const stacked = chart.type === 'stacked';
  const plots = [
    columns.length === 0
      ? ''
      : element(
          'c:barChart',
          {},
          '<c:barDir val="col"/>',
          element('c:grouping', { val: stacked ? 'stacked' : 'clustered' }),
          '<c:varyColors val="0"/>',
          ...columns,
          '<c:gapWidth val="50"/>',
          stacked ? '<c:overlap val="100"/>' : '',
          axes,
        ),
    lines.length === 0
      ? ''
      : scatter
        ? element(
            'c:scatterChart',
            {},
            '<c:scatterStyle val="lineMarker"/><c:varyColors val="0"/>',
            ...lines,
            axes,
          )
        : element(
            'c:lineChart',
            {},
            '<c:grouping val="standard"/><c:varyColors val="0"/>',
            ...lines,
            '<c:marker val="1"/>',
            axes,
          ),
  ];
  return part(
    element(
      'c:chartSpace',
      { 'xmlns:c': CHART, 'xmlns:a': DRAWING, 'xmlns:r': RELATIONSHIPS },
      '<c:roundedCorners val="0"/>',
      element(
        'c:chart',
        {},
        titleXml(chart.title, 1200, true),
        '<c:autoTitleDeleted val="0"/>',
        element(
          'c:plotArea',
          {},
          '<c:layout/>',
          ...plots,
          axisXml(
            scatter ? 'c:valAx' : 'c:catAx',
            'b',
            chart.acrossTitle,
            acrossReads,
            scatter ? crossing(false) : labelsWritten(chart, valuesOf(across).length),
          ),
          axisXml(
            'c:valAx',
            'l',
            chart.upTitle,
            chart.upReads ?? 'number',
            crossing(onColumns || chart.type === 'dots'),
          ),
        ),
        chart.series.length + besides.length > 1
          ? `<c:legend><c:legendPos val="b"/><c:overlay val="0"/>${textXml(900)}</c:legend>`
          : '',
        '<c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/>',
      ),
      '<c:spPr><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill><a:ln w="9525"><a:solidFill><a:srgbClr val="E1E3DC"/></a:solidFill></a:ln></c:spPr>',
    ),
  );
}

const colour = (i: number): string => CHART_COLOURS[i % CHART_COLOURS.length]!;
const solid = (rgb: string): string => `<a:solidFill><a:srgbClr val="${rgb}"/></a:solidFill>`;

const POINT = 12_700;
const strokeXml = (rgb: string, points: number, dashed = false, cap = 'rnd'): string =>
  element(
    'c:spPr',
    {},
    element(
      'a:ln',
      { w: points * POINT, cap },
      solid(rgb),
      dashed ? '<a:prstDash val="dash"/>' : '',
      '<a:round/>',
    ),
  );

const NO_LINE = '<c:spPr><a:ln w="19050"><a:noFill/></a:ln></c:spPr>';
const NO_MARKER = '<c:marker><c:symbol val="none"/></c:marker>';

const marker = (symbol: 'circle' | 'dash', size: number, rgb: string): string =>
  element(
    'c:marker',
    {},
    `<c:symbol val="${symbol}"/><c:size val="${size}"/>`,
    `<c:spPr>${solid(rgb)}<a:ln><a:noFill/></a:ln></c:spPr>`,
  );

/** Points a step over a column is wide, in a chart over columns of the usual width: charts know no stepped lines. */
function stepWidth({ over }: Chart, columns: number): number {
  const { left, right } = areaAt(over);
  const plotted = (right - left + 1) * 48 * 0.85;
  return Math.min(40, Math.max(4, Math.round(plotted / Math.max(1, columns))));
}

function whiskersXml(
  { whiskers, upReads = 'number' }: Chart,
  sheet: Sheet,
  places: Places,
  valuesOf: ValuesOf,
): string {
  if (!whiskers) return '';
  const reach = (name: string, source: Source): string =>
    numbers(name, places.source(sheet, source), upReads, valuesOf);
  return element(
    'c:errBars',
    {},
    '<c:errDir val="y"/><c:errBarType val="both"/><c:errValType val="cust"/>',
    `<c:noEndCap val="${whiskers.mark ? 1 : 0}"/>`,
    reach('c:plus', whiskers.up),
    reach('c:minus', whiskers.down),
    // Round ends would make a dot of each stem that has no length.
    whiskers.mark ? strokeXml(LIMIT_COLOUR, 3.5, false, 'flat') : strokeXml(colour(0), 1.75),
  );
}

const seriesHead = (title: string, i: number): string =>
  `<c:idx val="${i}"/><c:order val="${i}"/><c:tx><c:v>${escapeText(title)}</c:v></c:tx>`;

const textProperties = (size: number, bold = false): string =>
  element('a:defRPr', { sz: size, b: bold ? 1 : 0 }, solid(bold ? '3E5F4C' : '6A736D'));

const textXml = (size: number): string =>
  `<c:txPr><a:bodyPr/><a:p><a:pPr>${textProperties(size)}</a:pPr><a:endParaRPr lang="en-GB"/></a:p></c:txPr>`;

function titleXml(words: string, size: number, bold = false): string {
  const run = `<a:r>${textProperties(size, bold).replaceAll('a:defRPr', 'a:rPr')}<a:t>${escapeText(words)}</a:t></a:r>`;
  return `<c:title><c:tx><c:rich><a:bodyPr/><a:p><a:pPr>${textProperties(size, bold)}</a:pPr>${run}</a:p></c:rich></c:tx><c:overlay val="0"/></c:title>`;
}

function points(values: readonly Cell[]): string[] {
  return values.flatMap((value, idx) =>
    typeof value === 'number' || (typeof value === 'string' && value !== '')
      ? [element('c:pt', { idx }, element('c:v', {}, escapeText(String(value))))]
      : [],
  );
}

function numbers(name: string, area: SheetArea, reads: Reads, valuesOf: ValuesOf): string {
  const values = valuesOf(area);
  return element(
    name,
    {},
    element(
      'c:numRef',
      {},
      element('c:f', {}, escapeText(reference(area))),
      element(
        'c:numCache',
        {},
        element('c:formatCode', {}, escapeText(codeOf(reads))),
        element('c:ptCount', { val: values.length }),
        ...points(values.map((value) => (typeof value === 'number' ? value : null))),
      ),
    ),
  );
}

function categories(name: string, area: SheetArea, reads: Reads, valuesOf: ValuesOf): string {
  const values = valuesOf(area);
  if (reads !== 'text' || values.some((value) => typeof value === 'number')) {
    return numbers(name, area, reads, valuesOf);
  }
  return element(
    name,
    {},
    element(
      'c:strRef',
      {},
      element('c:f', {}, escapeText(reference(area))),
      element('c:strCache', {}, element('c:ptCount', { val: values.length }), ...points(values)),
    ),
  );
}

/** An axis; `behind` is what its kind has at its end. */
function axisXml(
  name: 'c:catAx' | 'c:valAx',
  side: 'b' | 'l',
  title: string | undefined,
  reads: Reads,
  behind: string,
): string {
  const up = side === 'l';
  const [id, crosses] = up ? [2, 1] : [1, 2];
  return element(
    name,
    {},
    `<c:axId val="${id}"/><c:scaling><c:orientation val="minMax"/></c:scaling><c:delete val="0"/>`,
    `<c:axPos val="${side}"/>`,
    up
      ? '<c:majorGridlines><c:spPr><a:ln w="6350"><a:solidFill><a:srgbClr val="E9EBE6"/></a:solidFill></a:ln></c:spPr></c:majorGridlines>'
      : '',
    title === undefined ? '' : titleXml(title, 900),
    element('c:numFmt', { formatCode: axisCode(reads), sourceLinked: 0 }),
    '<c:majorTickMark val="none"/><c:minorTickMark val="none"/><c:tickLblPos val="low"/>',
    '<c:spPr><a:ln w="9525"><a:solidFill><a:srgbClr val="C9CEC6"/></a:solidFill></a:ln></c:spPr>',
    textXml(900),
    `<c:crossAx val="${crosses}"/><c:crosses val="autoZero"/>`,
    name === 'c:catAx'
      ? `<c:auto val="0"/><c:lblAlgn val="ctr"/><c:lblOffset val="100"/>${behind}<c:noMultiLvlLbl val="1"/>`
      : behind,
  );
}

/** Characters that a day or a number needs along the axis. */
const LABEL_WIDTH = 8;

/** Which of many days or numbers along the axis are written, so that none touches the next; labels are all written. */
function labelsWritten({ over, acrossReads = 'text' }: Chart, points: number): string {
  if (acrossReads === 'text') return '';
  const { left, right } = areaAt(over);
  const every = Math.ceil((points * LABEL_WIDTH) / ((right - left + 1) * CHART_WIDTH));
  return every > 1 ? `<c:tickLblSkip val="${every}"/><c:tickMarkSkip val="${every}"/>` : '';
}

/** Whether lines begin at the axis or half a column behind it. */
const crossing = (between: boolean): string =>
  element('c:crossBetween', { val: between ? 'between' : 'midCat' });

/** Axes need no decimals where the cells have some, and no years. */
function axisCode(reads: Reads): string {
  if (reads === 'percent') return '0%';
  if (reads === 'date') return 'd mmm';
  if (reads === 'mass' || reads === 'number' || reads === 'days' || reads === 'temperature')
    return '#,##0.##';
  return codeOf(reads);
}
