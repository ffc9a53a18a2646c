import type { Fit } from '../../fit/fitted';
import { mayBeLeftOut } from '../../fit/leaveOut';
import { colourWords, TABLE_WORDS } from '../../fit/told';
import { placeOfCells, unreadTogether, unreadWords } from '../../fit/unreadTold';
import { node, type PageNode } from '../node';
import { matchNode } from './matchNodes';
import { questionNode } from './questionNodes';

/** A job fitted to the book: the match, what cannot be read, what is asked, what it gives. */
export function fitNode(fit: Fit): PageNode {
  const { questions } = fit;
  return node(
    'div',
    {},
    node('h3', { tabindex: '-1' }, fit.job.title),
    ...[...fit.tables].map(([name, table]) => matchNode(name, table)),
    ...[...fit.filled].map(([name, rows]) =>
      node('p', {}, `${TABLE_WORDS[name]}: ${rows.length} rows, as you gave them.`),
    ),
    ...joinedNodes(fit),
    node('div', { id: 'unread' }, ...unreadNodes(fit)),
    questions.length > 0 &&
      node('section', {}, node('h4', {}, 'Questions only you can answer'), ...questions.map(questionNode)),
    node('div', { id: 'gives', 'aria-live': 'polite' }),
    node(
      'p',
      { class: 'actions' },
      node('fluent-button', { appearance: 'primary', 'data-act': 'write' }, 'Write it on new sheets'),
      fit.job.name === 'audit' && node('fluent-button', { 'data-act': 'audit' }, 'Go through it here'),
    ),
    node('div', { id: 'written', 'aria-live': 'polite' }),
    node('div', { id: 'audited' }),
  );
}

function joinedNodes({ joined }: Fit): PageNode[] {
  if (joined.length === 0) return [];
  const lines = joined.map(({ label, as, cells }) =>
    node('li', {}, `${label} as ${as}, in ${cells === 1 ? '1 cell' : `${cells} cells`}`),
  );
  return [
    node('section', {}, node('h4', {}, 'Spelled differently, read as the same'), node('ul', {}, lines)),
  ];
}

/** What cannot be read, by the answers that are given. */
export const unreadNodes = (fit: Fit): PageNode[] => [
  unreadNode(fit),
  ...fit.colourKeys.map((key) => node('p', { class: 'how' }, `${colourWords(key)}.`)),
  ...fit.unused.map((words) => node('p', { class: 'how' }, `${words}.`)),
  ...leaveOutNodes(fit),
];

function unreadNode({ unread }: Fit): PageNode {
  const title =
    unread.length === 0
      ? 'Every cell that is needed can be read'
      : `${unread.length === 1 ? '1 cell' : `${unread.length} cells`} cannot be read`;
  return node(
    'section',
    {},
    node('h4', {}, title),
    unread.length > 0 &&
      node(
        'ul',
        { class: 'unread' },
        unreadTogether(unread).map((together) =>
          node(
            'li',
            {},
            node(
              'button',
              { type: 'button', 'data-act': 'go-unread', 'data-for': String(together.at) },
              placeOfCells(together),
            ),
            ` ${together.cells[0]!.about}: ${unreadWords(together.cells[0]!)}`,
          ),
        ),
      ),
  );
}

/** One record that cannot be read spoils a whole plan: the grower may leave it out until it is corrected. */
const leaveOutNodes = (fit: Fit): PageNode[] =>
  mayBeLeftOut(fit).map((table) =>
    node(
      'label',
      { class: 'leave-out' },
      node('input', {
        type: 'checkbox',
        'data-answer': `leaveOut:${table}`,
        checked: fit.answers.leaveOut?.[table] === true ? '' : undefined,
      }),
      `Leave out ${TABLE_WORDS[table]} that cannot be read; they are counted, and come back once you correct them`,
    ),
  );

/** What is written, with the way back. */
export const writtenNode = (sheets: readonly string[]): PageNode =>
  node(
    'section',
    {},
    node('h4', {}, sheets.length === 1 ? 'Written on a new sheet' : 'Written on new sheets'),
    node('p', {}, sheets.join(', ')),
    node('p', { class: 'actions' }, node('fluent-button', { 'data-act': 'take-back' }, 'Take it back')),
  );
