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

/** The rules that look at colours. */
const OF_COLOURS = ['color-contrast', 'link-in-text-block'];

/**
 * What axe-core finds on a page as it stands, or on a part of it, that is worse than minor. Where all is as it was at an earlier look, but for
 * its colours, the rules that look at colours are asked again.
 */
export async function seriousFaults(page: Page, within = 'html'): Promise<string[]> {
  const found = await page.evaluate(
    async ([part, ...ofColours]) => {
      const here = window as unknown as { axe: Axe; looks?: Set<string> };
      // All that there is, in shadows too: how it is written, what is entered, where it lies and whether it is seen.
      const told: unknown[] = [part];
      const roots: (Document | ShadowRoot)[] = [document];
      for (const root of roots) {
        told.push(root instanceof Document ? root.documentElement.outerHTML : root.innerHTML);
        for (const one of root.querySelectorAll('*')) {
          if (one.shadowRoot) roots.push(one.shadowRoot);
          const { left, top, width, height } = one.getBoundingClientRect();
          const { value, checked } = one as Partial<HTMLInputElement>;
          told.push([
            left,
            top,
            width,
            height,
            one.checkVisibility({ visibilityProperty: true }),
            value,
            checked,
          ]);
        }
      }
      const look = JSON.stringify(told);
      here.looks ??= new Set();
      const isKnown = here.looks.has(look);
      here.looks.add(look);
      const { violations } = await here.axe.run(part, {
        resultTypes: ['violations'],
        ...(isKnown && { runOnly: ofColours }),
      });
      return violations.map(({ id, impact, nodes }) => `${impact} ${id}: ${nodes[0]?.html ?? ''}`);
    },
    [within, ...OF_COLOURS] as const,
  );
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
