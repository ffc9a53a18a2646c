import { readdirSync } from 'node:fs';
import path from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { OFFICE_FOLDER, serve, type RunningServer } from '../../src/hosts/excel/serve/staticServer';

const ROOT = path.resolve(__dirname, '..', '..');

/** What the build for these tests writes: as for use, but with office.js from this machine. */
export const BUILT = path.join(ROOT, 'node_modules', '.cache', 'pinset', 'dist');

/** Beside it: which packages of others the build put into which script. */
export const IN_BUNDLES = path.join(path.dirname(BUILT), 'in-bundles.json');

/** The file of a part of the pages, whose name holds a hash of what it holds. */
export const builtFile = (part: string, ending: string): string =>
  readdirSync(BUILT).find((name) => new RegExp(`^${part}-[0-9a-f]{10}\\.${ending}$`).test(name))!;

/** Serves the built pages, further folders beside them. */
export function serveBuilt(beside: Readonly<Record<string, string>> = {}): Promise<RunningServer> {
  return serve({ root: BUILT, beside: { office: OFFICE_FOLDER, ...beside }, home: 'workbench.html' });
}

/** As fast as a person types: the grid takes a second key within the same frame for one before the first. */
export const BY_HAND = { delay: 40 };

/** What a page did that it should not: errors in its console, and requests to anywhere but this machine. */
export interface Watch {
  readonly errors: string[];
  readonly strayed: string[];
}

/** Watches a page from before its first request. Requests that would leave this machine are recorded and stopped. */
export async function watch(page: Page): Promise<Watch> {
  const seen: Watch = { errors: [], strayed: [] };
  page.on('console', (message) => {
    if (message.type() === 'error') seen.errors.push(message.text());
  });
  page.on('pageerror', (error) => seen.errors.push(error.message));
  page.on('websocket', (socket) => seen.strayed.push(socket.url()));
  await page.route('**/*', (route) => {
    const { hostname, protocol } = new URL(route.request().url());
    if (hostname === 'localhost' || protocol === 'data:' || protocol === 'blob:') return route.continue();
    seen.strayed.push(route.request().url());
    return route.abort();
  });
  return seen;
}

interface Look {
  readonly viewport?: { readonly width: number; readonly height: number };
  readonly colorScheme?: 'light' | 'dark';
  readonly forcedColors?: 'active' | 'none';
  readonly reducedMotion?: 'reduce' | 'no-preference';
  /** For axe-core, which the page's own policy would keep out. */
  readonly bypassCSP?: boolean;
}

/** The two pages of a browser that tests visit one after another: with the policy and without. */
const pagesOf = new WeakMap<Browser, Map<boolean, Page>>();

/**
 * A page with nothing of the test before on it: no document, nothing stored, no route and no listener. It is kept, since
 * a new page compiles every script again, which takes longer than most tests.
 */
export async function freshPage(browser: Browser, look: Look = {}): Promise<Page> {
  const { viewport = { width: 1280, height: 720 }, bypassCSP = false } = look;
  const pages = pagesOf.get(browser) ?? new Map<boolean, Page>();
  pagesOf.set(browser, pages);
  const page = pages.get(bypassCSP) ?? (await browser.newPage({ viewport, bypassCSP }));
  pages.set(bypassCSP, page);
  await page.unrouteAll({ behavior: 'wait' });
  for (const event of ['console', 'pageerror', 'websocket'] as const) page.removeAllListeners(event);
  await page.setViewportSize(viewport);
  await page.emulateMedia({
    colorScheme: look.colorScheme ?? 'light',
    forcedColors: look.forcedColors ?? 'none',
    reducedMotion: look.reducedMotion ?? 'no-preference',
  });
  return page;
}

/** Leaves a page for the next test: what it stored goes with it, and what it asks before it goes is not waited for. */
export async function leave(page: Page): Promise<void> {
  await page.evaluate(() => (localStorage.clear(), sessionStorage.clear()));
  if (page.url() !== 'about:blank')
    await page.evaluate(() => void indexedDB.deleteDatabase('pinset-workbench'));
  page.once('dialog', (asking) => asking.accept());
  await page.goto('about:blank');
  page.removeAllListeners('dialog');
}
