import { strFromU8, strToU8, zipSync, type Zippable } from 'fflate';
import { partsIn, table, workbookOf } from './packages';

const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE_RELATIONS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const SHEET_TYPES = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';

/** Bytes of no meaning, the same every time. */
const opaque = (length: number): Uint8Array =>
  Uint8Array.from({ length }, (_, i) => (i * 167 + (i >> 8) * 13) & 255);

const relationships = (
  ...entries: readonly (readonly [id: string, type: string, target: string, mode?: string])[]
): string =>
  `<?xml version="1.0"?>\n<Relationships xmlns="${PACKAGE_RELATIONS}">` +
  entries
    .map(
      ([id, type, target, mode]) =>
        `<Relationship Id="${id}" Type="${type.includes(':') ? type : `${RELATIONS}/${type}`}" Target="${target}"${mode ? ` TargetMode="${mode}"` : ''}/>`,
    )
    .join('') +
  '</Relationships>';

/** What stands before and behind the cells of the first sheet. */
export const BEFORE_CELLS =
  '<sheetPr codeName="Sheet1"><tabColor rgb="FF336699"/></sheetPr><dimension ref="A1:H6"/>' +
  '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" state="frozen"/></sheetView></sheetViews>' +
  '<cols><col min="1" max="3" width="14.5" customWidth="1"/></cols>';
export const BEHIND_CELLS =
  '<conditionalFormatting sqref="C2:C4"><cfRule type="dataBar" priority="1"><dataBar><cfvo type="min"/><cfvo type="max"/>' +
  '<color rgb="FF638EC6"/></dataBar></cfRule></conditionalFormatting>' +
  '<dataValidations count="1"><dataValidation type="list" sqref="A2:A4"><formula1>"Alder-3,Birch-1"</formula1></dataValidation></dataValidations>' +
  '<hyperlinks><hyperlink ref="H6" r:id="rId9"/></hyperlinks><pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>' +
  '<pageSetup orientation="landscape" r:id="rId8"/><drawing r:id="rId2"/><legacyDrawing r:id="rId3"/>' +
  '<extLst><ext uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main">' +
  '<x14:sparklineGroups><x14:sparklineGroup type="column"/></x14:sparklineGroups></ext></extLst>';

const TEXTS = ['strain', 'fresh', 'efficiency', 'Alder-3', 'Birch-1', 'first pick', '19 March'];

// 24 kg from 30 blocks of 2.5 kg at 60% moisture: 24 / (30 × 2.5 × 0.4) = 0.8; 12 kg: 0.4. The results stored are stale.
const CELLS =
  '<sheetData><row r="1" spans="1:8"><c r="A1" s="1" t="s"><v>0</v></c><c r="B1" s="1" t="s"><v>1</v></c><c r="C1" s="1" t="s"><v>2</v></c></row>' +
  '<row r="2"><c r="A2" t="s"><v>3</v></c><c r="B2"><v>24</v></c><c r="C2" s="2"><f t="array" ref="C2:C4">_xldudf_PINSET_BIOEFFICIENCY(B2:B4,2.5,60%,30)</f><v>9</v></c></row>' +
  '<row r="3"><c r="A3" t="s"><v>4</v></c><c r="B3"><v>0</v></c><c r="C3" s="2" t="str"><v></v></c></row>' +
  '<row r="4"><c r="A4" t="s"><v>3</v></c><c r="B4"><v>12</v></c><c r="C4" s="2"><v>9</v></c></row>' +
  '<row r="5"><c r="B5"><f>SUM(B2:B4)</f><v>36</v></c><c r="C5" s="2"><f>AVERAGE(C2:C4)</f><v>1</v></c><c r="D5"><f>[1]Prices!$A$1</f><v>4.5</v></c></row>' +
  '<row r="6"><c r="A6" t="s"><v>5</v></c><c r="B6" s="3"><v>44609</v></c><c r="C6" s="3"><f t="array" ref="C6">_xldudf_PINSET_PICKDATE(B6,"Alder-3",Strains[#All])</f><v>1</v></c><c r="H6" t="s"><v>6</v></c></row></sheetData>';

const STRAINS =
  '<sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>5</v></c></row>' +
  '<row r="2"><c r="A2" t="s"><v>3</v></c><c r="B2"><v>9</v></c></row></sheetData>';

