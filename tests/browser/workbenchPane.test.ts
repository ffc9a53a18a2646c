import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { patchWorkbook } from '../../src/hosts/xlsx/patch';
import { propertyOf, withProperty } from '../../src/hosts/xlsx/properties';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { addAxe, lookedAt, seriousFaults } from './axe';
import { BY_HAND, freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

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

async function openWorkbench(
  width: number,
  held: string | null = 'mine',
  look: Parameters<typeof freshPage>[1] = {},
): Promise<void> {
  page = await freshPage(browser, { viewport: { width, height: 844 }, ...look });
  seen = await watch(page);
  await first(page);
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
  await give(await workbookWith(held));
}

/** The workbook that the page opens with is in nobody's way here: a small one comes in its place. */
async function first(on: Page): Promise<void> {
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Start').getCell('A1').value = 'here';
  const body = Buffer.from(await workbook.xlsx.writeBuffer());
  await on.route('**/farm-book.xlsx', (route) => route.fulfill({ body }));
}

async function workbookWith(held: string | null): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Mine').getCell('A1').value = held;
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

async function give(bytes: Uint8Array): Promise<void> {
  const buffer = Buffer.from(bytes);
  await page.locator('#picker').setInputFiles({ name: 'mine.xlsx', mimeType: '', buffer });
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'mine.xlsx');
  await page.waitForFunction(() => document.querySelector('#tabs button')?.textContent !== 'Start');
}
afterEach(async () => {
  await leave(page);
  expect(seen).toEqual({ errors: [], strayed: [] });
});

interface Drawn {
  readonly label: string;
  readonly type: string;
  readonly data: unknown[];
}

/** Goes to a cell by the keyboard, from the first cell of the sheet. */
async function selectCell(address: string): Promise<void> {
  const { x, y } = (await page.locator('#grid canvas').first().boundingBox())!;
  await page.mouse.click(x + 80, y + 40);
  await page.keyboard.press('Control+Home');
  const [, letter, row] = /^([A-Z])(\d+)$/.exec(address)!;
  for (let right = letter!.charCodeAt(0) - 65; right > 0; right--) await page.keyboard.press('ArrowRight');
  for (let down = Number(row) - 1; down > 0; down--) await page.keyboard.press('ArrowDown');
  await page.waitForFunction(
    (wanted) => document.querySelector<HTMLInputElement>('#place')?.value === wanted,
    address,
  );
}

const notice = (words: string): Promise<unknown> =>
  page.waitForFunction((wanted) => document.getElementById('notice')?.textContent?.includes(wanted), words);
const button = (words: string) => page.locator('#pane fluent-button', { hasText: words });

async function savedCopy(): Promise<Uint8Array> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).click(),
  ]);
  return new Uint8Array(await readFile(await download.path()));
}

async function lookAt(name: string): Promise<void> {
  const folder = process.env['PINSET_SCREENSHOTS'];
  if (folder) await page.screenshot({ path: path.join(folder, `${name}.png`) });
}

