import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from '../../src/hosts/headless/command';
import { isInstalled, Office } from '../hosts/calc/office';
import { workbookOf } from '../hosts/xlsx/packages';
import { measured, median, type Measurement } from './measure';

// What LibreOffice Calc needs for a call of a whole column, against the command that reads and calculates a workbook
// with the same call, and for its first call, in which the engine starts. Where the program is not installed nothing is
// measured.

const ROWS = 20_000;
const SHEET = 'Sheet1';

const rows = Array.from({ length: ROWS }, (_, i) => [
  20 + (i % 17),
  20 + (i % 9),
  46000 + (i % 300),
  i % 2 ? 'Alder-3' : 'Birch-1',
]);
const strains = [
  ['strain', 'best'],
  ['Alder-3', 77],
  ['Birch-1', 18],
];
const CALLS: Readonly<Record<string, string>> = {
  BIOEFFICIENCY: `(A1:A${ROWS},4.5,0.6,B1:B${ROWS})`,
  READYDATE: `(C1:C${ROWS},D1:D${ROWS},F1:G3)`,
};

async function took(job: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await job();
  return performance.now() - start;
}

/** A workbook with the rows and one call over them. */
function bookWith(call: string): Uint8Array {
  const cell = (at: string, value: number | string | undefined): string =>
    value === undefined
      ? ''
      : typeof value === 'number'
        ? `<c r="${at}"><v>${value}</v></c>`
        : `<c r="${at}" t="inlineStr"><is><t>${value}</t></is></c>`;
  const data = rows.map((values, i) => {
    const [n, [strain, best]] = [i + 1, strains[i] ?? []];
    const formula =
      i === 0 ? `<c r="I1"><f t="array" ref="I1:I${ROWS}">_xldudf_PINSET_${call}</f><v>0</v></c>` : '';
    const cells = values.map((value, k) => cell(`${'ABCD'[k]!}${n}`, value)).join('');
    return `<row r="${n}">${cells}${cell(`F${n}`, strain)}${cell(`G${n}`, best)}${formula}</row>`;
  });
  return workbookOf({ sheets: [{ name: 'Lots', data: `<sheetData>${data.join('')}</sheetData>` }] });
}

export async function measurements(): Promise<Measurement[]> {
  if (!isInstalled) return [];
  const office = await Office.start();
  // Calc calculates when a cell is looked at: reading one is part of the call.
  const called = (range: string, formula: string): Promise<number> =>
    took(async () => {
      await office.ask({
        do: 'array',
        sheet: SHEET,
        range,
        formula: `=PINSET.${formula.replaceAll(',', ';')}`,
      });
      await office.ask({ do: 'read', sheet: SHEET, range: range.split(':')[0] });
    });
  try {
    await office.ask({ do: 'new' });
    const first = await called('A1', 'BIOEFFICIENCY(1.2,4.5,0.6)');
    const found = [measured('the first call in Calc, engine started', first, 'a second', 1000, 1)];
    for (const [name, words] of Object.entries(CALLS)) {
      await office.ask({ do: 'new' });
      await office.ask({ do: 'cells', sheet: SHEET, range: `A1:D${ROWS}`, values: rows });
      await office.ask({ do: 'cells', sheet: SHEET, range: 'F1:G3', values: strains });
      const file = join(office.folder, `${name}.xlsx`);
      writeFileSync(file, bookWith(name + words));
      const [times, own]: [number[], number[]] = [[], []];
      for (let i = 0; i < 5; i++) {
        times.push(await called(`I1:I${ROWS}`, name + words));
        own.push(await took(() => run(['recalc', file], { out: () => undefined, error: () => undefined })));
      }
      found.push(
        measured(
          `${name}, ${ROWS} rows in one call in Calc`,
          median(times),
          'the command that reads and calculates such a workbook',
          median(own),
          3,
        ),
      );
    }
    return found;
  } finally {
    await office.end();
  }
}
