import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbook } from '../../src/hosts/engine/openWorkbook';
import { patchWorkbook } from '../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { workbookOf } from '../hosts/xlsx/packages';
import { compareLater, type Measurement } from './measure';

// What the command does to a workbook, without starting Node: read, calculate, and write the results into a copy.

const FOLDER = join(__dirname, '../../sample-workbooks');
const ROWS = 5000;
const COLUMNS = 10;

async function recalculated(bytes: Uint8Array): Promise<Uint8Array> {
  const content = readWorkbook(bytes);
  const workbook = await openWorkbook(content);
  const changes = content.sheets.flatMap(({ name: sheet, cells }) =>
    cells
      .filter(({ formula }) => formula !== undefined)
      .map(({ address }) => {
        const { value, block } = workbook.result(sheet, address);
        return { sheet, address, values: block ?? [[value]] };
      }),
  );
  return patchWorkbook(bytes, changes);
}

const stored = (ref: string, call: string): string =>
  `<c r="${ref.split(':')[0]!}"><f t="array" ref="${ref}">_xldudf_PINSET_BIOEFFICIENCY(${call})</f><v>0</v></c>`;

/** Ten columns of efficiencies of 5,000 lots, in ten calls or in fifty thousand. */
function lots(callPerRow: boolean): Uint8Array {
  const letters = Array.from({ length: COLUMNS }, (_, n) => String.fromCharCode('C'.charCodeAt(0) + n));
  const rows = Array.from({ length: ROWS }, (_, i) => {
    const row = i + 1;
    const calls = letters.map((letter, n) =>
      callPerRow
        ? stored(`${letter}${row}`, `A${row},${2 + n / 10},60%,B${row}`)
        : row === 1
          ? stored(`${letter}1:${letter}${ROWS}`, `A1:A${ROWS},${2 + n / 10},60%,B1:B${ROWS}`)
          : '',
    );
    return `<row r="${row}"><c r="A${row}"><v>${20 + (i % 17)}</v></c><c r="B${row}"><v>${20 + (i % 9)}</v></c>${calls.join('')}</row>`;
  });
  return workbookOf({ sheets: [{ name: 'Lots', data: `<sheetData>${rows.join('')}</sheetData>` }] });
}

export async function measurements(): Promise<Measurement[]> {
  const found: Measurement[] = [];
  for (const file of readdirSync(FOLDER).filter((name) => name.endsWith('.xlsx'))) {
    const bytes = new Uint8Array(readFileSync(join(FOLDER, file)));
    const read = (): Promise<unknown> => Promise.resolve(readWorkbook(bytes));
    found.push(
      await compareLater(
        `${file}, read, calculated and written`,
        () => recalculated(bytes),
        'read alone',
        read,
      ),
    );
  }
  const [perRow, perColumn] = [lots(true), lots(false)];
  found.push(
    await compareLater(
      '50,000 results by a call for each, read, calculated and written',
      () => recalculated(perRow),
      'the same results by a call for each of 10 columns',
      () => recalculated(perColumn),
      3,
    ),
  );
  return found;
}
