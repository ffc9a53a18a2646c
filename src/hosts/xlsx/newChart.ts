import { areaOf, fixedRangeOf, type Area } from './address';
import { escapeAttribute, escapeText } from './xml';

/** A chart on a new sheet: columns over days, and a line that they are held against. Ranges are of that sheet. */
export interface NewChart {
  readonly title: string;
  readonly over: Area;
  readonly days: string;
  readonly columns: { readonly title: string; readonly values: string };
  readonly line: { readonly title: string; readonly values: string };
}

const CHART = 'http://schemas.openxmlformats.org/drawingml/2006/chart';
const DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006/main';
const ON_SHEET = 'http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing';
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const COLUMN_COLOUR = '5B7F63';
const LINE_COLOUR = '8F3D12';

/** The drawing of a sheet whose one chart is its relationship `rId1`. */
export function drawingText({ over, title }: NewChart): string {
  const corner = (name: string, column: number, row: number): string =>
    `<xdr:${name}><xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff>` +
    `<xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${name}>`;
  return (
    `${DECLARATION}<xdr:wsDr xmlns:xdr="${ON_SHEET}" xmlns:a="${DRAWING}" xmlns:r="${RELATIONSHIPS}"><xdr:twoCellAnchor>` +
    corner('from', over.left, over.top) +
    corner('to', over.right + 1, over.bottom + 1) +
    '<xdr:graphicFrame macro=""><xdr:nvGraphicFramePr>' +
    `<xdr:cNvPr id="2" name="Chart 1" descr="${escapeAttribute(title)}"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr>` +
    '<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm><a:graphic>' +
    `<a:graphicData uri="${CHART}"><c:chart xmlns:c="${CHART}" r:id="rId1"/></a:graphicData></a:graphic>` +
    '</xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>'
  );
}

/** `'My loads'!$K$5:$K$32` */
const reference = (sheet: string, range: string): string =>
  `'${sheet.replaceAll("'", "''")}'!${fixedRangeOf(areaOf(range)!)}`;

/** The chart (ISO/IEC 29500-1, 21.2). It holds no copy of the cells' values: whoever opens the file reads the cells. */
export function chartText({ title, days, columns, line }: NewChart, sheet: string): string {
  const axes = '<c:axId val="1"/><c:axId val="2"/>';
  const series = (at: number, of: NewChart['line'], shape: string): string =>
    `<c:ser><c:idx val="${at}"/><c:order val="${at}"/><c:tx><c:v>${escapeText(of.title)}</c:v></c:tx>${shape}` +
    `<c:cat><c:numRef><c:f>${escapeText(reference(sheet, days))}</c:f></c:numRef></c:cat>` +
    `<c:val><c:numRef><c:f>${escapeText(reference(sheet, of.values))}</c:f></c:numRef></c:val>`;
  const solid = (colour: string): string => `<a:solidFill><a:srgbClr val="${colour}"/></a:solidFill>`;
  const axis = (
    kind: 'catAx' | 'valAx',
    id: number,
    crosses: number,
    side: string,
    format: string,
    rest: string,
  ) =>
    `<c:${kind}><c:axId val="${id}"/><c:scaling><c:orientation val="minMax"/></c:scaling><c:delete val="0"/>` +
    `<c:axPos val="${side}"/><c:numFmt formatCode="${format}" sourceLinked="0"/><c:majorTickMark val="none"/>` +
    `<c:minorTickMark val="none"/><c:tickLblPos val="low"/><c:crossAx val="${crosses}"/>` +
    `<c:crosses val="autoZero"/>${rest}</c:${kind}>`;
  return (
    `${DECLARATION}<c:chartSpace xmlns:c="${CHART}" xmlns:a="${DRAWING}" xmlns:r="${RELATIONSHIPS}">` +
    '<c:roundedCorners val="0"/><c:chart><c:title><c:tx><c:rich><a:bodyPr/><a:p><a:pPr><a:defRPr sz="1200" b="1"/></a:pPr>' +
    `<a:r><a:rPr lang="en-GB" sz="1200" b="1"/><a:t>${escapeText(title)}</a:t></a:r></a:p></c:rich></c:tx>` +
    '<c:overlay val="0"/></c:title><c:autoTitleDeleted val="0"/><c:plotArea><c:layout/>' +
    '<c:barChart><c:barDir val="col"/><c:grouping val="clustered"/><c:varyColors val="0"/>' +
    series(0, columns, `<c:spPr>${solid(COLUMN_COLOUR)}</c:spPr><c:invertIfNegative val="0"/>`) +
    `</c:ser><c:gapWidth val="50"/>${axes}</c:barChart>` +
    '<c:lineChart><c:grouping val="standard"/><c:varyColors val="0"/>' +
    series(
      1,
      line,
      `<c:spPr><a:ln w="22225" cap="rnd">${solid(LINE_COLOUR)}<a:round/></a:ln></c:spPr><c:marker><c:symbol val="none"/></c:marker>`,
    ) +
    `<c:smooth val="0"/></c:ser><c:marker val="1"/>${axes}</c:lineChart>` +
    axis(
      'catAx',
      1,
      2,
      'b',
      'yyyy-mm-dd',
      '<c:auto val="0"/><c:lblAlgn val="ctr"/><c:lblOffset val="100"/><c:noMultiLvlLbl val="1"/>',
    ) +
    axis('valAx', 2, 1, 'l', '#,##0.##', '') +
    '</c:plotArea><c:legend><c:legendPos val="b"/><c:overlay val="0"/></c:legend>' +
    '<c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/></c:chart></c:chartSpace>'
  );
}
