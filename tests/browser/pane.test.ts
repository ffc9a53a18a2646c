import path from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import { buildSync } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { described } from '../../src/worksheet/described';
import type { FakeCell, FakeExcel } from '../hosts/excel/fakeExcel';
import { addAxe, lookedAt, seriousFaults } from './axe';
import { freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// The built task pane in a real browser, beside an Excel in memory that makes the same calls possible.

interface PaneWindow {
  excel: FakeExcel;
  Excel: unknown;
}

const fakeExcel = buildSync({
  entryPoints: [path.join(__dirname, '..', 'hosts', 'excel', 'fakeExcel.ts')],
  bundle: true,
  format: 'iife',
  globalName: 'FakeExcel',
  write: false,
}).outputFiles[0]!.text;

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterEach(() => leave(page));
afterAll(async () => {
  await browser.close();
  await server.close();
});

async function openPane(
  sheets: Record<string, Record<string, FakeCell>> = { Sheet1: {} },
  look: Parameters<typeof freshPage>[1] = { viewport: { width: 390, height: 844 } },
  atFirst: () => void = () => {},
): Promise<void> {
  page = await freshPage(browser, look);
  seen = await watch(page);
  // In the place of office.js, which a page loads before anything of ours.
  await page.route('**/office/office.js', (route) =>
    route.fulfill({
      contentType: 'text/javascript',
      body: `window.Office = { onReady: (f) => Promise.resolve(f && f()) };
        window.CustomFunctions = { associate() {} };
        (${atFirst.toString()})();
        ${fakeExcel}
        window.excel = new FakeExcel.FakeExcel(${JSON.stringify(sheets)});
        window.Excel = window.excel.api;`,
    }),
  );
  await page.goto(`${server.url}taskpane.html`);
  await page.locator('.functions').first().waitFor();
}

const cellsOf = (sheet: string): Promise<Record<string, unknown>> =>
  page.evaluate(
    (name) =>
      Object.fromEntries(
        [...(window as unknown as PaneWindow).excel.sheets.get(name)!.cells].map(([address, { formula }]) => [
          address,
          formula,
        ]),
      ),
    sheet,
  );
const sheetNames = (): Promise<string[]> =>
  page.evaluate(() => [...(window as unknown as PaneWindow).excel.sheets.keys()]);
const message = (): Promise<string> => page.locator('#message').innerText();

async function search(words: string): Promise<string[]> {
  await page.locator('#words input').fill(words);
  return page.locator('#guide .functions b').allInnerTexts();
}

describe('finding a function', () => {
  beforeEach(() => openPane());

  test('every function is listed, once, with what it gives', async () => {
    const names = await page.locator('#guide .functions b').allInnerTexts();
    expect(names.sort()).toEqual(described.map(({ name }) => name).sort());
  });

  test('plain words lead to it, and its page says all about it', async () => {
    expect((await search('how much water'))[0]).toBe('MIXWATER');
    await page.locator('#guide a', { hasText: 'MIXWATER' }).click();
    const text = await page.locator('#MIXWATER').innerText();
    const f = described.find(({ name }) => name === 'MIXWATER')!;
    for (const words of [f.summary, ...f.sources, ...f.faults.map(({ remedy }) => remedy)])
      expect(text).toContain(words);
    await page.locator('.back').click();
    expect((await search('xqzzv')).length).toBe(0);
    expect(await page.locator('#guide').innerText()).toContain('Nothing found');
  });

  test('an example runs where it stands: a changed figure changes the answer, a wrong one says why', async () => {
    await page.goto(`${server.url}taskpane.html#MIXWATER`);
    const example = page.locator('[data-example="MIXWATER:0"]');
    expect(await example.locator('.result').innerText()).toBe('145');
    // Dry 106, at 50% is 212 wet, less the 120 in the mixer.
    await example.locator('input[aria-label="target"]').fill('50%');
    expect(await example.locator('.result').innerText()).toBe('92');
    await example.locator('input[aria-label="target"]').fill('50');
    expect(await example.locator('.result').innerText()).toContain('write 50% or 0.5');
  });

  test('a part whose download fails once is told, and the page opens on the next try', async () => {
    let failed = 0;
    await page.route(/\.js$/, (route) => (failed++ === 0 ? route.abort() : route.fallback()));
    const open = (): Promise<void> => page.locator('#guide a[href="#COMPARE"]').click();
    await open();
    expect(await page.locator('#guide [role="alert"]').innerText()).toMatch(
      /^This page did not open: a part of Pinset could not be loaded. Go online and calculate again/,
    );
    await page.locator('.back').click();
    await open();
    expect(await page.locator('[data-example="COMPARE:0"] .result').innerText()).toContain('mean');
    expect(failed).toBeGreaterThan(1);
  });

  test('a page that comes late does not take the place of what the person looks for by then, nor the keyboard', async () => {
    let letThrough = (): void => {};
    const held = new Promise<void>((resolve) => (letThrough = resolve));
    await page.route(/\.js$/, async (route) => {
      await held;
      await route.fallback();
    });
    const asked = page.waitForRequest(/\.js$/);
    await page.locator('#guide a[href="#COMPARE"]').click();
    await asked;
    expect((await search('how much water'))[0]).toBe('MIXWATER');
    const came = page.waitForResponse(/\.js$/);
    letThrough();
    await (await came).finished();
    await page.evaluate(() => new Promise((resolve) => setTimeout(resolve)));
    expect(await page.locator('#COMPARE').count()).toBe(0);
    expect(await page.locator('#guide .functions b').first().innerText()).toBe('MIXWATER');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('words');
  });

  test('examples in US units on request', async () => {
    await page.goto(`${server.url}taskpane.html#BIOEFFICIENCY`);
    await page.getByRole('radio', { name: 'US (' }).check();
    expect(await page.locator('[data-example="BIOEFFICIENCY:0"]').innerText()).toContain('9.92 lb');
    expect(await page.locator('[data-example="BIOEFFICIENCY:0"] .result').innerText()).toBe('66.78%');
    await page.goto(`${server.url}taskpane.html#LETHALITY`);
    const example = page.locator('[data-example="LETHALITY:0"]');
    expect(await example.innerText()).toContain('231.8 °F');
    // 18 °F below the reference with z at 18 °F: a tenth of 15 minutes.
    expect(await example.locator('.result').innerText()).toBe('1.5');
  });
});

describe('putting it in the sheet', () => {
  test('an example goes in at the selected cell, its call referring to its cells', async () => {
    await openPane();
    await page.goto(`${server.url}taskpane.html#MIXWATER`);
    await page.locator('fluent-button', { hasText: 'Put this example in the sheet' }).click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await message()).toBe('It is in Sheet1!A1.');
    expect(Object.values(await cellsOf('Sheet1'))).toContain('=PINSET.MIXWATER(A3:A4,A6:A7,A9)');
  });

  test('a call with the names of its arguments, and never over a cell that is not empty', async () => {
    await openPane({ Sheet1: { A1: { formula: 'mine' } } });
    await page.goto(`${server.url}taskpane.html#MIXWATER`);
    await page.locator('fluent-button', { hasText: 'Put a call in the selected cell' }).click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await message()).toBe('A1 is not empty, so it is on the new sheet Pinset.');
    expect(await cellsOf('Sheet1')).toEqual({ A1: 'mine' });
    expect(await cellsOf('Pinset')).toEqual({ A1: '=PINSET.MIXWATER("masses","moistures","target")' });
  });

  test('a starter sheet is laid down on a sheet of its own after what it needs, twice under two names', async () => {
    await openPane({ Lots: {} });
    await page.locator('fluent-tab', { hasText: 'Starters' }).click();
    const add = page.locator('fluent-button', { hasText: 'Add the sheet Lots' });
    await add.click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent?.includes('Lots2'));
    await add.click();
    await page.waitForFunction(() => document.querySelector('#message')?.textContent?.includes('Lots3'));
    expect(await sheetNames()).toEqual(['Lots', 'Farm', 'Strains', 'Lots2', 'Lots3']);
    expect(Object.values(await cellsOf('Lots3'))).toContain(
      '=IF(A3="",PINSET.READYWINDOW(Lots2[inoculated],Lots2[strain],Strains[#All]),"")',
    );
  });
});

