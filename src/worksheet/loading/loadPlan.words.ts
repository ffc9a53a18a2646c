import type { Words } from '../words';
import { examplePlan, unknownStrain } from './examples';

const { lots, strains, rooms, orders } = examplePlan;
const LOT_HEADER = lots[0]!;

export const words: Words = {
  summary: 'What to open when, in which room, so that no picking day swamps the crew and orders are met.',
  notes: [
    'Orders come first. Of the plans that fill them best, the one with the least other costs is taken: blocks gone ' +
      'over, blocks opened off their best days, surplus, picking peaks and the number of loads. A little of the ' +
      'orders, at most the order tolerance (0.1% of their value), is given up where that saves more than it is worth.',
    'With a previous plan, each block that moves costs a little (move cost, 2% of a block’s value), ' +
      'and the plan with the fewest moves within the keep tolerance is taken.',
    'Places, limits of a day, ripe days and stocks are never passed. Orders that cannot be met come out short, ' +
      'and the view orders says how much of what, where and when would fill each: planned again with just that, it is filled.',
    'The view orders works that out for the orders with the most value short: up to 20, fewer on large farms. ' +
      'For the others, and where no such plan is found, it names what is short without an amount.',
    'Views: plan, picks, orders, lots, summary, week, worth, board. All views of the same cells share one solution. ' +
      'The view week is a sheet for the crew: what to pick, to look at and to open on each of the first seven days.',
    'The view worth plans again with one shelf more in a room, a tenth more picking, ten blocks more of a lot, or one thing known for sure. ' +
      'It says what each would save, and takes about ten times as long as a plan.',
    'The view board has a row a room and a column for each day of the plan: first the blocks on the shelves, then the places free. ' +
      'Colour its rows with the conditional formatting of your spreadsheet. Places stay taken for the turn-round days, and a day on which a room is shut reads closed.',
    'Put rows of the plan below those of the standing table once they are done. A row there that names its lot needs no strain, ' +
      'block mass and moisture, and its blocks are taken off the lot: a log of loads (loaded, lot, room, blocks) is enough.',
    'A lot that was looked at and is not ripe has that day under not ripe on: it is opened on the day after at the soonest, ' +
      'and its best and last days move along.',
    'Give the plan’s values as previous (pasted, not linked) when you plan again.',
    'Where something is wrong the view plan begins with rows that say so, a line each: orders not filled, products that no lot is, columns that nothing reads. ' +
      'Their words are in the last column, and calls that read the plan pass over them.',
    'loaded in lots is a date, which takes the whole lot, or a number of blocks: a figure below 30,000 is blocks. Neither is opened again. ' +
      'List what is opened in the table standing, so that its places and picks count.',
    'An order names a product, a strain or any. The product is that of the lot, otherwise that of its strain, otherwise the strain itself.',
    'Calendar: a date, a weekday, weekend, work days or every day; of several rows that fit, the first of these counts. ' +
      'Write off for no work and none for no limit.',
    'Settings are a table of name and value. A setting without a row has its usual value; for 0 write none.',
    'Costs per block and day: early cost (1% of a block’s value) and late cost (2%), both counted off the comfort days (2). ' +
      'Waiting cost is for each day past its best of a block left at the end (as late cost).',
    'Other costs: discard cost per block gone over (its value), surplus cost per mass (10% of the mean price), ' +
      'peak cost per mass of each week’s largest day (2%), load cost per load (30% of a block’s value).',
    'Rules: turn-round days (0), margin by which yields are taken lower when orders are filled (0%), ' +
      'keep tolerance (0.3% of the order value), freeze days (0), whole shelves (no), smallest load (1). ' +
      'Frozen loads that would break a rule by now are cut down; the summary says which and why.',
    'Orders: under given, write what an order has already, from the cold store or delivered.',
    'Strains may say how far loads differ from what is expected: yield spread (a share), pick spread and ready spread ' +
      '(days), all standard deviations. The plan is then the best over 48 possible seasons (scenarios; fewer for large farms). ' +
      'What orders fall short counts three times there, and picking over a limit costs four times the mean price (overtime cost). ' +
      'The views tell the chance of each order and the mass that one day in ten exceeds. ' +
      'A lot that is not ripe on its day is taken to stay shut until the plan of the next week.',
    'Service level, beside overtime cost or in its place: the share of the orders’ value to be filled in the mean of those seasons. ' +
      'What is short beyond it counts seven times, so picking over limits and surplus give way. The summary says whether it is kept.',
    'Standing: with first picked and picked, what a load has given corrects what it is expected to give. Write none under picked where nothing is picked yet. ' +
      'Where rows name their lot, what one load has given counts for the lot’s other loads and for what is left of it.',
    'These shares are judgements; put your own costs in. Yields differ from what is expected by far more ' +
      'than a plan can gain: write down their spread, or set a margin.',
  ],
  sources: [
    'Dantzig, G. B. (1963) Linear Programming and Extensions',
    'Kleinberg, J. & Tardos, É. (2006) Algorithm Design, §4.1 (rooms)',
    'Shapley, L. S. (1953) A value for n-person games (parts of a shortage)',
  ],
  questions: [
    'what to open next week',
    'plan the rooms',
    'what to load when, not too many at once',
    'fill my orders',
  ],
  examples: [
    {
      title: '9 kg are wanted on 12 and 13 May 2026: all 20 blocks are opened on the 6th',
      arguments: [lots, strains, rooms, orders(9), 46146, 7],
      gives: [
        [
          'loaded',
          'lot',
          'strain',
          'room',
          'blocks',
          'age',
          'first pick',
          'block mass',
          'moisture',
          'product',
          'for',
        ],
        [46148, 'B-12', 'Birch-1', 'North', 20, 70, 46154, 2.5, 0.6, 'Birch-1', '9 due 2026-05-13'],
      ],
    },
    {
      title: '13.5 kg are wanted: half as many blocks again fill the order',
      arguments: [lots, strains, rooms, orders(13.5), 46146, 7, null, null, null, null, 'orders'],
      gives: [
        ['product', 'from', 'due', 'mass', 'planned', 'short', 'surplus', 'cause', 'what would close it'],
        [
          'Birch-1',
          46154,
          46155,
          13.5,
          9,
          4.5,
          0,
          'ripe blocks',
          'with 10 more ripe blocks like B-12 to open on 2026-05-06 it is filled',
        ],
      ],
    },
    {
      title: 'Only 4 kg can be picked in a day: 17 blocks at 0.225 kg a day, 3 are left and not over age yet',
      arguments: [
        lots,
        strains,
        rooms,
        orders(9),
        46146,
        4,
        [
          ['day', 'pick limit', 'load limit'],
          [46154, 4, 'none'],
          [46155, 4, 'none'],
          [46156, 'off', 'none'],
        ],
        null,
        null,
        null,
        'lots',
      ],
      gives: [
        ['lot', 'strain', 'blocks', 'loaded', 'waiting', 'going over age', 'expires'],
        ['B-12', 'Birch-1', 20, 17, 3, 0, 46158],
      ],
    },
    {
      title: 'The board: all 20 blocks are in North from 6 May on, and South is shut for two days',
      arguments: [
        lots,
        strains,
        [
          ['room', 'shelves', 'blocks per shelf', 'closed from', 'closed to'],
          ['North', 10, 12, null, null],
          ['South', 1, 12, 46147, 46148],
        ],
        orders(9),
        46146,
        4,
        null,
        null,
        null,
        null,
        'board',
      ],
      gives: [
        ['what', 'room', 'places', 46146, 46147, 46148, 46149],
        ['on shelves', 'North', 120, 0, 0, 20, 20],
        ['on shelves', 'South', 12, 0, 'closed', 'closed', 0],
        ['free', 'North', 120, 120, 120, 100, 100],
        ['free', 'South', 12, 12, 'closed', 'closed', 12],
      ],
    },
  ],
  faults: [
    unknownStrain('strain in lots', [
      [LOT_HEADER, ['B-12', 'Hazel-9', 20, 2.5, 0.6, 46078]],
      strains,
      rooms,
      orders(9),
      46146,
      7,
    ]),
    {
      arguments: [
        [LOT_HEADER.slice(0, 5), ['B-12', 'Birch-1', 20, 2.5, 0.6]],
        strains,
        rooms,
        orders(9),
        46146,
        7,
      ],
      code: '#N/A',
      says: 'inoculated in lots is blank, and so is earliest: fill in one of the two (row 2 of lots)',
      remedy: 'Fill in the day of inoculation, or the lot’s own earliest, best and latest days.',
    },
    {
      arguments: [
        lots,
        strains,
        rooms,
        orders(9),
        46146,
        7,
        [
          ['day', 'pick limit', 'load limit'],
          ['Sunday', null, 'off'],
        ],
      ],
      code: '#VALUE!',
      says: 'must be a number above 0, or off for no work that day, or none for no limit; it is blank or 0 (row 2 of calendar)',
      remedy: 'Write off where there is no work and none where there is no limit: a blank reads as 0.',
    },
    {
      arguments: [
        lots,
        strains,
        rooms,
        orders(9),
        46146,
        7,
        null,
        null,
        [
          ['name', 'value'],
          ['tempo', 3],
        ],
      ],
      code: '#VALUE!',
      says: 'name in settings must be one of early cost, late cost',
      remedy: 'Use one of the names listed.',
    },
  ],
};
