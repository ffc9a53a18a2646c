import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { openProven } from '../../../src/hosts/engine/openWorkbook';
import { areSame, StoredBlocks } from '../../../src/hosts/engine/proof';
import { isFormula } from '../../../src/hosts/xlsx/content';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// Workbooks of other people with the results that the program that saved them gave. Sources and licences:
// fixtures/sources.json.

const FOLDER = join(__dirname, 'fixtures');
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.xlsx'));
const sources = JSON.parse(readFileSync(join(FOLDER, 'sources.json'), 'utf8')) as Record<
  string,
  { readonly source: string; readonly licence: string }
>;
const read = (file: string) => readWorkbook(readFileSync(join(FOLDER, file)));

test('every file names its source and a licence that allows it here', () => {
  expect(files.length).toBeGreaterThan(10);
  for (const file of files) expect(sources[file.split('-')[0]!]?.licence).toMatch(/MIT|Apache/);
});

/** What gives another result at another time, and so may differ from what the file stores. */
const CHANGING = /\b(TODAY|NOW|RAND|RANDBETWEEN)\(/;

describe('no result differs from the stored one unless it is named', () => {
  test.each(files)('%s', async (file) => {
    const content = read(file);
    const { workbook, proof } = await openProven(content);
    const differing: string[] = [];
    let formulas = 0;
    for (const sheet of content.sheets) {
      const stored = new StoredBlocks(sheet);
      for (const cell of sheet.cells.filter(isFormula)) {
        formulas++;
        const { value, block, unsupported } = workbook.result(sheet.name, cell.address);
        if (areSame(block ?? [[value]], stored.of(cell)) || CHANGING.test(cell.formula ?? '')) continue;
        differing.push(`${sheet.name}!${cell.address} ${cell.formula} ${unsupported ?? ''}`);
      }
    }
    expect(differing).toEqual([]);
    expect(proof.proven + proof.believed + proof.kept.length).toBe(formulas);
    // Most of what is in them is calculated here, not merely kept.
    expect(proof.kept.length).toBeLessThan(formulas);
  });
});
