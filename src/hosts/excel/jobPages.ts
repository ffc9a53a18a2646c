import { PREFIX } from '../../worksheet/constants';
import { described } from '../../worksheet/described';
import { toolsAtHand } from '../../worksheet/toolsAtHand';
import { JOB, JOBS, type JobName, type WantedTable } from '../fit/jobs';
import { callLine, columnWords, exampleSection, functionLinks } from '../pane/guide';
import { jobPage } from '../pane/jobPage';
import { node, type PageNode } from '../pane/node';
import { guidePage } from './staticPage';

interface JobWords {
  readonly about: string;
  /** The starter sheets that have it all laid out, in the order in which they are filled in. */
  readonly starters: readonly string[];
  readonly steps: readonly string[];
  /** What to type, after the name that all functions begin with. */
  readonly calls: readonly { readonly gives: string; readonly call: string }[];
  /** The function that answers, and those that go on from there. */
  readonly functions: readonly [string, ...string[]];
  readonly looks: readonly string[];
  readonly errors: readonly { readonly shows: string; readonly then: string }[];
}

const NAMES_DIFFER = {
  shows: '#N/A … "Hazel-9" is not in strains',
  then: 'Add the strain to the table Strains, or correct its spelling. Case and outer spaces do not matter; a hyphen does.',
};
const NO_ROOM = {
  shows: '#SPILL!',
  then: 'The answer needs free cells. Clear what stands below and to the right of the formula.',
};
const DATES_AS_TEXT = {
  shows: '#VALUE! … must be a date',
  then: 'The cell holds text that looks like a date. Type it again, or read the column with TODATES.',
};