describe('checking the workbook', () => {
  test('lists what to look at and goes to the cell; what cells hold stays text', async () => {
    await openPane({
      'My lots': {
        B2: { formula: '=PINSET.MIXWATER("<img src=x onerror=alert(1)>",B3,TODAY())', shown: '#VALUE!' },
      },
    });
    await page.locator('fluent-tab', { hasText: 'Check' }).click();
    await page.locator('fluent-button', { hasText: 'Check this workbook' }).click();
    await page.locator('.findings li').first().waitFor();
    expect(await page.locator('#checked h3').innerText()).toBe('2 to look at');
    expect(await page.locator('.findings li').first().innerText()).toContain('<img src=x onerror=alert(1)>');
    expect(await page.locator('#checked img').count()).toBe(0);
    await page.locator('fluent-button', { hasText: 'Go to the cell' }).first().click();
    await page.waitForFunction(() => (window as unknown as PaneWindow).excel.selected.address === 'B2');
    expect(seen.errors).toEqual([]);
  });
});

test('the keyboard reaches all of it: search, a function, its example, its button', async () => {
  await openPane();
  for (let i = 0; i < 12 && !(await page.evaluate(() => document.activeElement?.id === 'words')); i++) {
    await page.keyboard.press('Tab');
  }
  await page.keyboard.type('weighing list');
  for (let i = 0; i < 12; i++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement?.getAttribute('href') === '#MIX')) break;
  }
  await page.keyboard.press('Enter');
  await page.locator('#MIX').waitFor();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement?.getAttribute('data-for') === 'MIX:0')) break;
  }
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
  expect(await message()).toContain('It is in Sheet1!A1.');
});

