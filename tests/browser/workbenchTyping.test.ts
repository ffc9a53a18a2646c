import { afterAll, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { Package } from '../../src/hosts/xlsx/package';
import { relationshipsOf } from '../../src/hosts/xlsx/parts';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { agreeing, BY_HAND, freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// One page with one book, in the order of a person's hour with it: each test goes on where the one before stopped.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser);
  seen = await watch(page);
  const body = Buffer.from(await book());
  await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body }));
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

const day = (year: number, month: number, date: number): number =>
  Math.round((Date.UTC(year, month - 1, date) - Date.UTC(1899, 11, 30)) / 86_400_000);

/** Lots in a table, with days as Americans write them, shares and a day in a narrow column; parts named from the root. */
async function book(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.addTable({
    name: 'Lots',
    ref: 'A1',
    columns: ['lot', 'loaded', 'blocks', 'moisture'].map((name) => ({ name })),
    rows: [
      ['L1', new Date(Date.UTC(2026, 2, 4)), 40, 0.62],
      ['L2', new Date(Date.UTC(2026, 2, 18)), 60, 0.6],
    ],
  });
  sheet.getColumn(2).numFmt = 'm/d/yy';
  sheet.getColumn(4).numFmt = '0%';
  sheet.getColumn(5).numFmt = 'd/m/yyyy';
  sheet.getColumn(6).width = 3;
  sheet.getCell('F2').value = new Date(Date.UTC(2026, 4, 1));
  sheet.getCell('F2').numFmt = 'yyyy-mm-dd';
  sheet.getCell('G1').value = { formula: 'SUM(Lots[blocks])', result: 100 };
  sheet.getCell('G2').fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FF3E5F4C' } };
  const file = Package.open(new Uint8Array(await workbook.xlsx.writeBuffer()));
  const absolute = file.names.flatMap((name): [string, string][] => {
    const source = /^(.*)_rels\/(.*)\.rels$/.exec(name);
    if (!source || source[1] === '') return [];
    const targets = new Map(
      relationshipsOf(file, `${source[1]}${source[2]}`).map((one) => [one.id, one.target]),
    );
    const text = file
      .text(name)
      .replace(/(<Relationship [^>]*?Id="([^"]*)"[^>]*?Target=")[^"]*"/g, (all, before: string, id: string) =>
        targets.has(id) ? `${before}/${targets.get(id)}"` : all,
      );
    return [[name, text]];
  });
  return file.with(new Map(absolute));
}

/** By the box that names the cell, from which Enter goes there. */
async function goTo(address: string): Promise<void> {
  await page.locator('#place').fill(address);
  await page.keyboard.press('Enter');
  await page.waitForFunction(
    (wanted) => (document.getElementById('place') as HTMLInputElement).value === wanted,
    address,
  );
}

async function type(address: string, text: string): Promise<void> {
  await goTo(address);
  await page.keyboard.type(text, BY_HAND);
  await page.keyboard.press('Enter');
}

async function shownAt(address: string): Promise<string> {
  await goTo(address);
  return page.locator('#shown').innerText();
}

async function saved() {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).click(),
  ]);
  const bytes = new Uint8Array(await readFile(await download.path()));
  const cells = readWorkbook(bytes).sheets[0]!.cells;
  return { bytes, at: (address: string) => cells.find((cell) => cell.address === address) };
}

test('a book whose parts are named from the root keeps its colours and widths on the screen', async () => {
  const colour = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('#grid canvas')!;
    const at = (x: number, y: number) => [...canvas.getContext('2d')!.getImageData(x, y, 1, 1).data];
    const all = new Set<string>();
    for (let x = 50; x < canvas.width; x += 6) all.add(at(x, 26 + 23 + 11).join());
    return [...all];
  });
  expect(colour).toContain('62,95,76,255');
});

test('days typed as the book writes them are the days that were meant', async () => {
  expect(await page.locator('#habits').innerText()).toContain('month/day/year');
  await type('B2', '3/4/2026');
  await type('B3', '4/5/26');
  await type('H3', '3/4/26');
  expect(await shownAt('B2')).toBe('3/4/26');
  const { at } = await saved();
  expect(at('B2')).toMatchObject({ value: day(2026, 3, 4), numberFormat: 'm/d/yy' });
  expect(at('B3')).toMatchObject({ value: day(2026, 4, 5), numberFormat: 'm/d/yy' });
  expect(at('H3')).toMatchObject({ value: day(2026, 3, 4), followsReader: true });
});

test('a day against the order of its column is asked about', async () => {
  await type('E2', '3/4/2026');
  await page.locator('#asking').getByRole('button', { name: '3 April 2026' }).click();
  const { at } = await saved();
  expect(at('E2')?.value).toBe(day(2026, 4, 3));
});

