import { afterAll, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { Package } from '../../src/hosts/xlsx/package';
import { BY_HAND, freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// An hour's work on a farm's book, and what the saved file then holds, cell by cell, by another library's reading. What is
// meant is worked out here in plain sums, and nothing else may differ from the book as it was.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;
let steps = 0;

interface Pick {
  day: Date | string | null;
  lot: string | null;
  strain: string | null;
  mass: number;
  note: string | null;
}

const day = (date: number): Date => new Date(Date.UTC(2026, 2, date));
/** Days by hand, some as text. Masses differ, so that their order is one. */
const picks: Pick[] = [
  [day(2), 'L1', 'Oak', 4.1, null],
  [day(3), 'L1', 'Oak', 2.2, 'first'],
  ['about 4 March', 'L2', 'Ash', 3.3, null],
  [day(5), 'L2', 'Ash', 1.4, null],
  [day(6), 'L3', 'Oak', 5.5, 'wet'],
  [day(6), 'L3', 'Elm', 6.6, 'two crates'],
  [day(7), 'L1', 'Oak', 0.7, null],
  [day(8), 'L4', 'Elm', 7.8, null],
  [day(9), 'L4', 'Elm', 0.9, 'last of it'],
  [day(10), 'L2', 'Ash', 8.1, null],
  [day(11), 'L5', 'Oak', 1.2, null],
  [day(12), 'L5', 'Oak', 2.9, null],
].map(([on, lot, strain, mass, note]) => ({ day: on, lot, strain, mass, note }) as Pick);

const FIRST = 4;
const LAST = FIRST + picks.length - 1;
const SHARE = 0.95;
const sum = (some: readonly Pick[]): number => some.reduce((all, { mass }) => all + mass, 0);

async function book(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Picks');
  sheet.getCell('A1').value = 'Picks 2026';
  sheet.mergeCells('A1:F1');
  sheet.getRow(3).values = ['day', 'lot', 'strain', 'mass', 'net', 'note'];
  sheet.getRow(3).font = { bold: true };
  picks.forEach((pick, n) => {
    const row = FIRST + n;
    const { mass } = pick;
    sheet.getRow(row).values = [pick.day, pick.lot, pick.strain, mass];
    sheet.getCell(row, 5).value = { formula: `D${row}*0.95`, result: mass * SHARE };
    sheet.getCell(row, 6).value = pick.note;
    sheet.getCell(row, 1).numFmt = 'd/m/yyyy';
  });
  sheet.getCell('D17').value = { formula: `SUM(D${FIRST}:D${LAST})`, result: sum(picks) };
  sheet.getCell('D18').value = { formula: `SUBTOTAL(9,D${FIRST}:D${LAST})`, result: sum(picks) };
  sheet.getCell('H4').value = { formula: `COUNTIF(B${FIRST}:B${LAST},"L1")`, result: 3 };
  sheet.getCell('H10').value = { formula: 'ROW()', result: 10 };
  sheet.getCell('B5').note = 'weighed twice';
  sheet.addConditionalFormatting({
    ref: 'D4:D15',
    rules: [
      {
        type: 'cellIs',
        operator: 'greaterThan',
        formulae: [6],
        priority: 1,
        style: { font: { bold: true } },
      },
    ],
  });
  for (let row = FIRST; row <= LAST; row++) {
    sheet.getCell(row, 3).dataValidation = { type: 'list', allowBlank: true, formulae: ['"Oak,Ash,Elm"'] };
  }
  workbook.definedNames.add(`Picks!$E$${FIRST}:$E$${LAST}`, 'Net');
  const lots = workbook.addWorksheet('Lots');
  lots.getCell('A1').value = 'third pick is of';
  lots.getCell('B1').value = { formula: 'INDEX(Picks!B4:B15,3)', result: 'L2' };
  lots.getCell('A2').value = 'all';
  lots.getCell('B2').value = { formula: 'SUM(Net)', result: sum(picks) * SHARE };
  const prices = workbook.addWorksheet('Prices', { state: 'hidden' });
  prices.addRows([
    ['Oak', 11],
    ['Ash', 9.5],
  ]);
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

let original: Uint8Array;

beforeAll(async () => {
  original = await book();
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser);
  seen = await watch(page);
  await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body: Buffer.from(original) }));
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
  const { x, y } = (await page.locator('#grid canvas').first().boundingBox())!;
  await page.mouse.click(x + 80, y + 40);
});
afterAll(async () => {
  await leave(page);
  expect(seen).toEqual({ errors: [], strayed: [] });
  await browser.close();
  await server.close();
});

