import { afterAll, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { bookOf } from '../../src/hosts/fit/content';
import { todayList } from '../../src/hosts/pane/today';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// One page, opened as seldom as can be: each opening calculates the whole book.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await freshPage(browser, { viewport: { width: 1440, height: 900 } });
  seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  await opened();
});
afterAll(async () => {
  await leave(page);
  await browser.close();
  await server.close();
  expect(seen).toEqual({ errors: [], strayed: [] });
});

const opened = (): Promise<unknown> =>
  page.waitForFunction(
    () =>
      document.getElementById('file')?.textContent === 'farm-book.xlsx' &&
      /\d/.test(document.getElementById('findings-count')?.textContent ?? ''),
  );
const wide = (): Promise<void> => page.setViewportSize({ width: 1440, height: 900 });

/** What was asked before is on the screen. */
const drawn = (): Promise<unknown> =>
  page.evaluate(async () => {
    for (let frames = 0; frames < 4; frames++) await new Promise(requestAnimationFrame);
  });

/** The cells are drawn so bright, from 0 to 255, the most of them (a line may lie anywhere), on this ground. */
const dyed = (from: number, to: number, ground: string): Promise<unknown> =>
  page.waitForFunction(
    ([least, most, wanted]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('#grid .o-grid > canvas');
      if (!canvas || getComputedStyle(document.body).backgroundColor !== wanted) return false;
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      let within = 0;
      for (let at = 0; at < data.length; at += 4) {
        const brightness = (data[at]! + data[at + 1]! + data[at + 2]!) / 3;
        if (brightness >= least && brightness <= most) within++;
      }
      return within > data.length / 8;
    },
    [from, to, ground] as const,
  );
const isLight = (): Promise<unknown> => dyed(241, 255, 'rgb(246, 241, 231)');
const isDark = (): Promise<unknown> => dyed(0, 59, 'rgb(25, 23, 20)');

test('there is one line above the cells, and its parts lie beside one another', async () => {
  const boxes = await page.evaluate(() =>
    ['.names', '#place', '#grid .o-topbar-composer', '#actions', '#grid canvas'].map((selector) => {
      const { left, right, top, bottom } = document.querySelector(selector)!.getBoundingClientRect();
      return { left, right, top, bottom };
    }),
  );
  const [names, place, formula, actions, cells] = boxes as [Box, Box, Box, Box, Box];
  for (const [one, next] of [
    [names, place],
    [place, formula],
    [formula, actions],
  ] as const) {
    expect(one.right).toBeLessThanOrEqual(next.left);
    expect(one.bottom).toBeGreaterThan(next.top);
    expect(next.bottom).toBeGreaterThan(one.top);
  }
  expect(cells.top).toBeGreaterThanOrEqual(formula.bottom);
  expect(cells.top).toBeLessThan(80);
});

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

test('the button, the panel’s heading and its tab say the same number, before a check and after it', async () => {
  const counts = (): Promise<(number | undefined)[]> =>
    page.evaluate(() =>
      ['#findings-count', '#checked h3', '#tab-check'].map((selector) => {
        const found = /\d+/.exec(document.querySelector(selector)!.textContent ?? '');
        return found ? Number(found[0]) : undefined;
      }),
    );
  await page.locator('#findings-button').click();
  // A date that is text, a strain that is not listed, a moisture of 62: one each, in ten cells.
  expect(await counts()).toEqual([3, 3, 3]);
  await page.locator('#pane fluent-button', { hasText: 'Check this workbook' }).click();
  await page.waitForFunction(() => document.querySelectorAll('.findings .data').length > 0);
  const [count, ...others] = await counts();
  expect(count).toBeGreaterThan(3);
  expect(others).toEqual([count, count]);
  expect(await page.locator('.findings > li').count()).toBe(count);
});

test('a cell that the panel leads to is in view beside the panel, and stays there when it unfolds', async () => {
  await page.setViewportSize({ width: 1024, height: 768 });
  const isSeen = (): Promise<boolean> =>
    page.evaluate(() => {
      const mark = document.querySelector('#grid .o-autofill')?.getBoundingClientRect();
      const grid = document.querySelector('#grid')!.getBoundingClientRect();
      return mark !== undefined && mark.left > grid.left && mark.left < grid.right && mark.top < grid.bottom;
    });
  // To the right of what is in view.
  const finding = page.locator('.findings > li', { hasText: 'Lots!M42' }).first();
  await finding.getByText('Go to the cell').click();
  await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#place')?.value === 'M42');
  await drawn();
  expect(await isSeen()).toBe(true);
  await page.locator('#pane-button').click();
  await page.locator('#pane-button').click();
  await drawn();
  expect(await isSeen()).toBe(true);
});

test('the theme is the device’s until one is chosen; the choice and the folded panel are there on the next visit', async () => {
  await wide();
  await isLight();
  await page.emulateMedia({ colorScheme: 'dark' });
  await isDark();
  await page.locator('#sheet-button').click();
  await page.getByRole('radio', { name: 'light' }).check();
  await isLight();
  // The keyboard stays in the menu, which it then closes.
  await page.waitForFunction(() => document.activeElement?.getAttribute('name') === 'theme');
  await page.keyboard.press('Escape');
  await page.locator('#sheet-menu').waitFor({ state: 'hidden' });
  await page.locator('#pane-button').click();
  await page.reload();
  await opened();
  await isLight();
  expect(await page.locator('#pane').isVisible()).toBe(false);
  await page.evaluate(() => localStorage.clear());
  await page.emulateMedia({ colorScheme: 'light' });
});

