import { mayBeLeftOut, type Argument } from '../../worksheet/cells/arguments';
import { cellOf, formatted, type Block, type Cell, type Format, type Grid } from '../../worksheet/cells/cell';
import type { Kind } from '../../worksheet/cells/kinds';
import { formatOfKind, shownCell } from '../../worksheet/cells/shown';
import type { TableColumn } from '../../worksheet/cells/columns';
import { headerKey } from '../../worksheet/cells/headerWords';
import { FAMILIES, FAMILY_TITLES, PREFIX, type Family } from '../../worksheet/constants';
import { exampleGrid, typedFormula } from '../../worksheet/examples';
import type { Caller } from '../../worksheet/call';
import type { Tools } from '../../worksheet/tools';
import { signature } from '../../worksheet/functionTable';
import { argumentPhrase, columnPhrase, resultPhrase } from '../../worksheet/wording/guide';
import type { DescribedFunction, Example } from '../../worksheet/words';
import type { JobName } from '../fit/jobs';
import { jobLink } from './jobPage';
import { node, type PageNode } from './node';
import type { Found } from './search';
import { argumentsInUnits, cellInUnits, titleInUnits, type Units } from './units';

/** What a family's page says before its functions. */
const FAMILY_QUESTIONS: Record<Family, string> = {
  records:
    'Headers, dates, figures and labels of a sheet as you keep it, in the way that all the rest reads.',
  ripening: 'Which lots are ready, late or past, and what must be started when?',
  lineage: 'What came from what, and which lots share a bad bag of spawn?',
  substrate: 'What to weigh out, and how much water?',
  sterilising: 'Did the core get hot enough for long enough?',
  climate: 'What air to give: humidity, fresh air, carbon dioxide.',
  loading: 'What to open when, in which room, so that orders are met and no day swamps the crew?',
  harvest: 'What did a lot give, and what will the next one give?',
  audit: 'Which rows cannot be right, and do the strains really differ?',
  cost: 'What does a block, a kilogram, a shelf day cost or earn?',
};

export interface GuideOptions {
  readonly units: Units;
  /** What calculates on a page with fields to change an example's cells; undefined for a page to read. */
  readonly live: Caller['call'] | undefined;
  /** What an article to read is calculated with; an example that needs more is shown as its words have it. */
  readonly tools?: Partial<Tools>;
}

/** A call on a line of its own, broken after a comma where it is too long. */
export const callLine = (call: string): PageNode =>
  node(
    'p',
    { class: 'call' },
    node(
      'code',
      {},
      call.split(/(?<=,)/).flatMap((part, at) => (at === 0 ? [part] : [node('wbr'), part])),
    ),
  );

const heading = (text: string): PageNode => node('h4', {}, text);

/** A column of a table: its header, and what it holds. */
export function columnWords([property, column]: [string, TableColumn<unknown>]): PageNode {
  const { name, words } = columnPhrase(property, column);
  return node('li', {}, node('b', {}, name), ` – ${words}`);
}

function argumentWords(argument: Argument): PageNode[] {
  return [
    node(
      'dt',
      {},
      argument.name,
      mayBeLeftOut(argument) && node('span', { class: 'optional' }, 'may be left out'),
    ),
    node(
      'dd',
      {},
      argument.meaning,
      node('span', { class: 'shape' }, argumentPhrase(argument)),
      argument.shape === 'table' &&
        node('ul', { class: 'columns' }, Object.entries(argument.columns).map(columnWords)),
    ),
  ];
}

/** The column that stands under a header of a table's grid, with its name, where the table knows it. */
export function columnAt(
  argument: Extract<Argument, { shape: 'table' }>,
  grid: Grid,
  column: number,
): readonly [string, TableColumn<unknown>] | undefined {
  const header = headerKey(shownCell(grid[0]![column]!));
  const named = Object.entries(argument.columns);
  return (
    named.find(([property]) => headerKey(property) === header) ??
    named.find(([property, { role }]) => role === 'numbered' && header.startsWith(headerKey(property)))
  );
}

/** The kind of the cell at a place of an argument's grid, where the argument says. */
export function kindAt(
  argument: Argument,
  grid: Grid,
  row: number,
  column: number,
): Kind<unknown> | undefined {
  if (argument.shape !== 'table') return argument.kind;
  return row === 0 ? undefined : columnAt(argument, grid, column)?.[1].kind;
}

/** The days of 2020 to 2030: no other figure of the examples, which are ours, is as large without a kind of its own. */
const isDay = (cell: number): boolean => cell >= 43_831 && cell < 47_849;

/** How a cell of an example is shown. Where any number may stand, as in a log, the date of a sheet is a date. */
function formatOfExample(cell: Cell, kind: Kind<unknown> | undefined): Format {
  const format = kind ? formatOfKind(kind) : 'plain';
  if (typeof cell !== 'number') return format;
  const isDate = format === 'date' || ((kind?.word === 'number' || kind?.word === 'anything') && isDay(cell));
  if (!isDate) return format;
  return Number.isInteger(cell) ? 'date' : 'dateTime';
}

