import { afterEach, beforeEach, describe, expect, test } from '@jest/globals';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { OFFICE_FOLDER, serve, type RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { BUILT, openBrowser } from './site';

// The server is closed, which is what no network comes to.

let browser: Browser;
let server: RunningServer;
let page: Page;
let root: string;
let errors: string[];

const start = (port?: number): Promise<RunningServer> =>
  serve({ root, beside: { office: OFFICE_FOLDER }, home: 'guide.html' }, port);

beforeEach(async () => {
  root = mkdtempSync(path.join(tmpdir(), 'pinset-offline-'));
  cpSync(BUILT, root, { recursive: true });
  [browser, server] = await Promise.all([openBrowser(), start()]);
  page = await browser.newPage({ serviceWorkers: 'allow' });
  errors = [];
  page.on('pageerror', ({ message }) => errors.push(message));
  page.on('console', (said) => said.type() === 'error' && errors.push(said.text()));
});
afterEach(async () => {
  await browser.close();
  await server.close();
  rmSync(root, { recursive: true });
});

/** Waits until each page that this one keeps is kept. */
const allKept = (): Promise<void> =>
  page.evaluate(async () => {
    const registrations = async (): Promise<readonly ServiceWorkerRegistration[]> =>
      navigator.serviceWorker.getRegistrations();
    const isKept = ({ active }: ServiceWorkerRegistration): boolean => active?.state === 'activated';
    for (;;) {
      const all = await registrations();
      if (all.length > 0 && all.every(isKept)) return;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  });
async function open(file: string): Promise<void> {
  await page.goto(server.url + file);
  await allKept();
}
const keptNames = (): Promise<string[]> => page.evaluate(() => caches.keys());
const kept = (): Promise<string[]> =>
  page.evaluate(async () => {
    const requests = await Promise.all(
      (await caches.keys()).map(async (name) => (await caches.open(name)).keys()),
    );
    return requests.flat().map(({ url }) => new URL(url).pathname.slice(1));
  });

describe('without a network', () => {
  test('the guide and the pages it links to open again once the guide was open', async () => {
    await open('guide.html');
    expect(errors).toEqual([]);
    await server.close();
    await page.reload();
    expect(await page.locator('#READYDATE').innerText()).toContain('READYDATE');
    const rules = await page.evaluate(() => document.styleSheets[0]!.cssRules.length);
    expect(rules).toBeGreaterThan(5);
    await page.getByRole('link', { name: 'Blanks and zeros' }).click();
    expect(await page.title()).toBe('Pinset guide');
    expect(page.url()).toBe(`${server.url}blanks.html`);
    await page.locator('#words').fill('which lots are ready');
    await page.locator('#found a[href="ready.html"]').click();
    await page.waitForURL(`${server.url}ready.html`);
    expect(await page.locator('h1').innerText()).toBe('Which lots are ready?');
    expect(errors).toEqual([]);
  });

  test('the workbench opens again, calculates, and finds what it loads on demand', async () => {
    await open('workbench.html');
    await server.close();
    await page.reload();
    await page.locator('#tabs [role=tab]').first().waitFor();
    expect(await page.locator('#file').innerText()).toContain('farm-book');
    const script = readdirSync(BUILT).find(
      (name) =>
        /^workbench-.*\.js$/.test(name) &&
        /postMessage\(\{holds:/.test(readFileSync(path.join(BUILT, name), 'utf8')),
    )!;
    const first = await page.evaluate(
      (file) =>
        new Promise((resolve) => {
          const worker = new Worker(file);
          worker.onmessage = ({ data }) => resolve(data);
          worker.onerror = ({ message }) => resolve(`failed ${message}`);
        }),
      script,
    );
    expect(first).toEqual({ holds: null });
    expect(errors).toEqual([]);
  });
});

test('only files of the build are kept: none of Excel’s, and nothing of a grower’s', async () => {
  await open('workbench.html');
  await open('guide.html');
  const files = await kept();
  const own = readdirSync(BUILT, { recursive: true }).map((name) => String(name).replaceAll('\\', '/'));
  expect(files.length).toBeGreaterThan(40);
  expect(files.filter((file) => !own.includes(file))).toEqual([]);
  expect(files.filter((file) => /^(functions\.|taskpane|manifest|office\/|offline\.js)/.test(file))).toEqual(
    [],
  );
});

test('no page of Excel’s is in its reach', async () => {
  await open('guide.html');
  await open('workbench.html');
  await page.goto(`${server.url}taskpane.html`);
  const [controller, registration] = await page.evaluate(async () => [
    navigator.serviceWorker.controller,
    await navigator.serviceWorker.getRegistration(),
  ]);
  expect([controller, registration]).toEqual([null, undefined]);
});

test('with a network a new build shows at once, and takes the place of the kept one', async () => {
  await open('guide.html');
  const [before] = await keptNames();
  const edit = (file: string, change: (text: string) => string): void =>
    writeFileSync(path.join(root, file), change(readFileSync(path.join(root, file), 'utf8')));
  edit('guide.html', (html) => html.replace('<h2>Rules for all of them', '<h2>New rules for all of them'));
  edit('offline.js', (script) => script.replace(/"version":"[^"]*"/, '"version":"newer"'));
  await page.reload();
  expect(await page.locator('h2').first().innerText()).toBe('New rules for all of them');
  await page.evaluate(async () => {
    for (const registration of await navigator.serviceWorker.getRegistrations()) await registration.update();
  });
  // The new one takes over once no page of the old one is open.
  await page.goto('about:blank');
  await page.goto(`${server.url}guide.html`);
  await page.evaluate(async () => {
    while ((await caches.keys()).join() !== 'pinset guide newer')
      await new Promise((resolve) => setTimeout(resolve, 50));
  });
  expect(before).not.toBe('pinset guide newer');
  await server.close();
  await page.reload();
  expect(await page.locator('h2').first().innerText()).toBe('New rules for all of them');
});
