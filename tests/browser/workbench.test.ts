import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { openWorkbook } from '../../src/hosts/engine/openWorkbook';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import type { WorkbookContent } from '../../src/hosts/xlsx/content';
import { patchWorkbook } from '../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { largeFarm } from '../worksheet/loadingFarm';
import { workbooks } from '../../sample-workbooks/workbooks';
import { BY_HAND, freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

const SIZES = [
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
] as const;

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});
afterEach(() => {
  expect(seen).toEqual({ errors: [], strayed: [] });
});

/** Each opening calculates the whole book: tests that leave nothing for the next to stumble over share one. */
async function open(): Promise<void> {
  page = await freshPage(browser, { viewport: SIZES[0] });
  seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
}

/** Row 1: a number, as many numbers, their sum, a fault, and a formula with a function the engine lacks. */
async function smallWorkbook(): Promise<Buffer> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Work');
  sheet.getCell('A1').value = 3;
  sheet.getCell('A3').value = 'kept as it is';
  sheet.getCell('A3').font = { bold: true };
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  return Buffer.from(
    patchWorkbook(bytes, [
      { sheet: 'Work', address: 'B1', formula: '=SEQUENCE(A1)', values: [[1], [2], [3]] },
      { sheet: 'Work', address: 'C1', formula: '=SUM(B1:B10)', values: [[6]] },
      { sheet: 'Work', address: 'D1', formula: '=PINSET.BIOEFFICIENCY(1.2,4.5,A1)', values: [[null]] },
      { sheet: 'Work', address: 'E1', formula: '=GROWLIGHT(A1)', values: [[3]] },
    ]),
  );
}

async function give(name: string, bytes: Buffer): Promise<void> {
  await page.locator('#picker').setInputFiles({ name, mimeType: '', buffer: bytes });
  await page.waitForFunction((wanted) => document.getElementById('file')?.textContent === wanted, name);
  // What was waited for is here.
  expect(await page.locator('#notice').innerText()).not.toContain('being worked out');
  // The keyboard goes to the grid once the person has been in it: a click on its first cells.
  const { x, y } = (await page.locator('#grid canvas').first().boundingBox())!;
  await page.mouse.click(x + 80, y + 40);
}

/** Goes to a cell of the first columns and rows with the keyboard. */
async function goTo(address: string): Promise<void> {
  await page.keyboard.press('Control+Home');
  for (let right = address.charCodeAt(0) - 65; right > 0; right--) await page.keyboard.press('ArrowRight');
  for (let down = Number(address.slice(1)) - 1; down > 0; down--) await page.keyboard.press('ArrowDown');
  await page.waitForFunction(
    (wanted) => document.querySelector<HTMLInputElement>('#place')?.value === wanted,
    address,
  );
}

async function enter(address: string, text: string): Promise<void> {
  await goTo(address);
  await page.keyboard.type(text, BY_HAND);
  // Enter before the grid has taken in every key would take its suggestion for the name half typed.
  await page.waitForFunction(
    (wanted) => [...document.querySelectorAll('.o-composer')].some((field) => field.textContent === wanted),
    text,
  );
  await page.keyboard.press('Enter');
}

/** Waits until a cell shows a text: the page draws after it has calculated. */
async function expectShown(address: string, text: string): Promise<void> {
  await goTo(address);
  const shown = page.locator('#shown');
  await shown.filter({ hasText: new RegExp(`^${text.replace('.', '\\.')}$`) }).waitFor();
  expect(await shown.innerText()).toBe(text);
}

