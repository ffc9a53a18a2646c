/** What this browser remembers of how the page is set up; nothing of a workbook. */
const KEYS = { theme: 'pinset.theme', pane: 'pinset.pane' } as const;

export function remembered(what: keyof typeof KEYS): string | null {
  try {
    return localStorage.getItem(KEYS[what]);
  } catch {
    return null;
  }
}

/** Where the browser forbids storage a choice holds until the page is closed. */
export function remember(what: keyof typeof KEYS, choice: string): void {
  try {
    localStorage.setItem(KEYS[what], choice);
  } catch {
    // As said above.
  }
}
