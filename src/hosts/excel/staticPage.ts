import { node, toHtml, type PageNode } from '../pane/node';

/** The field that the script shows: what it finds, the page itself has too. */
const search = node(
  'div',
  { id: 'search', class: 'search', role: 'search', hidden: '' },
  node('label', { for: 'words' }, 'What do you want to know?'),
  node('input', {
    id: 'words',
    type: 'search',
    placeholder: 'water, too old, recall …',
    autocomplete: 'off',
    spellcheck: 'false',
    'aria-describedby': 'told',
  }),
  node('p', { id: 'told', class: 'shape', role: 'status' }),
  node('ul', { id: 'found', class: 'functions' }),
);

/** Shown by the script, which keeps the choice. */
const theme = node(
  'fieldset',
  { id: 'theme', class: 'theme', hidden: '' },
  node('legend', {}, 'Colours'),
  ...(
    [
      ['auto', 'same as this device'],
      ['light', 'light'],
      ['dark', 'dark'],
    ] as const
  ).map(([value, words]) =>
    node('label', {}, node('input', { type: 'radio', name: 'theme', value }), ` ${words}`),
  ),
);

/** A page of the guide: one to read, with the search above. */
export const guidePage = (title: string, about: string, ...main: readonly PageNode[]): string =>
  staticPage(title, about, search, ...main);

/** The text of a page to read. What runs in it keeps it for the time without a network, and searches the guide. */
export function staticPage(title: string, about: string, ...main: readonly PageNode[]): string {
  const page = node(
    'html',
    { lang: 'en' },
    node(
      'head',
      {},
      node('meta', { charset: 'utf-8' }),
      node('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
      node('meta', {
        'http-equiv': 'Content-Security-Policy',
        content:
          "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'",
      }),
      node('title', {}, title),
      node('link', { rel: 'icon', href: 'icons/icon-32.png' }),
      node('link', { rel: 'stylesheet', href: 'guide.css' }),
    ),
    node(
      'body',
      { class: 'pinset page' },
      node('header', {}, node('h1', {}, title), node('p', {}, about), theme),
      node('main', {}, main),
    ),
  );
  return `<!doctype html>\n${toHtml(page)}\n`;
}
