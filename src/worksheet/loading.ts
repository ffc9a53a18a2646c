import { blocksFor } from '../maths/loading/blocksFor';
import { pickCalendar } from '../maths/loading/pickCalendar';
import { pickDate } from '../maths/loading/pickDate';
import { shelfBlocks } from '../maths/loading/shelfBlocks';
import { shelfUse } from '../maths/loading/shelfUse';
import { splitLoad } from '../maths/loading/splitLoad';
import { column, keyColumn, optionalColumn, optionalSetting, setting, table } from './cells/arguments';
import { Formatted } from './cells/cell';
import { choice, count, mass, massOrNone, number, serial, text, type Kind } from './cells/kinds';
import { defineFunction, freeTable, resultColumn, row, tableResult, value } from './define';
import { cropArguments } from './harvest';
import {
  curveOf,
  loadColumns,
  pickColumns,
  roomColumns,
  roomOf,
  yieldColumns,
  yieldOf,
} from './loadingTables';
import { only, strainColumns } from './tables';

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
        title: 'Two loads that overlap on 12 May 2026 (46154), split by strain',
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
        says: 'to: a day on or after from needed, got 46150',
        remedy: 'Give a last day that is not before the first.',
      },
    ],
    whole: (loads, strains, from, to, by) => {
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
      const calendar = pickCalendar(picked, ({ labels }) => (by ? labels[by] : ''), from, to);
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
    whole: (loads, rooms, strains, from, to) => {
      const placed = loads.rows.map((load) => ({
        ...load,
        stay: curveOf(load.strain, strains, 'loads, strain').stay,
      }));
      return shelfUse(placed, rooms.rows.map(roomOf), from, to).map(({ day, room, blocks, places, shut }) => [
        day,
        room,
        blocks,
        places,
        places - blocks,
        shelfNote(blocks, places, shut),
      ]);
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
];

function length(): Kind<number> {
  return { ...number({ word: 'length', above: 0 }), needed: 'a length above 0' };
}

function shelfNote(blocks: number, places: number, shut: boolean): string {
  if (shut) return blocks > 0 ? `shut with ${blocks} blocks inside` : 'shut';
  return blocks > places ? `over-full by ${blocks - places} blocks` : '';
}