describe('the pane beside the grid', () => {
  beforeEach(() => openWorkbench(1280));

  test('puts an example on a new sheet where a cell is not empty, and its dates stay dates in a saved copy', async () => {
    await page.locator('#words input').fill('when is a lot ready');
    await page.locator('#guide a', { hasText: 'READYDATE' }).click();
    await button('Put this example in the sheet').first().click();
    await notice('A1 is not empty, so it is on the new sheet Pinset.');
    await lookAt('workbench-insert');
    expect(await page.locator('#tabs [aria-selected="true"]').innerText()).toBe('Pinset');
    const { sheets } = readWorkbook(await savedCopy());
    expect(sheets.map(({ name }) => name)).toEqual(['Mine', 'Pinset']);
    expect(sheets[0]!.cells).toEqual([{ address: 'A1', value: 'mine' }]);
    const call = sheets[1]!.cells.find(({ formula }) => formula?.startsWith('=PINSET.READYDATE('))!;
    expect(typeof call.value).toBe('number');
    expect(call.numberFormat).toBe('yyyy-mm-dd');
  });

  test('lays down starter sheets with what they need; a saved copy has their tables, lists and results', async () => {
    await page.locator('fluent-tab', { hasText: 'Starters' }).click();
    await button('Add the sheet Lots').click();
    await notice('The sheets Farm, Strains and Lots are in your workbook');
    await lookAt('workbench-lots');
    expect(await page.locator('#tabs button').allInnerTexts()).toEqual(['Mine', 'Farm', 'Strains', 'Lots']);
    const bytes = await savedCopy();
    await notice('Saved a copy with the new sheets Farm, Strains, Lots');
    const lots = readWorkbook(bytes).sheets.find(({ name }) => name === 'Lots')!;
    const call = lots.cells.find(({ written }) => written?.includes('PINSET.READYWINDOW('))!;
    // Alder-3 is ready 63, 77 and 98 days after 2 February 2026, which is day 46055.
    const shown = (address: string) => lots.cells.find((cell) => cell.address === address)?.value;
    const row = Number(/\d+/.exec(call.address)![0]);
    expect(call.written).toContain('Lots[inoculated],Lots[strain],Strains[#All]');
    expect(['I', 'J', 'K'].map((column) => shown(`${column}${row}`))).toEqual([46118, 46132, 46153]);
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(Buffer.from(bytes) as never);
    expect(book.getWorksheet('Lots')!.getTable('Lots').name).toBe('Lots');
  });

  test('draws the picks of each day against the limit, and a changed limit moves its line', async () => {
    await page.locator('fluent-tab', { hasText: 'Starters' }).click();
    await button('Add the sheet Loads').click();
    await notice('Loads are in your workbook');
    const canvas = page.locator('#grid .o-figure canvas');
    await canvas.waitFor();
    await lookAt('workbench-loads');
    const drawn = () =>
      canvas.evaluate((element) => {
        const { Chart } = window as unknown as {
          Chart: { getChart: (on: Element) => { data: { labels: string[]; datasets: Drawn[] } } };
        };
        const { labels, datasets } = Chart.getChart(element).data;
        return { labels, datasets: datasets.map(({ label, type, data }) => ({ label, type, data })) };
      });
    const { labels, datasets } = await drawn();
    expect([labels.length, labels[0], labels.at(-1)]).toEqual([28, '2026-03-02', '2026-03-29']);
    const [picks, limit] = datasets;
    expect(picks).toMatchObject({ label: 'picks per day', type: 'bar' });
    // 40 × 2.5 × 0.38 × 0.9 × 0.95 × 0.65 over 3 days.
    expect(picks!.data[0]).toBeCloseTo((40 * 2.5 * 0.38 * 0.9 * 0.95 * 0.65) / 3, 9);
    expect(limit).toMatchObject({ label: 'limit', type: 'line', data: new Array(28).fill(12) });
    await selectCell('L3');
    await page.keyboard.type('24', BY_HAND);
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#place')?.value === 'L4');
    await page.waitForFunction(() => {
      const { Chart } = window as unknown as {
        Chart: { getChart: (on: Element) => { data: { datasets: Drawn[] } } };
      };
      const { data } = Chart.getChart(document.querySelector('#grid .o-figure canvas')!).data.datasets[1]!;
      return data[0] === 24;
    });
    expect((await drawn()).datasets[1]!.data).toEqual(new Array(28).fill(24));
  });

  test('an example offers its lists in the grid and in a saved copy, and undoing it takes them away', async () => {
    await page.goto(`${server.url}workbench.html#READYDATE`);
    // The browser keeps the book that was given before.
    await page.evaluate(() => void indexedDB.deleteDatabase('pinset-workbench'));
    await page.reload();
    await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
    await give(await workbookWith(null));
    await button('Put this example in the sheet').first().click();
    await notice('It is in Mine!A1.');
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(Buffer.from(await savedCopy()) as never);
    const sheet = book.getWorksheet('Mine')!;
    const strains = [...Array(40).keys()]
      .map((row) => sheet.getCell(row + 1, 1))
      .filter(({ dataValidation }) => dataValidation !== undefined);
    expect(strains.length).toBeGreaterThan(0);
    for (const { value, dataValidation } of strains) {
      const [first, last] = String(dataValidation.formulae[0]).replaceAll('$', '').split(':') as [
        string,
        string,
      ];
      const rows = [first, last].map((address) => Number(sheet.getCell(address).row));
      const offered = Array.from(
        { length: rows[1]! - rows[0]! + 1 },
        (_, i) => sheet.getCell(rows[0]! + i, 1).value,
      );
      expect(offered).toContain(value);
    }
    await selectCell(strains[0]!.address);
    await page.keyboard.press('F2');
    await page.locator('#grid .o-autocomplete-value').first().waitFor();
    await lookAt('workbench-list');
    expect(await page.locator('#grid .o-autocomplete-value').allInnerTexts()).toContain(strains[0]!.value);
    await page.keyboard.press('Escape');
    await page.locator('#undo').click();
    const undone = new ExcelJS.Workbook();
    await undone.xlsx.load(Buffer.from(await savedCopy()) as never);
    const cell = undone.getWorksheet('Mine')!.getCell(strains[0]!.address);
    expect(cell.dataValidation).toBeUndefined();
  });

  test('checks the workbook: says why a cell is red, and goes to it', async () => {
    const { x, y } = (await page.locator('#grid canvas').first().boundingBox())!;
    await page.mouse.click(x + 80, y + 40);
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.type('=PINSET.BIOEFFICIENCY(1.2,4.5,60)', BY_HAND);
    await page.keyboard.press('Enter');
    await page.locator('fluent-tab', { hasText: 'Check' }).click();
    await button('Check this workbook').click();
    expect(await page.locator('.findings li').first().innerText()).toContain('write 60% or 0.6');
    await button('Go to the cell').click();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#place')?.value === 'A2');
  });
});

