import { afterAll, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { Package } from '../../src/hosts/xlsx/package';
import { addAxe, lookedAt, seriousFaults } from './axe';
import { choose, goTo, savedCopy, says, typeInto } from './byHand';
import { agreeing, freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// One page with one book: what it asks in dialogs, rows that are filtered and change afterwards, and a chart by night.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Picks');
  sheet.addRows([
    ['lot', 'strain', 'day', 'mass', 'net'],
    ['L1', 'Oak', new Date(Date.UTC(2026, 2, 4)), 4.1],
    ['L2', 'Ash', new Date(Date.UTC(2026, 2, 5)), 3.2],
    ['L3', 'Oak', new Date(Date.UTC(2026, 2, 6)), 5.3],
    ['L4', 'Ash', new Date(Date.UTC(2026, 2, 6)), 2.4],
  ]);
  sheet.getColumn(3).numFmt = 'd/m/yyyy';
  sheet.getCell('F9').numFmt = 'm/d/yyyy';
  for (let row = 2; row <= 5; row++) sheet.getCell(row, 5).value = { formula: `D${row}*0.9`, result: 1 };
  const report = workbook.addWorksheet('Report');
  report.addRows([
    ['What the crew opens this week, in which room, and on which day', 'in short'],
    [],
    ['lot', 'room', 'blocks', 'for'],
    [null, null, null, 'all orders are filled'],
    ['L1', 'North', 40, 'a customer with a long name, and another one'],
    ['L2', 'South', 60, 'spare'],
  ]);
  report.getRow(3).font = { bold: true };
  const body = Buffer.from(await workbook.xlsx.writeBuffer());
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser, { bypassCSP: true });
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

const isFiltered = (): Promise<string> => page.locator('#filtered').innerText();

test('axe-core finds nothing above minor on the dialogs, light, dark and in forced colours', async () => {
  await addAxe(page);
  const dialogs: readonly (readonly [string, () => Promise<unknown>])[] = [
    [
      '#filter',
      async () => {
        await goTo(page, 'C2');
        await choose(page, 'Filter by this column');
      },
    ],
    ['#formats', () => choose(page, 'Show numbers as')],
    [
      '#csv',
      () =>
        page.locator('#csv-picker').setInputFiles({
          name: 'scale.csv',
          mimeType: 'text/csv',
          buffer: Buffer.from('day;mass\n3/4/2026;1,5\n14/4/2026;2\n'),
        }),
    ],
    ['#habits-dialog', () => page.locator('#habits').click()],
    [
      '#asking',
      async () => {
        // The book writes the day first, this column the month.
        await goTo(page, 'F9');
        await page.keyboard.type('3/4/2026', { delay: 40 });
        await page.keyboard.press('Enter');
      },
    ],
  ];
  for (const [dialog, reach] of dialogs) {
    await reach();
    await page.locator(dialog).waitFor();
    for (const [colorScheme, forcedColors] of [
      ['light', 'none'],
      ['dark', 'none'],
      ['light', 'active'],
    ] as const) {
      await lookedAt(page, { colorScheme, forcedColors });
      expect([dialog, colorScheme, forcedColors, await seriousFaults(page, dialog)]).toEqual([
        dialog,
        colorScheme,
        forcedColors,
        [],
      ]);
    }
    await lookedAt(page, { colorScheme: 'light', forcedColors: 'none' });
    await page.keyboard.press('Escape');
    await page.locator(dialog).waitFor({ state: 'hidden' });
  }
});

test('rows that change under a filter stay shown until it is applied again, by one click, new rows among them', async () => {
  await goTo(page, 'B2');
  await choose(page, 'Filter by this column');
  await page.locator('#filter').getByLabel('Contains').fill('oak');
  await page.keyboard.press('Enter');
  await says(page, '2 of 4 rows are shown');
  expect(await isFiltered()).toBe('2 of 4 rows: show all');
  expect(await page.locator('#refilter').isVisible()).toBe(false);
  await typeInto(page, 'B4', 'Elm');
  await page.locator('#refilter').waitFor();
  // Whoever types sees what was typed.
  expect(await isFiltered()).toBe('2 of 4 rows: show all');
  await typeInto(page, 'A6', 'L5');
  await typeInto(page, 'B6', 'Elm');
  await typeInto(page, 'A7', 'L6');
  await typeInto(page, 'B7', 'Oak');
  await typeInto(page, 'D8', '=SUM(D2:D7)');
  await page.locator('#refilter').click();
  await says(page, '2 of 6 rows are shown');
  expect(await isFiltered()).toBe('2 of 6 rows: show all');
  await page.locator('#refilter').waitFor({ state: 'hidden' });
  const library = new ExcelJS.Workbook();
  await library.xlsx.load(Buffer.from(await savedCopy(page)) as never);
  const sheet = library.getWorksheet('Picks')!;
  const hidden = [1, 2, 3, 4, 5, 6, 7, 8].filter((row) => sheet.getRow(row).hidden);
  expect(hidden).toEqual([3, 4, 5, 6]);
  await page.locator('#undo').click();
  await page.waitForFunction(() => document.getElementById('filtered')!.textContent.startsWith('2 of 4'));
  await page.locator('#refilter').waitFor();
  await page.locator('#filtered').click();
  await page.locator('#filtered').waitFor({ state: 'hidden' });
  expect(await page.locator('#refilter').isVisible()).toBe(false);
});

test('on paper the header is above its columns on each page, and only cells that are selected are printed', async () => {
  await page.evaluate(() => (window.print = () => undefined));
  const print = async (): Promise<void> => {
    await page.keyboard.press('Control+p');
    await page.locator('#print table').first().waitFor({ state: 'attached' });
  };
  await goTo(page, 'Report!B5');
  await print();
  const printed = await page.evaluate(() => {
    const paper = document.getElementById('print')!;
    paper.style.display = 'block';
    const rows = [...document.querySelectorAll<HTMLTableRowElement>('#print tr')].map((row) => ({
      texts: [...row.cells].map(({ textContent }) => textContent),
      lefts: [...row.cells].map((cell) => Math.round(cell.getBoundingClientRect().left)),
      isHeader: row.parentElement!.tagName === 'THEAD',
    }));
    paper.style.display = '';
    return rows;
  });
  const header = printed.find(({ isHeader }) => isHeader)!;
  expect(header.texts).toEqual(['lot', 'room', 'blocks', 'for']);
  const lot = printed.find(({ texts }) => texts[0] === 'L1')!;
  expect(lot.lefts).toEqual(header.lefts);
  expect(printed[0]!.lefts).toEqual(header.lefts.slice(0, 2));
  for (const key of ['Shift+ArrowDown', 'Shift+ArrowRight']) await page.keyboard.press(key);
  await print();
  const part = page.locator('#print tr');
  expect((await part.allTextContents()).map((text) => text.trim())).toEqual(['North40', 'South60']);
  // The engine has a printing of its own, which would take the cells from the page.
  await page.locator('#words input').focus();
  await print();
  expect(await page.locator('#grid .o-grid').count()).toBe(1);
  await goTo(page, 'Picks!A1');
});

test('a chart takes the colours of the theme as soon as it is chosen', async () => {
  await page.locator('fluent-tab', { hasText: 'Starters' }).click();
  await page.locator('#pane fluent-button', { hasText: 'Add the sheet Loads' }).click();
  await says(page, 'Loads are in your workbook');
  const canvas = page.locator('#grid .o-figure canvas');
  await canvas.waitFor();
  const colours = (): Promise<unknown> =>
    canvas.evaluate((element) => {
      const { Chart } = window as unknown as {
        Chart: { getChart: (on: Element) => { data: { datasets: { backgroundColor: unknown }[] } } };
      };
      return Chart.getChart(element).data.datasets.map(({ backgroundColor }) => backgroundColor);
    });
  const light = await colours();
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.locator('#grid > div:not([inert]) .o-spreadsheet.dark .o-figure canvas').waitFor();
  const dark = await colours();
  expect(dark).not.toEqual(light);
  // To and fro faster than cells are drawn: the last choice is the one that stays.
  await page.emulateMedia({ colorScheme: 'light' });
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.emulateMedia({ colorScheme: 'light' });
  await page.locator('#grid > div:not([inert]) .o-spreadsheet:not(.dark) .o-figure canvas').waitFor();
  expect(await colours()).toEqual(light);
  expect(await page.locator('#grid .o-spreadsheet').count()).toBe(1);
});

test('evening comes to the device while something is typed: it is there still, and dark comes with Enter', async () => {
  await goTo(page, 'Picks!H2');
  await page.keyboard.type('12', { delay: 40 });
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.waitForFunction(() => matchMedia('(prefers-color-scheme: dark)').matches);
  await page.keyboard.type('3', { delay: 40 });
  await page.keyboard.press('Enter');
  await page.locator('#grid > div:not([inert]) .o-spreadsheet.dark').waitFor();
  await goTo(page, 'H2');
  expect(await page.locator('#shown').innerText()).toBe('123');
  await page.emulateMedia({ colorScheme: 'light' });
  await page.locator('#grid > div:not([inert]) .o-spreadsheet:not(.dark)').waitFor();
});

test('undo takes back the sheets that a starter brought, pressed faster than cells are drawn; redo brings them', async () => {
  const tabs = (): Promise<string[]> => page.locator('#tabs button').allInnerTexts();
  const all = await tabs();
  expect(all.length).toBeGreaterThan(2);
  // A step for each sheet, and one for what was typed since.
  const press = (id: string): Promise<void> =>
    page.evaluate(
      ([button, times]) => {
        for (let n = 0; n < times; n++) document.getElementById(button)!.click();
      },
      [id, all.length - 1] as const,
    );
  await press('undo');
  await page.waitForFunction(() => document.querySelectorAll('#tabs button').length === 2);
  expect(await tabs()).toEqual(['Picks', 'Report']);
  await press('redo');
  await page.waitForFunction(
    (count) => document.querySelectorAll('#tabs button').length === count,
    all.length,
  );
  expect(await tabs()).toEqual(all);
  await page.locator('#grid > div:not([inert]) .o-grid').waitFor();
  expect(await page.locator('#grid .o-spreadsheet').count()).toBe(1);
});

test('of a book whose colours cannot be read the cells are shown, the page says so, and a copy keeps the part as it was', async () => {
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Mine').getCell('A1').value = 'here';
  const broken = '<a:theme';
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  const buffer = Buffer.from(Package.open(bytes).with(new Map([['xl/theme/theme1.xml', broken]])));
  await agreeing(page, async () => {
    await page
      .locator('#picker')
      .setInputFiles({ name: 'odd.xlsx', mimeType: 'application/octet-stream', buffer });
    await says(page, 'colours, borders and widths of this workbook cannot be shown here');
  });
  expect(await page.locator('#file').innerText()).toBe('odd.xlsx');
  await goTo(page, 'A1');
  expect(await page.locator('#shown').innerText()).toBe('here');
  await typeInto(page, 'A2', 'mine');
  expect(Package.open(await savedCopy(page)).text('xl/theme/theme1.xml')).toBe(broken);
});
