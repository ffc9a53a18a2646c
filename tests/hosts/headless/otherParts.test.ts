import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { run } from '../../../src/hosts/headless/command';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { partsIn, textIn } from '../xlsx/packages';
import { BEFORE_CELLS, BEHIND_CELLS, richWorkbook } from '../xlsx/richWorkbook';

const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
afterAll(() => rmSync(folder, { recursive: true }));

const before = richWorkbook();
const said: string[] = [];
let after: Uint8Array;

async function recalculated(name: string, ...words: string[]): Promise<Uint8Array> {
  const [file, out] = [join(folder, 'book.xlsm'), join(folder, name)];
  writeFileSync(file, before);
  const keep = (line: string): void => void said.push(line);
  expect(await run(['recalc', file, '--out', out, ...words], { out: keep, error: keep })).toBe(0);
  return new Uint8Array(readFileSync(out));
}

beforeAll(async () => {
  after = await recalculated('new.xlsm');
});

/** What new results cannot but change: the cells, the record of spilling formulas and that the package names it. */
const CHANGED = ['xl/worksheets/sheet1.xml', '[Content_Types].xml', 'xl/_rels/workbook.xml.rels'];

test('charts, pictures, macros, comments, pivot tables, links and whatever else stay byte for byte, in their order', () => {
  const [old, now] = [partsIn(before), partsIn(after)];
  expect(Object.keys(now)).toEqual([...Object.keys(old), 'xl/metadata.xml']);
  const changed = Object.keys(old).filter((name) => Buffer.compare(old[name]!, now[name]!) !== 0);
  expect(changed.sort()).toEqual([...CHANGED].sort());
  expect(Object.keys(old).length).toBeGreaterThan(25);
});

test('parts that stay are not even packed anew', () => {
  const packed = Buffer.from(after);
  for (const name of ['xl/vbaProject.bin', 'xl/media/image1.png', 'xl/charts/chart1.xml', 'xl/styles.xml']) {
    const at = Buffer.from(before).indexOf(name);
    // A local header is 30 bytes before the name; the packed size stands in its bytes 18 to 21.
    const size = Buffer.from(before).readUInt32LE(at - 30 + 18);
    expect(packed.includes(Buffer.from(before).subarray(at, at + name.length + size))).toBe(true);
  }
});

test('around the cells the sheet stays: views, conditional formats, choices, links, sparklines', () => {
  const sheet = textIn(after, 'xl/worksheets/sheet1.xml');
  expect(sheet).toContain(`${BEFORE_CELLS}<sheetData>`);
  expect(sheet).toContain(`</sheetData>${BEHIND_CELLS}</worksheet>`);
});

test('the package is still one with macros and gains one record type', () => {
  expect(textIn(after, '[Content_Types].xml')).toBe(
    textIn(before, '[Content_Types].xml').replace(
      '</Types>',
      '<Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/></Types>',
    ),
  );
});

test('the results are new, in the workbook’s own days from 1904; a linked value stays as stored', () => {
  const cells = readWorkbook(after).sheets[0]!.cells;
  const value = (address: string): unknown => cells.find((cell) => cell.address === address)?.value;
  expect(['C2', 'C3', 'C4', 'B5', 'C5', 'C6', 'D5'].map(value)).toEqual([
    0.8,
    '',
    0.4,
    36,
    0.6000000000000001,
    44618,
    4.5,
  ]);
  expect(said).toContain('Lots!C6\t=PINSET.PICKDATE(B6,"Alder-3",Strains[#All])\t2026-02-27');
  expect(said.filter((line) => line.includes('keeps its stored result'))).toHaveLength(1);
});

test('with --values the same holds, and the chain of calculation alone follows', async () => {
  const values = await recalculated('values.xlsm', '--values');
  const [old, now] = [partsIn(before), partsIn(values)];
  expect(Object.keys(now)).toEqual(Object.keys(old));
  const changed = Object.keys(old).filter((name) => Buffer.compare(old[name]!, now[name]!) !== 0);
  expect(changed).toEqual(['xl/worksheets/sheet1.xml', 'xl/calcChain.xml']);
  expect(textIn(values, 'xl/worksheets/sheet1.xml')).not.toMatch(/PINSET/);
});
