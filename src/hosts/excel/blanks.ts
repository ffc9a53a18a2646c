import { described } from '../../worksheet/described';
import { blanksArticle } from '../pane/blanks';
import { node } from '../pane/node';
import { guidePage } from './staticPage';

/** The text of blanks.html, for the build: what a blank and a 0 do in every place of every function. */
export default function blanks(): string {
  return guidePage(
    'Pinset guide',
    'What a blank cell and a 0 do in every argument and column of every function.',
    node('p', { class: 'to-index' }, node('a', { href: 'guide.html#functions' }, 'All functions')),
    blanksArticle(described, (name) => `guide.html#${name}`, 'h2'),
  );
}
