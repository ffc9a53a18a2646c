import type { DateSystem } from '../../../worksheet/calendar';
import { cellOf } from '../../../worksheet/cells/cell';
import { shownCell } from '../../../worksheet/cells/shown';
import { inOwnDigits } from '../../fit/digits';
import type { Fit } from '../../fit/fitted';
import type { AnsweredCall, Prepared } from '../../fit/prepare';
import type { ColumnRead } from '../../fit/referred';
import { inOwnCells, TABLE_WORDS } from '../../fit/told';
import { node, type PageNode } from '../node';

/** Rows of an answer, and cells of a column, that a preview shows. */
const SHOWN_ROWS = 5;
const SHOWN_CELLS = 5;

/** The formulas that would be written and what they give, before anything is. */
export const previewNode = (fit: Fit, { calls, columns, answer }: Prepared): PageNode =>
  node(
    'section',
    {},
    node('h4', {}, `What the sheet ${answer} would show`),
    ...calls.map((call) => callNode(fit, call)),
    columns.length > 0 &&
      node(
        'details',
        {},
        node(
          'summary',
          {},
          columns.length === 1
            ? 'The formula that reads your own column'
            : `The ${columns.length} formulas that read your own columns`,
        ),
        ...columns.map((column) => columnNode(column, fit.book.dateSystem)),
      ),
  );

function callNode(fit: Fit, { formula, block }: AnsweredCall): PageNode {
  const { dateSystem } = fit.book;
  const shorten = inOwnDigits(fit);
  const texts = block.rows.map((row, r) =>
    row.map((_, c) => {
      const [cell, format] = cellOf(block, r, c);
      return inOwnCells(fit, shownCell(shorten(cell, format), format, dateSystem));
    }),
  );
  const [first = [], ...rows] = texts;
  const code = node('code', {}, formula);
  // All that a call gives may be one error, in words.
  if (rows.length === 0 && first.length === 1) return node('div', {}, code, node('p', {}, first[0]));
  const more = rows.length - SHOWN_ROWS;
  return node(
    'div',
    {},
    code,
    node(
      'table',
      { class: 'gives cards' },
      node('tr', {}, ...first.map((header) => node('th', { scope: 'col' }, header))),
      ...rows.slice(0, SHOWN_ROWS).map((row) => rowNode(first, row)),
    ),
    more > 0 && node('p', {}, more === 1 ? 'and 1 more row' : `and ${more} more rows`),
  );
}

/** A row of an answer; a row of one cell only is words about the others, under no header. An error is told once. */
function rowNode(headers: readonly string[], given: readonly string[]): PageNode {
  const row = given.map((text, c) => (text.startsWith('#') && given.indexOf(text) < c ? '' : text));
  const areWords = row.filter((text) => text !== '').length === 1;
  return node(
    'tr',
    {},
    ...row.map((text, c) =>
      node('td', { 'data-head': !areWords && headers[c]!, class: text === '' ? 'blank' : undefined }, text),
    ),
  );
}

const columnNode = ({ table, header, formula, cells, format }: ColumnRead, system: DateSystem): PageNode =>
  node(
    'div',
    {},
    node('b', {}, `${TABLE_WORDS[table]}, ${header}`),
    node('code', {}, formula),
    node(
      'span',
      { class: 'records' },
      ...cells
        .filter((cell) => cell !== null && cell !== '')
        .slice(0, SHOWN_CELLS)
        .map((cell) => node('span', {}, shownCell(cell, format, system))),
    ),
  );
