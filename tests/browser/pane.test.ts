import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import { buildSync } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { catalogue } from '../../src/worksheet/catalogue';
import type { FakeCell, FakeExcel } from '../hosts/excel/fakeExcel';
import { launchBrowser } from './chromium';
import { serveBuilt, watch, type Watch } from './site';

// The built task pane in a real browser, beside an Excel in memory that makes the same calls possible.

interface PaneWindow {
  FakeExcel: { FakeExcel: typeof FakeExcel };
  excel: FakeExcel;
  Excel: unknown;
}

const fakeExcel = buildSync({
  entryPoints: [path.join(__dirname, '..', 'hosts', 'excel', 'fakeExcel.ts')],
  bundle: true,
  format: 'iife',
  globalName: 'FakeExcel',
  footer: { js: 'window.FakeExcel = FakeExcel;' },
  write: false,
}).outputFiles[0]!.text;

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([launchBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

async function openPane(
  sheets: Record<string, Record<string, FakeCell>> = { Sheet1: {} },
  options: Parameters<Browser['newPage']>[0] = { viewport: { width: 390, height: 844 } },
  atFirst: () => void = () => undefined,
): Promise<void> {
  page = await browser.newPage(options);
  page.setDefaultTimeout(8_000);
  seen = await watch(page);
  await page.route('**/office/office.js', (route) =>
    route.fulfill({
      contentType: 'text/javascript',
      body: 'window.Office = { onReady: (f) => Promise.resolve(f && f()) }; window.CustomFunctions = { associate() {} };',
    }),
  );
  await page.addInitScript(atFirst);
  await page.addInitScript({ content: fakeExcel });
  await page.addInitScript((held) => {
    const here = window as unknown as PaneWindow;
    here.excel = new here.FakeExcel.FakeExcel(held);
    here.Excel = here.excel.api;
  }, sheets);
  await page.goto(`${server.url}taskpane.html`);
  await page.locator('.functions').first().waitFor();
}

const cellsOf = (sheet: string): Promise<Record<string, unknown>> =>
  page.evaluate(
    (name) =>
      Object.fromEntries(
        [...(window as unknown as PaneWindow).excel.sheets.get(name)!.cells].map(([address, { formula }]) => [
          address,
          formula,
        ]),
      ),
    sheet,
  );
const sheetNames = (): Promise<string[]> =>
  page.evaluate(() => [...(window as unknown as PaneWindow).excel.sheets.keys()]);
const message = (): Promise<string> => page.locator('#message').innerText();

async function search(words: string): Promise<string[]> {
  await page.locator('#words input').fill(words);
  return page.locator('#guide .functions b').allInnerTexts();
}

describe('finding a function', () => {
  beforeEach(() => openPane());

  test('every function is listed, once, with what it gives', async () => {
    const names = await page.locator('#guide .functions b').allInnerTexts();
    expect(names.sort()).toEqual(catalogue.map(({ name }) => name).sort());
  });

  test('plain words lead to it, and its page says all about it', async () => {
    expect((await search('how much water'))[0]).toBe('MIXWATER');
    await page.locator('#guide a', { hasText: 'MIXWATER' }).click();
    const text = await page.locator('#MIXWATER').innerText();
    const f = catalogue.find(({ name }) => name === 'MIXWATER')!;
    for (const words of [f.summary, ...f.sources, ...f.faults.map(({ remedy }) => remedy)])
      expect(text).toContain(words);
    await page.locator('.back').click();
    expect((await search('xqzzv')).length).toBe(0);
    expect(await page.locator('#guide').innerText()).toContain('Nothing found');
  });

  test('an example runs where it stands: a changed figure changes the answer, a wrong one says why', async () => {
    await page.goto(`${server.url}taskpane.html#MIXWATER`);
    const example = page.locator('[data-example="MIXWATER:0"]');
    expect(await example.locator('.result').innerText()).toBe('145');
    // Dry 106, at 50% is 212 wet, less the 120 in the mixer.
    await example.locator('input[aria-label="target"]').fill('50%');
    expect(await example.locator('.result').innerText()).toBe('92');
    await example.locator('input[aria-label="target"]').fill('50');
    expect(await example.locator('.result').innerText()).toContain('write 50% or 0.5');
  });

  test('examples in US units on request', async () => {
    await page.goto(`${server.url}taskpane.html#BIOEFFICIENCY`);
    await page.getByLabel('US').check();
    expect(await page.locator('[data-example="BIOEFFICIENCY:0"]').innerText()).toContain('9.92 lb');
    expect(await page.locator('[data-example="BIOEFFICIENCY:0"] .result').innerText()).toBe('66.78%');
    await page.goto(`${server.url}taskpane.html#LETHALITY`);
    const example = page.locator('[data-example="LETHALITY:0"]');
    expect(await example.innerText()).toContain('231.8 °F');
    // 18 °F below the reference with z at 18 °F: a tenth of 15 minutes.
    expect(await example.locator('.result').innerText()).toBe('1.5');
  });
});

describe('putting it in the sheet', () => {
  test('an example goes in at the selected cell, its call referring to its cells', async () => {
    await openPane();
    await page.goto(`${server.url}taskpane.html#MIXWATER`);
    await page.locator('fluent-button', { hasText: 'Put this example in the sheet' }).click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await message()).toBe('It is in Sheet1!A1.');
    expect(Object.values(await cellsOf('Sheet1'))).toContain('=PINSET.MIXWATER(A3:A4,A6:A7,A9)');
  });

  test('a call with the names of its arguments, and never over a cell that is not empty', async () => {
    await openPane({ Sheet1: { A1: { formula: 'mine' } } });
    await page.goto(`${server.url}taskpane.html#MIXWATER`);
    await page.locator('fluent-button', { hasText: 'Put a call in the selected cell' }).click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await message()).toBe('A1 is not empty, so it is on the new sheet Pinset.');
    expect(await cellsOf('Sheet1')).toEqual({ A1: 'mine' });
    expect(await cellsOf('Pinset')).toEqual({ A1: '=PINSET.MIXWATER("masses","moistures","target")' });
  });

  test('a starter sheet is laid down on a sheet of its own after what it needs, twice under two names', async () => {
    await openPane({ Lots: {} });
    await page.locator('fluent-tab', { hasText: 'Starter sheets' }).click();
    const add = page.locator('fluent-button', { hasText: 'Add the sheet Lots' });
    await add.click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent?.includes('Lots2'));
    await add.click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent?.includes('Lots3'));
    expect(await sheetNames()).toEqual(['Lots', 'Strains', 'Lots2', 'Lots3']);
    expect(Object.values(await cellsOf('Lots3'))).toContain(
      '=PINSET.READYWINDOW(Lots2[inoculated],Lots2[strain],Strains[#All])',
    );
  });
});

