import type { Caller } from '../../worksheet/call';
import { addressOf } from '../xlsx/address';
import type { Answer, Answers } from '../fit/answers';
import type { GrowersBook } from '../fit/book';
import { choicesFor, fitJob, partText, type Fit, type Question, type TableFit } from '../fit/fit';
import { functionReader } from '../fit/functionReader';
import { JOB, JOBS, type JobName, type TableName } from '../fit/jobs';
import { keptAnswers, withAnswers } from '../fit/kept';
import { figureOf, MAY_LEAVE_OUT } from '../fit/readSheet';
import {
  placeOfUnread,
  questionWords,
  readingWords,
  sourceWords,
  TABLE_WORDS,
  unreadWords,
} from '../fit/told';
import { sheetsOf } from '../fit/write';
import { AuditView } from './auditView';
import type { Book, Place } from './book';
import { node, toElement, type PageNode } from './node';

// "Use my sheet": from a job to formulas over the grower's own cells.

/** The jobs to choose from. */
export const ownSheetPart = (): PageNode[] => [
  node(
    'p',
    {},
    'What do you want to know? Pinset reads your own sheets where they are and changes nothing in them.',
  ),
  node(
    'ul',
    { class: 'jobs' },
    JOBS.map((job) =>
      node('li', {}, node('fluent-button', { 'data-act': 'job', 'data-for': job }, JOB[job].title)),
    ),
  ),
  node('div', { id: 'fitted' }),
];

const COLUMN_ASKED = 'columns';

const selectOf = (
  label: string,
  field: string,
  choices: readonly (readonly [value: string, words: string])[],
  chosen: string,
): PageNode =>
  node(
    'select',
    { 'aria-label': label, 'data-answer': field },
    choices.map(([value, words]) =>
      node('option', { value, selected: value === chosen ? '' : undefined }, words),
    ),
  );

const LEFT_OUT = '';

function tableNode(name: TableName, table: TableFit): PageNode {
  const { candidate, readings, evidence, others } = table;
  const words = TABLE_WORDS[name];
  const all = candidate.table.columns.filter(({ column }) => column.role !== 'numbered');
  const numbered = readings.filter(({ wanted }) => wanted.column.role === 'numbered');
  const row = (column: string, choice: PageNode | string): PageNode =>
    node(
      'tr',
      {},
      node('th', { scope: 'row' }, column),
      node('td', {}, choice),
      node(
        'td',
        { class: 'how' },
        readings.some((one) => one.name === column) ? readingWords(table, column) : '',
      ),
      ...evidence.map((record) => node('td', {}, record[column] ?? '')),
    );
  return node(
    'section',
    { class: 'source' },
    node('h4', {}, words),
    node('p', {}, sourceWords(table)),
    others.length > 0 &&
      selectOf(
        `Where your ${words} are`,
        `tables:${name}`,
        [candidate, ...others].map((one) => [partText(one), partText(one)]),
        partText(candidate),
      ),
    node(
      'div',
      { class: 'wide' },
      node(
        'table',
        { class: 'match', 'aria-label': `How your ${words} are read` },
        node(
          'tr',
          {},
          node('th', { scope: 'col' }, 'Pinset reads'),
          node('th', { scope: 'col' }, 'your column'),
          node('th', { scope: 'col' }, 'as'),
          node('th', { scope: 'col', colspan: String(Math.max(1, evidence.length)) }, 'your first records'),
        ),
        ...all.map((wanted) => {
          const match = readings.find((one) => one.name === wanted.name)?.match.header ?? LEFT_OUT;
          const choices = [...new Set([match, LEFT_OUT, ...choicesFor(candidate, wanted)])];
          return row(
            wanted.name,
            selectOf(
              `Your column for ${wanted.name} of ${words}`,
              `${COLUMN_ASKED}:${name}:${wanted.name}`,
              choices.map((one) => [one, one === LEFT_OUT ? '– none –' : one]),
              match,
            ),
          );
        }),
        ...numbered.map((reading) => row(reading.name, reading.match.header)),
      ),
    ),
  );
}

