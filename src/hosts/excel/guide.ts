import { described } from '../../worksheet/described';
import { toolsAtHand } from '../../worksheet/toolsAtHand';
import { functionArticle, guideIndex } from '../pane/guide';
import { node } from '../pane/node';
import { jobLinks } from './jobPages';
import { guidePage } from './staticPage';

const RULES = [
  'Give one call the whole column: it answers beside every row, and far quicker than a call in each row.',
  'Percentages are fractions: 62% or 0.62. Dates are the sheet’s own dates. Masses come back in the unit you gave.',
  'Tables are found by their headers, in any order; case, spaces, % and anything in brackets do not matter. A row labelled Total, Subtotal, Grand total or Sum does not count.',
  'A row whose first argument is blank or 0 reads blank, so a range may run past your data. Name a range with an end (A2:A500) or a table’s column, not a whole column (A:A): Excel on the web may refuse that.',
  'A fault stays in its own row. Point at the cell, or at the mark in its corner, to read the reason; Excel shows one with #VALUE! and #N/A.',
  'Pinset calculates; it does not know your room, your steriliser or your law. Local codes and licensed practitioners decide.',
];

/** The text of guide.html, for the build: every function with what it takes, gives, and says when it has no answer. */
export default function guide(): string {
  return guidePage(
    'Pinset guide',
    'Every function: what it takes, what it gives, and what it says when it has no answer.',
    node(
      'section',
      {},
      node('h2', {}, 'Rules for all of them'),
      node(
        'ul',
        {},
        RULES.map((rule) => node('li', {}, rule)),
        node(
          'li',
          {},
          node('a', { href: 'blanks.html' }, 'Blanks and zeros'),
          ': what they do in every argument and column.',
        ),
        node(
          'li',
          {},
          node('a', { href: 'errors.html' }, 'Cells that show an error'),
          ': #BUSY!, #NAME?, #REF!, #### and the others, and what to do.',
        ),
        node(
          'li',
          {},
          node('a', { href: 'support.html' }, 'Help'),
          ', ',
          node('a', { href: 'privacy.html' }, 'privacy'),
          ' and ',
          node('a', { href: 'terms.html' }, 'terms'),
          '.',
        ),
      ),
    ),
    node('h2', { id: 'jobs' }, 'Jobs, step by step'),
    node('nav', { 'aria-label': 'Jobs' }, jobLinks()),
    node('h2', { id: 'functions' }, 'The functions'),
    guideIndex(described),
    ...described.map((f) => functionArticle(f, { units: 'metric', live: undefined, tools: toolsAtHand })),
  );
}
