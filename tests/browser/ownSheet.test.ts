import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from '@jest/globals';
import { buildSync } from 'esbuild';
import type { Browser, Locator, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import type { FakeCell, FakeExcel } from '../hosts/excel/fakeExcel';
import { auditBook, usBook } from '../hosts/fit/messyBooks';
import { addAxe, seriousFaults } from './axe';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// From opening a messy book to a right answer, in as few clicks as the walk promises; typing answers is not counted.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;
let clicks = 0;
const TODAY = '2026-04-01T12:00:00';

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});
afterEach(async () => {
  await leave(page);
  expect(seen).toEqual({ errors: [], strayed: [] });
});

async function click(what: Locator): Promise<void> {
  clicks++;
  await what.click();
}

const tab = (words: string): Locator => page.locator('fluent-tab', { hasText: words });
const button = (words: string | RegExp): Locator => page.locator('fluent-button', { hasText: words });
const field = (label: string): Locator => page.locator(`[aria-label="${label}"]`);

/** What the preview shows under a header, before anything is written. */
async function previewed(header: string): Promise<string[]> {
  const cells = page.locator(`#gives td[data-head="${header}"]`);
  await cells.first().waitFor();
  return cells.allInnerTexts();
}

/** The pane scrolls down, never sideways. */
const scrollsSideways = (): Promise<boolean> =>
  page.evaluate(() => {
    const panel = document.getElementById('panel-own')!;
    const { scrollWidth, clientWidth } = document.documentElement;
    return panel.scrollWidth > panel.clientWidth || scrollWidth > clientWidth;
  });

const DAYS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'Fernbank-7': {
    ...{ earliest: '60', best: '75', latest: '95', 'first pick': '7', 'pick days': '4' },
    ...{ 'flush gap': '16', flushes: '2', 'flush 1': '65%', 'flush 2': '35%', efficiency: '80%' },
  },
  'Marsh-2': {
    ...{ earliest: '14', best: '18', latest: '40', 'first pick': '6', 'pick days': '3' },
    ...{ 'flush gap': '12', flushes: '2', 'flush 1': '70%', 'flush 2': '30%', efficiency: '90%' },
  },
};

async function typeStrains(...names: string[]): Promise<void> {
  for (const [row, days] of Object.values(DAYS).entries()) {
    for (const name of names) await field(`${name}, row ${row + 1} of strains`).fill(days[name]!);
  }
}

async function typeRooms(): Promise<void> {
  const rooms = [
    ['North', '10', '12'],
    ['South', '8', '12'],
  ];
  for (const [row, values] of rooms.entries()) {
    for (const [at, name] of ['room', 'shelves', 'blocks per shelf'].entries()) {
      await field(`${name}, row ${row + 1} of rooms`).fill(values[at]!);
    }
  }
}

async function lookAtPage(name: string): Promise<void> {
  const folder = process.env['PINSET_SCREENSHOTS'];
  if (folder) await page.screenshot({ path: path.join(folder, `${name}.png`) });
}

/** By hand, as in the test of the command: B-102 from 12 January, B-106 from 14 March, B-104 from 2 February. */
const READY = ['B-102', 'B-106', 'B-104'];

/** What is typed counts when the field is left. */
const leaveField = (): Promise<void> => page.locator('#fitted h3').focus();

async function openInWorkbench(bytes = usBook(), firstSheet = 'Grow log'): Promise<void> {
  page = await freshPage(browser, { viewport: { width: 1280, height: 844 }, bypassCSP: true, at: TODAY });
  seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
  const buffer = Buffer.from(await bytes);
  await page.locator('#picker').setInputFiles({ name: 'mine.xlsx', mimeType: '', buffer });
  await page.waitForFunction(
    (wanted) => document.querySelector('#tabs button')?.textContent === wanted,
    firstSheet,
  );
  clicks = 0;
}

const notice = (words: string): Promise<unknown> =>
  page.waitForFunction((wanted) => document.getElementById('notice')?.textContent?.includes(wanted), words);

async function saved(): Promise<(sheet: string, address: string) => unknown> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).click(),
  ]);
  const { sheets } = readWorkbook(new Uint8Array(await readFile(await download.path())));
  return (sheet, address) =>
    sheets.find(({ name }) => name === sheet)?.cells.find((cell) => cell.address === address)?.value;
}

