import { cellErrorsArticle } from '../pane/cellErrors';
import { node } from '../pane/node';
import { guidePage } from './staticPage';

/** The text of errors.html, for the build: what a cell may show instead of an answer, and what to do. */
export default function cellErrors(): string {
  return guidePage(
    'Pinset guide',
    'What a cell that shows #BUSY!, #NAME?, #REF! or #### means, and what to do.',
    node('p', { class: 'to-index' }, node('a', { href: 'guide.html#functions' }, 'All functions')),
    cellErrorsArticle('h2'),
  );
}