/** What is not worksheets, by part, and the type that the package names for it. */
const BESIDE: readonly (readonly [part: string, type: string, content: string | Uint8Array])[] = [
  ['xl/vbaProject.bin', 'application/vnd.ms-office.vbaProject', opaque(6000)],
  [
    'xl/drawings/drawing1.xml',
    'application/vnd.openxmlformats-officedocument.drawing+xml',
    '<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"/>',
  ],
  [
    'xl/drawings/_rels/drawing1.xml.rels',
    '',
    relationships(['rId1', 'chart', '../charts/chart1.xml'], ['rId2', 'image', '../media/image1.png']),
  ],
  [
    'xl/charts/chart1.xml',
    'application/vnd.openxmlformats-officedocument.drawingml.chart+xml',
    '<c:chartSpace xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart"><c:chart><c:plotArea><c:v>9</c:v></c:plotArea></c:chart></c:chartSpace>',
  ],
  [
    'xl/charts/style1.xml',
    'application/vnd.ms-office.chartstyle+xml',
    '<cs:chartStyle xmlns:cs="http://schemas.microsoft.com/office/drawing/2012/chartStyle" id="201"/>',
  ],
  ['xl/media/image1.png', '', opaque(3000)],
  [
    'xl/comments1.xml',
    `${SHEET_TYPES}.comments+xml`,
    `<comments ${MAIN}><authors><author>A grower</author></authors><commentList><comment ref="B2" authorId="0"><text><t>weighed wet?</t></text></comment></commentList></comments>`,
  ],
  [
    'xl/drawings/vmlDrawing1.vml',
    '',
    '<xml xmlns:v="urn:schemas-microsoft-com:vml"><v:shape id="_x0000_s1025"></xml>',
  ],
  [
    'xl/threadedComments/threadedComment1.xml',
    'application/vnd.ms-excel.threadedcomments+xml',
    '<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"/>',
  ],
  [
    'xl/persons/person.xml',
    'application/vnd.ms-excel.person+xml',
    '<personList xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"/>',
  ],
  [
    'xl/pivotCache/pivotCacheDefinition1.xml',
    `${SHEET_TYPES}.pivotCacheDefinition+xml`,
    `<pivotCacheDefinition ${MAIN} refreshOnLoad="0"/>`,
  ],
  [
    'xl/pivotCache/pivotCacheRecords1.xml',
    `${SHEET_TYPES}.pivotCacheRecords+xml`,
    `<pivotCacheRecords ${MAIN} count="0"/>`,
  ],
  [
    'xl/pivotTables/pivotTable1.xml',
    `${SHEET_TYPES}.pivotTable+xml`,
    `<pivotTableDefinition ${MAIN} name="P" cacheId="1"/>`,
  ],
  [
    'xl/externalLinks/externalLink1.xml',
    `${SHEET_TYPES}.externalLink+xml`,
    `<externalLink ${MAIN}><externalBook/></externalLink>`,
  ],
  [
    'xl/externalLinks/_rels/externalLink1.xml.rels',
    '',
    relationships(['rId1', 'externalLinkPath', 'Prices.xlsx', 'External']),
  ],
  ['xl/printerSettings/printerSettings1.bin', '', opaque(500)],
  [
    'xl/theme/theme1.xml',
    'application/vnd.openxmlformats-officedocument.theme+xml',
    '<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" name="Farm"/>',
  ],
  ['customXml/item1.xml', '', '<farm xmlns="urn:example:farm"><shed>1</shed></farm>'],
  [
    'docProps/app.xml',
    'application/vnd.openxmlformats-officedocument.extended-properties+xml',
    '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"/>',
  ],
];

/** A macro workbook that counts from 1904, with nearly everything a workbook can hold beside its cells. */
export function richWorkbook(): Uint8Array {
  const plain = partsIn(
    workbookOf({
      workbookPr: '<workbookPr date1904="1" codeName="ThisWorkbook"/>',
      names: '<definedName name="_xlnm.Print_Area" localSheetId="0">Lots!$A$1:$H$6</definedName>',
      sheets: [
        { name: 'Lots', before: BEFORE_CELLS, data: CELLS + BEHIND_CELLS },
        { name: 'Strains', data: STRAINS, tables: [table('Strains', 'A1:B2', ['strain', 'first pick'])] },
      ],
      sharedStrings: `<sst ${MAIN}>${TEXTS.map((text) => `<si><t>${text}</t></si>`).join('')}</sst>`,
      styles: `<styleSheet ${MAIN}><cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="0" fontId="0"/><xf numFmtId="10"/><xf numFmtId="14"/></cellXfs></styleSheet>`,
      calcChain: `<calcChain ${MAIN}><c r="C2" i="1"/><c r="B5"/><c r="C5"/></calcChain>`,
    }),
  );
  const parts: Zippable = {};
  for (const [name, bytes] of Object.entries(plain)) {
    const inner = strFromU8(bytes);
    const text =
      name === '[Content_Types].xml'
        ? inner.replace(
            '</Types>',
            '<Default Extension="png" ContentType="image/png"/><Default Extension="bin" ContentType="application/octet-stream"/>' +
              '<Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/>' +
              '<Override PartName="/xl/workbook.xml" ContentType="application/vnd.ms-excel.sheet.macroEnabled.main+xml"/>' +
              BESIDE.filter(([, type]) => type !== '')
                .map(([part, type]) => `<Override PartName="/${part}" ContentType="${type}"/>`)
                .join('') +
              '</Types>',
          )
        : name === 'xl/worksheets/sheet1.xml'
          ? inner.replace('<worksheet ', `<worksheet xmlns:r="${RELATIONS}" `)
          : name === 'xl/_rels/workbook.xml.rels'
            ? inner.replace(
                '</Relationships>',
                `<Relationship Id="rId50" Type="http://schemas.microsoft.com/office/2006/relationships/vbaProject" Target="vbaProject.bin"/>` +
                  `<Relationship Id="rId51" Type="${RELATIONS}/externalLink" Target="externalLinks/externalLink1.xml"/>` +
                  `<Relationship Id="rId52" Type="${RELATIONS}/pivotCacheDefinition" Target="pivotCache/pivotCacheDefinition1.xml"/></Relationships>`,
              )
            : inner;
    parts[name] = strToU8(text);
  }
  parts['xl/worksheets/_rels/sheet1.xml.rels'] = strToU8(
    relationships(
      ['rId2', 'drawing', '../drawings/drawing1.xml'],
      ['rId3', 'vmlDrawing', '../drawings/vmlDrawing1.vml'],
      ['rId4', 'comments', '../comments1.xml'],
      ['rId5', 'pivotTable', '../pivotTables/pivotTable1.xml'],
      ['rId8', 'printerSettings', '../printerSettings/printerSettings1.bin'],
      ['rId9', 'hyperlink', 'https://example.org/', 'External'],
    ),
  );
  for (const [name, , content] of BESIDE) {
    parts[name] = typeof content === 'string' ? strToU8(content) : [content, { level: 0 }];
  }
  return zipSync(parts);
}
