import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { BUILT, builtFile, openBrowser, serveBuilt, watch } from './site';

// Excel keeps `functions.js` and `functions.json` for up to a day and fetches the pane's page each time (the vendor's
// document custom-functions-troubleshooting, April 2026): after an update files of two builds meet.

let browser: Browser;
let server: RunningServer;
let page: Page;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});
beforeEach(async () => {
  page = await browser.newPage();
  await watch(page);
  await page.route('**/office/office.js', (route) =>
    route.fulfill({
      contentType: 'text/javascript',
      body: 'window.Office = { onReady: (f) => Promise.resolve(f && f()) }; window.CustomFunctions = { associate() {} };',
    }),
  );
});

/** The script of a file of the build, changed. */
const insteadOf = (file: string, change: (script: string) => string): Promise<unknown> =>
  page.route(`**/${file}`, (route) =>
    route.fulfill({
      contentType: 'text/javascript',
      body: change(readFileSync(path.join(BUILT, file), 'utf8')),
    }),
  );
/** What stands in place of the pane. */
async function said(): Promise<string> {
  await page.locator('.late').waitFor({ state: 'visible' });
  return (await page.locator('.late').innerText()).replace(/\s+/g, ' ');
}
const TOLD = 'Save, close Excel, and open it again';

const hash = (): string =>
  /"([0-9a-f]{20})"/.exec(readFileSync(path.join(BUILT, 'functions.js'), 'utf8'))![1]!;

test('functions and pane of one build open the pane', async () => {
  await page.goto(`${server.url}taskpane.html`);
  await page.locator('fluent-tablist').waitFor();
  expect(await page.locator('.late').count()).toBe(0);
});

test('older functions beside a newer pane are told in a sentence with what to do', async () => {
  await insteadOf('functions.js', (script) => script.replaceAll(hash(), '00000000000000000000'));
  await page.goto(`${server.url}taskpane.html`);
  expect(await said()).toContain(TOLD);
});

test('functions of before builds had names are told too, and none at all', async () => {
  await insteadOf('functions.js', () => 'var pinset = { catalogue: [] };');
  await page.goto(`${server.url}taskpane.html`);
  expect(await said()).toContain(TOLD);
  await insteadOf('functions.js', () => '');
  await page.reload();
  expect(await said()).toContain(TOLD);
});

test.each(['taskpane', 'pane'])(
  'an older page whose %s script the server no longer has is told, never blank',
  async (part) => {
    await page.route(`**/${builtFile(part, 'js')}`, (route) => route.fulfill({ status: 404, body: '' }));
    await page.goto(`${server.url}taskpane.html`);
    expect(await said()).toContain(TOLD);
  },
);

test('every script and style that pages name has a hash in its name, but for the functions’ and what keeps pages', () => {
  const plain = readdirSync(BUILT).filter(
    (name) => /\.(js|css)$/.test(name) && !/-[0-9a-f]{10}\./.test(name),
  );
  expect(plain.sort()).toEqual(['functions.js', 'guide.css', 'offline.js']);
});
