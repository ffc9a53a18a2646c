import { catalogue } from '../../worksheet/catalogue';
import { FAMILIES, FAMILY_TITLES, type WorksheetFunction } from '../../worksheet/define';
import { signature } from '../../worksheet/functionTable';
import './taskpane.css';

/** An element with its children; text goes in as text, never as markup. */
function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  made.append(...children);
  return made;
}

function described(definition: WorksheetFunction): HTMLElement {
  const { name, summary, arguments: given } = definition;
  const list = element('dl');
  for (const argument of given) {
    list.append(element('dt', argument.name), element('dd', argument.meaning));
  }
  const link = element('a', `${name} in the guide`);
  link.href = `guide.html#${name}`;
  link.target = '_blank';
  link.rel = 'noopener';
  const head = element('summary', element('b', name), ' ', element('span', summary));
  return element('details', head, element('code', `=PINSET.${signature(definition)}`), list, link);
}

/** What a search looks through: everything the pane says of a function, lower case. */
function words({ name, summary, arguments: given }: WorksheetFunction): string {
  return [name, summary, ...given.flatMap((argument) => [argument.name, argument.meaning])]
    .join(' ')
    .toLowerCase();
}

interface Listed {
  readonly entry: HTMLElement;
  readonly words: string;
}

interface Section {
  readonly section: HTMLElement;
  readonly listed: readonly Listed[];
}

function sections(): Section[] {
  return FAMILIES.flatMap((family) => {
    const members = catalogue.filter((definition) => definition.family === family);
    if (members.length === 0) return [];
    const listed = members.map((definition) => ({ entry: described(definition), words: words(definition) }));
    const section = element(
      'section',
      element('h2', FAMILY_TITLES[family]),
      ...listed.map(({ entry }) => entry),
    );
    return [{ section, listed }];
  });
}

/** Shows the functions that hold every word typed, and says how many they are. */
function show(all: readonly Section[], typed: string, count: HTMLElement): void {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  let shown = 0;
  for (const { section, listed } of all) {
    let here = 0;
    for (const { entry, words: held } of listed) {
      entry.hidden = !wanted.every((word) => held.includes(word));
      if (!entry.hidden) here += 1;
    }
    section.hidden = here === 0;
    shown += here;
  }
  count.textContent = shown === 0 ? 'No function matches' : shown === 1 ? '1 function' : `${shown} functions`;
}

function byId<E extends HTMLElement>(id: string): E {
  return document.getElementById(id) as E;
}

const all = sections();
const search = byId<HTMLInputElement>('search');
const count = byId('count');
byId('functions').append(...all.map(({ section }) => section));
search.addEventListener('input', () => show(all, search.value, count));
show(all, '', count);

const cautions = new Set(catalogue.flatMap((definition) => definition.cautions ?? []));
byId('cautions').append(...[...cautions].map((caution) => element('li', caution)));
