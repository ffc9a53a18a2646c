import { BLANKS, LOST, STRUCK } from '../../fit/answers';
import { JOB, type TableName } from '../../fit/jobs';
import type { Question } from '../../fit/question';
import { alikeAnswer } from '../../fit/saidOfAll';
import { questionWords } from '../../fit/questionTold';
import { TABLE_WORDS } from '../../fit/told';
import { WEEKDAYS } from '../../fit/weeks';
import { node, type PageNode } from '../node';
import { COLUMN_ASKED, inputOf, NO_COLUMN, NONE, selectOf } from './fields';

/** A question that only the grower can answer, with the fields for the answer. */
export const questionNode = (question: Question, at: number): PageNode =>
  node(
    'fieldset',
    { 'data-question': String(at) },
    node('legend', {}, questionWords(question)),
    ...fieldsOf(question, at),
  );

function fieldsOf(question: Question, at: number): PageNode[] {
  switch (question.kind) {
    case 'dates':
      return oneOf(
        `dates-${at}`,
        `dates:${question.about}`,
        ['day first', 'month first', 'year first'],
        question.elsewhere,
      );
    case 'years':
      return [inputOf('year', `years:${question.about}`, question.elsewhere ?? null)];
    case 'weekdays':
      return [
        selectOf(
          'day of the week',
          `weekdays:${question.about}`,
          [['', 'choose'], ...WEEKDAYS.map((one) => [one, one] as const)],
          '',
        ),
      ];
    case 'decimals':
      return oneOf(`decimals-${at}`, `decimals:${question.about}`, ['point', 'comma'], question.elsewhere);
    case 'blanks':
      return oneOf(`blanks-${at}`, `blanks:${question.about}`, BLANKS, undefined);
    case 'struck':
      return oneOf(`struck-${at}`, `struck:${question.table}`, STRUCK, undefined);
    case 'lost':
      return oneOf(`lost-${at}`, `lost:${question.table}:${question.header}`, LOST, undefined);
    case 'rows':
      return boxes(
        question.header,
        `rows:${question.table}:${question.header}`,
        question.words,
        question.proposed,
      );
    case 'taken':
      return boxes(question.header, `taken:${question.table}`, question.words, [...question.words.keys()]);
    case 'products':
      return question.words.map((word) =>
        node(
          'div',
          { class: 'choices', role: 'group', 'aria-label': word },
          node('b', {}, word),
          ...question.strains.map((strain) =>
            node(
              'label',
              {},
              node('input', { type: 'checkbox', value: strain, 'data-answer': `products:${word}` }),
              strain,
            ),
          ),
        ),
      );
    case 'fill':
      return fillNodes(question);
    case 'figure':
      return [inputOf(question.figure, `figures:${question.figure}`, question.proposed ?? null)];
    case 'column':
      return [
        selectOf(
          question.column,
          `${COLUMN_ASKED}:${question.table}:${question.column}`,
          [
            [NO_COLUMN, 'choose'],
            ...question.choices.map((one) => [one, one] as const),
            ...(question.mayBeNone
              ? [[NONE, question.mayBeTyped ? 'none of them' : 'no, none of them'] as const]
              : []),
          ],
          NO_COLUMN,
        ),
        ...(question.mayBeAlike ? [alikeNode(question.table, question.column, 'or', question.proposed)] : []),
      ];
    case 'table':
      return [
        ...(question.choices.length > 0
          ? [
              selectOf(
                TABLE_WORDS[question.table],
                `tables:${question.table}`,
                [[NO_COLUMN, 'choose'], ...question.choices.map((one) => [one, one] as const)],
                NO_COLUMN,
              ),
            ]
          : []),
        ...(question.isGuess
          ? [
              node(
                'p',
                {},
                `It needs ${neededColumns(question.table)}. Add a sheet with these headers, or lay down a starter sheet, and choose the job again.`,
              ),
            ]
          : []),
      ];
  }
}

/** A field for one figure of all records of a table. */
const alikeNode = (table: TableName, column: string, before: string, proposed?: string): PageNode =>
  node(
    'label',
    {},
    `${before} for all ${TABLE_WORDS[table]} `,
    inputOf(
      `${column} of all ${TABLE_WORDS[table]}`,
      `figures:${alikeAnswer(table, column)}`,
      proposed ?? null,
    ),
  );

/** A box for each word, ticked where that is proposed: as it stands it is the answer. */
const boxes = (
  label: string,
  field: string,
  words: ReadonlyMap<string, number>,
  proposed: readonly string[],
): PageNode[] => [
  node(
    'div',
    { class: 'choices', role: 'group', 'aria-label': label },
    ...[...words.keys()].map((word) =>
      node(
        'label',
        {},
        node('input', {
          type: 'checkbox',
          value: word,
          'data-answer': field,
          checked: proposed.includes(word) ? '' : undefined,
        }),
        word,
      ),
    ),
  ),
];

const oneOf = (
  name: string,
  field: string,
  choices: readonly string[],
  elsewhere: string | undefined,
): PageNode[] =>
  choices.map((value) =>
    node(
      'label',
      {},
      node('input', { type: 'radio', name, value, 'data-answer': field }),
      value === elsewhere ? `${value}, as elsewhere in the book` : value,
    ),
  );

const LEAST_ROWS = 2;

/** A table that the book has not: a field for each column of each row. */
function fillNodes(question: Question & { kind: 'fill' }): PageNode[] {
  const { table, columns } = question;
  const names = columns.flatMap(({ name, column }) =>
    column.role === 'numbered'
      ? Array.from({ length: question.numbers }, (_, i) => `${name} ${i + 1}`)
      : [name],
  );
  const headed = (name: string): string =>
    table === 'shares' || columns.some((one) => one.name === name && one.isNeeded)
      ? name
      : `${name} (optional)`;
  const rows = [...question.rows];
  while (rows.length < LEAST_ROWS) rows.push({});
  return [
    node(
      'table',
      { class: 'fill cards' },
      node(
        'tr',
        {},
        ...names.map((name) => node('th', { scope: 'col', title: meaningOf(question, name) }, headed(name))),
      ),
      ...rows.map((record, r) =>
        node(
          'tr',
          {},
          ...names.map((name) =>
            node(
              'td',
              { 'data-head': headed(name) },
              inputOf(
                `${name}, row ${r + 1} of ${TABLE_WORDS[table]}`,
                `fill:${table}:${r}:${name}`,
                record[name] ?? null,
              ),
            ),
          ),
        ),
      ),
    ),
    ...(question.alike ?? []).map((name) => alikeNode('strains', name, `or ${name}`)),
    node(
      'p',
      { class: 'actions' },
      node('fluent-button', { size: 'small', 'data-act': 'more-rows', 'data-for': table }, 'One more row'),
    ),
  ];
}

const neededColumns = (table: TableName): string =>
  [
    ...new Set(
      Object.values(JOB).flatMap(({ tables }) =>
        tables
          .filter(({ name }) => name === table)
          .flatMap(({ columns }) => columns.filter(({ isNeeded }) => isNeeded).map(({ name }) => name)),
      ),
    ),
  ].join(', ');

const meaningOf = (question: Question & { kind: 'fill' }, name: string): string =>
  question.columns.find((one) => name === one.name || name.startsWith(`${one.name} `))?.column.meaning ?? '';