describe('from opening the pane to the call in the sheet, starting with "how much water"', () => {
  // Own figures: 100 at 12% and 20 at 10% to 65%. Dry 106, over 0.35 is 302.86, less the 120 there.
  const answer = '182.857';
  const inSheet = (): Promise<Record<string, unknown>> => cellsOf('Sheet1');
  const wanted = { A9: 0.65, A11: '=PINSET.MIXWATER(A3:A4,A6:A7,A9)' };

  test('by the keyboard alone: at most 20 key presses beside the typing', async () => {
    await openPane();
    let presses = 0;
    const press = async (key: string): Promise<void> => {
      presses++;
      await page.keyboard.press(key);
    };
    const tabTo = async (selector: string): Promise<void> => {
      for (let i = 0; i < 40; i++) {
        if (await page.evaluate((one) => document.activeElement?.matches(one), selector)) return;
        await press('Tab');
      }
      throw new Error(`the keyboard did not reach ${selector}`);
    };
    await tabTo('#words');
    await page.keyboard.type('how much water');
    await tabTo('a[href="#MIXWATER"]');
    await press('Enter');
    await page.locator('#MIXWATER').waitFor();
    await tabTo('[data-example="MIXWATER:0"] input[aria-label="target"]');
    await page.keyboard.type('65%');
    expect(await page.locator('[data-example="MIXWATER:0"] .result').innerText()).toContain(answer);
    await tabTo('[data-for="MIXWATER:0"]');
    await press('Enter');
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await inSheet()).toMatchObject(wanted);
    expect(presses).toBeLessThanOrEqual(20);
  });

  test('by the mouse, but for the typing: four clicks', async () => {
    await openPane();
    let clicks = 0;
    const click = async (selector: string, times = 1): Promise<void> => {
      clicks++;
      await page.locator(selector).click({ clickCount: times });
    };
    await click('#words');
    await page.keyboard.type('how much water');
    await click('a[href="#MIXWATER"]');
    await click('[data-example="MIXWATER:0"] input[aria-label="target"]', 3);
    await page.keyboard.type('65%');
    expect(await page.locator('[data-example="MIXWATER:0"] .result').innerText()).toContain(answer);
    await click('[data-for="MIXWATER:0"]');
    await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
    expect(await inSheet()).toMatchObject(wanted);
    expect(clicks).toBe(4);
  });
});

