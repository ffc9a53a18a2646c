import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../../src/hosts/headless/command';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { tell } from '../surroundings';
import { partsIn, workbookOf } from './xlsx/packages';

// A program of its own, because a process takes its locale from the environment it starts in: it prints all that is
// read from workbooks, calculated, said and written in each time zone.

/** Moments that a clock on some wall left out or had twice, and days at the ends of calendars. */
const MOMENTS = [
  '2026-03-29T02:30:00',
  '2026-10-25T02:30:00',
  '2026-04-05T01:45:00',
  '2011-12-30T12:00:00',
  '2018-11-04T00:30:00',
  '2026-03-01',
  '2026-03-01T06:00:00Z',
  '2026-03-01T06:00:00+05:45',
  '1950-01-01T00:00:00',
  '9999-12-31T23:59:00',
];
const QUESTIONS = [
  'YEAR(A1)',
  'MONTH(A1)',
  'DAY(A1)',
  'HOUR(A1)',
  'WEEKDAY(A1,2)',
  'ISOWEEKNUM(A1)',
  'EOMONTH(A1,1)',
  'EDATE(A1,6)',
  'TEXT(A1,"yyyy-mm-dd hh:mm")',
  'TEXT(1234.5,"#,##0.00")',
  'DATEVALUE("2026-03-29")',
  'DATE(2026,3,29)',
  'TIME(2,30,0)',
  'NETWORKDAYS(A1,A1+30)',
  'WORKDAY(A1,10)',
  'UPPER("milli")',
  'VALUE("1.5")',
  '_xldudf_PINSET_PICKDATE(A1,"Alder-3",{"strain","first pick";"Alder-3",9})',
];

const datesIn = (system: 1900 | 1904): Uint8Array =>
  workbookOf({
    workbookPr: system === 1904 ? '<workbookPr date1904="1"/>' : '',
    sheets: MOMENTS.map((moment, n) => ({
      name: `Day ${n + 1}`,
      data:
        `<sheetData><row r="1"><c r="A1" t="d"><v>${moment}</v></c></row>` +
        QUESTIONS.map(
          (question, q) =>
            `<row r="${q + 2}"><c r="A${q + 2}"><f t="array" ref="A${q + 2}">${question.replace(/"/g, '&quot;')}</f><v>0</v></c></row>`,
        ).join('') +
        '</sheetData>',
    })),
  });

const BOOKS: readonly Uint8Array[] = [
  datesIn(1900),
  datesIn(1904),
  new Uint8Array(readFileSync(join(__dirname, '../../sample-workbooks/farm-book.xlsx'))),
];

const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
const [FILE, OUT] = [join(folder, 'book.xlsx'), join(folder, 'out.xlsx')];

const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

async function readings(): Promise<unknown[]> {
  const came: unknown[] = [];
  const keep = (line: string): void => void came.push(line.replaceAll(folder, ''));
  for (const book of BOOKS) {
    writeFileSync(FILE, book);
    came.push(readWorkbook(book));
    came.push(await run(['recalc', FILE, '--json'], { out: keep, error: keep }));
    came.push(await run(['recalc', FILE, '--out', OUT], { out: keep, error: keep }));
    const written = new Uint8Array(readFileSync(OUT));
    came.push(Object.entries(partsIn(written)).map(([name, bytes]) => [name, digestOf(bytes)]));
    came.push(readWorkbook(written).sheets.map(({ cells }) => cells.map(({ value }) => value)));
  }
  return came;
}

process.on('exit', () => rmSync(folder, { recursive: true }));
void tell(readings);