describe('checking the workbook', () => {
  test('lists what to look at and goes to the cell; what cells hold stays text', async () => {
    await openPane({
      'My lots': {
        B2: { formula: '=PINSET.MIXWATER("<img src=x onerror=alert(1)>",B3,TODAY())', shown: '#VALUE!' },
      },
    });
    await page.locator('fluent-tab', { hasText: 'Check' }).click();
    await page.locator('fluent-button', { hasText: 'Check this workbook' }).click();
    await page.locator('.findings li').first().waitFor();
    expect(await page.locator('#findings h3').innerText()).toBe('2 to look at');
    expect(await page.locator('.findings li').first().innerText()).toContain('<img src=x onerror=alert(1)>');
    expect(await page.locator('#findings img').count()).toBe(0);
    await page.locator('fluent-button', { hasText: 'Go to the cell' }).first().click();
    await page.waitForFunction(() => (window as unknown as PaneWindow).excel.selected.address === 'B2');
    expect(seen.errors).toEqual([]);
  });
});

test('the keyboard reaches all of it: search, a function, its example, its button', async () => {
  await openPane();
  for (let i = 0; i < 12 && !(await page.evaluate(() => document.activeElement?.id === 'words')); i++) {
    await page.keyboard.press('Tab');
  }
  await page.keyboard.type('weighing list');
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement?.getAttribute('href') === '#MIX')) break;
  }
  await page.keyboard.press('Enter');
  await page.locator('#MIX').waitFor();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement?.getAttribute('data-for') === 'MIX:0')) break;
  }
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
  expect(await message()).toContain('It is in Sheet1!A1.');
});

describe('from opening the pane to the call in the sheet, starting with "how much water"', () => {
  // Own figures: 100 at 12% and 20 at 10% to 65%. Dry 106, over 0.35 is 302.86, less the 120 there.
  const answer = '182.857';
  const inSheet = (): Promise<Record<string, unknown>> => cellsOf('Sheet1');
  const wanted = { A9: 0.65, A11: '=PINSET.MIXWATER(A3:A4,A6:A7,A9)' };

  test('by the keyboard alone: at most 20 key presses beside the typing', async () => {
    await openPane();
    let presses = 0;
    const press = async (key: string): Promise<void> => {
      presses++;
      await page.keyboard.press(key);
    };
    const tabTo = async (selector: string): Promise<void> => {
      for (let i = 0; i < 40; i++) {
        if (await page.evaluate((one) => document.activeElement?.matches(one), selector)) return;
        await press('Tab');
      }
      throw new Error(`the keyboard did not reach ${selector}`);
    };
    await tabTo('#words');
    await page.keyboard.type('how much water');
    await tabTo('a[href="#MIXWATER"]');
    await press('Enter');
    await page.locator('#MIXWATER').waitFor();
    await tabTo('[data-example="MIXWATER:0"] input[aria-label="target"]');
    await page.keyboard.type('65%');
    expect(await page.locator('[data-example="MIXWATER:0"] .result').innerText()).toContain(answer);
    await tabTo('[data-for="MIXWATER:0"]');
    await press('Enter');
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await inSheet()).toMatchObject(wanted);
    expect(presses).toBeLessThanOrEqual(20);
  });

  test('by the mouse, but for the typing: four clicks', async () => {
    await openPane();
    let clicks = 0;
    const click = async (selector: string, times = 1): Promise<void> => {
      clicks++;
      await page.locator(selector).click({ clickCount: times });
    };
    await click('#words');
    await page.keyboard.type('how much water');
    await click('a[href="#MIXWATER"]');
    await click('[data-example="MIXWATER:0"] input[aria-label="target"]', 3);
    await page.keyboard.type('65%');
    expect(await page.locator('[data-example="MIXWATER:0"] .result').innerText()).toContain(answer);
    await click('[data-for="MIXWATER:0"]');
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await inSheet()).toMatchObject(wanted);
    expect(clicks).toBe(4);
  });
});