describe('what is shown stays where it is', () => {
  /** The sum of layout shifts since the page was opened, as browsers measure it for web vitals. */
  const shifted = (): Promise<number> =>
    page.evaluate(() => (window as unknown as { shifted: number }).shifted);

  test.each([320, 390, 1280])(
    'while the pane opens, while words are typed, functions opened, sheets added and the book checked, at %i pixels',
    async (width) => {
      await openPane({ Sheet1: {} }, { viewport: { width, height: 844 } }, () => {
        const here = window as unknown as { shifted: number };
        here.shifted = 0;
        new PerformanceObserver((list) => {
          for (const entry of list.getEntries())
            here.shifted += (entry as unknown as { value: number }).value;
        }).observe({ type: 'layout-shift', buffered: true });
      });
      await page.waitForTimeout(300);
      expect(await shifted()).toBe(0);
      await page.locator('#words').click();
      await page.keyboard.type('how much water', { delay: 20 });
      await page.locator('a[href="#MIXWATER"]').click();
      await page.locator('#MIXWATER').waitFor();
      for (const address of ['#MIX', '', '#LOADPLAN', '#READYDATE']) {
        await page.evaluate((hash) => (location.hash = hash), address);
        await page.locator(address === '' ? '#guide .functions' : `#guide ${address}`).waitFor();
      }
      await page.locator('fluent-tab', { hasText: 'Starters' }).click();
      await page.locator('fluent-button', { hasText: 'Add the sheet Lots' }).click();
      await page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');
      await page.locator('fluent-tab', { hasText: 'Check' }).click();
      await page.locator('fluent-button', { hasText: 'Check this workbook' }).click();
      await page.locator('#checked h3').waitFor();
      await page.waitForTimeout(300);
      expect(await shifted()).toBe(0);
    },
  );

  test('headings go down one level at a time, in the list, in a function, and on every tab', async () => {
    await openPane();
    const skips = (): Promise<string[]> =>
      page.evaluate(() => {
        const shown = [...document.querySelectorAll('h1, h2, h3, h4')].filter((one) => one.checkVisibility());
        const levels = shown.map(({ tagName }) => Number(tagName[1]));
        return shown
          .filter((_, i) => levels[i]! > (i === 0 ? 0 : levels[i - 1]!) + 1)
          .map(({ textContent }) => textContent);
      });
    expect(await skips()).toEqual([]);
    await page.evaluate(() => (location.hash = '#LETHALITY'));
    await page.locator('#LETHALITY').waitFor();
    expect(await skips()).toEqual([]);
    for (const name of ['Starters', 'Check']) {
      await page.locator('fluent-tab', { hasText: name }).click();
      expect(await skips()).toEqual([]);
    }
  });

  test('no figure of an example is cut off at 320 pixels: what is too wide scrolls', async () => {
    await openPane({ Sheet1: {} }, { viewport: { width: 320, height: 844 } });
    for (const { name } of described) {
      await page.evaluate((hash) => (location.hash = hash), `#${name}`);
      await page.locator(`#guide #${name}`).waitFor();
      const cut = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLInputElement>('.example input')]
          .filter((field) => field.scrollWidth > field.clientWidth)
          .map(({ value }) => value),
      );
      expect([name, cut]).toEqual([name, []]);
    }
  });
});

const go = async (address: string): Promise<void> => {
  await page.evaluate((hash) => (location.hash = hash), address);
  await page.locator(address === '' ? '#guide nav' : `#guide ${address}`).waitFor();
};
const tab = (name: string): Promise<void> => page.locator('fluent-tab', { hasText: name }).click();
const press = (words: string): Promise<void> =>
  page.locator('fluent-button', { hasText: words }).first().click();
const said = (): Promise<unknown> =>
  page.waitForFunction(() => document.querySelector('#message')?.textContent !== '');