describe('the version that last wrote into a workbook', () => {
  async function check(version: string): Promise<string> {
    await openWorkbench(1280);
    const bytes = withProperty(await workbookWith(null), 'PinsetVersion', version);
    await give(bytes);
    await page.locator('fluent-tab', { hasText: 'Check' }).click();
    await button('Check this workbook').click();
    await page.waitForFunction(
      () => document.getElementById('checked')?.textContent !== 'Nothing to look at',
    );
    return page.locator('#checked').innerText();
  }

  test('is told where it is older than this one, and a saved copy has this one', async () => {
    expect(await check('0.0.9')).toContain('last saved with Pinset 0.0.9; this is 1.0.0');
    expect(propertyOf(await savedCopy(), 'PinsetVersion')).toBe('0.0.9');
    await selectCell('B2');
    await page.keyboard.type('5');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#place')?.value === 'B3');
    expect(propertyOf(await savedCopy(), 'PinsetVersion')).toBe('1.0.0');
  });

  test('is not told where it is this one', async () => {
    expect(await check('1.0.0')).not.toContain('last saved');
  });
});

describe('text that would like to be a formula or markup stays text', () => {
  const IMAGE = '<img src=x onerror=ran()>';
  const LINK = '=HYPERLINK("e.org")';

  test('as the name of a sheet, a lot, a strain and a header, in the grid, the lists, the pane and a saved copy', async () => {
    await openWorkbench(1280);
    const workbook = new ExcelJS.Workbook();
    const sheet = workbook.addWorksheet(IMAGE);
    workbook.addWorksheet(LINK).getCell('A1').value = 'x';
    [IMAGE, 'strain', 'inoculated'].forEach((header, at) => (sheet.getCell(1, at + 1).value = header));
    [LINK, IMAGE, 46055].forEach((value, at) => (sheet.getCell(2, at + 1).value = value));
    [IMAGE, 'earliest', 'best', 'latest'].forEach((header, at) => (sheet.getCell(1, at + 6).value = header));
    ['strain', 'earliest', 'best', 'latest'].forEach(
      (header, at) => (sheet.getCell(4, at + 6).value = header),
    );
    ['Alder-3', 63, 77, 98].forEach((value, at) => (sheet.getCell(5, at + 6).value = value));
    const bytes = patchWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), [
      { sheet: IMAGE, address: 'D2', formula: '=PINSET.READYDATE(C2,B2,F4:I5)', values: [[null]] },
      { sheet: IMAGE, address: 'D3', formula: '=PINSET.READYDATE(C2,B2,F1:I2)', values: [[null]] },
    ]);
    await give(bytes);
    expect(await page.locator('#tabs button').allInnerTexts()).toEqual([IMAGE, LINK]);
    await page.locator('#findings-button').click();
    await page.waitForFunction(() => document.querySelectorAll('.findings li').length === 2);
    expect(await page.locator('.findings').innerText()).toContain(IMAGE);
    await button('Check this workbook').click();
    expect(await page.locator('.findings li').first().innerText()).toContain(`${IMAGE}!D2`);
    await button('Go to the cell').first().click();
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#place')?.value === 'D2');
    expect(await page.locator('#reason').innerText()).toContain(IMAGE);
    await page.locator('#tabs button', { hasText: LINK }).click();
    await page.locator('fluent-tab', { hasText: 'Starters' }).click();
    await button('Add the sheet Strains').click();
    await notice('The sheet Strains is in your workbook.');
    await page.locator('fluent-tab', { hasText: 'Find' }).click();
    await page.evaluate(() => (location.hash = '#READYDATE'));
    const strain = page.locator('[data-example="READYDATE:0"] input[aria-label="strain"]');
    await strain.fill(LINK);
    await button('Put this example in the sheet').first().click();
    await notice('so it is on the new sheet Pinset');
    const saved = readWorkbook(await savedCopy()).sheets;
    expect(saved.map(({ name }) => name)).toEqual([IMAGE, LINK, 'Strains', 'Pinset']);
    const held = (at: number, address: string) => saved[at]!.cells.find((cell) => cell.address === address);
    expect(held(0, 'A1')).toEqual({ address: 'A1', value: IMAGE });
    expect(held(0, 'A2')).toEqual({ address: 'A2', value: LINK });
    expect(held(3, 'A5')).toEqual({ address: 'A5', value: LINK });
    expect(await page.locator('img:not(header img)').count()).toBe(0);
    expect(await page.evaluate(() => 'ran' in window)).toBe(false);
  });
});