describe('the sample workbooks', () => {
  beforeAll(open);
  afterAll(() => leave(page));

  test('the first is open, its formulas live, its deliberate mistakes listed with their reasons', async () => {
    expect(await page.locator('#tabs').getByRole('tab').allInnerTexts()).toContain('Lots');
    await page.locator('#findings-button').click();
    const finding = page.locator('.findings li').first();
    const text = await finding.innerText();
    expect(text).toMatch(/^Lots![A-Z]+\d+ and 3 more of the same cause\s+#(VALUE!|N\/A): .+/);
    await finding.locator('fluent-button').click();
    await page.waitForFunction((wanted) => {
      const place = document.querySelector<HTMLInputElement>('#place')!.value;
      return place !== '' && wanted.includes(`!${place} `);
    }, text);
    expect(text).toContain(await page.locator('#reason').innerText());
    expect(await page.locator('#formula').innerText()).toContain('PINSET.');
  });

  // What a file holds is what its formulas give without a page: tests/samples/workbooks.test.ts.
  test.each(workbooks.map(({ file }) => `${file}.xlsx`))(
    'give every cell the value that the same formulas give without a page: %s',
    async (file) => {
      const bytes = await readFile(join(__dirname, '../../sample-workbooks', file));
      if ((await page.locator('#file').innerText()) !== file) await give(file, bytes);
      const held = readWorkbook(new Uint8Array(bytes));
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save a copy' }).click(),
      ]);
      const saved = readWorkbook(new Uint8Array(await readFile(await download.path())));
      const formulas = saved.sheets.flatMap(({ name, cells }) =>
        cells.filter(({ formula }) => formula !== undefined).map((cell) => ({ sheet: name, ...cell })),
      );
      expect(formulas.length).toBeGreaterThan(10);
      for (const { sheet, address, value } of formulas) {
        const { cells } = held.sheets.find(({ name }) => name === sheet)!;
        const wanted = cells.find((cell) => cell.address === address)!.value;
        expect({ sheet, address, value: toDigits(codeOf(value)) }).toEqual({
          sheet,
          address,
          value: toDigits(codeOf(wanted)),
        });
      }
      if (file === 'loading-plan.xlsx') await expectChart(held);
    },
  );
});

/** A chart of columns and a line is drawn as the file has it, of the cells as they are now. */
async function expectChart(plan: WorkbookContent): Promise<void> {
  await page.locator('#tabs').getByRole('tab', { name: 'Picks' }).click();
  const canvas = page.locator('#grid .o-figure canvas').first();
  await canvas.waitFor();
  const drawn = await canvas.evaluate((element) => {
    interface Drawn {
      readonly data: { readonly datasets: { type: string; data: number[]; borderDash?: number[] }[] };
      readonly legend: { readonly legendItems: { lineDash?: number[] }[] };
    }
    const { Chart } = window as unknown as { Chart: { getChart: (on: Element) => Drawn } };
    const { data, legend } = Chart.getChart(element);
    return {
      series: data.datasets.map(({ type, data: [first] }) => ({ type, first })),
      dashed: data.datasets.map(({ borderDash = [] }) => borderDash.length > 0),
      dashedInLegend: legend.legendItems.map(({ lineDash = [] }) => lineDash.length > 0),
    };
  });
  const picks = plan.sheets.find(({ name }) => name === 'Picks')!;
  const at = (address: string) => picks.cells.find((cell) => cell.address === address)!.value as number;
  expect(drawn.series).toEqual([
    { type: 'bar', first: expect.closeTo(at('C5'), 9) },
    { type: 'bar', first: expect.closeTo(at('D5'), 9) },
    { type: 'line', first: expect.closeTo(at('E5'), 9) },
  ]);
  // The limit is the only dashed line, in the legend too.
  expect([drawn.dashed, drawn.dashedInLegend]).toEqual([
    [false, false, true],
    [false, false, true],
  ]);
}

/** Browsers and Node round powers and logarithms differently in the last digit of a double. */
const toDigits = (value: unknown): unknown => (typeof value === 'number' ? value.toPrecision(13) : value);