/** A call that faults, one that is dragged down, and one with the clock in it. */
const BAD_BOOK: Record<string, Record<string, FakeCell>> = {
  Sheet1: {
    ...Object.fromEntries(
      Array.from({ length: 25 }, (_, i) => [
        `C${i + 2}`,
        { formula: `=PINSET.BIOEFFICIENCY(A${i + 2},4.5,60%)`, shown: 0.5 },
      ]),
    ),
    E2: { formula: '=PINSET.MIXWATER(A2,B2,TODAY())', shown: '#VALUE!' },
  },
};

/** Every screen of the pane, each reached from the one before it. */
const SCREENS: readonly (readonly [string, () => Promise<void>])[] = [
  ['list', () => go('')],
  ['search', async () => void (await search('how much water'))],
  ['nothing', async () => void (await search('xqzzv'))],
  ['READYDATE', () => go('#READYDATE')],
  ['MIX', () => go('#MIX')],
  ['LOADPLAN', () => go('#LOADPLAN')],
  ['LETHALITY', () => go('#LETHALITY')],
  ['us', () => page.getByRole('radio', { name: 'US (' }).check()],
  [
    'fault',
    async () => {
      await go('#MIXWATER');
      await page.locator('[data-example="MIXWATER:0"] input[aria-label="target"]').fill('5');
    },
  ],
  [
    'inserted',
    async () => {
      await page.evaluate(() => ((window as unknown as PaneWindow).excel.selected.address = 'H1'));
      await press('Put this example in the sheet');
      await said();
    },
  ],
  [
    'today',
    async () => {
      await tab('Today');
      await page.locator('#today h3').first().waitFor();
    },
  ],
  ['starters', () => tab('Starters')],
  [
    'started',
    async () => {
      await press('Add the sheet Lots');
      await page.waitForFunction(() => document.querySelector('#message')?.textContent?.includes('Lots'));
    },
  ],
  ['check', () => tab('Check')],
  [
    'checked',
    async () => {
      await press('Check this workbook');
      await page.locator('#checked h3').waitFor();
    },
  ],
];

const overflow = (): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

async function look(name: string): Promise<void> {
  const folder = process.env['PINSET_SCREENSHOTS'];
  if (folder) await page.screenshot({ path: path.join(folder, `${name}.png`) });
}

/** Opens the pane for axe-core. A button's colours are those it changes to, not those on the way: nothing moves. */
async function openWithAxe(look: Parameters<typeof freshPage>[1]): Promise<void> {
  await openPane(BAD_BOOK, { ...look, bypassCSP: true, reducedMotion: 'reduce' });
  await addAxe(page);
}

const themes = ['light', 'dark'] as const;
const widths = [320, 390, 1280];

// Every screen is reached once, on the narrowest page, and then looked at in each theme and at each width.
test('every screen fits widths of 320, 390 and 1280 pixels, in both themes, with no serious fault that axe-core finds', async () => {
  await openWithAxe({ viewport: { width: widths[0]!, height: 844 } });
  for (const [name, reach] of SCREENS) {
    await reach();
    for (const colorScheme of themes) {
      await lookedAt(page, { colorScheme });
      for (const width of widths) {
        await page.setViewportSize({ width, height: 844 });
        await look(`pane-${colorScheme}-${width}-${name}`);
        expect([name, colorScheme, width, await seriousFaults(page)]).toEqual([name, colorScheme, width, []]);
        expect([name, colorScheme, width, await overflow()]).toEqual([name, colorScheme, width, 0]);
      }
    }
    await page.setViewportSize({ width: widths[0]!, height: 844 });
  }
  expect(seen.strayed).toEqual([]);
});

