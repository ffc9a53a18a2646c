import { execFileSync } from 'node:child_process';
import { chmodSync, copyFileSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { withCalcsFormulas } from '../../../src/hosts/calc/names';
import { run } from '../../../src/hosts/headless/command';
import { addressOf, areaOf, rangeOf } from '../../../src/hosts/xlsx/address';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { isCellError, type Cell } from '../../../src/worksheet/cells/cell';
import { described } from '../../../src/worksheet/described';
import type { Example, ExampleArgument, FaultExample } from '../../../src/worksheet/words';
import { filled, fileOf, functionsIn } from '../engine/conformance/tableFile';
import { placed, type BookName } from '../engine/conformance/table';
import { difference, DIFFERENCES, LACKING } from './differences';
import { isInstalled, Office, type OfficeCell } from './office';

/** Calc's numbers of errors (its help, "Error Codes in LibreOffice Calc"). */
const ERRORS: Readonly<Record<number, string>> = {
  503: '#NUM!',
  504: 'Err:504',
  519: '#VALUE!',
  521: '#NULL!',
  524: '#REF!',
  525: '#NAME?',
  532: '#DIV/0!',
  32767: '#N/A',
};

/** An error of Calc, of its own kind or Excel's. */
const isFault = (shown: string | number): boolean => /^(?:#|Err:)/.test(String(shown));

const SAMPLES = join(__dirname, '../../../sample-workbooks');
const SHEET = 'Sheet1';
/** A cell that holds nothing. */
const BLANK = 'ZZ999';

/** A cell as both sides show it: blank and empty text alike, a truth value as a number, an error as its code. */
function plain(cell: Cell | OfficeCell | undefined): string | number {
  if (cell === null || cell === undefined || cell === '') return '';
  if (isCellError(cell)) return cell.code;
  if (typeof cell === 'object') return ERRORS[cell.error] ?? `Err:${cell.error}`;
  return typeof cell === 'boolean' ? Number(cell) : cell;
}

function agree(one: string | number, other: string | number, digits = 10): boolean {
  if (typeof one !== 'number' || typeof other !== 'number') return one === other;
  return Math.abs(one - other) <= 10 ** (1 - digits) * Math.max(1e-6, Math.abs(one));
}

type Row = readonly (string | number | boolean | null)[];

const isBlock = (given: ExampleArgument): given is readonly Row[] => Array.isArray(given);
const rowsOf = (given: ExampleArgument): readonly Row[] => (isBlock(given) ? given : [[given]]);

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

if (!isInstalled) {
  test('LibreOffice with its Python bridge is not installed here: nothing of Calc was tried', () => {
    expect(isInstalled).toBe(false);
  });
} else {
  describe('in LibreOffice Calc, with the extension in a fresh profile', () => {
    inCalc();
  });
}

function inCalc(): void {
  let office: Office;
  beforeAll(async () => {
    office = await Office.start();
  });
  afterAll(() => office.end());

  const read = (range: string, sheet = SHEET): Promise<OfficeCell[][]> =>
    office.ask({ do: 'read', sheet, range });
  const array = (range: string, formula: string): Promise<void> =>
    office.ask({ do: 'array', sheet: SHEET, range, formula });
  const cells = (range: string, values: unknown[][]): Promise<void> =>
    office.ask({ do: 'cells', sheet: SHEET, range, values });
  const menu = (entry: string): Promise<string> => office.ask({ do: 'menu', entry });

  /** Lays the blocks of a call out on a new sheet and calls the function as an array formula of a size. */
  async function called(name: string, given: readonly ExampleArgument[], height: number, width: number) {
    await office.ask({ do: 'new' });
    let left = 0;
    const words: string[] = [];
    for (const one of given) {
      if (!isBlock(one)) {
        words.push(one === null ? BLANK : typeof one === 'string' ? quoted(one) : String(one).toUpperCase());
        continue;
      }
      const block = one;
      const range = rangeOf({ top: 0, left, bottom: block.length - 1, right: left + block[0]!.length - 1 });
      left += block[0]!.length + 1;
      await cells(
        range,
        block.map((row) => row.map((cell) => cell ?? '')),
      );
      words.push(range);
    }
    const range = rangeOf({ top: 0, left, bottom: height - 1, right: left + width - 1 });
    await array(range, `=PINSET.${name}(${words.join(';')})`);
    return read(range);
  }

  test('the function wizard tells of every function what it gives and what each argument means', async () => {
    const wizard = await office.ask<Record<string, [string, [string, string][]]>>({ do: 'wizard' });
    expect(Object.keys(wizard).sort()).toEqual(described.map(({ name }) => `PINSET.${name}`).sort());
    for (const { name, summary, arguments: given } of described) {
      const [description, parameters] = wizard[`PINSET.${name}`]!;
      expect(description).toBe(summary);
      expect(parameters.map(([called]) => called)).toEqual(given.map((argument) => argument.name));
      given.forEach(({ meaning }, n) => expect(parameters[n]![1]).toContain(meaning));
    }
  });

  test.each(described.map(({ name, examples }) => [name, examples] as const))(
    '%s gives what its examples say',
    async (name, examples: readonly Example[]) => {
      for (const { title, arguments: given, gives, digits } of examples) {
        const wanted = rowsOf(gives);
        const got = await called(name, given, wanted.length, wanted[0]!.length);
        const others = wanted.flatMap((row, r) =>
          row.flatMap((cell, c) => {
            const [one, other] = [plain(cell), plain(got[r]![c])];
            return agree(one, other, digits)
              ? []
              : [`${title}, row ${r + 1}, column ${c + 1}: ${one}, not ${other}`];
          }),
        );
        expect(others).toEqual([]);
      }
    },
  );

  test('faults show the error code of Excel, but where Calc has none of its own for it', async () => {
    const faults = described.flatMap(({ name, faults: [first] }) => (first ? [[name, first] as const] : []));
    expect(faults.length).toBeGreaterThan(50);
    for (const [name, { arguments: given, code }] of faults as readonly (readonly [string, FaultExample])[]) {
      const shown = (await called(name, given, 12, 6)).flat().map(plain);
      expect([name, shown.includes(code)]).toEqual([name, true]);
    }
  });

  test('one bad row does not spoil the others, and an edit is followed at once', async () => {
    await office.ask({ do: 'new' });
    await cells('A1:A3', [[1.2], ['much'], [0.9]]);
    await array('B1:B3', '=PINSET.BIOEFFICIENCY(A1:A3;4.5;0.6)');
    expect((await read('B1:B3')).flat().map(plain)).toEqual([1.2 / 1.8, '#VALUE!', 0.9 / 1.8]);
    await cells('A2', [[1.8]]);
    expect((await read('B1:B3')).flat().map(plain)).toEqual([1.2 / 1.8, 1, 0.9 / 1.8]);
  });

  test('the menu says why cells have no answer, in a selection of the workbook or all of it', async () => {
    await office.ask({ do: 'new' });
    await cells('A1:A4', [[1.2], ['much'], [0.9], [1]]);
    await office.ask({ do: 'formula', sheet: SHEET, range: 'A4', formula: '=NA()' });
    await array('B1:B3', '=PINSET.BIOEFFICIENCY(A1:A3;4.5;0.6)');
    await array('C1:C4', '=PINSET.BIOEFFICIENCY(A1:A4;4.5;0.6)');
    expect((await menu('workbook')).split('\n')).toEqual([
      '2 cells have no answer. The first one is selected.',
      expect.stringMatching(/^Sheet1\.B2: #VALUE! fresh must be .*; it is "much"/),
      expect.stringMatching(
        /^Sheet1\.C1: Calc does not call a function that is given a cell with an error \(Err:504\)/,
      ),
    ]);
    await office.ask({ do: 'select', sheet: SHEET, range: 'B2:B3' });
    expect(await menu('here')).toMatch(/^B2: #VALUE! fresh must be .*"much"/);
    await office.ask({ do: 'select', sheet: SHEET, range: 'B1' });
    expect(await menu('here')).toBe('Pinset finds nothing wrong in the selected cells.');
  });

  test('the menu gives dates and percentages their formats', async () => {
    await office.ask({ do: 'new' });
    await cells('A1:B3', [
      ['strain', 'first pick'],
      ['Alder-3', 9],
      ['Birch-1', 12],
    ]);
    await array('D1:D2', '=PINSET.PICKDATE(46000;A2:A3;A1:B3)');
    await array('E1', '=PINSET.BIOEFFICIENCY(1.2;4.5;0.6)');
    expect(await menu('format')).toBe('3 cells show dates and percentages now.');
    const formats = await Promise.all([
      office.ask({ do: 'format', sheet: SHEET, range: 'D1' }),
      office.ask({ do: 'format', sheet: SHEET, range: 'E1' }),
    ]);
    expect(formats).toEqual(['YYYY-MM-DD', '0.0%']);
  });

  test.each(['ods', 'xlsx'])('a book saved as .%s and opened again still calculates', async (kind) => {
    await office.ask({ do: 'new' });
    await cells('A1:A2', [[1.2], [0.9]]);
    await array('B1:B2', '=PINSET.BIOEFFICIENCY(A1:A2;4.5;0.6)');
    const file = join(office.folder, `saved.${kind}`);
    await office.ask({ do: 'save', file });
    await office.ask({ do: 'open', file });
    await cells('A1', [[1.8]]);
    expect((await read('B1:B2')).flat()).toEqual([1, 0.5]);
    if (kind === 'ods') return;
    const lines: string[] = [];
    const keep = (line: string): void => void lines.push(line);
    expect(await run(['recalc', file], { out: keep, error: keep })).toBe(0);
    expect(lines).toEqual([
      expect.stringMatching(/^Sheet1!B1\t=PINSET\.BIOEFFICIENCY\(A1:A2,4\.5,0\.6\)\t2 × 1: 0\.6/),
    ]);
  });

  test('a workbook that counts from 1904 has its dates by its own count', async () => {
    await office.ask({ do: 'new' });
    await office.ask({ do: 'from1904' });
    await array('A1', '=PINSET.LOTCODE("Shiitake";"Alder-3";2;0.5+44621;1)');
    // 44,621 days after 1 January 1904 is 2 March 2026.
    expect(plain((await read('A1'))[0]![0])).toMatch(/-260302-/);
  });

  test('an engine that is killed is replaced: the call in progress and the next ones are answered', async () => {
    await office.ask({ do: 'new' });
    await array('A1', '=PINSET.BIOEFFICIENCY(1.2;4.5;0.6)');
    execFileSync('pkill', ['-f', `${office.folder}/.*engine\\.js`]);
    await array('A2', '=PINSET.BIOEFFICIENCY(0.9;4.5;0.6)');
    expect((await read('A2')).flat()).toEqual([0.5]);
  });

  test.each(readdirSync(SAMPLES).filter((name) => name.endsWith('.xlsx')))(
    'every result cell of %s is the command’s',
    async (name) => {
      const file = join(office.folder, name);
      copyFileSync(join(SAMPLES, name), file);
      chmodSync(file, 0o666);
      await office.ask({ do: 'open', file });
      expect(await menu('names')).toContain('has the formulas as Calc reads them');
      await office.ask({ do: 'open', file: file.replace('.xlsx', ' (Calc).xlsx') });
      await office.ask({ do: 'calculate' });
      const now = await office.ask<Record<string, Record<string, [string, OfficeCell]>>>({ do: 'formulas' });
      const stored = readWorkbook(new Uint8Array(readFileSync(file)));
      const results = stored.sheets.flatMap(({ name: sheet, cells: its }) =>
        its
          .filter(({ formula, unsupported, spilledFrom }) => formula ?? unsupported ?? spilledFrom)
          .map(({ address, value }) => {
            const [formula, here] = now[sheet]?.[address] ?? ['', null];
            return { at: `${sheet}!${address}`, formula, value: plain(value), here: plain(here) };
          }),
      );
      const others = results.filter(({ value, here }) => !agree(value, here));
      expect(results.length).toBeGreaterThan(500);
      expect(others).toEqual([]);
    },
  );

  describe('the table of other people’s formulas', () => {
    type Results = Record<string, Record<string, [string, OfficeCell]>>;
    let results: Record<BookName, Results>;
    beforeAll(async () => {
      const calculated = async (book: BookName): Promise<Results> => {
        const file = join(office.folder, `${book}-table.xlsx`);
        writeFileSync(file, withCalcsFormulas(fileOf(book)));
        chmodSync(file, 0o666);
        await office.ask({ do: 'open', file });
        await office.ask({ do: 'calculate' });
        return office.ask({ do: 'formulas' });
      };
      results = { farm: await calculated('farm'), harvest: await calculated('harvest') };
    });

    test('is right in Calc but for what it lacks or does in its own way, told by name', () => {
      const lacked = new Map<string, number>();
      const counts = { right: 0, lacking: 0, 'another error': 0, 'own way': 0 };
      const others: string[] = [];
      for (const { book, sheet, cell, row } of placed) {
        const [text, gives] = row;
        const { top, left, bottom, right } = areaOf(filled(cell, gives))!;
        const wanted = Array.isArray(gives) ? (gives as Cell[][]) : [[gives as Cell]];
        const pairs = Array.from({ length: bottom - top + 1 }, (_, r) =>
          Array.from({ length: right - left + 1 }, (__, c): [string | number, string | number] => {
            const address = addressOf({ row: top + r, column: left + c });
            return [plain(wanted[r]?.[c]), plain(results[book][sheet]?.[address]?.[1])];
          }),
        ).flat();
        const lacking = functionsIn(cell.formula!).filter((name) => LACKING.has(name));
        if (pairs.every(([one, other]) => agree(one, other))) counts.right++;
        else if (lacking.length > 0) {
          counts.lacking++;
          lacking.forEach((name) => lacked.set(name, (lacked.get(name) ?? 0) + 1));
        } else if (pairs.every(([one, other]) => agree(one, other) || (isFault(one) && isFault(other))))
          counts['another error']++;
        else if (difference(text)) counts['own way']++;
        else others.push(`${text} gives ${JSON.stringify(pairs)}`);
      }
      console.log(
        [
          `Calc: ${Object.entries(counts)
            .map(([what, count]) => `${count} ${what}`)
            .join(', ')}`,
          ...[...lacked].sort().map(([name, count]) => `${name} (from ${LACKING.get(name)}): ${count}`),
        ].join('\n  '),
      );
      expect(others).toEqual([]);
      expect(counts.right).toBeGreaterThan(1450);
    });

    test('has every formula that a difference names', () => {
      const all = placed.map(({ row: [text] }) => text);
      const gone = DIFFERENCES.flatMap(({ formulas }) => formulas).filter((one) =>
        typeof one === 'string' ? !all.includes(one) : !all.some((text) => one.test(text)),
      );
      expect(gone).toEqual([]);
    });
  });
}
