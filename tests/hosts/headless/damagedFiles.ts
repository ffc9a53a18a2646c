import { strFromU8, strToU8, zipSync, type Zippable } from 'fflate';
import { seeded } from '../../bench/measure';
import { partsIn } from '../xlsx/packages';
import { richWorkbook } from '../xlsx/richWorkbook';

/** A file that is not what it should be, and what must come of it. */
export interface Damaged {
  readonly what: string;
  readonly bytes: Uint8Array;
  /** `refused` with one sentence, or `either`: where the damage may have hit nothing that is read, as it was before. */
  readonly outcome: 'refused' | 'either';
}

const sound = richWorkbook();
const parts = partsIn(sound);
const SHEET = 'xl/worksheets/sheet1.xml';
const WORKBOOK = 'xl/workbook.xml';

const zipped = (changes: Zippable): Uint8Array => zipSync({ ...parts, ...changes }, { level: 1 });
const withPart = (part: string, text: string): Uint8Array => zipped({ [part]: strToU8(text) });
const edited = (part: string, change: (xml: string) => string): Uint8Array =>
  withPart(part, change(strFromU8(parts[part]!)));
const withFormula = (formula: string): Uint8Array =>
  edited(SHEET, (xml) => xml.replace('<f>SUM(B2:B4)</f>', `<f>${formula}</f>`));

const refused = (what: string, bytes: Uint8Array): Damaged => ({ what, bytes, outcome: 'refused' });

function truncated(count: number, random: () => number): Damaged[] {
  return Array.from({ length: count }, () => {
    const length = Math.floor(random() * (sound.length - 1));
    return refused(`cut off after ${length} bytes`, sound.slice(0, length));
  });
}

function flipped(count: number, random: () => number): Damaged[] {
  return Array.from({ length: count }, (_, n) => {
    const bytes = sound.slice();
    const flips = 1 + (n % 5) * 3;
    for (let i = 0; i < flips; i++)
      bytes[Math.floor(random() * bytes.length)]! ^= 1 << Math.floor(random() * 8);
    return { what: `${flips} bits flipped (no. ${n + 1})`, bytes, outcome: 'either' };
  });
}

/** A book with a part that is longer, or shorter, than the zip's directory promises. */
function promising(size: number, book: Uint8Array): Uint8Array {
  const bytes = book.slice();
  const at = Buffer.from(bytes).lastIndexOf(SHEET) - 46;
  new DataView(bytes.buffer).setUint32(at + 24, size, true);
  return bytes;
}

function brokenPromises(): Damaged[] {
  const book = withPart(SHEET, ' '.repeat(30_000_000));
  return [1, 1_000, 150_000_000, 190_000_000, 900_000_000, 0xffffffff].map((size) =>
    refused(`a part that unfolds to 30 MB and promises ${size} bytes`, promising(size, book)),
  );
}

/** Results that each claim a block larger than the whole file, over one another. */
function overlapping(): Damaged[] {
  const claims: readonly (readonly [what: string, count: number, ref: string, formula: string])[] = [
    ['20,000 results that each fill the whole sheet', 20_000, 'A1:XFD1048576', '1'],
    ['20,000 results that each fill a column', 20_000, 'A1:A1048576', '1'],
    ['20,000 results that each fill a row', 20_000, 'A1:XFD1', '1'],
    ['a result that is kept as stored and fills the whole sheet', 1, 'A1:XFD1048576', 'LAMBDA(x,x)(1)'],
  ];
  return claims.map(([what, count, ref, formula]) =>
    refused(
      what,
      edited(SHEET, (xml) => {
        const cell = `<c><f t="array" ref="${ref}">${formula}</f><v>1</v></c>`;
        const rows = Array.from(
          { length: Math.ceil(count / 1000) },
          () => `<row>${cell.repeat(Math.min(count, 1000))}</row>`,
        );
        return xml.replace('</sheetData>', `${rows.join('')}</sheetData>`);
      }),
    ),
  );
}