async function goTo(address: string): Promise<void> {
  steps++;
  await page.locator('#place').fill(address);
  await page.keyboard.press('Enter');
  await page.waitForFunction(
    (wanted) => (document.getElementById('place') as HTMLInputElement).value === wanted,
    address.split('!').at(-1)!,
  );
}

async function type(address: string, text: string): Promise<void> {
  await goTo(address);
  steps++;
  await page.keyboard.type(text, BY_HAND);
  await page.keyboard.press('Enter');
}

async function press(...keys: readonly string[]): Promise<void> {
  for (const key of keys) {
    steps++;
    await page.keyboard.press(key);
    await page.waitForTimeout(40);
  }
}

async function choose(name: string): Promise<void> {
  steps++;
  await page.locator('#sheet-button').click();
  await page.locator('#sheet-menu').getByRole('button', { name }).click();
}

const says = (words: string): Promise<unknown> =>
  page.waitForFunction((all) => document.getElementById('notice')?.textContent?.includes(all), words);

async function paste(text: string): Promise<void> {
  steps++;
  await page.evaluate((copied) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', copied);
    const target = document.activeElement ?? document.body;
    target.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

const at = (row: number): Pick => picks[row - FIRST]!;

test('cells are typed, edited, emptied, pasted and filled', async () => {
  await type('B4', 'L9');
  at(4).lot = 'L9';
  await type('D5', '3.25');
  at(5).mass = 3.25;
  await type('A6', '14/3/2026');
  at(6).day = day(14);
  await type('F7', 'a "heavy" crate');
  at(7).note = 'a "heavy" crate';
  await goTo('B7');
  for (const [text, key] of [
    ['L6', 'Tab'],
    ['Elm', 'Tab'],
    ['2.75', 'Enter'],
    ['L7', 'Enter'],
  ] as const) {
    steps++;
    await page.keyboard.type(text, BY_HAND);
    await page.keyboard.press(key);
  }
  Object.assign(at(7), { lot: 'L6', strain: 'Elm', mass: 2.75 });
  at(8).lot = 'L7';
  await goTo('F12');
  await press('Delete');
  at(12).note = null;
  await goTo('B13');
  // The line break behind the last row empties nothing below it.
  await paste('L8\tAsh\t9.25\nL8\t"Oak\nlate"\t0.15\n');
  await page.waitForFunction(() => document.getElementById('formula')?.textContent !== 'L2');
  Object.assign(at(13), { lot: 'L8', strain: 'Ash', mass: 9.25 });
  Object.assign(at(14), { lot: 'L8', strain: 'Oak\nlate', mass: 0.15 });
  await type('J4', '=D4*2');
  await goTo('J4');
  await press('Shift+ArrowDown', 'Shift+ArrowDown', 'Control+d');
  await type('J8', 'taken back');
  await page.locator('#undo').click();
  await type('H6', '=SUM(Prices!B1:B2)');
  await goTo('J6');
  expect(await page.locator('#formula').innerText()).toBe('=D6*2');
});

test('a row comes in and another goes out, and what is looked up by rows is worked out again', async () => {
  await goTo('A9');
  await choose('Insert rows above');
  await says('Inserted 1 row');
  picks.splice(9 - FIRST, 0, { day: day(20), lot: 'L0', strain: 'Oak', mass: 4.75, note: null });
  for (const [column, text] of Object.entries({
    A: '20/3/2026',
    B: 'L0',
    C: 'Oak',
    D: '4.75',
    E: '=D9*0.95',
  })) {
    await type(`${column}9`, text);
  }
  await goTo('A12');
  await choose('Delete the selected rows');
  await says('Deleted 1 row');
  picks.splice(12 - FIRST, 1);
  await goTo('H11');
  expect(await page.locator('#shown').innerText()).toBe('11');
});

test('a reload opens the sheet and the cell that were open, with all that was typed', async () => {
  await goTo('Lots!B1');
  await page.locator('#kept[data-all="true"]').waitFor();
  await page.reload();
  await says('is here again');
  steps++;
  expect(await page.locator('#place').inputValue()).toBe('B1');
  expect(await page.locator('#tabs [aria-selected="true"]').innerText()).toBe('Lots');
});

test('rows are sorted, filtered and shown in a format, and printed', async () => {
  await goTo('Picks!D5');
  await choose('Sort by this column, largest first');
  await says('Sorted the rows 4 to 15');
  picks.sort((a, b) => b.mass - a.mass);
  await goTo('D4');
  await press(...Array<string>(11).fill('Shift+ArrowDown'));
  await choose('Show numbers as');
  await page.locator('#formats').getByText('Two decimals').click();
  await page.locator('#formats').getByRole('button', { name: 'Use this format' }).click();
  await says('have the new format');
  await goTo('C3');
  await press('Alt+ArrowDown');
  await page.locator('#filter').getByLabel('Contains').fill('oak');
  await press('Enter');
  await says('rows are shown');
  await page.evaluate(() => {
    window.print = () => undefined;
  });
  await press('Control+p');
  const printed = await page.locator('#print tbody tr').allTextContents();
  expect(printed.filter((text) => text.includes('Elm'))).toEqual([]);
  expect(printed.some((text) => text.includes('L0'))).toBe(true);
});

test('the saved file holds what was meant, and nothing else changed', async () => {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).click(),
  ]);
  const saved = new Uint8Array(await readFile(await download.path()));
  expect(steps).toBeGreaterThanOrEqual(60);
  const isOak = ({ strain }: Pick): boolean => strain?.toLowerCase().includes('oak') === true;
  const masses = (...rows: readonly number[]) =>
    rows.map((row) => ({ formula: `D${row}*2`, result: at(row).mass * 2 }));
  const expected = new Map<string, unknown>([
    ...[...'ABCDEF'].map((column) => [`Picks!${column}1`, 'Picks 2026'] as const),
    ...['day', 'lot', 'strain', 'mass', 'net', 'note'].map(
      (name, n) => [`Picks!${'ABCDEF'[n]}3`, name] as const,
    ),
    ...picks.flatMap((pick, n) => {
      const row = FIRST + n;
      const net = { formula: `D${row}*0.95`, result: pick.mass * SHARE };
      const cells = { A: pick.day, B: pick.lot, C: pick.strain, D: pick.mass, E: net, F: pick.note };
      return Object.entries(cells).map(([column, value]) => [`Picks!${column}${row}`, value] as const);
    }),
    ['Picks!D17', { formula: 'SUM(D4:D15)', result: sum(picks) }],
    ['Picks!D18', { formula: 'SUBTOTAL(9,D4:D15)', result: sum(picks.filter(isOak)) }],
    ['Picks!H4', { formula: 'COUNTIF(B4:B15,"L1")', result: picks.filter(({ lot }) => lot === 'L1').length }],
    ['Picks!H6', { formula: 'SUM(Prices!B1:B2)', result: 20.5 }],
    ['Picks!H11', { formula: 'ROW()', result: 11 }],
    ...masses(4, 5, 6).map((value, n) => [`Picks!J${FIRST + n}`, value] as const),
    ['Lots!A1', 'third pick is of'],
    ['Lots!B1', { formula: 'INDEX(Picks!B4:B15,3)', result: at(6).lot }],
    ['Lots!A2', 'all'],
    ['Lots!B2', { formula: 'SUM(Net)', result: sum(picks) * SHARE }],
    ...[
      ['Oak', 11],
      ['Ash', 9.5],
    ].flatMap(([name, price], n) => [
      [`Prices!A${n + 1}`, name] as const,
      [`Prices!B${n + 1}`, price] as const,
    ]),
  ]);
  for (const [place, value] of expected) if (value === null) expected.delete(place);
  const library = await read(saved);
  expect(rounded(cellsOf(library))).toEqual(rounded(expected));

  const sheet = library.getWorksheet('Picks')!;
  const before = (await read(original)).getWorksheet('Picks')!;
  picks.forEach((pick, n) => {
    const row = sheet.getRow(FIRST + n);
    expect([row.hidden, row.getCell(4).numFmt, row.getCell(1).numFmt]).toEqual([
      !isOak(pick),
      '0.00',
      'd/m/yyyy',
    ]);
  });
  for (let row = FIRST; row <= LAST; row++) {
    expect(sheet.getCell(row, 3).dataValidation).toEqual(before.getCell(row, 3).dataValidation);
  }
  expect(sheet.autoFilter).toBeTruthy();
  expect(sheet.model.merges).toEqual(before.model.merges);
  expect(sheet.getRow(3).getCell(1).font.bold).toBe(true);
  expect(sheet.getCell('B5').note).toEqual(before.getCell('B5').note);
  expect(library.definedNames.getRanges('Net').ranges).toEqual(['Picks!$E$4:$E$15']);
  expect(library.getWorksheet('Prices')!.state).toBe('hidden');
  const [was, is] = [Package.open(original), Package.open(saved)];
  expect([...is.names].sort()).toEqual([...was.names, 'docProps/custom.xml'].sort());
  const rewritten = was.names.filter((part) => was.text(part) !== is.text(part));
  // Its filter and numbers are new; the package names the version that saved it; the filter has a name.
  expect(rewritten.sort()).toEqual(
    [
      '[Content_Types].xml',
      '_rels/.rels',
      'xl/styles.xml',
      'xl/workbook.xml',
      'xl/worksheets/sheet1.xml',
      'xl/worksheets/sheet2.xml',
    ].sort(),
  );
  for (const rule of ['conditionalFormatting', 'mergeCells']) {
    const within = (file: Package) =>
      new RegExp(`<${rule}[ >].*</${rule}>`, 's').exec(file.text('xl/worksheets/sheet1.xml'))?.[0];
    expect([rule, within(is)]).toEqual([rule, within(was)]);
  }
});

async function read(bytes: Uint8Array): Promise<ExcelJS.Workbook> {
  const library = new ExcelJS.Workbook();
  await library.xlsx.load(bytes as unknown as Parameters<typeof library.xlsx.load>[0]);
  return library;
}

function cellsOf(library: ExcelJS.Workbook): Map<string, unknown> {
  const cells = new Map<string, unknown>();
  library.eachSheet((sheet) =>
    sheet.eachRow((row) =>
      row.eachCell((cell) => {
        const { value } = cell;
        const own = cell.formula;
        cells.set(`${sheet.name}!${cell.address}`, own ? { formula: own, result: cell.result } : value);
      }),
    ),
  );
  return cells;
}

/** As text, row by row, with twelve digits. */
const rounded = (cells: ReadonlyMap<string, unknown>): string[] =>
  [...cells]
    .map(
      ([place, value]) =>
        `${place} ${JSON.stringify(value, (_, one: unknown) => (typeof one === 'number' ? Number(one.toPrecision(12)) : one))}`,
    )
    .sort();