test('the list of today follows what is typed into the workbook, while it is shown', async () => {
  const shown = (of: Readonly<Record<string, unknown>>): Record<string, FakeCell> =>
    Object.fromEntries(Object.entries(of).map(([address, cell]) => [address, { formula: '', shown: cell }]));
  const headers = { B1: 'strain', C1: 'blocks', D1: 'ready', E1: 'latest', F1: 'state' };
  const lot = { A2: 'L1', B2: 'Oak', C2: 40, D2: 40000, E2: 99999, F2: 'ready' };
  const call: FakeCell = { formula: '=PINSET.READYLOTS(Lots[#All])', shown: 'lot', spill: 'A1:F2' };
  await openPane({ Ready: { A1: call, ...shown({ ...headers, ...lot }) } }, undefined, () =>
    Object.assign((window as unknown as { Office: object }).Office, {
      context: { requirements: { isSetSupported: () => true } },
    }),
  );
  const type = (blocks: number): Promise<void> =>
    page.evaluate(
      (now) => (window as unknown as PaneWindow).excel.edit('Ready', 'C2', { formula: '', shown: now }),
      blocks,
    );
  const line = (blocks: number): Promise<void> =>
    page.locator('#today button', { hasText: `L1 Oak, ${blocks} blocks: may be opened` }).waitFor();
  await page.locator('fluent-tab', { hasText: 'Today' }).click();
  await line(40);
  for (const blocks of [39, 38, 37]) await type(blocks);
  await line(37);
  await page.locator('fluent-tab', { hasText: 'Find' }).click();
  await type(12);
  await page.locator('fluent-tab', { hasText: 'Today' }).click();
  await line(12);
  expect(await page.locator('#today .today li').count()).toBe(1);
});

test('the pane is dark in an Office that is dark, whatever the device is', async () => {
  await openPane({ Sheet1: {} }, { colorScheme: 'light' }, () => {
    Object.assign((window as unknown as { Office: object }).Office, {
      context: { officeTheme: { bodyBackgroundColor: '#262626' } },
    });
  });
  const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  expect(await ground()).toBe('rgb(34, 31, 27)');
  await lookedAt(page, { colorScheme: 'dark' });
  expect(await ground()).toBe('rgb(34, 31, 27)');
});

describe('in forced colours', () => {
  /** What must be told from its surroundings without a background: buttons, fields, the selected tab. */
  const borderless = (): Promise<string[]> =>
    page.evaluate(() =>
      [...document.querySelectorAll('fluent-button, .example td, fluent-text-input')]
        .filter((one) => one.checkVisibility())
        .filter((one) => {
          const framed = one.shadowRoot?.querySelector('.root') ?? one;
          return ![one, framed].some((element) => {
            const { borderTopStyle, borderTopWidth, borderTopColor } = getComputedStyle(element);
            const isSeen = !/^rgba\(.*, 0\)$|^transparent$/.test(borderTopColor);
            return borderTopStyle !== 'none' && parseFloat(borderTopWidth) > 0 && isSeen;
          });
        })
        .map((one) => one.outerHTML.slice(0, 80)),
    );

  test('text is legible and buttons and fields have borders on every screen, light and dark', async () => {
    await openWithAxe({ viewport: { width: 390, height: 844 }, forcedColors: 'active' });
    for (const [name, reach] of SCREENS) {
      await reach();
      for (const colorScheme of themes) {
        await lookedAt(page, { colorScheme });
        await look(`pane-forced-${colorScheme}-${name}`);
        expect([name, colorScheme, await seriousFaults(page)]).toEqual([name, colorScheme, []]);
        expect([name, colorScheme, await borderless()]).toEqual([name, colorScheme, []]);
      }
    }
  });

  test.each(themes)('one can see where the keyboard is, and which tab is open, %s', async (colorScheme) => {
    await openPane(
      { Sheet1: {} },
      { viewport: { width: 390, height: 844 }, colorScheme, forcedColors: 'active' },
    );
    await go('#MIXWATER');
    const plain = await page.screenshot();
    const seenAt = new Set<string>();
    const unseen: string[] = [];
    for (let i = 0; i < 14; i++) {
      await page.keyboard.press('Tab');
      const focused = await page.evaluate(() => document.activeElement!.outerHTML.slice(0, 60));
      if (seenAt.has(focused)) continue;
      seenAt.add(focused);
      const now = await page.screenshot();
      if (now.equals(plain)) unseen.push(focused);
    }
    expect(seenAt.size).toBeGreaterThan(8);
    expect(unseen).toEqual([]);
    const marked = await page.evaluate(() =>
      [...document.querySelectorAll('fluent-tab')]
        .filter((one) => getComputedStyle(one).textDecorationLine === 'underline')
        .map((one) => one.textContent),
    );
    expect(marked).toEqual(['Find']);
  });
});

