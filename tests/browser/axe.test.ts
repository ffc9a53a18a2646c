import { afterAll, afterEach, beforeAll, expect, test } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { addAxe, lookedAt, seriousFaults } from './axe';
import { freshPage, openBrowser } from './site';

// The second look at a page asks fewer rules: it must still tell every fault that only the second look has.

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await openBrowser();
});
afterEach(() => page.goto('about:blank'));
afterAll(() => browser.close());

async function shown(style: string, body: string): Promise<void> {
  page = await freshPage(browser, { bypassCSP: true });
  await page.setContent(
    `<!doctype html><html lang="en"><title>A page</title><style>:root { color-scheme: light dark; }
    @media (prefers-color-scheme: dark) { ${style} }</style><main><h1>A page</h1>${body}</main></html>`,
  );
  await addAxe(page);
}

const RULES = /^\w+ ([\w-]+)/;
const rulesIn = (faults: readonly string[]): string[] => faults.map((fault) => RULES.exec(fault)![1]!);

test.each([
  [
    'a contrast',
    'html { background: #222; } .note { color: #333; }',
    '<p class="note">Water</p>',
    ['color-contrast'],
  ],
  [
    'a link told by its colour alone',
    'p { color: #000; background: #fff; } a { color: #333; text-decoration: none; }',
    '<p>Mix them by hand as <a href="#here">told here</a>, then add the water that is still lacking</p>',
    ['link-in-text-block'],
  ],
  [
    'a picture without a name',
    'img { display: block !important; }',
    '<img style="display: none" src="data:,">',
    ['image-alt'],
  ],
  [
    'a field without a name that one could not see',
    'input { visibility: visible !important; }',
    '<input style="visibility: hidden">',
    ['label'],
  ],
  [
    'a part that scrolls and that no key reaches',
    'div { height: 20px; overflow: auto; }',
    `<div>${'<p>Water</p>'.repeat(5)}</div>`,
    ['scrollable-region-focusable'],
  ],
])(
  '%s that is at fault in the dark alone is told, and nothing in the light',
  async (_what, style, body, rules) => {
    await shown(style, body);
    expect(await seriousFaults(page)).toEqual([]);
    await lookedAt(page, { colorScheme: 'dark' });
    expect(rulesIn(await seriousFaults(page))).toEqual(rules);
  },
);

test('a fault that came between two looks is told, whatever rule it breaks', async () => {
  await shown('', '<p>Water</p><input aria-label="dry mass">');
  expect(await seriousFaults(page)).toEqual([]);
  await page.locator('input').evaluate((field) => field.removeAttribute('aria-label'));
  expect(rulesIn(await seriousFaults(page))).toEqual(['label']);
});

test('nothing but colours is looked at again where nothing but colours changed', async () => {
  await shown('', '<p>Water</p><input>');
  expect(rulesIn(await seriousFaults(page))).toEqual(['label']);
  await lookedAt(page, { colorScheme: 'dark' });
  expect(await seriousFaults(page)).toEqual([]);
});
