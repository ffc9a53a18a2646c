import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from '@jest/globals';
import { buildSync } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { addressOf } from '../../src/hosts/xlsx/address';
import { column, formula, inputs, table, type Sheet, type Typed } from '../../src/hosts/xlsx/describe';
import { newWorkbook } from '../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import type { Grid } from '../../src/worksheet/cells/cell';
import type { FakeCell, FakeExcel } from '../hosts/excel/fakeExcel';
import { calendar, lots, orders, rooms, standing, START, strains } from '../worksheet/loadingFarm';
import { addAxe, lookedAt, seriousFaults } from './axe';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// The drawn board in a real browser: in the task pane beside an Excel in memory, and in the workbench.

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

const TABLES: Readonly<Record<string, Grid>> = {
  Lots: lots,
  Strains: strains,
  Rooms: rooms,
  Orders: orders,
  Calendar: calendar,
  Standing: standing,
};

/** The farm as sheets, and a plan that refers to them. */
function farm(): Record<string, Record<string, FakeCell>> {
  const area = (name: string): string =>
    `${name}!A1:${addressOf({ row: TABLES[name]!.length - 1, column: TABLES[name]![0]!.length - 1 })}`;
  const sheets = Object.fromEntries(
    Object.entries(TABLES).map(([name, grid]) => [
      name,
      Object.fromEntries(
        grid.flatMap((cells, row) =>
          cells.flatMap((formula, column) =>
            formula === null ? [] : [[addressOf({ row, column }), { formula }] as const],
          ),
        ),
      ),
    ]),
  );
  const given = `${['Lots', 'Strains', 'Rooms', 'Orders'].map(area).join()},B1,21,${area('Calendar')},${area('Standing')}`;
  const plan = {
    B1: { formula: START },
    A3: { formula: `=PINSET.LOADPLAN(${given})` },
    N3: { formula: `=PINSET.LOADPLAN(${given},,,"picks")` },
  };
  return { Plan: plan, ...sheets };
}

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterEach(async () => {
  expect(seen).toEqual({ errors: [], strayed: [] });
  await leave(page);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

async function openPane(
  sheets: Record<string, Record<string, FakeCell>>,
  look: Parameters<typeof freshPage>[1] = { viewport: { width: 390, height: 844 } },
): Promise<void> {
  page = await freshPage(browser, look);
  seen = await watch(page);
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
  await page.locator('#tab-board').click();
  await act('draw');
}

const act = (what: string): Promise<void> => page.locator(`[data-act="board-${what}"]`).click();
const loads = () => page.locator('.load:not(.fixed) > [role="option"]');
const focused = () => page.locator('[role="option"]:focus');
const answer = (): Promise<string> => page.locator('.answer').innerText();
const sheetNames = (): Promise<string[]> =>
  page.evaluate(() => [...(window as unknown as PaneWindow).excel.sheets.keys()]);

async function handed(what: string): Promise<Buffer> {
  const [download] = await Promise.all([page.waitForEvent('download'), act(what)]);
  return readFile(await download.path());
}

async function lookAt(name: string): Promise<void> {
  const folder = process.env['PINSET_SCREENSHOTS'];
  if (folder) await page.screenshot({ path: path.join(folder, `${name}.png`) });
}

describe('beside Excel', () => {
  test('the plan is drawn in a narrow pane, told in words, and moved by keyboard with the checker’s answer', async () => {
    await openPane(farm(), { viewport: { width: 320, height: 844 } });
    await loads().first().waitFor();
    expect(await page.locator('.sentence').innerText()).toMatch(
      /^\d+ loads of \d+ blocks in \d rooms, opened from .* The shelves are fullest on .* No day is over its limit of picking\.$/,
    );
    // Both formulas ask for one plan.
    expect(await page.locator('.board h3').innerText()).toBe('The plan in Plan!A3');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    await page.locator('.scroll').evaluate((scroll) => (scroll.scrollLeft = 300));
    const leftOf = async (part: string): Promise<number> => (await page.locator(part).boundingBox())!.x;
    expect((await leftOf('.side.rooms')) - (await leftOf('.scroll'))).toBeCloseTo(1, 0);

    const first = await loads().first().getAttribute('aria-label');
    await loads().first().focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('#message').innerText()).toContain('is taken up');
    for (let n = 0; n < 6; n++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    expect(await answer()).toMatch(/ in South on .*: \d+ rules? (is|are) broken that held before/);
    expect(await page.locator('.answer [role="status"] li').count()).toBeGreaterThan(0);
    expect(await focused().getAttribute('aria-selected')).toBe('true');
    expect(await focused().getAttribute('aria-label')).not.toBe(first);
    await lookAt('board-320');
    await page.keyboard.press('Escape');
    expect(await focused().getAttribute('aria-label')).toBe(first);
    expect(await answer()).toContain('Drag a load');
    expect(await sheetNames()).toEqual(['Plan', ...Object.keys(TABLES)]);
  });

  test('a load is dragged, the loads go to a sheet of their own on a click and away again on the next', async () => {
    await openPane(farm(), { viewport: { width: 1000, height: 900 } });
    await loads().first().waitFor();
    const before = await page.evaluate(() =>
      JSON.stringify([...(window as unknown as PaneWindow).excel.sheets]),
    );
    const bar = loads().first();
    const words = await bar.getAttribute('aria-label');
    const { x, y } = (await bar.locator('.bar').boundingBox())!;
    await page.mouse.move(x + 20, y + 8);
    await page.mouse.down();
    await page.mouse.move(x + 20 + 26, y + 8, { steps: 3 });
    await page.mouse.move(x + 20 + 3 * 26, y + 8, { steps: 3 });
    // It answers while it is held.
    const held = await answer();
    expect(held).toMatch(/ on .*: /);
    await page.mouse.up();
    expect(await answer()).toBe(held);
    expect(await focused().getAttribute('aria-label')).not.toBe(words);
    expect(await page.locator('.moved').count()).toBe(1);

    await act('write');
    await page.locator('[data-act="board-undo"]').waitFor();
    expect(await sheetNames()).toEqual(['Plan', ...Object.keys(TABLES), 'Changed loads']);
    const written = await page.evaluate(() => {
      const sheet = (window as unknown as PaneWindow).excel.sheets.get('Changed loads')!;
      return {
        tables: sheet.tables,
        cells: Object.fromEntries([...sheet.cells].map(([at, { formula }]) => [at, formula])),
      };
    });
    expect(written.tables.map(({ name }) => name)).toEqual(['ChangedLoads']);
    expect(['A4', 'B4', 'C4', 'D4'].map((at) => written.cells[at])).toEqual([
      "'Loaded",
      "'Lot",
      "'Room",
      "'Blocks",
    ]);
    expect(written.cells['A5']).toBeGreaterThanOrEqual(START);
    await act('undo');
    await page.waitForFunction(() => !(window as unknown as PaneWindow).excel.sheets.has('Changed loads'));
    expect(
      await page.evaluate(() => JSON.stringify([...(window as unknown as PaneWindow).excel.sheets])),
    ).toBe(before);
    await act('back');
    expect(await page.locator('.moved').count()).toBe(0);
  });

  test('it is handed over as picture and as drawing, and printed on pages of its own', async () => {
    await openPane(farm(), { viewport: { width: 1000, height: 900 } });
    await loads().first().waitFor();
    expect((await handed('png')).subarray(0, 8)).toEqual(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'));
    const svg = (await handed('svg')).toString();
    const drawn = await page.evaluate((text) => {
      const { documentElement } = new DOMParser().parseFromString(text, 'image/svg+xml');
      const words = [...documentElement.querySelectorAll('text')].map(({ textContent }) => textContent);
      return { tag: documentElement.tagName, words };
    }, svg);
    expect(drawn.tag).toBe('svg');
    expect(drawn.words).toEqual(
      expect.arrayContaining(['North', 'South', 'Annex', 'picked a day', 'Alder-3']),
    );
    // It needs nothing of the page: no class, no token.
    expect(/class=|var\(/.exec(svg)).toBeNull();

    await page.evaluate(() => (window.print = () => {}));
    await act('print');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.sheet-of-paper').count()).toBeGreaterThanOrEqual(1);
    expect(await page.locator('.sheet-of-paper').first().isVisible()).toBe(true);
    expect(await page.locator('.search').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await page.locator('.sheet-of-paper').count()).toBe(0);
  });

  test('axe finds nothing serious, light or dark, in the pane and over the whole window', async () => {
    await openPane(farm(), { viewport: { width: 900, height: 900 }, bypassCSP: true });
    await loads().first().waitFor();
    await page.locator('#board-table summary').click();
    await addAxe(page);
    const faults: string[] = await seriousFaults(page);
    await lookedAt(page, { colorScheme: 'dark' });
    faults.push(...(await seriousFaults(page)));
    await act('large');
    await loads().nth(1).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowRight');
    faults.push(...(await seriousFaults(page)));
    expect(faults).toEqual([]);
    await lookAt('board-dark-large');
    await act('large');
    await page.locator('#board > .board').waitFor();
    expect(await page.locator('dialog').count()).toBe(0);
  });

  test('a workbook without a plan says what makes one', async () => {
    await openPane({ Sheet1: { A1: { formula: 1 } } });
    await page.locator('#board p').waitFor();
    expect(await page.locator('#board').innerText()).toContain('No cell of this workbook calls LOADPLAN');
  });
});

/** The farm as a file with tables and a named cell. */
function farmFile(): Uint8Array {
  const sheetOf = (name: string, grid: Grid): Sheet => {
    const [head, ...rows] = grid;
    const columns = head!.map((header) => column(header as string, 'number'));
    return { name, title: name, notes: [], things: [table('A4', name, columns, rows as Typed[][])] };
  };
  const plan: Sheet = {
    name: 'Plan',
    title: 'Plan',
    notes: [],
    things: [
      inputs('A3', { label: 'Today', value: START, reads: 'number', name: 'Today' }),
      formula(
        'A5',
        '=PINSET.LOADPLAN(Lots[#All], Strains[#All], Rooms[#All], Orders[#All], Today, 21, Calendar[#All], Standing[#All])',
        ['date', 'text'],
        { headed: true, growth: 20 },
      ),
    ],
  };
  const sheets = [plan, ...Object.entries(TABLES).map(([name, grid]) => sheetOf(name, grid))];
  return newWorkbook({ file: 'farm', title: 'Farm', sheets });
}

describe('in the workbench', () => {
  test('the plan of a book with tables and names is drawn, and taken over into the file', async () => {
    page = await freshPage(browser, { viewport: { width: 1440, height: 900 } });
    seen = await watch(page);
    const bytes = farmFile();
    await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body: Buffer.from(bytes) }));
    await page.goto(`${server.url}workbench.html`);
    await page.locator('#tab-board').click();
    await act('draw');
    await loads().first().waitFor();
    expect(await page.locator('.sentence').innerText()).toMatch(/^\d+ loads of \d+ blocks in \d rooms/);
    expect(await page.locator('.side.rooms').textContent()).toContain('Annex');
    await lookAt('board-workbench');
    const drawn = await loads().count();
    await loads().first().focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await act('write');
    await page.locator('[data-act="board-undo"]').waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), page.locator('#save').click()]);
    const saved = readWorkbook(new Uint8Array(await readFile(await download.path())));
    const was = readWorkbook(bytes);
    const added = saved.sheets.filter(({ name }) => !was.sheets.some((sheet) => sheet.name === name));
    expect(added.map(({ name }) => name)).toEqual(['Changed loads']);
    const cells = added[0]!.cells;
    expect(cells.filter(({ address }) => /^D\d+$/.test(address)).length).toBe(drawn + 1);
    expect(cells.find(({ address }) => address === 'F4')!.formula).toContain('CHECKLOADS(');
    // What the grower wrote is as it was.
    const typed = (sheets: typeof was.sheets) =>
      sheets
        .filter(({ name }) => name in TABLES)
        .map(({ name, cells: all }) => [name, all.map(({ address, value }) => [address, value])]);
    expect(typed(saved.sheets)).toEqual(typed(was.sheets));
  });
});