test('with reduced motion nothing moves: no transition lasts and no animation runs, on any screen', async () => {
  await openPane(BAD_BOOK, { viewport: { width: 390, height: 844 }, reducedMotion: 'reduce' });
  for (const [name, reach] of SCREENS) {
    await reach();
    // In a string: what a test's compiler adds to named functions is not there in the page.
    const moving = await page.evaluate<string[]>(`(() => {
      const within = (root) => [...root.querySelectorAll('*')].flatMap((one) => [one, ...(one.shadowRoot ? within(one.shadowRoot) : [])]);
      const seconds = (list) => Math.max(...list.split(',').map((time) => parseFloat(time) * (time.includes('ms') ? 0.001 : 1)));
      const lasting = within(document).flatMap((one) => [null, '::before', '::after'].flatMap((part) => {
        const { transitionDuration, transitionProperty, animationName } = getComputedStyle(one, part);
        const moves = (transitionProperty !== 'none' && seconds(transitionDuration) > 0.001) || animationName !== 'none';
        return moves ? [one.nodeName + (part ?? '')] : [];
      }));
      return [...lasting, ...document.getAnimations().map((one) => 'running ' + one.transitionProperty)];
    })()`);
    expect([name, moving]).toEqual([name, []]);
  }
});

describe('text that would like to be a formula or markup stays text', () => {
  const IMAGE = '<img src=x onerror="window.ran=1">';
  const LINK = '=HYPERLINK("https://example.org","click")';
  const nothingRan = async (): Promise<void> => {
    await page.waitForTimeout(100);
    expect(await page.evaluate(() => (window as unknown as { ran?: number }).ran)).toBeUndefined();
    expect(await page.locator('.pinset img, .pinset script, .pinset iframe').count()).toBe(0);
    expect(seen).toEqual({ errors: [], strayed: [] });
  };

  test('as the name of a strain and in a header of an example, on the page and in the sheet', async () => {
    await openPane();
    await go('#READYDATE');
    const example = page.locator('[data-example="READYDATE:0"]');
    const strain = example.locator('input[aria-label="strain"]');
    for (const text of [IMAGE, LINK]) {
      await strain.fill(text);
      expect(await example.locator('.result').innerText()).toContain(text.replaceAll('"', '""').slice(0, 10));
    }
    await example.locator('input').last().fill(IMAGE);
    await press('Put this example in the sheet');
    await said();
    const held = Object.values(await cellsOf('Sheet1'));
    expect(held).toContain(`'${LINK}`);
    expect(held).toContain(`'${IMAGE}`);
    await nothingRan();
  });

  test('as the name of a sheet, in the list of a check and beside starter sheets', async () => {
    await openPane({
      [IMAGE]: { A1: { formula: '=PINSET.READYDATE(A2,B2,C2)', shown: '#VALUE!' } },
      [LINK]: { A1: { formula: `=PINSET.READYDATE("${IMAGE.replaceAll('"', '""')}",1,1)`, shown: '#N/A' } },
      Sheet1: {},
    });
    await tab('Check');
    await press('Check this workbook');
    await page.locator('#checked h3').waitFor();
    const text = await page.locator('#checked').innerText();
    expect(text).toContain(`${IMAGE}!A1`);
    expect(text).toContain(`${LINK}!A1`);
    await press('Go to the cell');
    await page.waitForFunction(
      (name) => (window as unknown as PaneWindow).excel.selected.sheet === name,
      IMAGE,
    );
    await tab('Starters');
    await press('Add the sheet Strains');
    await said();
    expect(await sheetNames()).toEqual([IMAGE, LINK, 'Sheet1', 'Strains']);
    await nothingRan();
  });
});