const sheetTabs = (): Promise<string[]> => page.locator('#tabs button').allInnerTexts();

describe('a messy book in the workbench', () => {
  test('gives the right list of ready lots in at most 5 clicks, and takes it back in one', async () => {
    await openInWorkbench();
    await click(tab('Use my sheet'));
    await click(button('Which lots are ready?'));
    await page.locator('.match').first().waitFor();
    await lookAtPage('own-sheet-ready');
    await typeStrains('earliest', 'best', 'latest');
    await leaveField();
    expect(await previewed('lot')).toEqual(READY);
    expect(await sheetTabs()).toEqual(['Grow log', 'Orders', 'Picks']);
    await click(button('Write it on new sheets'));
    await notice('The answer is on the sheet Ready lots');
    expect(clicks).toBeLessThanOrEqual(5);
    await lookAtPage('own-sheet-ready-written');
    const shown = await saved();
    expect(['A7', 'A8', 'A9'].map((address) => shown('Ready lots', address))).toEqual(READY);
    expect(shown('Grow log', 'D6')).toBe('1/5/26');
    await button('Take it back').click();
    await notice('Taken back');
    expect(await sheetTabs()).toEqual(['Grow log', 'Orders', 'Picks']);
  });

  test('gives a plan that fills the orders in at most 15 clicks', async () => {
    await openInWorkbench();
    await click(tab('Use my sheet'));
    await click(button('Plan my loading'));
    await page.locator('.match').first().waitFor();
    await typeStrains(...Object.keys(DAYS['Marsh-2']!));
    await typeRooms();
    await click(page.getByRole('group', { name: 'Shiitake', exact: true }).getByLabel('Fernbank-7'));
    await click(page.getByRole('group', { name: 'Oyster', exact: true }).getByLabel('Marsh-2'));
    await lookAtPage('own-sheet-plan');
    await click(button('Write it on new sheets'));
    await notice('The answer is on the sheet Loading plan');
    expect(clicks).toBeLessThanOrEqual(15);
    const shown = await saved();
    await lookAtPage('own-sheet-plan-written');
    for (const row of [11, 12, 13]) {
      const [mass, planned] = ['P', 'Q'].map((letter) => Number(shown('Loading plan', `${letter}${row}`)));
      expect(mass).toBeGreaterThan(0);
      expect(planned).toBeGreaterThan(0.99 * mass!);
    }
  });

  test('gives an audit with the grower’s own cells in at most 8 clicks', async () => {
    await openInWorkbench();
    await click(tab('Use my sheet'));
    await click(button('What came off'));
    await page.locator('.match').first().waitFor();
    await typeStrains('first pick', 'pick days', 'efficiency');
    await click(button('Write it on new sheets'));
    await notice('The answer is on the sheet Audit');
    expect(clicks).toBeLessThanOrEqual(8);
    await lookAtPage('own-sheet-audit');
    const shown = await saved();
    expect([shown('Audit', 'A5'), shown('Audit', 'A6')]).toEqual(['Picks!A8', 'Picks!C7']);
  });

  test('goes through an audit lot by lot: a slip is corrected on one click and put back on the next', async () => {
    await openInWorkbench(auditBook(), 'Picks');
    await tab('Use my sheet').click();
    await button('What came off').click();
    await button('Go through it here').click();
    const slip = page.locator('.audit li', { hasText: 'Picks!C9' });
    await slip.waitFor();
    expect(await page.locator('.audit h5').allInnerTexts()).toEqual(
      expect.arrayContaining(['Lot M-3', 'Lot M-5', 'Lot M-44', 'Lot M-7']),
    );
    await slip.scrollIntoViewIfNeeded();
    await lookAtPage('audit-workbench');
    expect(await slip.getByRole('img').getAttribute('aria-label')).toMatch(/marked: 47 kg on 2026-02-22/);
    await slip.locator('fluent-button', { hasText: 'Correct this cell' }).click();
    await notice('Corrected: 1 cell');
    expect((await saved())('Picks', 'C9')).toBe(4.7);
    await slip.locator('fluent-button', { hasText: 'Put it back' }).click();
    await notice('Put back as it was');
    expect((await saved())('Picks', 'C9')).toBe(47);
  });

  test('the check corrects a column of the grower’s on one click, and puts it back on the next', async () => {
    await openInWorkbench();
    await tab('Check').click();
    await button('Check this workbook').click();
    const slips = page.locator('.findings li', { hasText: 'above 100%' });
    await slips.waitFor();
    await lookAtPage('check-data');
    await slips.locator('fluent-button', { hasText: 'Correct these 3' }).click();
    await notice('Corrected: 3 cells');
    expect((await saved())('Grow log', 'F6')).toBe(0.62);
    await slips.locator('fluent-button', { hasText: 'Put it back' }).click();
    await notice('Put back as it was');
    expect((await saved())('Grow log', 'F6')).toBe(62);
    await addAxe(page);
    expect(await seriousFaults(page)).toEqual([]);
  });
});