function exampleCell(
  argument: Argument,
  grid: Grid,
  row: number,
  column: number,
  isLive: boolean,
  at: string,
): PageNode {
  const kind = kindAt(argument, grid, row, column);
  const cell = grid[row]![column]!;
  const text = shownCell(cell, formatOfExample(cell, kind));
  if (argument.shape === 'table' && row === 0 && text !== '') return node('th', { scope: 'col' }, text);
  if (!isLive) return node('td', { class: classOf(text) }, text);
  const label =
    argument.shape === 'table' ? `${shownCell(grid[0]![column]!)}, row ${row + 1}` : argument.name;
  return node(
    'td',
    {},
    node('input', {
      value: text,
      'data-cell': `${at}:${row}:${column}`,
      'aria-label': label,
      size: String(Math.max(4, text.length)),
      autocomplete: 'off',
      spellcheck: 'false',
    }),
  );
}

/** The cells of an example in the units chosen. */
export function exampleCells(f: DescribedFunction, example: Example, units: Units): Grid[] {
  const inUnits = argumentsInUnits(f, example, units);
  const turned = cellInUnits(f, example, units);
  return f.arguments
    .map((argument, at) => ({ argument, given: inUnits[at] }))
    .filter(({ given }) => given !== undefined)
    .map(({ argument, given }) => {
      const grid = exampleGrid(given!);
      return grid.map((row, r) =>
        row.map((cell, c): Cell => {
          const kind = kindAt(argument, grid, r, c);
          return kind ? turned(cell, kind) : cell;
        }),
      );
    });
}

/** What an example gives: calculated, or as its words have it where something needed is not at hand. */
function exampleResult(
  f: DescribedFunction,
  example: Example,
  cells: readonly Grid[],
  { live, tools = {} }: GuideOptions,
): Block {
  if (live) return live(f.name, cells);
  if (f.needs.every((name) => tools[name] !== undefined)) return f.evaluate(cells, { tools });
  const view = example.arguments[f.arguments.findIndex(({ name }) => name === 'view')];
  const columns = f.result.views?.[view as string] ?? f.result.columns;
  // A header that is a number is a day.
  const [head, ...rows] = exampleGrid(example.gives) as Block['rows'];
  const headed = head!.map((cell) =>
    typeof cell === 'number' && isDay(cell) ? formatted(cell, 'date') : cell,
  );
  return {
    rows: [headed, ...rows],
    formats: head!.map((_, c) => Object.values(columns)[c]?.format ?? 'plain'),
  };
}

/** A date or a label is not broken at its hyphens; a sentence is. */
const LONGEST_ON_A_LINE = 20;

const classOf = (text: string): string | false =>
  text.startsWith('#') ? 'fault' : text.length <= LONGEST_ON_A_LINE && 'short';

/** Whether a cell holds a number to be read as one: figures line up at their last digit. */
function isFigure(block: Block, row: number, column: number): boolean {
  const [value, format] = cellOf(block, row, column);
  return typeof value === 'number' && format !== 'date';
}

/** A result as a table to read; a fault reads as its reason. */
export function resultTable(f: DescribedFunction, block: Block): PageNode {
  const headed = f.result.shape === 'table' || f.result.shape === 'views';
  const most = 12;
  const rows = block.rows.slice(0, most).map((row, r) =>
    node(
      'tr',
      {},
      row.map((_, c) => {
        const [value, format] = cellOf(block, r, c);
        const text = shownCell(value, format);
        const isHeader = headed && r === 0 && block.rows.length > 1;
        if (isHeader && text !== '')
          return node('th', { scope: 'col', class: isFigure(block, 1, c) && 'figure' }, text);
        return node('td', { class: isFigure(block, r, c) ? 'short figure' : classOf(text) }, text);
      }),
    ),
  );
  const rest = block.rows.length - most;
  const isOneValue = block.rows.length === 1 && block.rows[0]!.length === 1;
  return node(
    'div',
    {
      class: isOneValue ? 'result one' : 'result',
      role: 'group',
      'aria-label': 'answer',
      'aria-live': 'polite',
      tabindex: '0',
    },
    node('table', {}, node('tbody', {}, rows)),
    rest > 0 && node('p', { class: 'shape' }, `and ${rest} rows more`),
  );
}

