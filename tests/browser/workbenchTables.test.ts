import { afterAll, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { goTo, savedCopy, typeInto } from './byHand';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// A list that is kept in a table, and goes on below it.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.addTable({
    name: 'Lots',
    ref: 'A1',
    columns: [{ name: 'lot', filterButton: true }, { name: 'loaded' }, { name: 'blocks' }, { name: 'kg' }],
    rows: [
      ['007', new Date(Date.UTC(2026, 2, 4)), 40, { formula: 'C2*2.4', result: 96 }],
      ['008', new Date(Date.UTC(2026, 2, 18)), 60, { formula: 'C3*2.4', result: 144 }],
    ],
  });
  for (const row of [2, 3]) {
    sheet.getCell(row, 1).numFmt = '@';
    sheet.getCell(row, 2).numFmt = 'd mmm yyyy';
  }
  sheet.getCell('F1').value = { formula: 'SUM(Lots[blocks])', result: 100 };
  sheet.getCell('F2').value = { formula: 'ROWS(Lots[#All])', result: 3 };
  const body = Buffer.from(await workbook.xlsx.writeBuffer());
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser);
  seen = await watch(page);
  await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body }));
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
});
afterAll(async () => {
  await leave(page);
  expect(seen).toEqual({ errors: [], strayed: [] });
  await browser.close();
  await server.close();
});

const shows = async (address: string, text: string): Promise<void> => {
  await goTo(page, address);
  await page.waitForFunction((wanted) => document.getElementById('shown')!.innerText === wanted, text);
};

test('what is typed below a table is a row of it, in the saved file too, until it is taken back', async () => {
  await typeInto(page, 'A4', '009');
  await shows('F2', '4');
  await typeInto(page, 'C4', '10');
  await shows('F1', '110');
  await shows('A4', '009');
  await shows('D4', '24');
  await typeInto(page, 'B4', '5 Apr 2026');
  await shows('B4', '5 Apr 2026');
  const { vocabulary, sheets } = readWorkbook(await savedCopy(page));
  expect(vocabulary!.table('Lots')!.area).toEqual({ top: 0, left: 0, bottom: 3, right: 3 });
  const row = Object.fromEntries(
    sheets[0]!.cells.filter(({ address }) => address.endsWith('4')).map((cell) => [cell.address, cell]),
  );
  expect(row).toMatchObject({
    A4: { value: '009', numberFormat: '@' },
    B4: { value: 46_117, numberFormat: 'd mmm yyyy' },
    C4: { value: 10 },
    D4: { value: 24, formula: '=C4*2.4' },
  });
  for (let step = 0; step < 3; step++) await page.locator('#undo').click();
  await page.waitForFunction(() => document.querySelector<HTMLButtonElement>('#undo')!.disabled);
  await shows('F2', '3');
  await shows('F1', '100');
  await shows('D4', '');
  const before = readWorkbook(await savedCopy(page));
  expect(before.vocabulary!.table('Lots')!.area.bottom).toBe(2);
  expect(before.sheets[0]!.cells.filter(({ address }) => address.endsWith('4'))).toEqual([]);
});