const field = (name: string, label: string, value: Answer, more: Record<string, string> = {}): PageNode =>
  node('input', {
    'data-answer': name,
    'aria-label': label,
    value: value === null ? '' : String(value),
    ...more,
  });

const LEAST_ROWS = 2;

function questionNode(question: Question, at: number): PageNode {
  const legend = node('legend', {}, questionWords(question));
  switch (question.kind) {
    case 'dates':
      return node(
        'fieldset',
        { 'data-question': String(at) },
        legend,
        ...(['day first', 'month first', 'year first'] as const).map((order) =>
          node(
            'label',
            {},
            node('input', {
              type: 'radio',
              name: `dates-${at}`,
              value: order,
              'data-answer': `dates:${question.about}`,
            }),
            order === question.elsewhere ? `${order}, as elsewhere in the book` : order,
          ),
        ),
      );
    case 'products':
      return node(
        'fieldset',
        { 'data-question': String(at) },
        legend,
        ...question.words.map((word) =>
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
        ),
      );
    case 'fill': {
      const { table, columns } = question;
      const names = columns.flatMap(({ name, column }) =>
        column.role === 'numbered' ? [`${name} 1`, `${name} 2`] : [name],
      );
      const rows = [...question.rows];
      while (rows.length < LEAST_ROWS) rows.push({});
      return node(
        'fieldset',
        { 'data-question': String(at) },
        legend,
        node(
          'div',
          { class: 'wide' },
          node(
            'table',
            { class: 'fill' },
            node(
              'tr',
              {},
              ...names.map((name) =>
                node(
                  'th',
                  { scope: 'col', title: meaningOf(question, name) },
                  columns.some((one) => one.name === name && one.isNeeded) ? name : `${name} (optional)`,
                ),
              ),
            ),
            ...rows.map((record, r) =>
              node(
                'tr',
                {},
                ...names.map((name) =>
                  node(
                    'td',
                    {},
                    field(
                      `fill:${table}:${r}:${name}`,
                      `${name}, row ${r + 1} of ${TABLE_WORDS[table]}`,
                      record[name] ?? null,
                    ),
                  ),
                ),
              ),
            ),
          ),
        ),
        node(
          'p',
          { class: 'actions' },
          node(
            'fluent-button',
            { size: 'small', 'data-act': 'more-rows', 'data-for': table },
            'One more row',
          ),
        ),
      );
    }
    case 'figure':
      return node(
        'fieldset',
        { 'data-question': String(at) },
        legend,
        field(`figures:${question.figure}`, question.figure, null),
      );
    case 'column':
      return node(
        'fieldset',
        { 'data-question': String(at) },
        legend,
        selectOf(
          question.column,
          `${COLUMN_ASKED}:${question.table}:${question.column}`,
          [[LEFT_OUT, 'choose'], ...question.choices.map((one) => [one, one] as const)],
          LEFT_OUT,
        ),
      );
    case 'table':
      return node(
        'fieldset',
        { 'data-question': String(at) },
        legend,
        question.choices.length > 0 &&
          selectOf(
            TABLE_WORDS[question.table],
            `tables:${question.table}`,
            [[LEFT_OUT, 'choose'], ...question.choices.map((one) => [one, one] as const)],
            LEFT_OUT,
          ),
        question.choices.length === 0 &&
          node(
            'p',
            {},
            `It needs ${neededColumns(question.table)}. Add a sheet with these headers, or lay down a starter sheet, and choose the job again.`,
          ),
      );
  }
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

function fitNode(fit: Fit): PageNode {
  const { unread, joined, questions } = fit;
  return node(
    'div',
    {},
    node('h3', { tabindex: '-1' }, fit.job.title),
    ...[...fit.tables].map(([name, table]) => tableNode(name, table)),
    ...[...fit.filled].map(([name, rows]) =>
      node('p', {}, `${TABLE_WORDS[name]}: ${rows.length} rows, as you gave them.`),
    ),
    joined.length > 0 &&
      node(
        'section',
        {},
        node('h4', {}, 'Read as one label'),
        node(
          'ul',
          {},
          joined.map(({ label, as, cells }) =>
            node('li', {}, `${label} as ${as}, in ${cells === 1 ? '1 cell' : `${cells} cells`}`),
          ),
        ),
      ),
    node(
      'section',
      {},
      node(
        'h4',
        {},
        unread.length === 0
          ? 'Every cell that is needed can be read'
          : `${unread.length === 1 ? '1 cell' : `${unread.length} cells`} cannot be read`,
      ),
      unread.length > 0 &&
        node(
          'ul',
          { class: 'unread' },
          unread.map((cell, at) =>
            node(
              'li',
              {},
              node(
                'button',
                { type: 'button', 'data-act': 'go-unread', 'data-for': String(at) },
                placeOfUnread(cell),
              ),
              ` ${cell.about}: ${unreadWords(cell)}`,
            ),
          ),
        ),
    ),
    ...leaveOutNodes(fit),
    questions.length > 0 &&
      node('section', {}, node('h4', {}, 'Only you know'), ...questions.map(questionNode)),
    node(
      'p',
      { class: 'actions' },
      node('fluent-button', { appearance: 'primary', 'data-act': 'write' }, 'Write it on sheets of its own'),
      fit.job.name === 'audit' && node('fluent-button', { 'data-act': 'audit' }, 'Go through it here'),
    ),
    node('div', { id: 'written', 'aria-live': 'polite' }),
    node('div', { id: 'audited' }),
  );
}

/** One record that cannot be read spoils a whole plan: the grower may leave it out until it is corrected. */
const leaveOutNodes = ({ job, unread, answers }: Fit): PageNode[] =>
  (MAY_LEAVE_OUT[job.name] ?? [])
    .filter((table) => unread.some(({ about }) => about.startsWith(`${table}, `)))
    .map((table) =>
      node(
        'label',
        { class: 'leave-out' },
        node('input', {
          type: 'checkbox',
          'data-answer': `leaveOut:${table}`,
          checked: answers.leaveOut?.[table] === true ? '' : undefined,
        }),
        `Leave out ${TABLE_WORDS[table]} that cannot be read, count them, and take them in once they are corrected`,
      ),
    );

/** What is written, with the way back. */
const writtenNode = (sheets: readonly string[], calls: readonly string[]): PageNode =>
  node(
    'section',
    {},
    node('h4', {}, sheets.length === 1 ? 'On a sheet of its own' : 'On sheets of their own'),
    node('p', {}, sheets.join(', ')),
    ...calls.map((call) => node('code', {}, call)),
    node('p', { class: 'actions' }, node('fluent-button', { 'data-act': 'take-back' }, 'Take it back')),
  );

interface Setting {
  readonly root: HTMLElement;
  readonly book: Book;
  readonly caller: Caller;
  readonly say: (text: string) => void;
}

/** "Use my sheet" in a part of the pane. */
export class OwnSheet {
  private job: JobName | undefined;
  private held: GrowersBook | undefined;
  private answers: Answers = {};
  private fit: Fit | undefined;
  private written: readonly string[] = [];
  private readonly auditView: AuditView;

  constructor(private readonly setting: Setting) {
    this.auditView = new AuditView(setting.root, setting.book, setting.say);
    setting.root.addEventListener('change', (event) => {
      const target = event.target as HTMLElement;
      const name = target.dataset['answer'];
      if (name === undefined || name.startsWith('fill:') || name.startsWith('figures:')) return;
      this.collect();
      // A new match is read anew; an answer to a question is read when it is written.
      if (name.startsWith('tables:') || name.startsWith(COLUMN_ASKED)) this.refit(name);
    });
  }

  private part<E extends HTMLElement>(selector: string): E | null {
    return this.setting.root.querySelector<E>(selector);
  }

  /** Whether this part of the pane does what a button asks. */
  async act(what: string, reference: string): Promise<boolean> {
    switch (what) {
      case 'job':
        await this.choose(reference as JobName);
        return true;
      case 'go-unread': {
        const { sheet, row, column } = this.fit!.unread[Number(reference)]!;
        await this.setting.book.goTo({ sheet, address: addressOf({ row, column }) });
        return true;
      }
      case 'more-rows':
        this.collect();
        this.addRow(reference as TableName);
        return true;
      case 'write':
        await this.write();
        return true;
      case 'audit':
        await this.audit();
        return true;
      case 'take-back':
        await this.takeBack();
        return true;
      default:
        return this.auditView.act(what, reference);
    }
  }

  /** A job begins from the book as it is now and from what it keeps of earlier answers. */
  private async choose(job: JobName): Promise<void> {
    const { book, caller, say } = this.setting;
    await caller.ready(['TODATES', 'TONUMBERS', 'MATCHLABELS']);
    this.held = await book.everything();
    this.job = job;
    this.answers = keptAnswers(this.held, job);
    this.refit();
    const there = answerSheet(this.held, job);
    if (there === undefined) return;
    await book.goTo(there);
    say(`The sheet ${there.sheet} answers it already, and follows your cells.`);
  }

  private refit(focused?: string): void {
    const { caller } = this.setting;
    const held = this.held!;
    this.fit = fitJob(held, this.job!, this.answers, functionReader(caller, held.dateSystem));
    const shown = toElement(fitNode(this.fit));
    this.part('#fitted')!.replaceChildren(shown);
    const again = focused === undefined ? shown.querySelector<HTMLElement>('h3') : this.fieldOf(focused);
    again?.focus();
  }

  private fieldOf(name: string): HTMLElement | null {
    return this.part(`[data-answer="${CSS.escape(name)}"]`);
  }

  /** The answers as the fields of the page hold them. */
  private collect(): void {
    const tables: Record<string, string> = {};
    const columns: Record<string, Record<string, string | null>> = {};
    const dates: Record<string, 'day first' | 'month first' | 'year first'> = {};
    const products: Record<string, string[]> = {};
    const fill: Record<string, Record<string, Answer>[]> = {};
    const figures: Record<string, Answer> = {};
    const leaveOut: Record<string, boolean> = {};
    for (const one of this.setting.root.querySelectorAll<HTMLInputElement | HTMLSelectElement>(
      '[data-answer]',
    )) {
      const [kind, first, ...rest] = one.dataset['answer']!.split(':') as [string, string, ...string[]];
      const isChecked =
        !('checked' in one) || one.checked || (one.type !== 'radio' && one.type !== 'checkbox');
      const value = one.value.trim();
      if (kind === 'leaveOut') leaveOut[first] = isChecked;
      if (kind === 'products') products[first] ??= [];
      if (!isChecked) continue;
      if (kind === 'tables' && value !== '') tables[first] = value;
      if (kind === COLUMN_ASKED && this.isChanged(first, rest[0]!, value)) {
        (columns[first] ??= {})[rest[0]!] = value === '' ? null : value;
      }
      if (kind === 'dates') dates[first] = value as 'day first';
      if (kind === 'products') products[first]!.push(value);
      if (kind === 'figures' && value !== '') figures[first] = value;
      if (kind === 'fill' && value !== '') {
        const row = Number(rest[0]);
        const rows = (fill[first] ??= []);
        while (rows.length <= row) rows.push({});
        rows[row]![rest[1]!] = figureOf(value, true);
      }
    }
    for (const [table, rows] of Object.entries(fill)) {
      fill[table] = rows.filter((row) => Object.keys(row).length > 0);
    }
    this.answers = withAnswers(this.answers, { tables, columns, dates, products, fill, figures, leaveOut });
  }

  /** Whether a column is matched with another header than was proposed. */
  private isChanged(table: string, column: string, header: string): boolean {
    const readings = this.fit?.tables.get(table as TableName)?.readings ?? [];
    const match = readings.find(({ name }) => name === column)?.match;
    return (match?.header ?? LEFT_OUT) !== header;
  }

  private addRow(table: TableName): void {
    const body = this.part<HTMLTableElement>(`[data-answer^="fill:${table}:"]`)?.closest('table');
    const last = body?.querySelector('tr:last-child');
    if (!last) return;
    const row = last.cloneNode(true) as HTMLElement;
    const at = body!.querySelectorAll('tr').length - 1;
    for (const input of row.querySelectorAll<HTMLInputElement>('input')) {
      const [, , , name] = input.dataset['answer']!.split(':');
      input.dataset['answer'] = `fill:${table}:${at}:${name!}`;
      input.setAttribute('aria-label', `${name!}, row ${at + 1} of ${TABLE_WORDS[table]}`);
      input.value = '';
      input.setAttribute('value', '');
    }
    last.after(row);
    row.querySelector('input')?.focus();
  }

  /** The job with the answers that the fields hold; undefined where one is still open, which is told. */
  private answered(held: GrowersBook): Fit | undefined {
    const { caller, say } = this.setting;
    this.collect();
    const fit = fitJob(held, this.job!, this.answers, functionReader(caller, held.dateSystem));
    const [open] = fit.questions;
    if (!open) return fit;
    say(`Still open: ${questionWords(open)}`);
    this.showOpen(open);
    return undefined;
  }

  /** Findings in the grower's cells as they are now. */
  private async audit(): Promise<void> {
    this.held = await this.setting.book.everything();
    const fit = this.answered(this.held);
    if (fit) await this.auditView.show(fit, this.part('#audited')!);
  }

  private async write(): Promise<void> {
    const { book, say } = this.setting;
    const held = this.held!;
    const fit = this.answered(held);
    if (!fit) return;
    const { sheets, answer, calls } = sheetsOf(fit, {
      sheets: held.sheets.map(({ name }) => name),
      tables: await book.tableNames(),
    });
    const added: string[] = [];
    for (const sheet of sheets) added.push(await book.layDown(sheet));
    this.written = added;
    this.fit = fit;
    this.part('#fitted')!.replaceChildren(toElement(fitNode(fit)));
    this.part('#written')!.replaceChildren(
      toElement(
        writtenNode(
          added,
          calls.map(({ formula }) => formula),
        ),
      ),
    );
    await book.goTo({ sheet: answer, address: 'A1' });
    say(`The answer is on the sheet ${answer}; your own sheets are as they were.`);
  }

  private showOpen(open: Question): void {
    const at = this.fit!.questions.findIndex(({ kind }) => kind === open.kind);
    const fields = this.part(`[data-question="${at}"]`)?.querySelectorAll<HTMLInputElement>('input, select');
    const first = [...(fields ?? [])].find(
      ({ type, value }) => type === 'radio' || type === 'checkbox' || value === '',
    );
    first?.focus();
  }

  private async takeBack(): Promise<void> {
    const { book, say } = this.setting;
    await book.takeBack(this.written);
    this.part('#written')!.replaceChildren();
    say(`Taken back: ${this.written.join(', ')}.`);
    this.written = [];
  }
}

/** The sheet on which an earlier fit put its answer. */
function answerSheet({ sheets }: GrowersBook, job: JobName): Place | undefined {
  const found = sheets.find(({ rows }) => rows[0]?.[0] === JOB[job].title);
  return found && { sheet: found.name, address: 'A1' };
}
