import { afterAll, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { addressOf } from '../../src/hosts/xlsx/address';
import { patchWorkbook } from '../../src/hosts/xlsx/patch';
import type { Grid } from '../../src/worksheet/cells/cell';
import { largeFarm, START } from '../worksheet/loadingFarm';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// Sixty-four seasons of six weeks take minutes: a grower sees how far they have come, and can stop them.

const WEEKS = 6;

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser, { viewport: { width: 1024, height: 700 } });
  seen = await watch(page);
});
afterAll(async () => {
  await leave(page);
  await browser.close();
  await server.close();
});

/** A book with a farm's tables on sheets of their own, and the seasons in A1 of the first. */
async function seasonsBook(): Promise<Buffer> {
  const [lots, strains, rooms, orders] = largeFarm(18, 7 * WEEKS) as Grid[];
  const spreading = strains!.map((row, n) => [...row, n === 0 ? 'yield spread' : 0.25]);
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Seasons');
  const tables = Object.entries({ Lots: lots!, Strains: spreading, Rooms: rooms!, Orders: orders! });
  const ranges = tables.map(([name, rows]) => {
    workbook.addWorksheet(name).addRows(rows.map((row) => [...row]));
    return `${name}!A1:${addressOf({ row: rows.length - 1, column: rows[0]!.length - 1 })}`;
  });
  const formula = `=PINSET.SEASON(${ranges.join(',')},${START},${WEEKS},,,,"plan",64)`;
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  return Buffer.from(patchWorkbook(bytes, [{ sheet: 'Seasons', address: 'A1', formula, values: [[null]] }]));
}

test('the workbench shows how far a season has come, stops it, and works it out again when asked', async () => {
  const body = await seasonsBook();
  await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body }));
  await page.goto(`${server.url}workbench.html`);
  const strip = page.locator('.work');
  await strip.filter({ hasText: /^SEASON: \d+%, \d+ s/ }).waitFor();
  expect(await strip.locator('progress').getAttribute('max')).toBe(String(64 * WEEKS));
  await strip.getByRole('button', { name: 'Stop' }).click();
  await strip.filter({ hasText: 'SEASON was stopped; its cells show #N/A.' }).waitFor();
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
  await page.locator('#reason').filter({ hasText: 'stopped before it was worked out' }).waitFor();
  await strip.getByRole('button', { name: 'Work it out' }).click();
  await strip.filter({ hasText: /^SEASON: \d+%, \d+ s/ }).waitFor();
  await strip.getByRole('button', { name: 'Stop' }).click();
  await strip.filter({ hasText: 'was stopped' }).waitFor();
  await page.locator('#reason').filter({ hasText: 'stopped before it was worked out' }).waitFor();
  expect(seen).toEqual({ errors: [], strayed: [] });
});