interface PaneWindow {
  excel: FakeExcel;
}

const fakeExcel = buildSync({
  entryPoints: [path.join(__dirname, '..', 'hosts', 'excel', 'fakeExcel.ts')],
  bundle: true,
  format: 'iife',
  globalName: 'FakeExcel',
  write: false,
}).outputFiles[0]!.text;

async function openInExcel(bytes = usBook(), colorScheme: 'light' | 'dark' = 'light'): Promise<void> {
  page = await freshPage(browser, {
    viewport: { width: 390, height: 844 },
    bypassCSP: true,
    colorScheme,
    at: TODAY,
  });
  seen = await watch(page);
  const sheets = Object.fromEntries(
    readWorkbook(await bytes).sheets.map(({ name, cells }) => [
      name,
      Object.fromEntries(
        cells.map(({ address, value, formula }): [string, FakeCell] => [
          address,
          formula === undefined ? { formula: value } : { formula, shown: value },
        ]),
      ),
    ]),
  );
  await page.route('**/office/office.js', (route) =>
    route.fulfill({
      contentType: 'text/javascript',
      body: `window.Office = { onReady: (f) => Promise.resolve(f && f()) };
        window.CustomFunctions = { associate() {} };
        ${fakeExcel}
        window.excel = new FakeExcel.FakeExcel(${JSON.stringify(sheets)});
        window.Excel = window.excel.api;`,
    }),
  );
  await page.goto(`${server.url}taskpane.html`);
  await page.locator('.functions').first().waitFor();
  clicks = 0;
}

const sheetsInExcel = (): Promise<string[]> =>
  page.evaluate(() => [...(window as unknown as PaneWindow).excel.sheets.keys()]);
const inExcel = (sheet: string, address: string): Promise<unknown> =>
  page.evaluate(
    ([name, at]) => (window as unknown as PaneWindow).excel.sheets.get(name!)?.cells.get(at!)?.formula,
    [sheet, address],
  );
const message = (words: string): Promise<unknown> =>
  page.waitForFunction((wanted) => document.getElementById('message')?.textContent?.includes(wanted), words);

