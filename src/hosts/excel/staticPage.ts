import { node, toHtml, type PageNode } from '../pane/node';

/** The text of a page to read. All that runs in it is what keeps it for the time without a network. */
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
      node('header', {}, node('h1', {}, title), node('p', {}, about)),
      node('main', {}, main),
    ),
  );
  return `<!doctype html>\n${toHtml(page)}\n`;
}
