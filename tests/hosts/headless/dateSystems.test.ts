import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from '@jest/globals';
import { run } from '../../../src/hosts/headless/command';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { textIn, workbookOf } from '../xlsx/packages';

const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
afterAll(() => rmSync(folder, { recursive: true }));

const STYLES =
  '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs count="1"><xf/></cellXfs></styleSheet>';

async function recalculated(bytes: Uint8Array, ...words: string[]) {
  const [file, out, lines]: [string, string, string[]] = [join(folder, 'a.xlsx'), join(folder, 'b.xlsx'), []];
  writeFileSync(file, bytes);
  const keep = (line: string): void => void lines.push(line);
  const status = await run(['recalc', file, '--out', out, ...words], { out: keep, error: keep });
  return { status, lines, bytes: new Uint8Array(readFileSync(out)) };
}

/** A strains table in F1:G2, dates in A1:A3, and what is asked of them beside each. */
const bookOf = (workbookPr: string, serials: readonly number[], formula: string): Uint8Array =>
  workbookOf({
    workbookPr,
    styles: STYLES,
    sheets: [
      {
        name: 'Lots',
        data:
          '<sheetData>' +
          serials
            .map((serial, n) => {
              const head =
                n === 0
                  ? `<c r="C1" cm="1"><f t="array" ref="C1:C${serials.length}">${formula}</f></c>` +
                    '<c r="F1" t="str"><v>strain</v></c><c r="G1" t="str"><v>first pick</v></c>'
                  : n === 1
                    ? '<c r="F2" t="str"><v>Alder-3</v></c><c r="G2"><v>9</v></c>'
                    : '';
              return `<row r="${n + 1}"><c r="A${n + 1}"><v>${serial}</v></c>${head}</row>`;
            })
            .join('') +
          '</sheetData>',
      },
    ],
  });

// 18 February 2026 is serial 46071 where days are counted from 1900 and 44609 where they are from 1904 (spreadsheet
// programs show both for that day: 46071 − 1462).
const PICKDATE = '_xldudf_PINSET_PICKDATE(A1:A2,"Alder-3",F1:G2)';
const STAGE = '_xldudf_PINSET_STAGE(A1,A2,"Alder-3",{"strain","stage","from day";"Alder-3","running",0})';

describe.each([
  ['1900', '', 46071],
  ['1904', '<workbookPr date1904="1"/>', 44609],
  ['1904, written as true', '<workbookPr date1904="true"/>', 44609],
])('a workbook that counts from %s', (_system, workbookPr, serial) => {
  test('shows its dates as the days they are, and keeps its own serials', async () => {
    const { status, lines, bytes } = await recalculated(bookOf(workbookPr, [serial, serial + 0.5], PICKDATE));
    expect({ status, lines }).toEqual({
      status: 0,
      lines: [`Lots!C1\t=PINSET.PICKDATE(A1:A2,"Alder-3",F1:G2)\t2 × 1: 2026-02-27`],
    });
    const cells = readWorkbook(bytes).sheets[0]!.cells;
    const values = ['C1', 'C2'].map((at) => cells.find(({ address }) => address === at)?.value);
    // Blocks loaded at noon are picked on the same day as those loaded in the morning.
    expect(values).toEqual([serial + 9, serial + 9]);
    expect(textIn(bytes, 'xl/workbook.xml')).toContain(`${workbookPr}<sheets>`);
  });

  test('says in its faults the days that its cells show', async () => {
    const { status, lines } = await recalculated(bookOf(workbookPr, [serial, serial - 1], STAGE));
    expect(status).toBe(1);
    expect(lines[0]).toContain('on must not be before inoculated (2026-02-18); it is 2026-02-17');
  });

  test('with --values keeps serials as dates', async () => {
    const { bytes } = await recalculated(bookOf(workbookPr, [serial, serial], PICKDATE), '--values');
    const cells = readWorkbook(bytes).sheets[0]!.cells;
    expect(cells.find(({ address }) => address === 'C2')).toEqual({
      address: 'C2',
      value: serial + 9,
      numberFormat: 'yyyy-mm-dd',
    });
  });

  test('refuses, row by row, what is no date of a sheet', async () => {
    const { lines } = await recalculated(bookOf(workbookPr, [-3, 2_958_466], PICKDATE));
    expect(lines[0]).toContain('2 of 2 rows fault: 2 in C1, C2: #VALUE! loaded must be a date; it is -3');
  });
});