const WORDS: Record<JobName, JobWords> = {
  ready: {
    about: 'The lots that may be opened this week, the most urgent first, with the blocks that are left.',
    starters: ['Farm', 'Strains', 'Lots'],
    steps: [
      'Keep one row a lot in a table named Lots, and one row a strain in a table named Strains.',
      'Give each strain its earliest, best and latest day, counted from inoculation.',
      'Type the formula in a free cell, with the first and the last day you ask about.',
      'Once you open a lot, write the day under loaded; for a part of a lot, write how many blocks.',
    ],
    calls: [
      {
        gives: 'The lots of the next seven days',
        call: 'READYLOTS(Lots[#All],Strains[#All],TODAY(),TODAY()+6)',
      },
      {
        gives: 'Beside each lot its earliest, best and latest day',
        call: 'READYWINDOW(Lots[inoculated],Lots[strain],Strains[#All])',
      },
    ],
    functions: ['READYLOTS', 'READYWINDOW', 'READYDATE', 'RIPECALENDAR'],
    looks: [
      'Lots that go over age first come first.',
      'The last rows say what was left out: lots past their latest day, and rows that cannot be read.',
    ],
    errors: [NAMES_DIFFER, DATES_AS_TEXT, NO_ROOM],
  },
  plan: {
    about: 'What to open on which day and in which room, so that orders are met and no day swamps the crew.',
    starters: ['Farm', 'Strains', 'Lots', 'Rooms', 'Orders', 'Loads', 'Plan'],
    steps: [
      'Fill in the tables Strains, Lots, Rooms and Orders. Percentages are typed as 60%.',
      'Log what stands on the shelves in a table named Loads: its places and picks count.',
      'Type what you can pick and load on each weekday in a table named Calendar: none is no limit, off is no work.',
      'Type the formula in a free cell. A plan may take some seconds.',
      'Read the rows above the plan first: they name orders that are not filled.',
      'If you change a load by hand, copy the plan’s values elsewhere and let CHECKLOADS look at them.',
    ],
    calls: [
      {
        gives: 'Four weeks from today',
        call: 'LOADPLAN(Lots[#All],Strains[#All],Rooms[#All],Orders[#All],TODAY(),28,Calendar[#All],Loads[#All])',
      },
      {
        gives: 'What becomes of each order',
        call: 'LOADPLAN(Lots[#All],Strains[#All],Rooms[#All],Orders[#All],TODAY(),28,Calendar[#All],Loads[#All],,,"orders")',
      },
      {
        gives: 'Your own loads, in a table named MyLoads, checked against every rule',
        call: 'CHECKLOADS(MyLoads[#All],Lots[#All],Strains[#All],Rooms[#All],Orders[#All],Calendar[#All],Loads[#All])',
      },
    ],
    functions: ['LOADPLAN', 'CHECKLOADS', 'PICKCALENDAR', 'SHELFUSE', 'BACKPLAN'],
    looks: [
      'One row a load. The views week, picks, orders, lots, summary and board show the same plan in other ways.',
      'The plan is as good as your figures. Yields differ from them by more than a plan can gain: keep a margin.',
    ],
    errors: [
      NAMES_DIFFER,
      {
        shows:
          '#VALUE! … must be a number above 0, or off for no work that day, or none for no limit; it is blank or 0',
        then: 'Fill in each cell of the calendar. Write none where there is no limit and off where there is no work.',
      },
      {
        shows: '#BUSY!',
        then: 'The plan is being worked out. Finish typing; a large farm may take a minute.',
      },
      NO_ROOM,
    ],
  },
  audit: {
    about: 'Which rows of your picks and lots cannot be right, what was meant, and what each lot gave.',
    starters: ['Strains', 'Lots', 'Picks', 'Audit'],
    steps: [
      'Keep one row a pick in a table named Picks: the lot, the day, the mass.',
      'Name the unit in the header, as in mass (kg).',
      'Type the formula in a free cell. It changes nothing in your tables.',
      'Look at the scale’s sheet or the label before you correct a row.',
      'Once nothing is left to find, read what each lot gave.',
    ],
    calls: [
      {
        gives: 'What cannot be right, the surest first',
        call: 'YIELDAUDIT(Picks[#All],Lots[#All],Strains[#All])',
      },
      {
        gives: 'What speaks for each finding, in a sentence',
        call: 'YIELDAUDIT(Picks[#All],Lots[#All],Strains[#All],,"evidence")',
      },
      { gives: 'What each lot gave, by flush', call: 'CROPTABLE(Picks[#All],Lots[#All])' },
    ],
    functions: ['YIELDAUDIT', 'CROPTABLE', 'STRAINTABLE', 'FLUSHSPLIT'],
    looks: [
      'One line a cause. The row is counted from the header row of the table, which is row 1.',
      '“If corrected” is the figure with the slip undone, never a guess from other picks.',
    ],
    errors: [
      {
        shows: '#VALUE! harvests needs a column headed date',
        then: 'Head the column of pick dates “date”. The audit calls the table of picks harvests.',
      },
      {
        shows: '#VALUE! sureness in settings must be a percentage above 0% and at most 100%',
        then: 'Write 80% or 0.8, not 80.',
      },
      NO_ROOM,
    ],
  },
  mix: {
    about: 'What to weigh out of each ingredient for so many blocks, in packs, and the water to add.',
    starters: ['Mix'],
    steps: [
      'Keep the recipe in a table named Recipe: each ingredient’s share of the dry mass, and its moisture as it comes.',
      'The shares add up to 100%. Write none as the moisture of gypsum.',
      'Type the formula with the number of blocks, the mass of one, and the moisture you want.',
      'Weigh one ingredient’s moisture again when a new delivery comes: it decides how much water you add.',
    ],
    calls: [
      { gives: '40 blocks of 2.5 kg at 60% moisture', call: 'MIX(Recipe[#All],40,2.5,60%)' },
      { gives: 'The same with 5% to spare, and spawn at 10%', call: 'MIX(Recipe[#All],40,2.5,60%,5%,10%)' },
      {
        gives: 'What the mix costs, with a column cost in the recipe',
        call: 'MIXCOST(Recipe[#All],40,2.5,60%)',
      },
    ],
    functions: ['MIX', 'MIXCOST', 'MIXWATER', 'MIXRATIO', 'CHEAPESTMIX'],
    looks: [
      'Masses come back in the unit you gave. Where the recipe has packs, the packs to open are beside them.',
    ],
    errors: [
      {
        shows: '#VALUE! share in recipe must add up to 100%; it adds up to 80%',
        then: 'Correct the shares. They are of dry mass, not of what the scale shows.',
      },
      {
        shows: '#VALUE! moisture: the mix is already at 50% moisture, above the 45% you want',
        then: 'Use drier ingredients, dry the wettest, or aim for a higher moisture.',
      },
      {
        shows: '#VALUE! share in recipe must be a percentage above 0% and at most 100%; it is 20',
        then: 'Type 20% or 0.2, or give the column the format per cent before you type.',
      },
      NO_ROOM,
    ],
  },
};