/** An example: what is given, the call, and what it gives. */
export function exampleSection(
  f: DescribedFunction,
  example: Example,
  position: number,
  options: GuideOptions,
): PageNode {
  const { units, live } = options;
  const cells = exampleCells(f, example, units);
  return node(
    'section',
    { class: 'example', 'data-example': `${f.name}:${position}` },
    node('p', { class: 'title' }, titleInUnits(f, example, units)),
    cells.map((grid, at) => {
      const argument = f.arguments[at]!;
      const rows = grid.map((row, r) =>
        node(
          'tr',
          {},
          row.map((_, c) => exampleCell(argument, grid, r, c, live !== undefined, String(at))),
        ),
      );
      return node(
        'div',
        // On a phone a wide table is scrolled, with the keyboard too.
        {
          class: 'given',
          ...(!live && grid[0]!.length > 2 && { role: 'group', 'aria-label': argument.name, tabindex: '0' }),
        },
        node('span', { class: 'label' }, argument.name),
        node('table', {}, node('tbody', {}, rows)),
      );
    }),
    !live && callLine(typedFormula(f, example.arguments)),
    node('p', { class: 'label' }, 'gives'),
    resultTable(f, exampleResult(f, example, cells, options)),
    live &&
      node(
        'p',
        { class: 'actions' },
        node(
          'fluent-button',
          {
            appearance: position === 0 && 'primary',
            'data-act': 'insert-example',
            'data-for': `${f.name}:${position}`,
          },
          'Put this example in the sheet',
        ),
      ),
  );
}

/** All that the guide says about one function: how to use it, an example, and then what one looks up. */
export function functionArticle(f: DescribedFunction, options: GuideOptions): PageNode {
  return node(
    'article',
    { id: f.name, 'aria-labelledby': `${f.name}-title` },
    node('h3', { id: `${f.name}-title`, tabindex: '-1' }, f.name),
    node('p', { class: 'summary' }, f.summary),
    callLine(`=${PREFIX}${signature(f)}`),
    options.live &&
      node(
        'p',
        { class: 'actions' },
        node(
          'fluent-button',
          { 'data-act': 'insert-call', 'data-for': f.name },
          'Put a call in the selected cell',
        ),
      ),
    (f.cautions ?? []).map((caution) => node('p', { class: 'caution' }, caution)),
    heading(f.examples.length > 1 ? 'Examples' : 'Example'),
    options.live &&
      node('p', { class: 'shape' }, 'Change a figure and see what it gives. The examples are invented.'),
    f.examples.map((example, position) => exampleSection(f, example, position, options)),
    heading('What it needs'),
    node('dl', {}, f.arguments.flatMap(argumentWords)),
    heading('What it gives'),
    node('p', {}, resultPhrase(f.result)),
    heading('Good to know'),
    f.notes.map((note) => node('p', {}, note)),
    heading('When the cell shows an error'),
    node(
      'dl',
      { class: 'faults' },
      f.faults.flatMap((fault) => [
        node('dt', {}, `${fault.code} … ${fault.says}`),
        node('dd', {}, fault.remedy),
      ]),
    ),
    heading('Source'),
    node(
      'ul',
      {},
      f.sources.map((source) => node('li', {}, source)),
    ),
    !options.live && node('p', { class: 'to-index' }, node('a', { href: '#functions' }, 'All functions')),
  );
}

/** The families in the order of the grower's week, each with its functions, as links. */
export function guideIndex(functions: readonly DescribedFunction[]): PageNode {
  const families = FAMILIES.filter((family) => functions.some((f) => f.family === family));
  return node(
    'nav',
    { 'aria-label': 'Functions by family' },
    families.map((family) =>
      node(
        'section',
        { class: 'family' },
        node('h3', {}, FAMILY_TITLES[family]),
        node('p', { class: 'shape' }, FAMILY_QUESTIONS[family]),
        functionLinks(functions.filter((f) => f.family === family)),
      ),
    ),
  );
}

/** What a question found: links to functions and their views, and sheets to add. */
export function foundLinks(all: readonly Found[]): PageNode {
  return node(
    'ul',
    { class: 'functions' },
    all.map((found) => {
      switch (found.kind) {
        case 'function':
          return functionLink(found.f.name, found.f.name, found.f.summary);
        case 'view':
          return functionLink(found.f.name, `${found.f.name}, view ${found.view}`, found.meaning);
        case 'sheet':
          return node(
            'li',
            {},
            node('b', {}, found.title),
            node(
              'fluent-button',
              { size: 'small', 'data-act': 'start', 'data-for': found.name },
              `Add the sheet ${found.name}`,
            ),
          );
        case 'job':
          return node(
            'li',
            {},
            node('b', {}, found.title),
            node(
              'fluent-button',
              { size: 'small', 'data-act': 'own-job', 'data-for': found.name },
              'Use my sheet',
            ),
            ' ',
            jobLink(found.name as JobName),
          );
      }
    }),
  );
}

const functionLink = (name: string, title: string, summary: string, page = ''): PageNode =>
  node('li', {}, node('a', { href: `${page}#${name}` }, node('b', {}, title), node('span', {}, summary)));

/** A list of links to functions with what each gives, on this page or on another. */
export function functionLinks(functions: readonly DescribedFunction[], page = ''): PageNode {
  return node(
    'ul',
    { class: 'functions' },
    functions.map((f) => functionLink(f.name, f.name, f.summary, page)),
  );
}