describe('what is shown stays where it is', () => {
  /** The sum of layout shifts since the page was opened, as browsers measure it for web vitals. */
  const shifted = (): Promise<number> =>
    page.evaluate(() => (window as unknown as { shifted: number }).shifted);

  test('while the pane opens, and while functions and tabs are gone through: cumulative layout shift below 0.01', async () => {
    await openPane({ Sheet1: {} }, { viewport: { width: 390, height: 844 } }, () => {
      const here = window as unknown as { shifted: number };
      here.shifted = 0;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) here.shifted += (entry as unknown as { value: number }).value;
      }).observe({ type: 'layout-shift', buffered: true });
    });
    await page.waitForTimeout(300);
    expect(await shifted()).toBeLessThan(0.01);
    for (const address of ['#MIX', '', '#LOADPLAN', '#READYDATE', '']) {
      await page.evaluate((hash) => (location.hash = hash), address);
      await page.locator(address === '' ? '#guide nav' : `#guide ${address}`).waitFor();
    }
    await page.waitForTimeout(300);
    expect(await shifted()).toBeLessThan(0.01);
  });

  test('headings go down one level at a time, in the list, in a function, and on every tab', async () => {
    await openPane();
    const skips = (): Promise<string[]> =>
      page.evaluate(() => {
        const shown = [...document.querySelectorAll('h1, h2, h3, h4')].filter((one) => one.checkVisibility());
        const levels = shown.map(({ tagName }) => Number(tagName[1]));
        return shown
          .filter((_, i) => levels[i]! > (i === 0 ? 0 : levels[i - 1]!) + 1)
          .map(({ textContent }) => textContent);
      });
    expect(await skips()).toEqual([]);
    await page.evaluate(() => (location.hash = '#LETHALITY'));
    await page.locator('#LETHALITY').waitFor();
    expect(await skips()).toEqual([]);
    for (const tab of ['Starter sheets', 'Check']) {
      await page.locator('fluent-tab', { hasText: tab }).click();
      expect(await skips()).toEqual([]);
    }
  });

  test('no figure of an example is cut off at 320 pixels: what is too wide scrolls', async () => {
    await openPane({ Sheet1: {} }, { viewport: { width: 320, height: 844 } });
    for (const { name } of catalogue) {
      await page.evaluate((hash) => (location.hash = hash), `#${name}`);
      await page.locator(`#guide #${name}`).waitFor();
      const cut = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLInputElement>('.example input')]
          .filter((field) => field.scrollWidth > field.clientWidth)
          .map(({ value }) => value),
      );
      expect([name, cut]).toEqual([name, []]);
    }
  });
});

const themes = ['light', 'dark'] as const;
const widths = [320, 390, 1280];

describe.each(themes)('in the %s theme', (colorScheme) => {
  test.each(widths)('fits a width of %i pixels, with no serious fault that axe-core finds', async (width) => {
    await openPane({ Sheet1: {} }, { viewport: { width, height: 844 }, colorScheme, bypassCSP: true });
    await page.addScriptTag({ path: require.resolve('axe-core/axe.min.js') });
    for (const address of ['', '#MIX', '#READYDATE']) {
      await page.evaluate((hash) => (location.hash = hash), address);
      await page.locator(address === '' ? '#guide nav' : `#guide ${address}`).waitFor();
      const found = await page.evaluate(async () => {
        const { axe } = window as unknown as {
          axe: {
            run: () => Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
          };
        };
        const { violations } = await axe.run();
        return violations.map(({ id, impact, nodes }) => `${impact} ${id}: ${nodes[0]?.html ?? ''}`);
      });
      expect(found.filter((words) => /^(serious|critical)/.test(words))).toEqual([]);
      expect(
        await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        ),
      ).toBe(0);
      const folder = process.env['PINSET_SCREENSHOTS'];
      if (folder)
        await page.screenshot({
          path: path.join(folder, `pane-${colorScheme}-${width}${address.replace('#', '-')}.png`),
        });
    }
    expect(seen.strayed).toEqual([]);
  });
});