const functionNamed = (name: string) => described.find((f) => f.name === name)!;

function tableNeeded({ name, columns }: WantedTable): PageNode[] {
  const listOf = (isNeeded: boolean): PageNode[] =>
    columns
      .filter((one) => one.isNeeded === isNeeded)
      .map(({ name: property, column }) => columnWords([property, column]));
  const others = listOf(false);
  return [
    node('h3', {}, `A table of ${name}`),
    node('ul', {}, listOf(true)),
    ...(others.length === 0
      ? []
      : [node('p', { class: 'label' }, 'and, where you have them'), node('ul', {}, others)]),
  ];
}

/** The text of a job's page, for the build: what it needs, what to type, what the answer looks like. */
export default function jobPages({ filename }: { readonly filename: string }): string {
  const job = JOB[JOBS.find((name) => jobPage(name) === filename)!];
  const { about, starters, steps, calls, functions, looks, errors } = WORDS[job.name];
  const [answering] = functions;
  const f = functionNamed(answering);
  const list = (tag: 'ol' | 'ul', items: readonly string[]): PageNode =>
    node(
      tag,
      {},
      items.map((item) => node('li', {}, item)),
    );
  return guidePage(
    job.title,
    about,
    node('p', { class: 'to-index' }, node('a', { href: 'guide.html#jobs' }, 'All jobs and functions')),
    ...(f.cautions ?? []).map((caution) => node('p', { class: 'caution' }, caution)),
    node(
      'p',
      {},
      'Quickest with your own book: in the pane choose Use my sheet, and there ',
      node('b', {}, job.title),
      '. It reads your headers as they are. With a new book add the starter ',
      starters.length === 1 ? 'sheet ' : 'sheets ',
      node('b', {}, starters.join(', ')),
      ' from the tab Starters: they have such formulas in them. Or do it by hand:',
    ),
    node('h2', {}, 'Steps'),
    list('ol', steps),
    node('h2', {}, 'What to type'),
    ...calls.flatMap(({ gives, call }) => [
      node('p', { class: 'label' }, gives),
      callLine(`=${PREFIX}${call}`),
    ]),
    node(
      'p',
      { class: 'shape' },
      'Where your spreadsheet has no tables, give a range with its headers in place of Lots[#All], as Lots!A4:G80.',
    ),
    node('h2', {}, 'What the answer looks like'),
    list('ul', looks),
    exampleSection(f, f.examples[0]!, 0, { units: 'metric', live: undefined, tools: toolsAtHand }),
    node('h2', {}, 'What you need'),
    ...job.tables.flatMap(tableNeeded),
    node('h2', {}, 'When the cell shows an error'),
    node(
      'dl',
      { class: 'faults' },
      errors.flatMap(({ shows, then }) => [node('dt', {}, shows), node('dd', {}, then)]),
    ),
    node(
      'p',
      {},
      node('a', { href: `guide.html#${answering}` }, `${answering} in the guide`),
      ' has more, and ',
      node('a', { href: 'errors.html' }, 'Cells that show an error'),
      ' has those of the spreadsheet itself.',
    ),
    node('h2', {}, 'The functions for it'),
    functionLinks(functions.map(functionNamed), 'guide.html'),
  );
}

/** The jobs as links to their pages. */
export const jobLinks = (): PageNode =>
  node(
    'ul',
    { class: 'functions' },
    JOBS.map((name) =>
      node(
        'li',
        {},
        node(
          'a',
          { href: jobPage(name) },
          node('b', {}, JOB[name].title),
          node('span', {}, WORDS[name].about),
        ),
      ),
    ),
  );
