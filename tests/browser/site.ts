import { readdirSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
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
