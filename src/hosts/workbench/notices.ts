import { byId } from './element';

const NOTICE_TIME = 8000;
/** How long the person waits before the page says what for. */
const PATIENCE = 1000;

let noticing: ReturnType<typeof setTimeout> | undefined;

/** Tells the person something for a while. */
export function notify(text: string): void {
  const notice = byId('notice');
  notice.textContent = text;
  clearTimeout(noticing);
  noticing = setTimeout(() => (notice.textContent = ''), NOTICE_TIME);
}

/** Says what is waited for, where it takes a while, and no longer than that. */
export async function patiently<T>(words: string, work: Promise<T>): Promise<T> {
  const late = setTimeout(() => notify(words), PATIENCE);
  try {
    return await work;
  } finally {
    clearTimeout(late);
    const notice = byId('notice');
    if (notice.textContent === words) notice.textContent = '';
  }
}