test('70 and 70% in a cell of percent are 70 %', async () => {
  await type('D2', '70%');
  await type('D3', '71');
  expect(await shownAt('D2')).toBe('70%');
  const { at } = await saved();
  expect([at('D2')?.value, at('D3')?.value]).toEqual([0.7, 0.71]);
});

test('a cell that is drawn between a key and its letter loses no letter', async () => {
  await goTo('E9');
  const keys = await page.context().newCDPSession(page);
  const busy = page.evaluate(() => {
    const place = document.getElementById('place') as HTMLInputElement;
    place.focus();
    place.value = 'D3';
    place.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
    for (const until = performance.now() + 200; performance.now() < until;);
  });
  await keys.send('Input.dispatchKeyEvent', {
    type: 'rawKeyDown',
    key: '8',
    code: 'Digit8',
    windowsVirtualKeyCode: 56,
  });
  await busy;
  await page.evaluate(
    () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
  );
  await keys.send('Input.dispatchKeyEvent', { type: 'char', text: '8' });
  await keys.send('Input.dispatchKeyEvent', {
    type: 'keyUp',
    key: '8',
    code: 'Digit8',
    windowsVirtualKeyCode: 56,
  });
  await page.keyboard.type('2', BY_HAND);
  await page.keyboard.press('Enter');
  expect(await shownAt('D3')).toBe('82%');
});

test('days that are pasted are read as those that are typed', async () => {
  await goTo('B2');
  await page.evaluate(() => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', '3/5/2026\t41\n4/6/26\t61');
    const target = document.activeElement ?? document.body;
    target.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  });
  await page.waitForFunction(() => document.getElementById('shown')?.textContent === '3/5/26');
  const { at } = await saved();
  expect(['B2', 'C2', 'B3', 'C3'].map((one) => at(one)?.value)).toEqual([
    day(2026, 3, 5),
    41,
    day(2026, 4, 6),
    61,
  ]);
});

test('redo with nothing undone does nothing', async () => {
  await type('J1', '7');
  await goTo('J2');
  expect(await page.locator('#redo').isDisabled()).toBe(true);
  await page.keyboard.press('Control+y');
  await page.keyboard.press('F4');
  await goTo('J1');
  await goTo('J2');
  expect(await page.locator('#shown').isHidden()).toBe(true);
});

test('a day wider than its column is drawn as #### and told in the line above', async () => {
  await page.evaluate(() => {
    const drawn: string[] = [];
    const draw = CanvasRenderingContext2D.prototype;
    // eslint-disable-next-line @typescript-eslint/unbound-method
    const { fillText } = draw;
    draw.fillText = function (this: CanvasRenderingContext2D, ...given: Parameters<typeof fillText>) {
      drawn.push(given[0]);
      return fillText.apply(this, given);
    };
    Object.assign(window, { drawn });
  });
  await goTo('F2');
  await page.waitForFunction(() => (window as unknown as { drawn: string[] }).drawn.includes('L2'));
  const drawn = await page.evaluate(() => (window as unknown as { drawn: string[] }).drawn);
  expect(drawn.filter((text) => text.startsWith('2026-05'))).toEqual([]);
  expect(drawn.some((text) => /^#+$/.test(text))).toBe(true);
  expect(await page.locator('#shown').innerText()).toBe('2026-05-01');
  expect(await page.locator('#reason').innerText()).toBe('the column is too narrow to show it');
});

test('a width that is changed by hand is in the saved file', async () => {
  const { x, y } = (await page.locator('#grid .o-grid > canvas').first().boundingBox())!;
  const numbers = 48;
  const handle = page.locator('#grid .o-col-resizer .o-handle');
  let border = x + numbers + 20;
  while ((await handle.count()) === 0) {
    await page.mouse.move((border += 3), y + 12);
    await page.evaluate(
      () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
    );
    if (border > x + 400) throw new Error('no border of a column was found');
  }
  const grip = (await handle.boundingBox())!;
  border = grip.x + grip.width / 2;
  await page.mouse.move(border, y + 12);
  await page.mouse.down();
  await page.mouse.move(border + 30, y + 12);
  await page.mouse.move(border + 60, y + 12);
  await page.mouse.up();
  const { bytes } = await saved();
  const sheet = Package.open(bytes).text('xl/worksheets/sheet1.xml');
  const [, width] = /<col (?=[^>]*min="1")(?=[^>]*max="1")[^>]*width="([^"]*)"/.exec(sheet)!;
  // A character has 7 pixels, a cell 5 of margin.
  expect(Math.abs(Number(width) - (border - x - numbers + 60 - 5) / 7)).toBeLessThan(1.5);
});