describe('axe-core finds no serious fault', () => {
  const looks = [
    ['light', { colorScheme: 'light', forcedColors: 'none' }],
    ['dark', { colorScheme: 'dark', forcedColors: 'none' }],
    ['forced', { colorScheme: 'light', forcedColors: 'active' }],
  ] as const;

  test.each([1280, 390])(
    'at %i pixels, on every screen of the workbench, light, dark and in forced colours',
    async (width) => {
      await openWorkbench(width, 'mine', { bypassCSP: true });
      await addAxe(page);
      const shown = async (): Promise<void> => {
        if (!(await page.locator('#pane').isVisible())) await page.locator('#pane-button').click();
      };
      const screens: readonly (readonly [string, () => Promise<unknown>])[] = [
        ['the grid', () => Promise.resolve()],
        ['the cells to look at', () => page.locator('#findings-button').click()],
        [
          'today',
          async () => {
            await page.locator('#tab-today').click();
            await page.locator('#today h3').first().waitFor();
          },
        ],
        ['the menu', () => page.locator('#sheet-button').click()],
        [
          'a function',
          async () => {
            await page.keyboard.press('Escape');
            await shown();
            await page.evaluate(() => (location.hash = '#PICKCALENDAR'));
            await page.locator('#PICKCALENDAR').waitFor();
          },
        ],
        [
          'a starter sheet with its chart',
          async () => {
            await page.locator('fluent-tab', { hasText: 'Starters' }).click();
            await button('Add the sheet Loads').click();
            await page.locator('#grid .o-figure canvas').waitFor();
          },
        ],
        [
          'a check',
          async () => {
            await shown();
            await page.locator('fluent-tab', { hasText: 'Check' }).click();
            await button('Check this workbook').click();
            await page.locator('#checked h3').waitFor();
          },
        ],
      ];
      for (const [name, reach] of screens) {
        await reach();
        for (const [theme, look] of looks) {
          await lookedAt(page, look);
          await lookAt(`workbench-${theme}-${width}-${name.replaceAll(' ', '-')}`);
          expect([name, theme, await seriousFaults(page)]).toEqual([name, theme, []]);
        }
        const ids = await page.locator('[id]').evaluateAll((all) => all.map(({ id }) => id));
        expect(ids.filter((id, at) => ids.indexOf(id) < at)).toEqual([]);
      }
    },
    120_000,
  );
});