const codeOf = (value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'code' in value ? value.code : (value ?? '');

describe("a grower's own workbook", () => {
  afterEach(() => leave(page));
  beforeEach(async () => {
    await open();
    await give('my farm.xlsx', await smallWorkbook());
  });

  test('an edit changes what depends on it; a result that fills cells grows and shrinks', async () => {
    await expectShown('C1', '6');
    await enter('A1', '5');
    await expectShown('C1', '15');
    await expectShown('B5', '5');
    await enter('A1', '2');
    await expectShown('C1', '3');
    await goTo('B3');
    expect(await page.locator('#shown').isHidden()).toBe(true);
    await page.locator('#undo').click();
    await page.waitForFunction(() => document.getElementById('shown')?.textContent === '3');
  });

  test('a fault says why in the line above the grid', async () => {
    await goTo('D1');
    expect(await page.locator('#shown').innerText()).toBe('#VALUE!');
    expect(await page.locator('#reason').innerText()).toContain(
      'moisture must be a percentage from 5% to below 100%; it is 3',
    );
    await enter('D1', '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)');
    await expectShown('D1', '66.7%');
  });

  test("a formula the engine lacks a function for is named and keeps the file's result", async () => {
    await goTo('E1');
    expect(await page.locator('#formula').innerText()).toContain('GROWLIGHT(');
    expect(await page.locator('#shown').innerText()).toBe('3');
    expect(await page.locator('#reason').innerText()).toContain('GROWLIGHT');
  });

  test('a saved copy reads back with what was typed, and the rest as it was', async () => {
    await enter('A1', '4');
    await enter('A2', 'typed here');
    await enter('F1', '=C1*2');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save a copy' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('my farm - copy.xlsx');
    const bytes = await readFile(await download.path());
    const [sheet] = readWorkbook(new Uint8Array(bytes)).sheets;
    const at = (address: string): unknown => sheet!.cells.find((cell) => cell.address === address);
    expect(at('A1')).toMatchObject({ value: 4 });
    expect(at('A2')).toMatchObject({ value: 'typed here' });
    expect(at('A3')).toMatchObject({ value: 'kept as it is' });
    expect(at('B1')).toMatchObject({ formula: '=SEQUENCE(A1)', spill: 'B1:B4', value: 1 });
    expect(at('C1')).toMatchObject({ formula: '=SUM(B1:B10)', value: 10 });
    expect(at('E1')).toMatchObject({ formula: '=GROWLIGHT(A1)', value: 3 });
    expect(at('F1')).toMatchObject({ formula: '=C1*2', value: 20 });
    const reread = new ExcelJS.Workbook();
    await reread.xlsx.load(bytes as unknown as Parameters<typeof reread.xlsx.load>[0]);
    expect(reread.getWorksheet('Work')!.getCell('A3').font.bold).toBe(true);
  });
});

/** The large farm, a sheet for each table, and its plan in C1 of the first sheet for as many days as A1 says: few at first. */
async function largePlan(days: number): Promise<Buffer> {
  const workbook = new ExcelJS.Workbook();
  const plan = workbook.addWorksheet('Plan');
  plan.getCell('A1').value = 14;
  const references = largeFarm(200, days).map((grid, at) => {
    if (grid === null) return '';
    if (grid.length === 1) return at === 5 ? 'A1' : JSON.stringify(grid[0]![0]);
    const sheet = workbook.addWorksheet(`T${at}`);
    sheet.addRows(grid.map((row) => [...row]));
    return `T${at}!$A$1:${sheet.getRow(grid.length).getCell(grid[0]!.length).$col$row}`;
  });
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  const formula = `=PINSET.LOADPLAN(${references.join(',')})`;
  return Buffer.from(patchWorkbook(bytes, [{ sheet: 'Plan', address: 'C1', formula, values: [[null]] }]));
}

test('the page goes on while a large plan is worked out, and a copy saved meanwhile holds the new plan', async () => {
  await open();
  await give('large.xlsx', await largePlan(112));
  await expectShown('C1', 'loaded');
  await page.evaluate(() => {
    const scope = window as unknown as { ticks: number[] };
    scope.ticks = [];
    setInterval(() => scope.ticks.push(performance.now()), 20);
  });
  await enter('A1', '112');
  const start = performance.now();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).click(),
  ]);
  const time = performance.now() - start;
  const ticks = await page.evaluate(() => (window as unknown as { ticks: number[] }).ticks);
  expect(Math.max(...ticks.slice(1).map((tick, n) => tick - ticks[n]!))).toBeLessThan(time / 2);
  const saved = readWorkbook(new Uint8Array(await readFile(await download.path())));
  const inPage = saved.sheets[0]!.cells.find(({ address }) => address === 'C1')!;
  const headless = (await openWorkbook(saved)).result('Plan', 'C1');
  expect(inPage.spill).toBe(`C1:M${headless.block!.length}`);
  expect(headless.block!.length).toBeGreaterThan(50);
  await leave(page);
});