test('the first key of the page leads to links that skip its parts, and F6 out of the cells', async () => {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.locator('#skips a').first().focus();
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement!.textContent)).toBe('To the panel');
  await page.keyboard.press('Enter');
  const partOf = (): Promise<string | undefined> =>
    page.evaluate(() =>
      ['grid', 'pane', 'tabs', 'actions'].find((id) =>
        document.getElementById(id)!.contains(document.activeElement),
      ),
    );
  expect(await partOf()).toBe('pane');
  expect(await page.locator('#reading .keys').innerText()).toContain('F6 leaves the cells');
  await page.locator('#skips a').first().focus();
  await page.keyboard.press('Enter');
  expect(await partOf()).toBe('grid');
  await page.keyboard.press('Tab');
  expect(await partOf()).toBe('grid');
  await page.keyboard.press('F6');
  expect(await partOf()).toBe('pane');
});

test('on a phone the list of today comes before the cells: its lines are those of the book’s functions, each leads to its cell', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.reload();
  await opened();
  await page.locator('#today ul').first().waitFor();
  const bytes = new Uint8Array(await readFile(path.join(__dirname, '../../sample-workbooks/farm-book.xlsx')));
  const content = readWorkbook(bytes);
  const formulas = content.sheets.flatMap(({ name, cells }) =>
    cells.flatMap(({ address, formula }) =>
      formula === undefined ? [] : [{ sheet: name, address, formula }],
    ),
  );
  const { lines } = todayList(bookOf(content, []), formulas, 1);
  expect(lines.length).toBeGreaterThan(4);
  const shown = page.locator('#today .today button span');
  expect(await shown.evaluateAll((all) => all.map((one) => one.textContent))).toEqual(
    lines.map(({ words }) => words),
  );
  await page.locator('#today .today button').first().click();
  await page.waitForFunction(
    (wanted) => document.querySelector<HTMLInputElement>('#place')?.value === wanted,
    lines[0]!.place.address,
  );
  expect(await page.locator('#pane').isVisible()).toBe(false);
});

test.each([768, 720])(
  'at %i pixels the panel lies over the cells, all of it in reach, until it is closed',
  async (width) => {
    await page.setViewportSize({ width, height: 900 });
    if (!(await page.locator('#pane').isVisible())) await page.locator('#pane-button').click();
    await drawn();
    const covered = await page.evaluate(() =>
      [...document.querySelectorAll('#pane fluent-tab, #pane-close')].flatMap((one) => {
        const { left, top, width: wide, height } = one.getBoundingClientRect();
        const above = document.elementFromPoint(left + wide / 2, top + height / 2);
        return one.contains(above) ? [] : [one.textContent];
      }),
    );
    expect(covered).toEqual([]);
    await page.locator('#pane-close').click();
    await page.locator('#pane').waitFor({ state: 'hidden' });
  },
);

// WCAG 2.2, 1.4.10: 1280 pixels at 400% are 320; 2.4.11: what has the keyboard is not covered.
test('at 400% nothing is cut, nothing scrolls sideways but the cells, and one sees where the keyboard is', async () => {
  await page.setViewportSize({ width: 320, height: 256 });
  const faults = (): Promise<string[]> =>
    page.evaluate(() => {
      const found = document.documentElement.scrollWidth > 320 ? ['the page scrolls sideways'] : [];
      for (const one of document.querySelectorAll<HTMLElement>(
        'header *, #pane button, #pane fluent-button, #pane p, #pane h3, #below > *, footer *',
      )) {
        if (!one.checkVisibility() || one.closest('[popover], .pinset .unseen')) continue;
        const { left, right } = one.getBoundingClientRect();
        if (left < 0 || right > 320.5) found.push(`outside: ${one.outerHTML.slice(0, 80)}`);
        const isCut = one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflowX === 'visible';
        if (isCut && one.tagName === 'BUTTON') found.push(`cut: ${one.outerHTML.slice(0, 80)}`);
      }
      return found;
    });
  expect(await faults()).toEqual([]);
  await page.locator('#pane-button').click();
  for (const tab of ['today', 'find', 'own', 'start', 'check']) {
    await page.locator(`#tab-${tab}`).click();
    expect([tab, await faults()]).toEqual([tab, []]);
  }
  await page.locator('#undo').focus();
  const covered: string[] = [];
  for (let n = 0; n < 14; n++) {
    await page.keyboard.press('Tab');
    covered.push(
      ...(await page.evaluate(() => {
        const one = document.activeElement!;
        const { left, top, width, height } = one.getBoundingClientRect();
        const above = document.elementFromPoint(left + width / 2, top + height / 2);
        const isSeen = above !== null && (one.contains(above) || above.contains(one));
        return isSeen || one === document.body ? [] : [one.outerHTML.slice(0, 80)];
      })),
    );
  }
  expect(covered).toEqual([]);
});

test('what was found in one workbook is gone once another is open', async () => {
  await wide();
  await page.locator('#findings-button').click();
  await page.locator('#pane fluent-button', { hasText: 'Check this workbook' }).click();
  await page.locator('.findings .data').first().waitFor();
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Mine').getCell('A1').value = 'here';
  const buffer = Buffer.from(await workbook.xlsx.writeBuffer());
  await page.locator('#picker').setInputFiles({ name: 'mine.xlsx', mimeType: '', buffer });
  await page.waitForFunction(
    () => document.getElementById('checked')?.innerText.trim() === 'Nothing to look at',
  );
  expect(await page.locator('.findings > li').count()).toBe(0);
  expect(await page.locator('#findings-count').innerText()).toBe('Nothing to look at');
});
