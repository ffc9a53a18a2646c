import { choicesFor } from '../../fit/columnChoices';
import { partText } from '../../fit/candidate';
import type { TableFit } from '../../fit/fitted';
import type { TableName } from '../../fit/jobs';
import { ignoredWords, readingWords, sourceWords, TABLE_WORDS } from '../../fit/told';
import { node, type PageNode } from '../node';
import { COLUMN_ASKED, NO_COLUMN, selectOf } from './fields';

/** Where a table of the job is in the grower's book and how each of its columns is read, with the first records. */
export function matchNode(name: TableName, table: TableFit): PageNode {
  const { candidate, readings, others } = table;
  const words = TABLE_WORDS[name];
  const single = candidate.table.columns.filter(({ column }) => column.role !== 'numbered');
  const numbered = readings.filter(({ wanted }) => wanted.column.role === 'numbered');
  return node(
    'section',
    { class: 'source' },
    node('h4', {}, words),
    node('p', {}, sourceWords(table)),
    ignoredWords(table) !== '' && node('p', { class: 'how' }, `${ignoredWords(table)}.`),
    others.length > 0 &&
      selectOf(
        `Where your ${words} are`,
        `tables:${name}`,
        [candidate, ...others].map((one) => [partText(one), partText(one)]),
        partText(candidate),
      ),
    node(
      'ul',
      { class: 'match', 'aria-label': `How your ${words} are read` },
      ...single.map((wanted) => {
        const header = readings.find((one) => one.name === wanted.name)?.match.header ?? NO_COLUMN;
        const choices = [...new Set([header, NO_COLUMN, ...choicesFor(candidate, wanted)])];
        return columnNode(
          table,
          wanted.name,
          selectOf(
            `Your column for ${wanted.name} of ${words}`,
            `${COLUMN_ASKED}:${name}:${wanted.name}`,
            choices.map((one) => [one, one === NO_COLUMN ? '– none –' : one]),
            header,
          ),
        );
      }),
      ...numbered.map((reading) => columnNode(table, reading.name, reading.match.header)),
    ),
  );
}

/** One column: what Pinset reads, the grower's column, how it is read, and what its first records hold. */
function columnNode(table: TableFit, column: string, choice: PageNode | string): PageNode {
  const isRead = table.readings.some((one) => one.name === column);
  return node(
    'li',
    {},
    node('b', {}, column),
    choice,
    isRead && node('span', { class: 'how' }, readingWords(table, column)),
    isRead &&
      node(
        'span',
        { class: 'records' },
        ...table.evidence.map((record) => node('span', {}, record[column] || '–')),
      ),
  );
}