describe('the page', () => {
  beforeAll(open);
  afterAll(() => leave(page));

  test('sheets are changed with the keyboard, and every control has a name', async () => {
    await page.locator('#tabs').getByRole('tab', { name: 'Start' }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#tabs').getByRole('tab', { selected: true }).innerText()).toBe('Ready');
    const nameless = await page
      .locator('button, a')
      .evaluateAll((all) =>
        all
          .filter((one) => (one.textContent ?? '').trim() === '' && !one.getAttribute('aria-label'))
          .map((one) => one.outerHTML),
      );
    expect(nameless).toEqual([]);
  });

  test.each(SIZES)('fits a window of $width by $height without clipping or overlap', async (size) => {
    await page.setViewportSize(size);
    await page.locator('#findings-button').waitFor();
    const faults = await page.evaluate(() => {
      const seen = [
        ...document.querySelectorAll<HTMLElement>('header button, header .names, #tabs button, footer p'),
      ];
      const boxes = seen.map((one) => ({ text: one.innerText, box: one.getBoundingClientRect(), one }));
      const outside = boxes.filter(
        ({ box, one }) =>
          one.closest('#tabs') === null &&
          (box.left < 0 || box.right > innerWidth || box.bottom > innerHeight),
      );
      const clipped = boxes.filter(({ one }) => one.scrollWidth > one.clientWidth + 1);
      const overlapping = boxes.filter(({ box }, at) =>
        boxes.some(
          (other, o) =>
            o > at &&
            box.left < other.box.right - 1 &&
            other.box.left < box.right - 1 &&
            box.top < other.box.bottom - 1 &&
            other.box.top < box.bottom - 1,
        ),
      );
      return [...outside, ...clipped, ...overlapping].map(({ text }) => text);
    });
    expect(faults).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  });

  test('a workbook dropped on the page opens; a file that is none is refused in a sentence and changes nothing', async () => {
    const drop = async (name: string, bytes: Buffer): Promise<void> => {
      const transfer = await page.evaluateHandle(
        ([title, base64]) => {
          const data = new DataTransfer();
          const binary = Uint8Array.from(atob(base64!), (letter) => letter.charCodeAt(0));
          data.items.add(new File([binary], title!));
          return data;
        },
        [name, bytes.toString('base64')],
      );
      await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
    };
    await drop('dropped.xlsx', await smallWorkbook());
    await page.waitForFunction(() => document.getElementById('file')?.textContent === 'dropped.xlsx');
    expect(await page.locator('#tabs').getByRole('tab').allInnerTexts()).toEqual(['Work']);
    await drop('notes.xlsx', Buffer.from('no workbook at all'));
    await page.waitForFunction(() => document.getElementById('notice')?.textContent !== '');
    expect(await page.locator('#notice').innerText()).toContain('notes.xlsx was not opened');
    expect(await page.locator('#file').innerText()).toBe('dropped.xlsx');
  });
});