const bombs = (): Damaged[] => [
  ...brokenPromises(),
  ...['<c/>', '<c><v>1</v></c>', '<c r="A1"><f>1</f></c>'].map((cell) =>
    refused(
      `1,200,000 cells ${cell} in one row`,
      edited(SHEET, (xml) => xml.replace(/(<row r="6".*?)<\/row>/s, `$1${cell.repeat(1_200_000)}</row>`)),
    ),
  ),
  refused(
    '1,200,000 rows',
    edited(SHEET, (xml) => xml.replace('</sheetData>', `${'<row/>'.repeat(1_200_000)}</sheetData>`)),
  ),
  ...overlapping(),
  refused(
    'a formula of 90,000 letters shared by a thousand cells',
    edited(SHEET, (xml) =>
      xml.replace(
        '<row r="6"',
        `<row r="5000"><c><f t="shared" si="9">"${'x'.repeat(90_000)}"</f></c>${'<c><f t="shared" si="9"/></c>'.repeat(1000)}</row><row r="6"`,
      ),
    ),
  ),
  refused(
    'a name of 90,000 letters in a thousand cells',
    zipped({
      [WORKBOOK]: strToU8(
        strFromU8(parts[WORKBOOK]!).replace(
          '<definedNames>',
          `<definedNames><definedName name="LONG">"${'x'.repeat(90_000)}"</definedName>`,
        ),
      ),
      [SHEET]: strToU8(
        strFromU8(parts[SHEET]!).replace(
          '<row r="6"',
          `<row r="5000">${'<c><f>LONG</f></c>'.repeat(1000)}</row><row r="6"`,
        ),
      ),
    }),
  ),
  refused(
    '600,000 styles',
    edited('xl/styles.xml', (xml) => xml.replace('</cellXfs>', `${'<xf/>'.repeat(600_000)}</cellXfs>`)),
  ),
  refused(
    '600,000 sheets',
    edited(WORKBOOK, (xml) =>
      xml.replace('</sheets>', `${'<sheet name="x" r:id="rId1"/>'.repeat(600_000)}</sheets>`),
    ),
  ),
  refused(
    'two sheets of one part',
    edited(WORKBOOK, (xml) => xml.replace('r:id="rId2"', 'r:id="rId1"')),
  ),
  refused(
    '30,000 parts',
    zipped(Object.fromEntries(Array.from({ length: 30_000 }, (_, n) => [`x/${n}.xml`, new Uint8Array()]))),
  ),
];

const DOCTYPES = [
  '<!DOCTYPE a [<!ENTITY b "bb"><!ENTITY c "&b;&b;&b;&b;">]>',
  '<!DOCTYPE a SYSTEM "file:///etc/hostname">',
  '<!DOCTYPE a [<!ENTITY % p SYSTEM "https://example.org/p.dtd"> %p;]>',
  `<!DOCTYPE a [${Array.from({ length: 30 }, (_, n) => `<!ENTITY e${n + 1} "${`&e${n};`.repeat(10)}">`).join('')}]>`,
];
const READ_PARTS = [
  '_rels/.rels',
  WORKBOOK,
  'xl/_rels/workbook.xml.rels',
  'xl/sharedStrings.xml',
  'xl/styles.xml',
  SHEET,
  'xl/tables/table21.xml',
];

const entities = (): Damaged[] => [
  ...READ_PARTS.flatMap((part) =>
    DOCTYPES.map((doctype, n) =>
      refused(
        `entities ${n + 1} declared in ${part}`,
        edited(part, (xml) => xml.replace(/^<\?xml[^>]*>\s*|^/, (start) => start + doctype)),
      ),
    ),
  ),
  refused(
    'an entity nobody declared',
    edited(SHEET, (xml) => xml.replace('<v>24</v>', '<v>&x;</v>')),
  ),
  refused(
    'a character that XML forbids',
    edited(SHEET, (xml) => xml.replace('<v>24</v>', '<v>&#0;</v>')),
  ),
];

/** A file of another kind under the name of a workbook: what it begins with. */
const KINDS: Readonly<Record<string, string | Uint8Array>> = {
  nothing: '',
  'one byte': 'P',
  'a letter in text': 'Lot;Strain;Fresh\n1;Alder-3;24\n',
  'a page': '<!doctype html><html><table><tr><td>24</td></tr></table></html>',
  'a sheet as XML': '<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"/>',
  JSON: '{"sheets": []}',
  'a PDF': '%PDF-1.7\n%\u00e2\n1 0 obj',
  'a picture': Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]),
  'a gzip': Uint8Array.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 3, 3, 0]),
  'an older workbook': Uint8Array.from([
    0xd0,
    0xcf,
    0x11,
    0xe0,
    0xa1,
    0xb1,
    0x1a,
    0xe1,
    ...new Array<number>(600).fill(0),
  ]),
  'an empty zip': zipSync({}),
  'a zip of a text': zipSync({ 'a.txt': strToU8('a') }),
  'an OpenDocument sheet': zipSync({
    mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'),
    'content.xml': strToU8('<a/>'),
  }),
};

const ofOtherKinds = (): Damaged[] => [
  ...Object.entries(KINDS).map(([what, content]) =>
    refused(what, typeof content === 'string' ? strToU8(content) : content),
  ),
  refused(
    'a letter of a word processor',
    edited('_rels/.rels', (xml) => xml.replace('xl/workbook.xml', 'word/document.xml')),
  ),
  refused(
    'a binary workbook',
    edited('_rels/.rels', (xml) => xml.replace('xl/workbook.xml', 'xl/workbook.bin')),
  ),
  ...READ_PARTS.flatMap((part) => [
    refused(`${part} is another kind of bytes`, zipped({ [part]: parts['xl/vbaProject.bin']! })),
    refused(`${part} is empty`, withPart(part, '')),
    refused(
      `${part} in UTF-16`,
      zipped({ [part]: new Uint8Array(Buffer.from(`\ufeff${strFromU8(parts[part]!)}`, 'utf16le')) }),
    ),
  ]),
];

