import { todayIn } from '../fit/book';
import { JOB } from '../fit/jobs';
import type { Book, Place } from './book';
import { node, toElement, type PageNode } from './node';
import { dayWords, todayList, type TodayJob, type TodayLine, type TodayList } from './today';

/** Lines of one day that are shown at once. */
const SHOWN = 12;

const WORDS: Readonly<Record<TodayJob, string>> = {
  open: 'Open',
  pick: 'Pick',
  inoculate: 'Inoculate',
  'look at': 'Look at',
};

const starter = (name: string): PageNode =>
  node('button', { type: 'button', 'data-act': 'start', 'data-for': name }, `the starter sheet ${name}`);
const ownJob = (job: 'ready' | 'plan'): PageNode =>
  node(
    'button',
    { type: 'button', 'data-act': 'own-job', 'data-for': job },
    `“${JOB[job].title}” for your sheets`,
  );

/** What would tell of a job that nothing in the book tells of. */
const FILLED_BY: Readonly<Record<TodayJob, readonly (string | PageNode)[]>> = {
  open: ['What to open: ', ownJob('ready'), ', or ', starter('Lots'), '.'],
  pick: ['What to pick: ', ownJob('plan'), ', or ', starter('Loads'), '.'],
  'look at': ['What to look at: the same list of ready lots, or a plan.'],
  inoculate: [
    'What to inoculate: a list that ',
    node('a', { href: '#BACKPLAN' }, 'BACKPLAN'),
    ' or ',
    node('a', { href: '#SPAWNCHAIN' }, 'SPAWNCHAIN'),
    ' works out from your orders.',
  ],
};

/** The list of today in a part of the pane. */
export class TodayPart {
  private lines: readonly Place[] = [];
  private shown = '';

  constructor(
    private readonly root: HTMLElement,
    private readonly book: Book,
  ) {}

  /** Reads the book and shows what it tells. */
  async look(): Promise<void> {
    const [held, { formulas }] = [await this.book.everything(), await this.book.contents()];
    const deviceDay = todayIn(held.dateSystem);
    const list = todayList(held, formulas, deviceDay);
    this.lines = [...list.lines.map(({ place }) => place), ...(list.dayFrom ? [list.dayFrom] : [])];
    const written = (day: number): string => dayWords(day, held);
    // A list that is the same stays as it is, and with it where the keyboard is.
    const told = JSON.stringify([list, deviceDay]);
    if (told === this.shown) return;
    this.shown = told;
    this.root.replaceChildren(...todayNodes(list, deviceDay, written).map((one) => toElement(one)));
  }

  async act(what: string, reference: string): Promise<boolean> {
    if (what !== 'today') return false;
    await this.book.goTo(this.lines[Number(reference)]!);
    return true;
  }
}

function todayNodes(list: TodayList, deviceDay: number, written: (day: number) => string): PageNode[] {
  const { day, dayFrom, lines, untold } = list;
  const lineNode = (line: TodayLine): PageNode =>
    node(
      'li',
      {},
      node(
        'button',
        { type: 'button', 'data-act': 'today', 'data-for': String(lines.indexOf(line)) },
        node('b', {}, WORDS[line.job]),
        ' ',
        node('span', {}, line.words),
      ),
    );
  const listOf = (of: readonly TodayLine[]): PageNode[] => [
    node('ul', { class: 'today' }, of.slice(0, SHOWN).map(lineNode)),
    ...(of.length > SHOWN
      ? [
          node(
            'details',
            {},
            node('summary', {}, `${of.length - SHOWN} more`),
            node('ul', { class: 'today' }, of.slice(SHOWN).map(lineNode)),
          ),
        ]
      : []),
  ];
  const now = lines.filter((line) => line.day === day);
  const days = [...new Set(lines.map((line) => line.day))].filter((one) => one > day);
  return [
    node('h3', {}, `Today, ${written(day)}`),
    ...(dayFrom === undefined
      ? []
      : [
          node(
            'p',
            { class: 'quiet' },
            'The day is that of ',
            node(
              'button',
              { type: 'button', 'data-act': 'today', 'data-for': String(lines.length) },
              `${dayFrom.sheet}!${dayFrom.address}`,
            ),
            day === deviceDay ? '.' : `; this computer says ${written(deviceDay)}.`,
          ),
        ]),
    ...(now.length > 0 ? listOf(now) : [node('p', {}, 'Nothing in this book is due today.')]),
    ...(days.length > 0 ? [node('h3', {}, 'In the six days after')] : []),
    ...days.flatMap((one) => [
      node('h4', {}, written(one)),
      ...listOf(lines.filter((line) => line.day === one)),
    ]),
    ...(untold.length > 0
      ? [
          node('h3', {}, 'Not told by this book'),
          node(
            'ul',
            { class: 'untold' },
            untold.map((job) => node('li', {}, ...FILLED_BY[job])),
          ),
        ]
      : []),
  ];
}
