declare const PINSET_KEEPS_PAGES: boolean;

/**
 * Keeps pages for the time without a network, once one of them is open. Each page is a scope of its own: Excel's task
 * pane, which lies beside them, is in none. Where a browser refuses, the pages work as they do without.
 */
export function keepPages(...scopes: readonly string[]): void {
  if (!PINSET_KEEPS_PAGES || !('serviceWorker' in navigator)) return;
  addEventListener('load', () => {
    for (const scope of scopes) navigator.serviceWorker.register('offline.js', { scope }).catch(() => {});
  });
}