describe('from "how much water" to the answer in a cell of the sheet', () => {
  // 100 at 12% and 20 at 10% to 65%: dry 106, over 0.35, less the 120 there.
  const water = 106 / 0.35 - 120;
  const target = '[data-example="MIXWATER:0"] input[aria-label="target"]';
  beforeEach(() => openWorkbench(1280, null));

  async function waterInSheet(): Promise<unknown> {
    await notice('It is in Mine!A1.');
    return readWorkbook(await savedCopy()).sheets[0]!.cells.find(({ address }) => address === 'A11')?.value;
  }

  test('with the mouse, but for the typing', async () => {
    await page.locator('#words').click();
    await page.keyboard.type('how much water');
    await page.locator('a[href="#MIXWATER"]').click();
    await page.locator(target).click({ clickCount: 3 });
    await page.keyboard.type('65%');
    await button('Put this example in the sheet').click();
    expect(await waterInSheet()).toBeCloseTo(water, 9);
  });

  test('with the keyboard alone, from the first key on the page', async () => {
    const tabTo = async (selector: string): Promise<void> => {
      for (let i = 0; i < 40; i++) {
        if (await page.evaluate((one) => document.activeElement?.matches(one), selector)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`the keyboard did not reach ${selector}`);
    };
    await page.keyboard.press('F6');
    await tabTo('#words');
    await page.keyboard.type('how much water');
    await tabTo('a[href="#MIXWATER"]');
    await page.keyboard.press('Enter');
    await tabTo(target);
    await page.keyboard.type('65%');
    await tabTo('[data-for="MIXWATER:0"]');
    await page.keyboard.press('Enter');
    expect(await waterInSheet()).toBeCloseTo(water, 9);
    const visited: (string | undefined)[] = [];
    for (let i = 0; i < 4; i++) {
      await page.keyboard.press('F6');
      visited.push(
        await page.evaluate(() =>
          ['grid', 'pane', 'tabs', 'actions'].find((id) =>
            document.getElementById(id)!.contains(document.activeElement),
          ),
        ),
      );
    }
    expect([...visited].sort()).toEqual(['actions', 'grid', 'pane', 'tabs']);
  });
});

test('on a small screen today comes first, and covers the grid until it is closed or something was put in the sheet', async () => {
  await openWorkbench(390);
  expect(await page.locator('#today').innerText()).toContain('Nothing in this book is due today.');
  await lookAt('workbench-390');
  await page.locator('#pane-close').click();
  expect(await page.locator('#pane').isVisible()).toBe(false);
  await page.locator('#pane-button').click();
  await page.locator('fluent-tab', { hasText: 'Starters' }).click();
  await button('Add the sheet Strains').click();
  await notice('The sheet Strains is in your workbook.');
  expect(await page.locator('#pane').isVisible()).toBe(false);
  await lookAt('workbench-390-strains');
});