/** A value of no shape: the cell shows an error, and what is calculated from it says why. */
const SHAPELESS: Readonly<Record<string, string>> = {
  'a number with a comma': '<c r="B2"><v>1,5</v></c>',
  'no number': '<c r="B2"><v>NaN</v></c>',
  'a number without end': '<c r="B2"><v>1e999</v></c>',
  'a text that is missing': '<c r="B2" t="s"><v>99</v></c>',
  'a hexadecimal number': '<c r="B2"><v>0x10</v></c>',
  'half a text number': '<c r="B2" t="s"><v>0.5</v></c>',
  'a date that is none': '<c r="B2" t="d"><v>2026-02-31T99</v></c>',
};

const WRONG_CELLS: Readonly<Record<string, string>> = {
  'a cell off the sheet': '<c r="XFE2"><v>24</v></c>',
  'a cell without a place': '<c r="2B"><v>24</v></c>',
  'a cell inside a cell': '<c r="B2"><c r="B3"><v>24</v></c></c>',
  'a row inside a row': '<c r="B2"><v>24</v></c><row r="90"><c r="B90"/></row>',
  'a row of a hexadecimal number': '<c r="B2"><v>24</v></c></row><row r="0x60"><c><v>1</v></c>',
  'a row off the sheet': '<c r="B1048577"><v>24</v></c>',
};

const withCell = (cell: string): Uint8Array =>
  edited(SHEET, (xml) => xml.replace('<c r="B2"><v>24</v></c>', cell));

export const SHAPELESS_CELLS = Object.entries(SHAPELESS).map(
  ([what, cell]) => [what, withCell(cell)] as const,
);

const wrong = (): Damaged[] => [
  ...Object.entries(WRONG_CELLS).map(([what, cell]) => refused(what, withCell(cell))),
  refused(
    'a sheet that is not there',
    edited('xl/_rels/workbook.xml.rels', (xml) => xml.replace('sheet2.xml', 'sheet7.xml')),
  ),
  refused(
    'a table that is not there',
    edited('xl/worksheets/_rels/sheet2.xml.rels', (xml) => xml.replace('table21', 'table99')),
  ),
  refused(
    'a workbook without a relationship',
    edited('xl/_rels/workbook.xml.rels', (xml) => xml.replace('rId1"', 'rId77"')),
  ),
];

/** What no sound writer writes but can be read: the other results come out as ever. */
export const HARMLESS: readonly (readonly [what: string, bytes: Uint8Array])[] = [
  ['a macro that is damaged', zipped({ 'xl/vbaProject.bin': new Uint8Array(7) })],
  ['a chart that is no XML', withPart('xl/charts/chart1.xml', '<c:chart')],
  ['brackets 5,000 deep', withFormula(`${'('.repeat(5000)}1${')'.repeat(5000)}`)],
  ['IF 3,000 deep', withFormula(`${'IF(TRUE,'.repeat(3000)}1${')'.repeat(3000)}`)],
  ['a hundred thousand signs', withFormula(`${'-'.repeat(99_000)}1`)],
  ['brackets that do not close', withFormula('SUM((B2:B4')],
  ['a formula that is a sentence', withFormula('what did we pick')],
  [
    'a table that its sheet names 100,000 times',
    edited('xl/worksheets/_rels/sheet2.xml.rels', (xml) =>
      xml.replace(/<Relationship .*?\/>/, (one) => one.repeat(100_000)),
    ),
  ],
  [
    'names that stand for one another, 2 to the 60',
    zipped({
      [WORKBOOK]: strToU8(
        strFromU8(parts[WORKBOOK]!).replace(
          '<definedNames>',
          `<definedNames>${Array.from({ length: 60 }, (_, n) => `<definedName name="N_${n}">N_${n + 1}+N_${n + 1}</definedName>`).join('')}`,
        ),
      ),
      [SHEET]: strToU8(strFromU8(parts[SHEET]!).replace('<f>SUM(B2:B4)</f>', '<f>N_0</f>')),
    }),
  ],
];

/** Two hundred and more files, the same each time. */
export function damagedFiles(): Damaged[] {
  const random = seeded(8);
  return [
    ...truncated(50, random),
    ...flipped(60, random),
    ...bombs(),
    ...entities(),
    ...ofOtherKinds(),
    ...wrong(),
  ];
}

export const SOUND = sound;
