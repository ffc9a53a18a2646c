import { readdirSync } from 'node:fs';
import path from 'node:path';
import type { Browser, Dialog, LaunchOptions, Page } from 'playwright-core';
import { OFFICE_FOLDER, serveNear, type RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { launchOptions } from './chromium';

const ROOT = path.resolve(__dirname, '..', '..');

/** What the build for these tests writes: as for use, but with office.js from this machine. */
export const BUILT = path.join(ROOT, 'node_modules', '.cache', 'pinset', 'dist');

/** Beside it: which packages of others the build put into which script. */
export const IN_BUNDLES = path.join(path.dirname(BUILT), 'in-bundles.json');

/** The file of a part of the pages, whose name holds a hash of what it holds. */
export const builtFile = (part: string, ending: string): string =>
  readdirSync(BUILT).find((name) => new RegExp(`^${part}-[0-9a-f]{10}\\.${ending}$`).test(name))!;

/** What a worker of Jest keeps from file to file: `kept.js`. Benchmarks have none. */
const { kept } = globalThis as unknown as {
  readonly kept?: {
    readonly browser: (options: LaunchOptions) => Promise<Browser>;
    /** By what cannot be changed of a page once it is open. */
    readonly pages: Map<string, Page>;
    port: number;
  };
};

/**
 * Serves the built pages, further folders beside them: from the same port in each file of tests, where it is free, so that
 * a page that is kept knows its scripts again.
 */
export async function serveBuilt(beside: Readonly<Record<string, string>> = {}): Promise<RunningServer> {
  const served = { root: BUILT, beside: { office: OFFICE_FOLDER, ...beside }, home: 'workbench.html' };
  const server = await serveNear(served, kept?.port ?? 0);
  if (kept) kept.port = Number(new URL(server.url).port);
  return server;
}

/**
 * The browser of this worker as a file of tests has it: to close it closes what the file opened, and leaves the browser to
 * the next. Its pages keep nothing for the time without a network unless a test says so: what a service worker fetches
 * passes by what a test puts in place of a file.
 */
export async function openBrowser(): Promise<Browser> {
  const { pages } = kept!;
  // A page that is kept knows its scripts: to parse them beside it costs a sixth of what the page does.
  const browser = await kept!.browser(launchOptions('ScriptStreaming'));
  return Object.assign(Object.create(browser) as Browser, {
    newPage: (options?: Parameters<Browser['newPage']>[0]) =>
      browser.newPage({ serviceWorkers: 'block', ...options }),
    close: async () => {
      const keep = [...pages.values()].map((page) => page.context());
      const opened = browser.contexts().filter((context) => !keep.includes(context));
      await Promise.all(opened.map((context) => context.close()));
    },
  });
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
  /** The moment at which the page's clock stands. */
  readonly at?: string;
}

/**
 * A page with nothing of the test before on it: no document, nothing stored, no route and no listener. It is kept, since
 * a new page compiles every script again, which takes longer than most tests.
 */
export async function freshPage(browser: Browser, look: Look = {}): Promise<Page> {
  const { viewport = { width: 1280, height: 720 }, bypassCSP = false, at } = look;
  const { pages } = kept!;
  const kind = `${bypassCSP} ${at}`;
  let page = pages.get(kind);
  // A test that failed may not have left its page.
  if (page?.url() !== 'about:blank') {
    await page?.close();
    page = await browser.newPage({ viewport, bypassCSP });
    if (at !== undefined) await page.clock.setFixedTime(new Date(at));
    pages.set(kind, page);
  }
  await page.unrouteAll({ behavior: 'wait' });
  for (const event of ['console', 'pageerror', 'websocket'] as const) page.removeAllListeners(event);
  page.setDefaultTimeout(60_000);
  await page.setViewportSize(viewport);
  await page.emulateMedia({
    colorScheme: look.colorScheme ?? 'light',
    forcedColors: look.forcedColors ?? 'none',
    reducedMotion: look.reducedMotion ?? 'no-preference',
  });
  return page;
}

/**
 * Does something and agrees to what the page asks meanwhile. The listener stays until it is done: when the last one goes,
 * Playwright refuses what is still being asked.
 */
export async function agreeing(page: Page, act: () => Promise<unknown>): Promise<void> {
  const agree = (asking: Dialog): void => void asking.accept();
  page.on('dialog', agree);
  await act().finally(() => page.off('dialog', agree));
}

/** Leaves a page for the next test: what it stored goes with it, and what it asks before it goes is not waited for. */
export async function leave(page: Page): Promise<void> {
  await page.evaluate(() => (localStorage.clear(), sessionStorage.clear()));
  if (page.url() !== 'about:blank')
    await page.evaluate(() => void indexedDB.deleteDatabase('pinset-workbench'));
  await agreeing(page, () => page.goto('about:blank'));
}
