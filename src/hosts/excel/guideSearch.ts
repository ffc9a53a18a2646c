import { toElement } from '../pane/node';

// The search of the guide's pages: hidden where no script runs, since the index below has all that it finds.

/** Shows the search of a page that has one. */
export function enableSearch(): void {
  const search = document.querySelector<HTMLElement>('#search');
  const field = document.querySelector<HTMLInputElement>('#words');
  const list = document.querySelector<HTMLElement>('#found');
  const told = document.querySelector<HTMLElement>('#told');
  if (search && field && list && told) enable(search, field, list, told);
}

function enable(part: HTMLElement, words: HTMLInputElement, answers: HTMLElement, said: HTMLElement): void {
  const links = (): HTMLElement[] => [...answers.querySelectorAll('a')];

  async function show(): Promise<void> {
    const asked = words.value.trim();
    try {
      const { answersTo } = await import('./guideFinder');
      if (asked !== words.value.trim()) return;
      const found = asked === '' ? [] : answersTo(asked);
      answers.replaceChildren(...found.map((one) => toElement(one)));
      said.textContent = asked === '' ? '' : foundWords(found.length);
    } catch {
      said.textContent = 'The search did not load. The list below has every function.';
    }
  }

  part.hidden = false;
  words.addEventListener('focus', () => void show());
  words.addEventListener('input', () => void show());
  part.addEventListener('keydown', (event) => {
    const all = links();
    const at = all.findIndex((link) => link === document.activeElement);
    if (event.key === 'ArrowDown') (all[at + 1] ?? all[at])?.focus();
    else if (event.key === 'ArrowUp') (all[at - 1] ?? words).focus();
    else if (event.key === 'Enter' && at < 0) all[0]?.click();
    else if (event.key === 'Escape') {
      words.value = '';
      words.focus();
      void show();
    } else return;
    // A link that has the keyboard is opened by the browser itself.
    event.preventDefault();
  });
}

function foundWords(count: number): string {
  if (count === 0) return 'Nothing found. Try one plain word: water, ready, order, cost.';
  return count === 1
    ? '1 answer. The down arrow goes to it.'
    : `${count} answers. The down arrow goes to them.`;
}
