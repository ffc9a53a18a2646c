import type { Page } from 'playwright-core';

interface Axe {
  run(
    within: string,
    options: object,
  ): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }>;
}

/** Puts axe-core into a page that was opened with `bypassCSP`. */
export const addAxe = (page: Page): Promise<unknown> =>
  page.addScriptTag({ path: require.resolve('axe-core/axe.min.js') });

/** What axe-core finds on a page as it stands, or on a part of it, that is worse than minor. */
export async function seriousFaults(page: Page, within = 'html'): Promise<string[]> {
  const found = await page.evaluate(async (part) => {
    const { violations } = await (window as unknown as { axe: Axe }).axe.run(part, {
      resultTypes: ['violations'],
    });
    return violations.map(({ id, impact, nodes }) => `${impact} ${id}: ${nodes[0]?.html ?? ''}`);
  }, within);
  return found.filter((words) => /^(moderate|serious|critical)/.test(words));
}

/** Changes how a page is looked at; done once nothing is on its way to another colour any more. */
export async function lookedAt(page: Page, look: Parameters<Page['emulateMedia']>[0]): Promise<void> {
  await page.emulateMedia(look);
  await page.evaluate(async () => {
    // Transitions begin with the next frame.
    await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    await Promise.allSettled(document.getAnimations().map(({ finished }) => finished));
  });
}
