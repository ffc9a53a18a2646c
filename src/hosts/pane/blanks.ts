import { blankPlaces, type BlankPlace } from '../../worksheet/cells/blanks';
import { FAMILIES, FAMILY_TITLES } from '../../worksheet/constants';
import { BLANK_RULES, blankWords, placeName, zeroWords } from '../../worksheet/wording/blanks';
import type { DescribedFunction } from '../../worksheet/words';
import { node, type PageNode } from './node';

/** Where the page of blanks and zeros lies: no function is called so. */
export const BLANKS = 'blanks-and-zeros';

const mayBeLeftOut = ({ role }: BlankPlace): boolean => role === 'optional' || role === 'numbered';

function placeRow(place: BlankPlace): PageNode {
  return node(
    'tr',
    {},
    node(
      'th',
      { scope: 'row', class: place.column !== undefined && 'of-table' },
      placeName(place),
      mayBeLeftOut(place) && node('span', { class: 'optional' }, 'may be left out'),
    ),
    node('td', {}, blankWords(place)),
    node('td', { class: 'zero' }, zeroWords(place) ?? '–'),
  );
}

/** The rows of a function: its arguments, and the columns of a table below the table's name. */
function placeRows(f: DescribedFunction): PageNode[] {
  const places = blankPlaces(f);
  return f.arguments.flatMap(({ name, shape }, position) => {
    const own = places.filter((place) => place.position === position).map(placeRow);
    if (shape !== 'table') return own;
    const title = node('th', { scope: 'rowgroup', colspan: '3', class: 'table' }, `table ${name}`);
    return [node('tr', {}, title), ...own];
  });
}

function functionTable(f: DescribedFunction, link: (name: string) => string): PageNode {
  return node(
    'table',
    { class: 'blanks' },
    node('caption', {}, node('a', { href: link(f.name) }, f.name)),
    node(
      'thead',
      {},
      node(
        'tr',
        {},
        ['argument or column', 'a blank or a 0', 'a true 0 is'].map((header) =>
          node('th', { scope: 'col' }, header),
        ),
      ),
    ),
    node('tbody', {}, placeRows(f)),
  );
}

/** What a blank and a 0 do in every argument and column of every function; `link` leads to a function. */
export function blanksArticle(
  functions: readonly DescribedFunction[],
  link: (name: string) => string,
  title: 'h2' | 'h3' = 'h3',
): PageNode {
  const heading = title === 'h2' ? 'h3' : 'h4';
  const families = FAMILIES.filter((family) => functions.some((f) => f.family === family));
  return node(
    'article',
    { id: BLANKS, 'aria-labelledby': `${BLANKS}-title` },
    node(title, { id: `${BLANKS}-title`, tabindex: '-1' }, 'Blanks and zeros'),
    node(
      'ul',
      {},
      BLANK_RULES.map((rule) => node('li', {}, rule)),
    ),
    families.flatMap((family) => [
      node(heading, {}, FAMILY_TITLES[family]),
      ...functions.filter((f) => f.family === family).map((f) => functionTable(f, link)),
    ]),
  );
}
