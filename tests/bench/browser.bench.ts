import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium, type Browser } from 'playwright-core';
import { launchOptions } from '../browser/chromium';
import { openAddIn } from '../browser/excelHost';
import { BUILT, serveBuilt } from '../browser/site';
import prepare from '../browser/build';
import { measured, median, type Measurement } from './measure';

// What Excel has to load: sizes of the built files, and the time from opening the add-in's page in a new browser to
// functions that can be called, against the same page without our script.

const RUNS = 9;

export async function figures(): Promise<string[]> {
  await prepare();
  return readdirSync(BUILT, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(js|wasm|html|css|json)$/.test(name))
    .map((name) => {
      const file = join(BUILT, name);
      const [whole, packed] = [statSync(file).size, gzipSync(readFileSync(file)).length];
      return [
        packed,
        `${(packed / 1024).toFixed(1).padStart(8)} KB gzipped, ${(whole / 1024).toFixed(1)} KB: ${name}`,
      ] as const;
    })
    .sort(([a], [b]) => b - a)
    .map(([, line]) => line);
}

async function opened(browser: Browser, url: string, withFunctions: boolean): Promise<number> {
  const context = await browser.newContext();
  const page = await context.newPage();
  // tsx wraps named functions in this, also those that go over to the page.
  await page.addInitScript('globalThis.__name = (f) => f');
  if (!withFunctions) {
    await page.route('**/{functions,taskpane-*}.js', (route) => route.fulfill({ body: '' }));
  }
  const start = performance.now();
  await openAddIn(page, url);
  const time = performance.now() - start;
  await context.close();
  return time;
}

export async function measurements(): Promise<Measurement[]> {
  const [browser, server] = await Promise.all([chromium.launch(launchOptions()), serveBuilt()]);
  try {
    const [times, baseTimes]: [number[], number[]] = [[], []];
    for (let run = -1; run < RUNS; run++) {
      const [time, baseTime] = [
        await opened(browser, server.url, true),
        await opened(browser, server.url, false),
      ];
      if (run < 0) continue;
      times.push(time);
      baseTimes.push(baseTime);
    }
    return [
      measured(
        'the add-in’s page opened cold in Chromium, functions ready',
        median(times),
        'the same page with the vendor’s runtime alone',
        median(baseTimes),
      ),
    ];
  } finally {
    await browser.close();
    await server.close();
  }
}
