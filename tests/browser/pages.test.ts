import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { catalogue } from '../../src/worksheet/catalogue';
import { launchBrowser } from './chromium';
import { openAddIn } from './excelHost';
import { serveBuilt, watch } from './site';

let browser: Browser;
let server: RunningServer;
beforeAll(async () => {
  [browser, server] = await Promise.all([launchBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

const names = catalogue.map(({ name }) => name);

/** How far a page's content runs past the window's right edge. */
const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

test('the workbench page opens without an error and asks nothing of any other machine', async () => {
  const page = await browser.newPage();
  const seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  expect(await page.title()).toBe('Pinset workbench');
  expect(seen).toEqual({ errors: [], strayed: [] });
});

describe('the task pane', () => {
  let page: Page;
  beforeAll(async () => {
    page = await browser.newPage({ viewport: { width: 320, height: 800 } });
    await openAddIn(page, server.url);
  });

  test('lists every function with its summary and fits a narrow pane', async () => {
    const shown = await page.locator('summary').allInnerTexts();
    expect(shown.map((text) => text.split(/\s/)[0]).sort()).toEqual([...names].sort());
    for (const { summary } of catalogue) expect(shown.join(' ')).toContain(summary);
    await page.locator('summary').first().click();
    expect(await overflow(page)).toBe(0);
  });

  test('finds a function by words of its description, from the keyboard alone', async () => {
    await page.locator('body').press('Tab');
    await page.locator('#search').focus();
    await page.keyboard.type('biological dry mass');
    expect(await page.locator('summary b:visible').allInnerTexts()).toEqual(['BIOEFFICIENCY']);
    expect(await page.locator('#count').innerText()).toBe('1 function');
    await page.locator('#search').fill('no such thing');
    expect(await page.locator('section:visible h2').allInnerTexts()).toEqual(['Cautions']);
    expect(await page.locator('#count').innerText()).toBe('No function matches');
  });

  test('links each function to its place in the guide', async () => {
    const links = await page
      .locator('details a')
      .evaluateAll((all) => all.map((link) => link.getAttribute('href')));
    expect(links.sort()).toEqual(names.map((name) => `guide.html#${name}`).sort());
  });
});

describe.each([
  [1280, 800],
  [390, 844],
])('the guide at %i × %i', (width, height) => {
  test('has a place for every function, fits, and keeps what cells hold as text', async () => {
    const page = await browser.newPage({ viewport: { width, height } });
    const seen = await watch(page);
    await page.goto(`${server.url}guide.html`);
    const places = await page.locator('article[id]').evaluateAll((all) => all.map(({ id }) => id));
    expect(places.sort()).toEqual([...names].sort());
    expect(await overflow(page)).toBe(0);
    const text = await page.locator('body').innerText();
    for (const { examples } of catalogue) expect(text).toContain(examples[0]!.title);
    expect(text).not.toMatch(/undefined|\[object|&#/);
    expect(seen).toEqual({ errors: [], strayed: [] });
  });
});