describe('a messy book in Excel', () => {
  const takeBack = async (): Promise<void> => {
    await button('Take it back').click();
    await message('Taken back');
    expect(await sheetsInExcel()).toEqual(['Grow log', 'Orders', 'Picks']);
  };

  test('the same walks show the same answers and write the same formulas, in as few clicks', async () => {
    await openInExcel();
    await click(tab('Use my sheet'));
    await click(button('Which lots are ready?'));
    await page.locator('.match').first().waitFor();
    await lookAtPage('own-sheet-excel');
    await typeStrains('earliest', 'best', 'latest');
    await leaveField();
    expect(await previewed('lot')).toEqual(READY);
    expect(await scrollsSideways()).toBe(false);
    await lookAtPage('own-sheet-excel-preview');
    await click(button('Write it on new sheets'));
    await message('The answer is on the sheet Ready lots');
    expect(clicks).toBeLessThanOrEqual(5);
    expect(await sheetsInExcel()).toEqual(['Grow log', 'Orders', 'Picks', 'Ready lots read', 'Ready lots']);
    expect(await inExcel('Ready lots', 'A6')).toBe(
      "=PINSET.READYLOTS('Ready lots read'!$F$7:$J$16,Strains[#All],B3,B3+B4-1)",
    );
    expect(await inExcel('Grow log', 'D6')).toBe('1/5/26');
    await addAxe(page);
    expect(await seriousFaults(page)).toEqual([]);
    await takeBack();

    // The tab is open already: its click counts all the same.
    clicks = 1;
    await click(button('Plan my loading'));
    await page.locator('.match').first().waitFor();
    await typeStrains(...Object.keys(DAYS['Marsh-2']!));
    await typeRooms();
    await click(page.getByRole('group', { name: 'Shiitake', exact: true }).getByLabel('Fernbank-7'));
    await click(page.getByRole('group', { name: 'Oyster', exact: true }).getByLabel('Marsh-2'));
    const [planned, short] = [await previewed('planned'), await previewed('short')];
    expect(planned.map(Number)).toEqual([25, 30, 20]);
    expect(short.map(Number)).toEqual([0, 0, 0]);
    expect(await scrollsSideways()).toBe(false);
    await lookAtPage('own-sheet-excel-plan');
    await click(button('Write it on new sheets'));
    await message('The answer is on the sheet Loading plan');
    expect(clicks).toBeLessThanOrEqual(15);
    expect(await inExcel('Loading plan', 'M10')).toMatch(/^=PINSET\.LOADPLAN\(.*"orders"\)$/);
    await takeBack();

    clicks = 1;
    await click(button('What came off'));
    await page.locator('.match').first().waitFor();
    await typeStrains('first pick', 'pick days', 'efficiency');
    await leaveField();
    expect(await previewed('what is wrong')).toEqual([
      'the date does not fit the lot',
      'the mass does not fit the lot’s other picks',
    ]);
    expect(await scrollsSideways()).toBe(false);
    await lookAtPage('own-sheet-excel-audit');
    await click(button('Write it on new sheets'));
    await message('The answer is on the sheet Audit');
    expect(clicks).toBeLessThanOrEqual(8);
    expect(await inExcel('Audit', 'A5')).toContain('"Picks"&"!"');
    // The column of what is wrong is wide enough for its longest words.
    const widths = await page.evaluate(
      () => (window as unknown as PaneWindow).excel.sheets.get('Audit')!.widths,
    );
    expect(widths['E1']).toBeGreaterThan(200);
  });

  test('what is still open is told and gets the keyboard; a finding leads to its cell', async () => {
    await openInExcel();
    await tab('Use my sheet').click();
    await button('Plan my loading').click();
    await page.locator('.match').first().waitFor();
    await button('Write it on new sheets').click();
    await message('Still open: Your book has no strains');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
      'earliest, row 1 of strains',
    );
    await tab('Check').click();
    await button('Check this workbook').click();
    const twins = page.locator('.findings li', { hasText: 'Fernbank 7 for Fernbank-7' });
    await twins.locator('fluent-button', { hasText: 'Go to the cell' }).click();
    await page.waitForFunction(() => (window as unknown as PaneWindow).excel.selected.address === 'B7');
    await twins.locator('fluent-button', { hasText: 'Correct this cell' }).click();
    await message('Corrected: 1 cell');
    expect(await inExcel('Grow log', 'B7')).toBe("'Fernbank-7");
  });

  test('an audit in a narrow dark pane leads to a cell, corrects it and is readable throughout', async () => {
    await openInExcel(auditBook(), 'dark');
    await tab('Use my sheet').click();
    await button('What came off').click();
    await button('Go through it here').click();
    const slip = page.locator('.audit li', { hasText: 'Picks!A32' });
    await slip.waitFor();
    await slip.scrollIntoViewIfNeeded();
    await lookAtPage('audit-excel-dark');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await slip.locator('fluent-button', { hasText: 'Go to the cell' }).click();
    await page.waitForFunction(() => (window as unknown as PaneWindow).excel.selected.address === 'A32');
    await slip.locator('fluent-button', { hasText: 'Correct this cell' }).focus();
    await page.keyboard.press('Enter');
    await message('Corrected: 1 cell');
    // 12 March 2026 is day 46093.
    expect(await inExcel('Picks', 'A32')).toBe(46093);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Put it back');
    await addAxe(page);
    expect(await seriousFaults(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await message('Put back as it was');
    expect(await inExcel('Picks', 'A32')).toBe(46359);
  });
});
