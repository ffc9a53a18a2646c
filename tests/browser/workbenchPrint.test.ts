import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { choose, goTo, says } from './byHand';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// A sheet on paper: what its file says of print areas, titles and the page is done, and nothing is too small to be read.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  const workbook = new ExcelJS.Workbook();
  const list = workbook.addWorksheet('Weighing', {
    pageSetup: {
      printArea: 'A1:C40&&E3:F5',
      printTitlesRow: '3:3',
      orientation: 'portrait',
      fitToPage: true,
      fitToHeight: 0,
    },
  });
  list.getCell('A1').value = 'What goes into the mixer, batch by batch, in the order in which it is weighed';
  list.getRow(3).values = ['batch', 'ingredient', 'mass', null, 'scale', 'tare', null, 'not for paper'];
  for (let row = 4; row <= 40; row++) list.getRow(row).values = [row - 3, 'oak sawdust', 79.1];
  list.getRow(4).getCell(5).value = 'floor';
  list.getRow(5).getCell(6).value = 1.5;
  list.getCell('H40').value = 'a note of the office';
  const form = workbook.addWorksheet('Form', { pageSetup: { printArea: 'A1:B6' } });
  form.getRow(1).values = ['lot', 'weighed'];
  for (const address of ['A2', 'B2', 'A3', 'B3']) {
    form.getCell(address).border = { bottom: { style: 'thin', color: { argb: 'FF00AA00' } } };
  }
  const broad = workbook.addWorksheet('Broad', { pageSetup: { orientation: 'landscape' } });
  broad.getRow(1).values = Array.from({ length: 40 }, (_, at) => `Column-${at + 1}`);
  broad.getRow(2).values = Array.from({ length: 40 }, (_, at) => at * 1000);
  const body = Buffer.from(await workbook.xlsx.writeBuffer());
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser, { colorScheme: 'dark' });
  seen = await watch(page);
  await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body }));
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
  await page.evaluate(() => {
    window.print = () => {
      document.body.dataset['printed'] = 'yes';
    };
  });
});
beforeEach(() => page.evaluate(() => delete document.body.dataset['printed']));
afterAll(async () => {
  await leave(page);
  expect(seen).toEqual({ errors: [], strayed: [] });
  await browser.close();
  await server.close();
});

/** What is printed of a sheet: the paper, and of each part its heads, its other rows and how large its letters are. */
async function printed(sheet: string) {
  await goTo(page, `${sheet}!A1`);
  await page.keyboard.press('Control+p');
  await page.waitForFunction(() => document.body.dataset['printed'] === 'yes');
  return page.evaluate(() => {
    const texts = (rows: Iterable<HTMLTableRowElement>) =>
      [...rows].map(({ cells }) =>
        [...cells]
          .map(({ textContent }) => textContent)
          .join(' ')
          .trim(),
      );
    return {
      paper: /size: (\w+)/.exec(document.querySelector('#print style')!.textContent)![1],
      parts: [...document.querySelectorAll('#print section')].map((section) => ({
        head: texts(section.querySelectorAll<HTMLTableRowElement>('thead tr')),
        rows: texts(section.querySelectorAll<HTMLTableRowElement>('tbody tr')),
        zoom: Number(section.querySelector('table')!.style.getPropertyValue('zoom')),
      })),
    };
  });
}

test('each print area is a page of its own, under the rows that the file repeats, and nothing else is on it', async () => {
  const { paper, parts } = await printed('Weighing');
  expect(paper).toBe('portrait');
  expect(parts.map(({ head }) => head)).toEqual([['batch ingredient mass'], ['scale tare']]);
  expect(parts[0]!.rows[0]).toMatch(/^What goes into the mixer/);
  expect(parts[0]!.rows.slice(2, 4)).toEqual(['1 oak sawdust 79.1', '2 oak sawdust 79.1']);
  expect(parts[0]!.rows).toHaveLength(39);
  expect(parts[1]!.rows).toEqual(['floor', '1.5']);
  // The long title is on lines of its own: it makes no figure smaller.
  for (const { zoom } of parts) expect(zoom).toBeGreaterThanOrEqual(1);
});

test('areas move with rows that are put in, and back again', async () => {
  await goTo(page, 'Weighing!A4');
  await choose(page, 'Insert rows');
  await says(page, 'Inserted 1 row');
  const { parts } = await printed('Weighing');
  expect(parts.map(({ head }) => head)).toEqual([['batch ingredient mass'], ['scale tare']]);
  expect(parts[0]!.rows.at(-1)).toBe('37 oak sawdust 79.1');
  expect(parts[0]!.rows).toHaveLength(40);
  await page.locator('#undo').click();
  await page.waitForFunction(() => document.querySelector<HTMLButtonElement>('#undo')!.disabled);
  expect((await printed('Weighing')).parts[0]!.rows).toHaveLength(39);
});

test('a form has its lines, to be written on, as far as its area goes', async () => {
  const { parts } = await printed('Form');
  expect(parts).toHaveLength(1);
  expect(parts[0]!.rows).toHaveLength(3);
  const line = await page
    .locator('#print tr:last-child td:last-child')
    .evaluate((cell) => cell.style.borderBottomColor);
  expect(line).toBe('rgb(0, 170, 0)');
});

test('more columns than can be read on a page go on further pages, each of which begins with the first', async () => {
  const { paper, parts } = await printed('Broad');
  expect(paper).toBe('landscape');
  expect(parts.length).toBeGreaterThan(1);
  const heads = parts.map(({ head, rows }) => [...head, ...rows][0]!.split(' '));
  expect(heads.map(([first]) => first)).toEqual(parts.map(() => 'Column-1'));
  expect(heads.flatMap((head) => head.slice(1))).toEqual(
    Array.from({ length: 39 }, (_, at) => `Column-${at + 2}`),
  );
  for (const { zoom } of parts) expect(zoom).toBeGreaterThanOrEqual(0.65);
});

test('paper is white by night, and nothing on it is wider than the paper', async () => {
  await printed('Weighing');
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const looks = await page.evaluate(() => ({
    ground: getComputedStyle(document.body).backgroundColor,
    letters: getComputedStyle(document.querySelector('#print tbody td')!).color,
    widest: Math.max(
      ...[...document.querySelectorAll('#print table')].map((table) => table.getBoundingClientRect().width),
    ),
  }));
  await page.emulateMedia({ media: 'screen', colorScheme: 'dark' });
  expect(looks).toMatchObject({ ground: 'rgb(255, 255, 255)', letters: 'rgb(0, 0, 0)' });
  // A4 upright, 210 mm of which 24 are margins, at 96 pixels an inch.
  expect(looks.widest).toBeLessThanOrEqual((186 / 25.4) * 96);
});
