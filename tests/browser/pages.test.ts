import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { Browser } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { launchBrowser } from './chromium';
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

test('the workbench page opens without an error and asks nothing of any other machine', async () => {
  const page = await browser.newPage();
  const seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  expect(await page.title()).toBe('Pinset workbench');
  expect(seen).toEqual({ errors: [], strayed: [] });
});
