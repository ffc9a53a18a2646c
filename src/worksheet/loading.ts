import { blocksFor } from '../maths/loading/blocksFor';
import { backPlan } from '../maths/loading/backPlan';
import { checkLoads } from '../maths/loading/checkLoads';
import { pickCalendar } from '../maths/loading/pickCalendar';
import { pickDate } from '../maths/loading/pickDate';
import { shelfBlocks } from '../maths/loading/shelfBlocks';
import { shelfUse } from '../maths/loading/shelfUse';
import { splitLoad } from '../maths/loading/splitLoad';
import { shownPercent } from '../maths/shared/calcError';
import { loadLinearSolver } from '../maths/shared/linearProgram';
import {
  column,
  keyColumn,
  optionalColumn,
  optionalSetting,
  optionalTable,
  setting,
  table,
} from './cells/arguments';
import { Formatted } from './cells/cell';
import { choice, count, mass, massOrNone, number, serial, text, type Kind } from './cells/kinds';
import { defineFunction, freeTable, resultColumn, row, tableResult, value, type Answer } from './define';
import { cropArguments } from './harvest';
import {
  calendarColumns,
  curveOf,
  limitsOf,
  loadColumns,
  lotColumns,
  lotsOf,
  orderColumns,
  ordersOf,
  pickColumns,
  planColumns,
  plannedOf,
  planRoomsOf,
  planStrainColumns,
  roomColumns,
  roomOf,
  settingColumns,
  settingsOf,
  standingColumns,
  standingOf,
  VIEWS,
  yieldColumns,
  yieldOf,
} from './loadingTables';
import { backProblemOf, confidenceOf, backStrainColumns, stepColumns, stockColumns } from './backPlan';
import { only, strainColumns } from './tables';

/** The plan's own code, which comes with its solver: no other function needs either. */
let planning: typeof import('./loadPlan') | undefined;

async function preparePlanning(): Promise<void> {
  [planning] = await Promise.all([import('./loadPlan'), loadLinearSolver()]);
}

/** Broken rules as rows of a table; one row that says so where none is broken. */
function brokenRows(check: Parameters<typeof checkLoads>[0]): Answer[][] {
  const broken = checkLoads(check);
  const { margin } = check.settings;
  if (broken.length === 0) {
    const judged = margin > 0 ? `orders are filled with yields taken ${shownPercent(margin)} lower` : '';
    return [['none broken', '', '', '', '', judged]];
  }
  return broken.map(({ rule, day, subject, found, allowed, sentence }) => {
    const dated = rule === 'opened too early' || rule === 'opened too late';
    const shown = (number: number): Answer => (dated ? new Formatted(number, 'date') : number);
    return [rule, day ?? '', subject, shown(found), shown(allowed), sentence];
  });
}

const exampleStrains = [
  ['strain', 'first pick', 'flush gap', 'flushes'],
  ['Alder-3', 7, 18, 3],
  ['Birch-1', 6, null, 1],
];

/** Alder-3 gives 0.8 of the dry mass, 60% in a first flush of four days and 40% in a second; Birch-1 has one flush. */
const exampleCrops = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flush 1', 'flush 2', 'efficiency', 'loss'],
  ['Alder-3', 7, 4, 14, 0.6, 0.4, 0.8, null],
  ['Birch-1', 6, 2, null, null, null, 0.5, 0.1],
];
const exampleRooms = [
  ['room', 'shelves', 'blocks per shelf', 'closed from', 'closed to'],
  ['North', 10, 12, null, null],
  ['South', 5, 12, 46150, 46151],
];

/** Birch-1 is picked six and seven days after loading, 0.45 kg from a block of 2.5 kg at 60% moisture. */
const examplePlan = {
  strains: [
    ['strain', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'efficiency', 'loss'],
    ['Birch-1', 60, 70, 80, 6, 2, 0.5, 0.1],
  ],
  lots: [
    ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated'],
    ['B-12', 'Birch-1', 20, 2.5, 0.6, 46078],
  ],
  rooms: [
    ['room', 'shelves', 'blocks per shelf'],
    ['North', 10, 12],
  ],
  /** To be picked on 12 and 13 May 2026, so loaded on the 6th. */
  orders: (mass: number) => [
    ['product', 'mass', 'from', 'due'],
    ['Birch-1', mass, 46154, 46155],
  ],
};

const backStrains = [
  ['strain', 'best', 'first pick', 'pick days', 'efficiency', 'loss', 'block mass', 'moisture'],
  ['Birch-1', 70, 6, 2, 0.5, 0.1, 2.5, 0.6],
];
const backSteps = [
  ['step', 'makes', 'days', 'loss'],
  ['mother culture', 10, null, null],
  ['first spawn', 10, 16, 0.1],
  ['second spawn', 10, 18, 0.05],
  ['third spawn', 12, 21, 0.03],
  ['block', null, 70, 0.04],
];
const BACK_HEADER = ['date', 'task', 'step', 'strain', 'units', 'good', 'from stock', 'ready', 'note'];

