import { afterAll, afterEach, beforeAll, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import type { Browser, Dialog, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { readWorkbook } from '../../src/hosts/xlsx/read';
import { savedCopy, says, typeInto } from './byHand';
import { agreeing, freshPage, leave, openBrowser, serveBuilt, watch, type Watch } from './site';

// What a browser keeps, what it refuses to keep, and what the page says of it.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;
let body: Buffer;

beforeAll(async () => {
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Mine').getCell('A1').value = 'here';
  body = Buffer.from(await workbook.xlsx.writeBuffer());
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});
afterEach(async () => {
  await page.evaluate(() => (window as Refusing).allowStorage?.());
  await leave(page);
  expect(seen).toEqual({ errors: [], strayed: [] });
});

type Refusing = Window & { allowStorage?: () => void };

/** Opens the workbench with a small book; `first` runs before the page's own scripts. */
async function open(first?: () => void): Promise<void> {
  page = await freshPage(browser);
  seen = await watch(page);
  await page.route('**/farm-book.xlsx', (route) => route.fulfill({ body }));
  if (first) {
    const contentType = 'text/javascript';
    await page.route('**/first.js', (route) =>
      route.fulfill({ contentType, body: `(${first.toString()})()` }),
    );
    await page.route('**/workbench.html', async (route) => {
      const response = await route.fetch();
      const html = (await response.text()).replace('<title>', '<script src="first.js"></script><title>');
      await route.fulfill({ response, body: html });
    });
  }
  await page.goto(`${server.url}workbench.html`);
  await page.waitForFunction(() => document.getElementById('file')?.textContent === 'farm-book.xlsx');
}

const copySays = (words: string | RegExp): Promise<void> =>
  page.locator('#kept-words').filter({ hasText: words }).waitFor();

async function savedValue(address: string): Promise<unknown> {
  const [sheet] = readWorkbook(await savedCopy(page)).sheets;
  return sheet!.cells.find((cell) => cell.address === address)?.value;
}

/** Whether the page asks before it is left. */
async function asksBeforeItGoes(): Promise<boolean> {
  let stayed: Promise<void> | undefined;
  const stay = (asking: Dialog): void => {
    stayed = asking.dismiss();
  };
  page.on('dialog', stay);
  // Whoever stays cuts the way to the other page short, before the question is gone.
  await page.goto('about:blank').catch(() => {});
  await stayed;
  page.off('dialog', stay);
  return stayed !== undefined;
}

test('where the browser refuses all storage the page opens, calculates, saves, says so, and asks before it is left', async () => {
  await open(() => {
    const stores = ['indexedDB', 'localStorage', 'sessionStorage'];
    const were = stores.map((store) => Object.getOwnPropertyDescriptor(window, store)!);
    const get = (): never => {
      throw new DOMException('Access is denied for this document.', 'SecurityError');
    };
    for (const store of stores) Object.defineProperty(window, store, { configurable: true, get });
    (window as Refusing).allowStorage = () =>
      stores.forEach((store, n) => Object.defineProperty(window, store, were[n]!));
  });
  await typeInto(page, 'A2', '=2+3');
  await copySays('This browser keeps no copy: save one before you leave');
  expect(await page.locator('#forget').isVisible()).toBe(false);
  expect(await page.locator('body').innerText()).not.toContain('Kept in this browser');
  expect(await asksBeforeItGoes()).toBe(true);
  await page.locator('#sheet-button').click();
  await page.getByRole('radio', { name: 'dark' }).check();
  await page.locator('#grid .o-spreadsheet.dark').waitFor();
  await page.keyboard.press('Escape');
  expect(await savedValue('A2')).toBe(5);
});

test('a copy that the browser takes and then cannot write to its disk is not called kept, and the one before stays', async () => {
  await open();
  await typeInto(page, 'A2', '1');
  await copySays(/^Kept in this browser at/);
  // A disk that is full shows when the transaction ends: the request in it has succeeded by then.
  await page.evaluate(() => {
    // eslint-disable-next-line @typescript-eslint/unbound-method
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...given: Parameters<typeof put>) {
      const request = put.apply(this, given);
      request.addEventListener('success', () => this.transaction.abort());
      return request;
    };
  });
  await typeInto(page, 'A3', '2');
  await copySays(/^The copy in this browser is of .+: save a newer one$/);
  expect(await page.locator('#forget').isVisible()).toBe(true);
  expect(await asksBeforeItGoes()).toBe(true);
  await agreeing(page, () => page.reload());
  await says(page, 'is here again');
  expect([await savedValue('A2'), await savedValue('A3')]).toEqual([1, undefined]);
});

test('what is typed while a copy is being made counts as not kept, and what was forgotten meanwhile stays so', async () => {
  await open();
  // The disk is slow: a copy is kept once the test says so.
  await page.evaluate(() => {
    // eslint-disable-next-line @typescript-eslint/unbound-method
    const open = IDBFactory.prototype.open;
    const held: (() => void)[] = [];
    Object.assign(window, { letThrough: () => held.splice(0).forEach((go) => go()), held });
    IDBFactory.prototype.open = function (this: IDBFactory, ...given: Parameters<typeof open>) {
      const request = open.apply(this, given);
      Object.defineProperty(request, 'onsuccess', {
        set: (then: (event: Event) => void) =>
          request.addEventListener('success', (event) => held.push(() => then.call(request, event))),
      });
      return request;
    };
  });
  const isHeld = (): Promise<unknown> =>
    page.waitForFunction(() => (window as unknown as { held: unknown[] }).held.length > 0);
  const letThrough = (): Promise<void> =>
    page.evaluate(() => (window as unknown as { letThrough(): void }).letThrough());
  await typeInto(page, 'A2', '1');
  await isHeld();
  // The pause before the next copy never ends, so what is asked now is asked of the copy under way.
  await page.evaluate(() => {
    window.setTimeout = (() => 0) as unknown as typeof setTimeout;
  });
  await typeInto(page, 'A3', '2');
  await letThrough();
  await copySays(/^Kept in this browser at/);
  expect(await asksBeforeItGoes()).toBe(true);
});

test('a copy that is being made when the person has it forgotten is forgotten too', async () => {
  await open();
  await page.evaluate(() => {
    // eslint-disable-next-line @typescript-eslint/unbound-method
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...given: Parameters<typeof put>) {
      document.getElementById('forget')!.click();
      return put.apply(this, given);
    };
  });
  await typeInto(page, 'A2', '1');
  await says(page, 'keeps no copy of the workbook any more');
  const left = (): Promise<unknown> =>
    page.evaluate(
      () =>
        new Promise((resolve) => {
          const opening = indexedDB.open('pinset-workbench', 1);
          opening.onsuccess = () => {
            const count = opening.result.transaction('books').objectStore('books').count();
            count.onsuccess = () => (opening.result.close(), resolve(count.result));
          };
        }),
    );
  while ((await left()) !== 0) await new Promise((resolve) => setTimeout(resolve, 50));
  expect(await page.locator('#kept').isVisible()).toBe(false);
});
