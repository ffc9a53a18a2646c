import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { BY_HAND } from './site';

// What a person does on the workbench's page, each waiting for what it brings about.

/** By the box that names the cell, from which Enter goes there. */
export async function goTo(page: Page, address: string): Promise<void> {
  await page.locator('#place').fill(address);
  await page.keyboard.press('Enter');
  await page.waitForFunction(
    (wanted) => (document.getElementById('place') as HTMLInputElement).value === wanted,
    address.split('!').at(-1)!,
  );
}

/** Types into a cell and leaves it: Enter goes to the next cell below that is shown. */
export async function typeInto(page: Page, address: string, text: string): Promise<void> {
  await goTo(page, address);
  await page.keyboard.type(text, BY_HAND);
  // Enter before the grid has taken in every key would end the text early.
  await page.waitForFunction(
    (wanted) => [...document.querySelectorAll('.o-composer')].some((field) => field.textContent === wanted),
    text,
  );
  await page.keyboard.press('Enter');
  await page.waitForFunction(
    (left) => (document.getElementById('place') as HTMLInputElement).value !== left,
    address,
  );
}

/** Does one of the things of the sheet's menu. */
export async function choose(page: Page, name: string): Promise<void> {
  await page.locator('#sheet-button').click();
  await page.locator('#sheet-menu').getByRole('button', { name }).click();
}

/** Waits until the page tells something. */
export const says = async (page: Page, words: string): Promise<void> => {
  await page.waitForFunction(
    (wanted) => document.getElementById('notice')?.textContent?.includes(wanted),
    words,
  );
};

export async function savedCopy(page: Page): Promise<Uint8Array> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a copy' }).click(),
  ]);
  return new Uint8Array(await readFile(await download.path()));
}