test('table references are typed, shown, edited and saved as they are written', async () => {
  await type('G3', '=ROWS(Lots[#All])');
  expect(await shownAt('G3')).toBe('3');
  expect(await page.locator('#formula').innerText()).toBe('=ROWS(Lots[#All])');
  await goTo('G1');
  await page.keyboard.press('F2');
  // On a slow machine the caret comes after the formula.
  await page.waitForFunction(() =>
    [...document.querySelectorAll('.o-composer')].some((field) => field.textContent === '=SUM(Lots[blocks])'),
  );
  await page.keyboard.press('End');
  await page.keyboard.type('+1', BY_HAND);
  await page.keyboard.press('Enter');
  expect(await shownAt('G1')).toBe('103');
  expect(await page.locator('#formula').innerText()).toBe('=SUM(Lots[blocks])+1');
  const { bytes } = await saved();
  const sheet = Package.open(bytes).text('xl/worksheets/sheet1.xml');
  expect(sheet).toContain('>SUM(Lots[blocks])+1<');
  expect(sheet).toContain('>ROWS(Lots[#All])<');
});

test('Tab goes right, and Enter behind it goes back to the column where the run began', async () => {
  await goTo('J5');
  for (const [text, key] of [
    ['1', 'Tab'],
    ['2', 'Tab'],
    ['3', 'Enter'],
    ['4', 'Enter'],
  ] as const) {
    await page.keyboard.type(text, BY_HAND);
    await page.keyboard.press(key);
  }
  const { at } = await saved();
  expect(['J5', 'K5', 'L5', 'J6'].map((address) => at(address)?.value)).toEqual([1, 2, 3, 4]);
});

test('keys that come faster than cells are drawn, as a scanner sends them, are in the cells they were meant for', async () => {
  const atOnce = (...keys: readonly string[]): Promise<unknown> =>
    Promise.all(keys.map((key) => page.keyboard.press(key)));
  await goTo('K15');
  await atOnce('7', '8', 'Enter', '9', '1', 'Enter', '4', '5', 'Enter');
  await page.waitForFunction(() => (document.getElementById('place') as HTMLInputElement).value === 'K18');
  // Over what the cells hold by now.
  await goTo('K16');
  await atOnce('6', 'Tab', '2', '3', 'Enter', '5', 'Enter');
  await page.waitForFunction(() => (document.getElementById('place') as HTMLInputElement).value === 'K18');
  const { at } = await saved();
  expect(['K15', 'K16', 'L16', 'K17'].map((address) => at(address)?.value)).toEqual([78, 6, 23, 5]);
});

test('a row that is inserted is saved; undo takes it back, and redo brings it and nothing undone before it', async () => {
  await type('J8', 'before');
  await type('J9', 'taken back');
  await page.locator('#undo').click();
  await goTo('A3');
  await page.locator('#sheet-button').click();
  await page.getByRole('button', { name: 'Insert rows above' }).click();
  await page.waitForFunction(() => document.getElementById('notice')?.textContent?.startsWith('Inserted'));
  const { at } = await saved();
  expect([at('A4')?.value, at('J9')?.value, at('J10')?.value]).toEqual(['L2', 'before', undefined]);
  expect(at('G1')).toMatchObject({ written: '=SUM(Lots[blocks])+1', value: 103 });
  await page.locator('#undo').click();
  expect(await shownAt('J8')).toBe('before');
  await page.locator('#redo').click();
  expect(await shownAt('J9')).toBe('before');
  expect(await page.locator('#redo').isDisabled()).toBe(true);
});

test('who turns to the address while the cells come back keeps the keyboard there', async () => {
  for (const button of ['undo', 'redo']) {
    await page.evaluate((id) => {
      document.getElementById(id)!.click();
      document.getElementById('place')!.focus();
    }, button);
    await page.locator('#grid > div:not([inert]) .o-grid').waitFor();
    await page.keyboard.type('J3');
    await page.keyboard.press('Enter');
    expect(await page.locator('#place').inputValue()).toBe('J3');
    await page.keyboard.press('ArrowDown');
    expect(await page.locator('#place').inputValue()).toBe('J4');
  }
});

test('what was typed is here again after a reload, until the person forgets it', async () => {
  await type('J12', '3/4/2026 6:30');
  expect(await shownAt('J12')).toBe('3/4/2026 06:30');
  await page.locator('#kept[data-all="true"]').waitFor();
  await page.reload();
  await page.waitForFunction(() => document.getElementById('notice')?.textContent?.includes('is here again'));
  expect(await shownAt('J12')).toBe('3/4/2026 06:30');
  await page.locator('#forget').click();
  await page.locator('#kept').waitFor({ state: 'hidden' });
  await agreeing(page, () => page.reload());
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
  await goTo('J1');
  await goTo('J12');
  expect(await page.locator('#shown').isHidden()).toBe(true);
});