const planTables = {
  lots: table(
    'lots',
    lotColumns,
    'lots not opened yet: lot, strain, blocks, block mass, moisture, inoculated',
  ),
  strains: table(
    'strains',
    planStrainColumns,
    'table with earliest, best, latest, first pick, pick days, efficiency',
  ),
  rooms: table(
    'rooms',
    roomColumns,
    'table with room, shelves, blocks per shelf; closed from, closed to, strains',
  ),
  orders: table('orders', orderColumns, 'table with product, mass, due; from or keep days, price'),
  calendar: optionalTable(
    'calendar',
    calendarColumns,
    'table with day, pick limit, load limit; off is no work',
  ),
  standing: optionalTable(
    'standing',
    standingColumns,
    'what is on the shelves now: room, strain, loaded, blocks …',
  ),
  settings: optionalTable(
    'settings',
    settingColumns,
    'table with name and value: margin, comfort days, freeze days …',
  ),
};

export const loading = [
  defineFunction({
    name: 'BLOCKSFOR',
    family: 'loading',
    summary: 'Blocks to load for a wanted mass of fresh mushrooms, rounded up to whole blocks.',
    notes:
      'The wanted mass over what one block is expected to give: block mass × (1 − moisture) × efficiency × (1 − loss) × ' +
      'share. Give a share to count only some flushes: 70% where only the first is sold.',
    arguments: [
      keyColumn('mass', massOrNone(), 'fresh mass wanted, in the unit of block mass'),
      ...cropArguments,
    ],
    result: value('blocks to load'),
    sources: [
      'Biological efficiency: Royse, D. J. (1985) Mycologia 77(5):756–762, solved for the number of blocks',
    ],
    examples: [
      {
        title: '40 kg from blocks of 2.5 kg at 60% moisture and 80% efficiency: 0.8 kg a block, 50 blocks',
        arguments: [40, 2.5, 0.6, 0.8],
        gives: 50,
      },
      {
        title:
          'With 5% of blocks lost and only the first flush, 70%, counted: 0.532 kg a block, 75.2 rounded up',
        arguments: [40, 2.5, 0.6, 0.8, 0.05, 0.7],
        gives: 76,
      },
    ],
    faults: [
      {
        arguments: [40, 2.5, 62, 0.8],
        code: '#VALUE!',
        says: 'write 62% or 0.62',
        remedy: 'Give the moisture as a percentage or as a fraction of 1.',
      },
      {
        arguments: [40, null, 0.62, 0.8],
        code: '#VALUE!',
        says: 'block mass: a mass above 0 needed, got a blank cell or 0',
        remedy: 'Fill in the wet mass of a block.',
      },
    ],
    eachRow: (wanted, blockMass, moisture, efficiency, loss, share) =>
      blocksFor(wanted, { blockMass, moisture, efficiency, loss, share }),
  }),

  defineFunction({
    name: 'PICKDATE',
    family: 'loading',
    summary: 'Date of the first pick of a flush, from the day the blocks were opened and set on the shelf.',
    notes:
      'Load date + the strain’s days to first pick + (flush − 1) × its flush gap. About 7 days from opening to the ' +
      'first pick is usual for shiitake (common practice, no source); use your own records.',
    arguments: [
      keyColumn('loaded', serial(), 'date the blocks were opened and set on the shelf'),
      column('strain', text('strain'), 'strain of each load, as in strains'),
      table(
        'strains',
        only(strainColumns, 'strain', 'first pick', 'flush gap', 'flushes'),
        'table with strain, first pick, flush gap and flushes',
      ),
      optionalColumn('flush', count(), 1, 'which flush; 1 if left out'),
    ],
    result: value('first pick', 'date'),
    sources: ['Calendar arithmetic on the days in your own strains table'],
    examples: [
      { title: 'Loaded on 4 May 2026', arguments: [46146, 'Alder-3', exampleStrains], gives: 46153 },
      {
        title: 'Its three flushes',
        arguments: [46146, 'Alder-3', exampleStrains, [[1], [2], [3]]],
        gives: [[46153], [46171], [46189]],
      },
    ],
    faults: [
      {
        arguments: [46146, 'Hazel-9', exampleStrains],
        code: '#N/A',
        says: 'strain: "Hazel-9" is not in strains',
        remedy: 'Add the strain to the strains table, or mend its spelling.',
      },
      {
        arguments: [46146, 'Alder-3', exampleStrains, 4],
        code: '#N/A',
        says: 'flush: the strain is kept for 3 in strains, flush 4 was asked for',
        remedy: 'Ask for an earlier flush, or raise the flushes of the strain.',
      },
      {
        arguments: [
          46146,
          'Birch-1',
          [
            ['strain', 'first pick', 'flushes'],
            ['Birch-1', 6, 2],
          ],
          2,
        ],
        code: '#N/A',
        says: 'flush: the strain has no flush gap in strains',
        remedy: 'Fill in the flush gap of the strain.',
      },
    ],
    eachRow: (loadedSerial, strainName, strains, flush) => {
      const times = strains.find(strainName, 'strain');
      return pickDate(
        loadedSerial,
        { firstPick: times['first pick'], flushGap: times['flush gap'], flushes: times.flushes },
        flush,
      );
    },
  }),

  defineFunction({
    name: 'SHELFBLOCKS',
    family: 'loading',
    summary: 'Blocks one shelf holds: the better of setting them along or across it, and both counts.',
    notes:
      'In each direction as many blocks as fit with the gap between neighbours; no gap is kept to the shelf’s edges. ' +
      '“Along” sets the block’s length along the shelf’s length. Use one unit of length throughout. All blocks are ' +
      'turned the same way; leave room to reach the back row.',
    arguments: [
      keyColumn('shelf length', length(), 'length of the shelf'),
      column('shelf depth', length(), 'depth of the shelf, front to back'),
      column('block length', length(), 'longer side of the block as it stands'),
      column('block width', length(), 'shorter side of the block as it stands'),
      column('gap', number({ word: 'length', from: 0 }), 'air between neighbouring blocks; 0 for none'),
    ],
    result: row(
      resultColumn('blocks'),
      resultColumn('set'),
      resultColumn('blocks along'),
      resultColumn('blocks across'),
    ),
    sources: ['Counting whole blocks and gaps that fit a length'],
    examples: [
      {
        title: 'A shelf of 120 × 60 cm, blocks of 30 × 20 cm, 5 cm between: 3 × 2 along, 5 × 1 across',
        arguments: [120, 60, 30, 20, 5],
        gives: [[6, 'along', 6, 5]],
      },
      {
        title: 'No gap, blocks that fill the shelf exactly',
        arguments: [1.2, 0.6, 0.3, 0.2, 0],
        gives: [[12, 'along', 12, 12]],
      },
      {
        title: 'A narrow shelf holds more across',
        arguments: [100, 35, 30, 20, 2],
        gives: [[4, 'across', 3, 4]],
      },
    ],
    faults: [
      {
        arguments: [120, 60, 0, 20, 5],
        code: '#VALUE!',
        says: 'block length: a length above 0 needed, got a blank cell or 0',
        remedy: 'Measure the block as it stands on the shelf.',
      },
    ],
    eachRow: (shelfLength, shelfDepth, blockLength, blockWidth, gap) => {
      const { along, across } = shelfBlocks({ shelfLength, shelfDepth, blockLength, blockWidth, gap });
      return [Math.max(along, across), along >= across ? 'along' : 'across', along, across];
    },
  }),

  defineFunction({
    name: 'PICKCALENDAR',
    family: 'loading',
    summary: 'Expected fresh mass on each day from a table of loads, all flushes, overlapping ones added up.',
    notes:
      'Every load’s yield (blocks × block mass × (1 − moisture) × efficiency × (1 − loss)) falls on the days of its ' +
      'strain: each flush’s share spread evenly over its pick days. Days of the strains table are rounded to whole days. ' +
      'With “by” there is one column for each product, strain or room beside the total; a load without a product ' +
      'counts under its strain. Real flushes come earlier and later than expected: read the days as a middle.',
    arguments: [
      table(
        'loads',
        loadColumns,
        'table with loaded, strain, blocks, block mass, moisture; product and room if wanted',
      ),
      table(
        'strains',
        yieldColumns,
        'table with first pick, pick days, flush gap, flush 1…, efficiency, loss',
      ),
      optionalSetting('from', serial(), undefined, 'first day shown; the first pick if left out'),
      optionalSetting('to', serial(), undefined, 'last day shown; the last pick if left out'),
      optionalSetting(
        'by',
        choice(['product', 'strain', 'room']),
        undefined,
        'a column for each product, strain or room; only the total if left out',
      ),
    ],
    result: freeTable(),
    sources: [
      'Biological efficiency: Royse, D. J. (1985) Mycologia 77(5):756–762; spread over the days in your own strains table',
    ],
    examples: [
      {
        title: '20 blocks of Birch-1, 2.5 kg at 60%: 0.45 kg a block, 9 kg over two days',
        arguments: [
          [
            ['loaded', 'strain', 'blocks', 'block mass', 'moisture'],
            [46146, 'Birch-1', 20, 2.5, 0.6],
          ],
          exampleCrops,
        ],
        gives: [
          ['date', 'total'],
          [46152, 4.5],
          [46153, 4.5],
        ],
      },
      {
        title: 'Two loads that overlap on 12 May 2026, split by strain',
        arguments: [
          [
            ['loaded', 'strain', 'blocks', 'block mass', 'moisture'],
            [46146, 'Alder-3', 50, 2.5, 0.6],
            [46148, 'Birch-1', 20, 2.5, 0.6],
          ],
          exampleCrops,
          46153,
          46155,
          'strain',
        ],
        gives: [
          ['date', 'total', 'Alder-3', 'Birch-1'],
          [46153, 6, 6, 0],
          [46154, 10.5, 6, 4.5],
          [46155, 10.5, 6, 4.5],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['loaded', 'strain', 'blocks', 'block mass', 'moisture'],
            [46146, 'Hazel-9', 20, 2.5, 0.6],
          ],
          exampleCrops,
        ],
        code: '#N/A',
        says: 'loads, strain: "Hazel-9" is not in strains',
        remedy: 'Add the strain to the strains table, or mend its spelling.',
      },
      {
        arguments: [
          [
            ['loaded', 'strain', 'blocks', 'block mass', 'moisture'],
            [46146, 'Birch-1', 20, 2.5, 0.6],
          ],
          [
            ['strain', 'first pick', 'pick days', 'flushes', 'flush gap', 'efficiency'],
            ['Birch-1', 6, 2, 2, 14, 0.5],
          ],
        ],
        code: '#N/A',
        says: 'Birch-1 is kept for 2 flushes but has no share under flush 1',
        remedy: 'Add columns flush 1, flush 2 … with each flush’s share of the yield.',
      },
      {
        arguments: [
          [
            ['loaded', 'strain', 'blocks', 'block mass', 'moisture'],
            [46146, 'Birch-1', 20, 2.5, 0.6],
          ],
          exampleCrops,
          46160,
          46150,
        ],
        code: '#VALUE!',
        says: 'to: a day on or after from needed, got 2026-05-08',
        remedy: 'Give a last day that is not before the first.',
      },
    ],
    needsDateSystem: true,
    whole: (loads, strains, from, to, by, { dateSystem }) => {
      const picked = loads.rows.map((load) => {
        const strain = strains.find(load.strain, 'loads, strain');
        return {
          loaded: load.loaded,
          blocks: load.blocks,
          yieldPerBlock: yieldOf(load, strain),
          curve: curveOf(load.strain, strains, 'loads, strain'),
          labels: {
            product: load.product ?? strain.strain,
            strain: strain.strain,
            room: load.room ?? '(no room)',
          },
        };
      });
      const calendar = pickCalendar(picked, ({ labels }) => (by ? labels[by] : ''), from, to, dateSystem);
      const groups = by ? [...calendar.byGroup] : [];
      return {
        columns: [
          resultColumn('date', 'date'),
          resultColumn('total'),
          ...groups.map(([label]) => resultColumn(label)),
        ],
        rows: calendar.total.map((total, day) => [
          calendar.from + day,
          total,
          ...groups.map(([, masses]) => masses[day]!),
        ]),
      };
    },
  }),

  defineFunction({
    name: 'SHELFUSE',
    family: 'loading',
    summary: 'Blocks on the shelves and places free, per day and room; over-full and shut rooms are flagged.',
    notes:
      'A load takes its places from the day it is loaded to the day of its strain’s last pick, that day included. ' +
      'Places are shelves × blocks per shelf. Where a room is over-full or holds blocks while it is shut, “free” is ' +
      'negative and the note says by how many.',
    arguments: [
      table(
        'loads',
        { ...only(loadColumns, 'loaded', 'strain', 'blocks'), room: text('room') },
        'table with loaded, room, strain, blocks',
      ),
      table(
        'rooms',
        only(roomColumns, 'room', 'shelves', 'blocks per shelf', 'closed from', 'closed to'),
        'table with room, shelves, blocks per shelf; closed from and closed to if it is shut',
      ),
      table('strains', pickColumns, 'table with first pick, pick days, flush gap, flush 1…'),
      optionalSetting('from', serial(), undefined, 'first day shown; the first load if left out'),
      optionalSetting('to', serial(), undefined, 'last day shown; the last pick if left out'),
    ],
    result: tableResult(
      resultColumn('date', 'date'),
      resultColumn('room'),
      resultColumn('blocks'),
      resultColumn('places'),
      resultColumn('free'),
      resultColumn('note'),
    ),
    sources: ['Counting the blocks that stand in a room'],
    examples: [
      {
        title:
          '65 blocks of a strain that stands eight days, in a room of 60 places that is shut on two of them',
        arguments: [
          [
            ['loaded', 'room', 'strain', 'blocks'],
            [46148, 'South', 'Birch-1', 65],
          ],
          exampleRooms.filter(([room]) => room !== 'North'),
          exampleCrops,
          46149,
          46152,
        ],
        gives: [
          ['date', 'room', 'blocks', 'places', 'free', 'note'],
          [46149, 'South', 65, 60, -5, 'over-full by 5 blocks'],
          [46150, 'South', 65, 0, -65, 'shut with 65 blocks inside'],
          [46151, 'South', 65, 0, -65, 'shut with 65 blocks inside'],
          [46152, 'South', 65, 60, -5, 'over-full by 5 blocks'],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['loaded', 'room', 'strain', 'blocks'],
            [46148, 'East', 'Birch-1', 65],
          ],
          exampleRooms,
          exampleCrops,
        ],
        code: '#N/A',
        says: 'loads, room: "East" is not in rooms (row 2)',
        remedy: 'Add the room to the rooms table, or mend its spelling.',
      },
    ],
    needsDateSystem: true,
    whole: (loads, rooms, strains, from, to, { dateSystem }) => {
      const placed = loads.rows.map((load) => ({
        ...load,
        stay: curveOf(load.strain, strains, 'loads, strain').stay,
      }));
      return shelfUse(placed, rooms.rows.map(roomOf), from, to, dateSystem).map(
        ({ day, room, blocks, places, shut }) => [
          day,
          room,
          blocks,
          places,
          places - blocks,
          shelfNote(blocks, places, shut),
        ],
      );
    },
  }),

  defineFunction({
    name: 'SPLITLOAD',
    family: 'loading',
    summary:
      'The fewest loads, and their dates, into which blocks are split so that no picking day passes a limit.',
    notes:
      'A load can be no larger than the limit over what one block gives on its best day; blocks over that, rounded up, ' +
      'is the fewest loads. They are as even as whole blocks allow, and each goes in on the first day on which all ' +
      'picking, later flushes of earlier loads included, stays within the limit. Without a first day the days are ' +
      'counted from the first load, day 0. Only these blocks are looked at: LOADPLAN also sees what already stands.',
    arguments: [
      setting('blocks', count(), 'blocks to load'),
      setting('block yield', mass(), 'fresh mass one block gives over all flushes, losses taken off'),
      setting('daily limit', mass(), 'fresh mass that can be picked in a day, in the same unit'),
      setting('strain', text('strain'), 'strain of the blocks, as in strains'),
      table('strains', pickColumns, 'table with first pick, pick days, flush gap, flush 1…'),
      optionalSetting(
        'first day',
        serial(),
        undefined,
        'day of the first load; days are numbered from 0 if left out',
      ),
    ],
    result: tableResult(
      resultColumn('load'),
      resultColumn('loaded', 'date'),
      resultColumn('blocks'),
      resultColumn('first pick', 'date'),
      resultColumn('last pick', 'date'),
    ),
    sources: ['A lower bound that is reached: the limit over a block’s largest day'],
    examples: [
      {
        title:
          'Birch-1 gives half its 0.45 kg on each of two days: 20 kg a day is 88 blocks, 200 blocks are three loads',
        arguments: [200, 0.45, 20, 'Birch-1', exampleCrops, 46146],
        gives: [
          ['load', 'loaded', 'blocks', 'first pick', 'last pick'],
          [1, 46146, 67, 46152, 46153],
          [2, 46148, 67, 46154, 46155],
          [3, 46150, 66, 46156, 46157],
        ],
      },
      {
        title: 'Without a first day',
        arguments: [60, 0.45, 20, 'Birch-1', exampleCrops],
        gives: [
          ['load', 'loaded', 'blocks', 'first pick', 'last pick'],
          [1, 0, 60, 6, 7],
        ],
      },
    ],
    faults: [
      {
        arguments: [200, 0.45, 0.2, 'Birch-1', exampleCrops],
        code: '#VALUE!',
        says: 'daily limit: 0.225 or more, what one block gives on a day, needed, got 0.2',
        remedy: 'Raise the limit, or check that both masses are in one unit.',
      },
      {
        arguments: [200, 0.45, 20, 'Hazel-9', exampleCrops],
        code: '#N/A',
        says: 'strain: "Hazel-9" is not in strains',
        remedy: 'Add the strain to the strains table, or mend its spelling.',
      },
    ],
    whole: (blocks, blockYield, dailyLimit, strain, strains, firstDay) => {
      const curve = curveOf(strain, strains, 'strain');
      const dated = (day: number): number | Formatted =>
        firstDay === undefined ? new Formatted(day, 'plain') : Math.floor(firstDay) + day;
      return splitLoad(blocks, blockYield, dailyLimit, curve).map((load, n) => [
        n + 1,
        dated(load.day),
        load.blocks,
        dated(load.day + curve.firstPick),
        dated(load.day + curve.stay - 1),
      ]);
    },
  }),

  defineFunction({
    name: 'LOADPLAN',
    family: 'loading',
    summary: 'What to open when, in which room, so that no picking day swamps the crew and orders are met.',
    notes:
      'Three things are settled in turn: the value of what orders fall short; then blocks gone over, blocks opened off ' +
      'their best days, surplus, picking peaks and the number of loads; then, with a previous plan, as few changes as ' +
      'the tolerance allows. Places, limits of a day, ripe days and stocks are never passed; orders that cannot be met ' +
      'come out short, and the view “orders” says why and what would close the gap. Views: plan, picks, orders, lots, ' +
      'summary; all views of the same cells share one solution. Rows of the plan can be put below those of the standing ' +
      'table once they are done, and its values given as “previous” (pasted, not linked) when planning again. ' +
      'Calendar: a weekday or a date (dates win); write off for no work and none for no limit. Settings (name and ' +
      'value; a blank or 0 is the default, none is 0): early cost and late cost per block and day off the comfort days ' +
      '(1% and 2% of a block’s value), comfort days (2), discard cost per block gone over (its value), waiting cost per ' +
      'block and day past its best at the end (as late cost), surplus cost per mass (10% of the mean price), peak cost ' +
      'per mass of each week’s largest day (2%), load cost per load (30% of a block’s value), turn-round days (0), ' +
      'margin by which yields are taken lower when orders are filled (0%), keep tolerance (0.3% of the order value), ' +
      'freeze days (0), whole shelves (no), smallest load (1). These shares are judgements; put your own costs in. ' +
      'Yields differ from what is expected by far more than a plan can gain: set a margin.',
    arguments: [
      planTables.lots,
      planTables.strains,
      planTables.rooms,
      planTables.orders,
      setting('start', serial(), 'first day of loading; put today in a cell of its own'),
      setting('days', number({ word: 'days', from: 1, to: 1000, whole: true }), 'days of loading to plan'),
      planTables.calendar,
      planTables.standing,
      planTables.settings,
      optionalTable('previous', planColumns, 'the plan before, as values: loaded, lot, room, blocks'),
      optionalSetting(
        'view',
        choice(VIEWS),
        'plan',
        'plan, picks, orders, lots or summary; plan if left out',
      ),
    ],
    result: freeTable(),
    sources: [
      'Dantzig, G. B. (1963) Linear Programming and Extensions',
      'Kleinberg, J. & Tardos, É. (2006) Algorithm Design, §4.1 (rooms)',
      'Shapley, L. S. (1953) A value for n-person games (parts of a shortage)',
    ],
    examples: [
      {
        title: '9 kg are wanted on 12 and 13 May 2026: all 20 blocks are opened on the 6th',
        arguments: [
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
          46146,
          7,
        ],
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
          ],
          [46148, 'B-12', 'Birch-1', 'North', 20, 70, 46154, 2.5, 0.6, 'Birch-1'],
        ],
      },
      {
        title: '13.5 kg are wanted: half as many blocks again would be needed',
        arguments: [
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(13.5),
          46146,
          7,
          null,
          null,
          null,
          null,
          'orders',
        ],
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
            'with more ripe blocks it would be filled',
          ],
        ],
      },
      {
        title:
          'Only 4 kg can be picked in a day: 17 blocks at 0.225 kg a day, 3 are left and not over age yet',
        arguments: [
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
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
    ],
    faults: [
      {
        arguments: [
          [
            ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated'],
            ['B-12', 'Hazel-9', 20, 2.5, 0.6, 46078],
          ],
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
          46146,
          7,
        ],
        code: '#N/A',
        says: 'lots, strain: "Hazel-9" is not in strains (row 2)',
        remedy: 'Add the strain to the strains table, or mend its spelling.',
      },
      {
        arguments: [
          [
            ['lot', 'strain', 'blocks', 'block mass', 'moisture'],
            ['B-12', 'Birch-1', 20, 2.5, 0.6],
          ],
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
          46146,
          7,
        ],
        code: '#N/A',
        says: 'lots, inoculated: a date needed, or one under earliest (row 2)',
        remedy: 'Fill in the day of inoculation, or the lot’s own earliest, best and latest days.',
      },
      {
        arguments: [
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
          46146,
          7,
          [
            ['day', 'pick limit', 'load limit'],
            ['Sunday', null, 'off'],
          ],
        ],
        code: '#VALUE!',
        says: 'write off for no work that day, none for no limit (row 2)',
        remedy:
          'Say in a word whether a day has no work or no limit: a blank and 0 look alike to a function.',
      },
      {
        arguments: [
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
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
        says: 'settings, name: one of early cost, late cost',
        remedy: 'Use one of the names listed.',
      },
    ],
    needsDateSystem: true,
    prepare: preparePlanning,
    takesLong: true,
    whole: (
      lots,
      strains,
      rooms,
      orders,
      start,
      days,
      calendar,
      standing,
      settings,
      previous,
      view,
      { dateSystem },
    ) => {
      const tables = [lots, strains, rooms, orders, calendar, standing, settings, previous];
      const problem = {
        lots: lotsOf(lots, strains, dateSystem),
        rooms: planRoomsOf(rooms, strains),
        orders: ordersOf(orders, dateSystem),
        standing: standingOf(standing, rooms, strains),
        start: Math.floor(start),
        days,
        limitsOn: limitsOf(calendar, dateSystem),
        settings: settingsOf(settings),
      };
      const ignored = tables.flatMap(
        (given) => given?.ignored.map((header) => `${given.name}: ${header}`) ?? [],
      );
      const cells = JSON.stringify([
        tables.map((given) => given?.rows ?? null),
        start,
        days,
        dateSystem,
        ignored,
      ]);
      return planning!.planTable(
        { problem, previous: previous && plannedOf(previous), lots, cells, ignored },
        view,
      );
    },
  }),

  defineFunction({
    name: 'CHECKLOADS',
    family: 'loading',
    summary: 'Checks a plan of loads you typed or changed: one line for every rule it breaks.',
    notes:
      'Rules: lot and room are known, blocks of a lot, its first and last day, rooms open, large enough and fit for the ' +
      'strain, blocks loaded and mass picked in a day, orders filled. What already stands takes its places and its ' +
      'picking. The check is written apart from LOADPLAN, so each tests the other. Give the settings of the plan too: orders ' +
      'are then judged by yields with the margin off, as the plan does, and places stay taken for the turn-round days; ' +
      'without them by the full yield. The other settings are wishes, not rules.',
    arguments: [
      table('loads', planColumns, 'the plan to check: loaded, lot, room, blocks'),
      planTables.lots,
      planTables.strains,
      planTables.rooms,
      planTables.orders,
      planTables.calendar,
      planTables.standing,
      planTables.settings,
    ],
    result: tableResult(
      resultColumn('rule'),
      resultColumn('date', 'date'),
      resultColumn('where'),
      resultColumn('found'),
      resultColumn('allowed'),
      resultColumn('in words'),
    ),
    sources: [
      'Counting blocks, days and masses; orders filled by the most that can be: Edmonds, J. (1970), Ford & Fulkerson (1956)',
    ],
    examples: [
      {
        title: 'All 20 blocks on 6 May 2026 fill the order',
        arguments: [
          [
            ['loaded', 'lot', 'room', 'blocks'],
            [46148, 'B-12', 'North', 20],
          ],
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
        ],
        gives: [
          ['rule', 'date', 'where', 'found', 'allowed', 'in words'],
          ['none broken', '', '', '', '', ''],
        ],
      },
      {
        title: 'Five blocks too many, a day too late for half the picking',
        arguments: [
          [
            ['loaded', 'lot', 'room', 'blocks'],
            [46149, 'B-12', 'North', 25],
          ],
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
        ],
        gives: [
          ['rule', 'date', 'where', 'found', 'allowed', 'in words'],
          ['more blocks than the lot has', '', 'B-12', 25, 20, 'B-12 has 20 blocks, 25 are loaded'],
          ['order short', 46155, 'Birch-1', 5.625, 9, '5.63 of 9 is filled, 3.38 short'],
        ],
      },
      {
        title: 'The same 20 blocks judged with the plan’s margin of 10%: 8.1 kg of the 9',
        arguments: [
          [
            ['loaded', 'lot', 'room', 'blocks'],
            [46148, 'B-12', 'North', 20],
          ],
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
          null,
          null,
          [
            ['name', 'value'],
            ['margin', 0.1],
          ],
        ],
        gives: [
          ['rule', 'date', 'where', 'found', 'allowed', 'in words'],
          [
            'order short',
            46155,
            'Birch-1',
            8.1,
            9,
            '8.1 of 9 is filled, 0.9 short with yields taken 10% lower',
          ],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['loaded', 'lot', 'blocks'],
            [46148, 'B-12', 20],
          ],
          examplePlan.lots,
          examplePlan.strains,
          examplePlan.rooms,
          examplePlan.orders(9),
        ],
        code: '#VALUE!',
        says: 'loads: a column headed room needed, found loaded, lot, blocks',
        remedy: 'Head the columns of the plan loaded, lot, room and blocks.',
      },
    ],
    needsDateSystem: true,
    whole: (loads, lots, strains, rooms, orders, calendar, standing, settings, { dateSystem }) =>
      brokenRows({
        loads: plannedOf(loads),
        lots: lotsOf(lots, strains, dateSystem),
        rooms: planRoomsOf(rooms, strains),
        orders: ordersOf(orders, dateSystem),
        standing: standingOf(standing, rooms, strains),
        limitsOn: limitsOf(calendar, dateSystem),
        settings: settingsOf(settings),
      }),
  }),

  defineFunction({
    name: 'BACKPLAN',
    family: 'loading',
    summary: 'From orders back to spawn: what to load, inoculate and start, and when, as one list by date.',
    notes:
      'Blocks are loaded on the work day that puts most of their picking inside the order’s days; what later flushes of ' +
      'loads already planned give is used first. Then step by step back: stock that is still good is taken, earliest end ' +
      'first, and has a line of its own, “use stock”, where it is all that is needed; needs of one strain, step and day are added up, rounded up once for the loss and once for the units one ' +
      'makes. Rounding at every step costs units; a cadence joins starts that lie close. Rows of steps with a strain hold ' +
      'for that strain only, rows without for all others. The days of the last step, the block, are the strain’s best. ' +
      'Units to start leave enough good ones on average: with a setting “confidence” (say 90%) enough of them are good ' +
      'with that chance, each unit lost by itself; contamination comes in batches, so the true chance is lower. With a date ' +
      'for “today” the list says what is overdue.',
    arguments: [
      table('orders', orderColumns, 'table with product (a strain), mass, due; from or keep days'),
      table(
        'strains',
        backStrainColumns,
        'strains table with block mass and moisture: what a block of it is made of',
      ),
      table(
        'steps',
        stepColumns,
        'from mother culture to block: step, makes, days, loss; store days, cadence, strain',
      ),
      optionalTable('stock', stockColumns, 'good units there are: strain, step, units, ready, good until'),
      planTables.calendar,
      optionalTable('settings', settingColumns, 'table with name and value: confidence'),
      optionalSetting(
        'today',
        serial(),
        undefined,
        'date after which tasks are not overdue; none is marked if left out',
      ),
    ],
    result: tableResult(
      resultColumn('date', 'date'),
      resultColumn('task'),
      resultColumn('step'),
      resultColumn('strain'),
      resultColumn('units'),
      resultColumn('good'),
      resultColumn('from stock'),
      resultColumn('ready', 'date'),
      resultColumn('note'),
    ),
    sources: ['Arithmetic on your own tables, in whole units; binomial chances for the confidence'],
    examples: [
      {
        // 144/0.45 = 320; 320/0.96 = 333.3 → 334; 334/12 → 28, 28/0.97 → 29; 29/10 → 3, 3/0.95 → 4; 4/10 → 1, 1/0.9 → 2
        title: '144 kg on 12 and 13 May 2026 are 320 blocks, worked back by hand',
        arguments: [examplePlan.orders(144), backStrains, backSteps],
        gives: [
          BACK_HEADER,
          [46023, 'start', 'mother culture', 'Birch-1', 1, 1, 0, 46023, ''],
          [46023, 'start', 'first spawn', 'Birch-1', 2, 1, 0, 46039, ''],
          [46039, 'start', 'second spawn', 'Birch-1', 4, 3, 0, 46057, ''],
          [46057, 'start', 'third spawn', 'Birch-1', 29, 28, 0, 46078, ''],
          [46078, 'start', 'block', 'Birch-1', 334, 320, 0, 46148, ''],
          [46148, 'load', 'block', 'Birch-1', 320, 320, 0, 46154, ''],
        ],
      },
      {
        title:
          'With 20 good blocks in stock, seen on 1 April 2026: the other 300 should have been inoculated',
        arguments: [
          examplePlan.orders(144),
          backStrains,
          [
            ['step', 'makes', 'days', 'loss'],
            ['block', null, 70, 0.04],
          ],
          [
            ['strain', 'step', 'units', 'ready', 'good until'],
            ['Birch-1', 'block', 20, 46140, 46160],
          ],
          null,
          null,
          46113,
        ],
        gives: [
          BACK_HEADER,
          [46078, 'start', 'block', 'Birch-1', 313, 300, 20, 46148, 'overdue by 35 days'],
          [46148, 'load', 'block', 'Birch-1', 320, 320, 0, 46154, ''],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['product', 'mass', 'due'],
            ['box', 20, 46155],
          ],
          backStrains,
          backSteps,
        ],
        code: '#N/A',
        says: 'orders, product: "box" is not in strains (row 2)',
        remedy: 'Give each order the strain it is to be grown from.',
      },
      {
        arguments: [
          examplePlan.orders(144),
          backStrains,
          [
            ['step', 'makes', 'days'],
            ['spawn', null, 20],
            ['block', null, 70],
          ],
        ],
        code: '#N/A',
        says: 'steps, makes: the units of the next step that one unit of spawn makes are needed (row 2)',
        remedy: 'Fill in how many units of the next step one unit makes.',
      },
    ],
    needsDateSystem: true,
    whole: (orders, strains, steps, stock, calendar, settings, today, { dateSystem }) => {
      const confidence = confidenceOf(settings);
      const limits = limitsOf(calendar, dateSystem);
      const problem = backProblemOf(orders, strains, steps, stock, dateSystem);
      return backPlan({ ...problem, confidence, isWorkDay: (day) => limits(day).load > 0 }).map((task) => {
        const strain = problem.strains[task.strain]!;
        const late = today === undefined ? 0 : Math.floor(today) - task.day;
        return [
          task.day,
          task.task === 'use' ? 'use stock' : task.task,
          strain.steps[task.step]!.step,
          strain.strain,
          task.units,
          task.good,
          task.fromStock,
          task.ready,
          late > 0 ? `overdue by ${late} ${late === 1 ? 'day' : 'days'}` : '',
        ];
      });
    },
  }),
];

function length(): Kind<number> {
  return { ...number({ word: 'length', above: 0 }), needed: 'a length above 0' };
}

function shelfNote(blocks: number, places: number, shut: boolean): string {
  if (shut) return blocks > 0 ? `shut with ${blocks} blocks inside` : 'shut';
  return blocks > places ? `over-full by ${blocks - places} blocks` : '';
}
