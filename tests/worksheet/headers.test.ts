import { describe, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { CalcError } from '../../src/maths/shared/fault';
import { cellError, type Grid } from '../../src/worksheet/cells/cell';
import type { TableColumns } from '../../src/worksheet/cells/columns';
import { otherKey } from '../../src/worksheet/cells/headerWords';
import { tableHead } from '../../src/worksheet/cells/headers';
import { evaluate } from './prepared';

const tables = catalogue.flatMap((f) =>
  f.arguments.flatMap((argument) =>
    argument.shape === 'table' ? [[f.name, argument.name, argument.columns] as const] : [],
  ),
);

describe.each(tables)('%s, %s', (_, name, columns: TableColumns) => {
  const named = Object.entries(columns).filter(([, { role }]) => role !== 'others' && role !== 'numbered');

  test('no header is claimed by two columns', () => {
    const claimed = named.flatMap(([property, { alsoCalled }]) =>
      [...new Set([property, ...alsoCalled].map(otherKey))].map((key) => `${key}|${property}`),
    );
    const keys = claimed.map((one) => one.split('|')[0]!);
    expect(claimed.filter((one) => keys.filter((key) => key === one.split('|')[0]).length > 1)).toEqual([]);
  });

  test('each header that the guide lists is read, in capitals and with signs too', () => {
    const needed = named.filter(([, { role }]) => role === 'key' || role === 'required').map(([own]) => own);
    for (const [property, { alsoCalled }] of named) {
      for (const other of alsoCalled) {
        for (const written of [other, other.toUpperCase(), `${other}:`]) {
          const grid: Grid = [[...needed.filter((own) => own !== property), written]];
          const found = tableHead(name, columns, grid).located.find((one) => one.property === property);
          expect([written, found?.headers]).toEqual([written, [written]]);
        }
      }
    }
  });
});

const columnsOf = (f: string, table: string): TableColumns => {
  const found = tables.find(([name, argument]) => name === f && argument === table);
  return found![2];
};

/** What each header of a row is read as, or the message where the row is refused; nothing for what no column reads. */
function readAs(f: string, table: string, headers: string): string {
  const row = headers.split(' | ');
  try {
    const { located } = tableHead(table, columnsOf(f, table), [row]);
    return row.map((_, at) => located.find((one) => one.at.includes(at))?.property ?? '').join(' | ');
  } catch (thrown) {
    if (!(thrown instanceof CalcError)) throw thrown;
    const { fault } = thrown;
    const { headers: lacking = [] } = fault.details as {
      readonly headers?: readonly { readonly header: string }[];
    };
    return [fault.code, ...lacking.map(({ header }) => header)].join(' ');
  }
}

// Header rows as farms write them, from memory of such sheets: common practice, no source.
describe('header rows of growers', () => {
  test.each([
    ['READYLOTS', 'lots', 'Batch # | Strain # | Qty | Date inoc', 'lot | strain | blocks | inoculated'],
    [
      'READYLOTS',
      'lots',
      'LOT NO. | VARIETY | NO. OF BAGS | DATE SPAWNED',
      'lot | strain | blocks | inoculated',
    ],
    ['READYLOTS', 'lots', 'Lot | Strain | # bags | Inoc date', 'lot | strain | blocks | inoculated'],
    [
      'READYLOTS',
      'lots',
      'Lot ID | Strain name | Bags made | Inoculated on',
      'lot | strain | blocks | inoculated',
    ],
    [
      'READYLOTS',
      'lots',
      'Batch No | Strain | Block count | Inoculation date',
      'lot | strain | blocks | inoculated',
    ],
    ['READYLOTS', 'lots', 'batch | cultivar | blocks | spawn date', 'lot | strain | blocks | inoculated'],
    ['READYLOTS', 'lots', 'Lot code | Culture | Bag ct | Inoc.', 'lot | strain | blocks | inoculated'],
    ['READYLOTS', 'lots', 'ID | Strain | Total blocks | Date made', 'lot | strain | blocks | inoculated'],
    [
      'READYLOTS',
      'lots',
      'Lot # | Strain | Blks | Inoc dt | Opened',
      'lot | strain | blocks | inoculated | loaded',
    ],
    [
      'READYLOTS',
      'lots',
      'Lot name | Strain ID | How many | Production date | Date loaded',
      'lot | strain | blocks | inoculated | loaded',
    ],
    [
      'READYLOTS',
      'lots',
      'Batch no. | Strain | Bags | Date inoculated | Notes',
      'lot | strain | blocks | inoculated | ',
    ],
    [
      'READYLOTS',
      'lots',
      'Date inoc. | Batch | Strain | Species | Bag qty',
      'inoculated | lot | strain |  | blocks',
    ],
    ['READYLOTS', 'lots', 'Strain | Batch | Started | Count', 'strain | lot | inoculated | blocks'],
    [
      'READYLOTS',
      'lots',
      'lot_id | strain_code | block_count | date_inoculated',
      'lot | strain | blocks | inoculated',
    ],
    [
      'READYLOTS',
      'lots',
      'Lot No | Strain No | Quantity | Spawned | To fruiting',
      'lot | strain | blocks | inoculated | loaded',
    ],
    ['READYLOTS', 'lots', 'Batch: | Strain: | Blocks: | Inoculated:', 'lot | strain | blocks | inoculated'],
    [
      'READYLOTS',
      'lots',
      'Batch (lab) | Strain (code) | Bags (pcs) | Inoc (date)',
      'lot | strain | blocks | inoculated',
    ],
    [
      'LOADPLAN',
      'lots',
      'Batch | Strain # | Qty | Bag wt | Moist % | Date inoc',
      'lot | strain | blocks | block mass | moisture | inoculated',
    ],
    [
      'LOADPLAN',
      'lots',
      'Lot | Strain | Bags | lb/bag | Moisture | Inoc date',
      'lot | strain | blocks | block mass | moisture | inoculated',
    ],
    [
      'LOADPLAN',
      'lots',
      'Lot # | Strain | No. bags | Wt per bag (kg) | MC',
      'lot | strain | blocks | block mass | moisture',
    ],
    [
      'LOADPLAN',
      'lots',
      'Batch No | Variety | Blocks | Block weight kg | Moisture content',
      'lot | strain | blocks | block mass | moisture',
    ],
    [
      'LOADPLAN',
      'lots',
      'Batch | Strain | Bag count | Bag weight (lb) | Moisture pct | Spawned | Date opened',
      'lot | strain | blocks | block mass | moisture | inoculated | loaded',
    ],
    [
      'LOADPLAN',
      'lots',
      'Lot code | Strain | Blocks made | Block wt lbs | Moist. | Inoculation date | Loaded | Sold as',
      'lot | strain | blocks | block mass | moisture | inoculated | loaded | product',
    ],
    [
      'LOADPLAN',
      'lots',
      'lot | strain | blocks | kg per block | water content | inoc | product name',
      'lot | strain | blocks | block mass | moisture | inoculated | product',
    ],
    [
      'LOADPLAN',
      'lots',
      'Batch | Strain | Qty | Bag size | MC (wet basis) | Day inoculated',
      'lot | strain | blocks | block mass | moisture | inoculated',
    ],
    [
      'LOADPLAN',
      'lots',
      'Batch | Strain | Qty (bags) | lbs per bag | Moisture % | Start date | Fruited',
      'lot | strain | blocks | block mass | moisture | inoculated | loaded',
    ],
    ['LOADPLAN', 'lots', 'Batch | Strain | Units | Bag mass | % moisture', 'noHeader blocks'],
    [
      'LOADPLAN',
      'lots',
      'Lot | Strain | Bags | Fill weight | Hydration',
      'lot | strain | blocks | block mass | moisture',
    ],
    [
      'LOADPLAN',
      'lots',
      'Lot | Strain | Bags inoculated | Weight each | Water percent | Opening date',
      'lot | strain | blocks | block mass | moisture | loaded',
    ],
    [
      'LOADPLAN',
      'lots',
      'Lot | Batch | Strain | Qty | Bag wt | Moist',
      'lot |  | strain | blocks | block mass | moisture',
    ],
    ['LOADPLAN', 'lots', 'Lot No | Batch ID | Strain | Qty | Bag wt | Moist', 'headerTwice'],
    [
      'LOADPLAN',
      'lots',
      'Lot | Strain | Bags | Blocks | Bag wt | Moist',
      'lot | strain |  | blocks | block mass | moisture',
    ],
    ['LOADPLAN', 'lots', 'Lot | Strain | Qty | Bag wt | Block size | Moist', 'headerTwice'],
    [
      'LOADPLAN',
      'strains',
      'Strain | Min days | Days to ready | Max days | Days to pick | Picking days | BE',
      'strain | earliest | best | latest | first pick | pick days | efficiency',
    ],
    [
      'LOADPLAN',
      'strains',
      'Strain # | Earliest | Best | Latest | First pick | Pick days | Flush gap | Flushes | Efficiency | Loss',
      'strain | earliest | best | latest | first pick | pick days | flush gap | flushes | efficiency | loss',
    ],
    [
      'LOADPLAN',
      'strains',
      'Variety | Incubation days | Days to harvest | Flush length | Days between flushes | No. of flushes | Bio efficiency | Contam rate',
      'strain | best | first pick | pick days | flush gap | flushes | efficiency | loss',
    ],
    [
      'LOADPLAN',
      'strains',
      'Strain name | Spawn run (days) | Max age | 1st pick | Harvest days | Flush interval | Breaks | BE % | Contamination',
      'strain | best | latest | first pick | pick days | flush gap | flushes | efficiency | loss',
    ],
    [
      'LOADPLAN',
      'strains',
      'Strain | Minimum days | Optimum days | Maximum days | First harvest | Flush days | Gap | Flush count | Biological efficiency | Losses | Product',
      'strain | earliest | best | latest | first pick | pick days | flush gap | flushes | efficiency | loss | product',
    ],
    [
      'LOADPLAN',
      'strains',
      'Strain | Days to colonize | Days to first pick | Days per flush | Expected BE | Lost',
      'strain | best | first pick | pick days | efficiency | loss',
    ],
    [
      'LOADPLAN',
      'strains',
      'Strain | Incubation | Too old | Days to first harvest | Picking days | Rest days | Average BE | Loss %',
      'strain | best | latest | first pick | pick days | flush gap | efficiency | loss',
    ],
    [
      'READYFROMLOG',
      'strains',
      'Strain | Best days | Room temp (C) | Min temp (C) | Best temp (C) | Max temp (C)',
      'strain | best | observed at | min temp | best temp | max temp',
    ],
    [
      'READYFROMLOG',
      'strains',
      'Strain | Days to ready | Incubation temp F | Minimum temp F | Optimum temp F | Maximum temp F',
      'strain | best | observed at | min temp | best temp | max temp',
    ],
    [
      'READYFROMLOG',
      'strains',
      'Strain | Incubation time | Observed at | Lowest temperature | Opt. temp | Highest temperature',
      'strain | best | observed at | min temp | best temp | max temp',
    ],
    ['LOADPLAN', 'rooms', 'Room | Shelves | Blocks per shelf', 'room | shelves | blocks per shelf'],
    ['LOADPLAN', 'rooms', 'Grow room | # shelves | Bags/shelf', 'room | shelves | blocks per shelf'],
    ['LOADPLAN', 'rooms', 'Tent | Racks | Bags per rack', 'room | shelves | blocks per shelf'],
    [
      'LOADPLAN',
      'rooms',
      'Location | No. of racks | Shelf capacity | Shut from | Shut until',
      'room | shelves | blocks per shelf | closed from | closed to',
    ],
    [
      'LOADPLAN',
      'rooms',
      'Room name | Shelf count | Per shelf | Closed from | Closed until',
      'room | shelves | blocks per shelf | closed from | closed to',
    ],
    [
      'LOADPLAN',
      'rooms',
      'Fruiting room | Levels | Places per shelf | Closed start | Closed end | Strains allowed',
      'room | shelves | blocks per shelf | closed from | closed to | strains',
    ],
    [
      'LOADPLAN',
      'rooms',
      'Room no. | Shelves | Capacity per shelf | Closed since | Closed till',
      'room | shelves | blocks per shelf | closed from | closed to',
    ],
    ['LOADPLAN', 'orders', 'Product | kg | Due', 'product | mass | due'],
    ['LOADPLAN', 'orders', 'Item | Lbs | Deliver by', 'product | mass | due'],
    ['LOADPLAN', 'orders', 'Mushroom | Weight (lb) | Delivery date', 'product | mass | due'],
    ['LOADPLAN', 'orders', 'Variety | Qty (lb) | Due date | Price per lb', 'product | mass | due | price'],
    ['LOADPLAN', 'orders', 'Customer | Product | Quantity | Needed by', ' | product | mass | due'],
    ['LOADPLAN', 'orders', 'Product name | Pounds | Ship date | Unit price', 'product | mass | due | price'],
    ['LOADPLAN', 'orders', 'Species | Order weight kg | Due by | In stock', 'product | mass | due | given'],
    ['LOADPLAN', 'orders', 'Order date | Product | Kilos ordered | Delivery', 'noHeader mass'],
    ['LOADPLAN', 'orders', 'Order date | Product | Weight ordered | Delivery', ' | product | mass | due'],
    [
      'LOADPLAN',
      'orders',
      'Item | Qty ordered | Wanted by | Delivered | Shelf life',
      'product | mass | due | given | keep days',
    ],
    [
      'LOADPLAN',
      'orders',
      'Product | kg | Required by | Earliest | Price',
      'product | mass | due | from | price',
    ],
    [
      'LOADPLAN',
      'orders',
      'Ordered | kgs | Deliver on | From date | Price per kg',
      'product | mass | due | from | price',
    ],
    ['LOADPLAN', 'calendar', 'Day | Pick limit | Load limit', 'day | pick limit | load limit'],
    ['LOADPLAN', 'calendar', 'Weekday | Max pick | Max load', 'day | pick limit | load limit'],
    [
      'LOADPLAN',
      'calendar',
      'Day of the week | Harvest capacity (kg) | Max blocks',
      'day | pick limit | load limit',
    ],
    ['LOADPLAN', 'calendar', 'Date | Picking limit | Load capacity', 'day | pick limit | load limit'],
    ['LOADPLAN', 'calendar', 'Day | Max harvest (lb) | Blocks per day', 'day | pick limit | load limit'],
    [
      'LOADPLAN',
      'standing',
      'Date loaded | Room | Strain | Bags | Bag wt | Moist %',
      'loaded | room | strain | blocks | block mass | moisture',
    ],
    [
      'LOADPLAN',
      'standing',
      'Opened | Location | Variety | Qty | lb per bag | MC | Picked so far',
      'loaded | room | strain | blocks | block mass | moisture | picked',
    ],
    [
      'LOADPLAN',
      'standing',
      'Fruiting date | Tent | Strain | Blocks | Block weight | Moisture | First harvest',
      'loaded | room | strain | blocks | block mass | moisture | first picked',
    ],
    [
      'LOADPLAN',
      'standing',
      'Date to fruiting | Grow room | Strain # | No. of blocks | kg/block | Water content | Harvested',
      'loaded | room | strain | blocks | block mass | moisture | picked',
    ],
    ['YIELDAUDIT', 'harvests', 'Batch | Date | Weight', 'lot | date | mass'],
    ['YIELDAUDIT', 'harvests', 'Lot # | Pick date | lbs', 'lot | date | mass'],
    [
      'YIELDAUDIT',
      'harvests',
      'Batch no. | Harvest date | Net weight (kg) | Flush # | Picked by',
      'lot | date | mass | flush | picker',
    ],
    [
      'YIELDAUDIT',
      'harvests',
      'Lot | Date picked | Weight kg | Break | Staff',
      'lot | date | mass | flush | picker',
    ],
    [
      'YIELDAUDIT',
      'harvests',
      'Lot ID | Day | kg | Flush no. | Grade | Box',
      'lot | date | mass | flush | grade | crate',
    ],
    ['YIELDAUDIT', 'harvests', 'Batch | Date harvested | Lbs picked | Flush', 'lot | date | mass | flush'],
    ['YIELDAUDIT', 'harvests', 'Lot | Picked | Net | Flush | Initials', 'lot | date | mass | flush | picker'],
    [
      'YIELDAUDIT',
      'harvests',
      'Date | Lot | Lbs harvested | Quality | Scale',
      'date | lot | mass | grade | scale',
    ],
    ['YIELDAUDIT', 'harvests', 'Date | Batch | Pounds | Bags', 'date | lot | mass | blocks'],
    [
      'YIELDAUDIT',
      'harvests',
      'Harvest day | Lot No | Fresh weight (g) | Flush number | Harvested by',
      'date | lot | mass | flush | picker',
    ],
    ['YIELDAUDIT', 'harvests', 'Pick day | Batch | Kilos | Tub', 'date | lot | mass | crate'],
    ['YIELDAUDIT', 'harvests', 'Date | Lot | Yield (lb) | Class', 'date | lot | mass | grade'],
    [
      'YIELDAUDIT',
      'harvests',
      'Date | Lot | Picked weight | Weighed by | Tote',
      'date | lot | mass | picker | crate',
    ],
    ['YIELDAUDIT', 'harvests', 'Date | Lot | Weight harvested | Flush', 'date | lot | mass | flush'],
    ['YIELDAUDIT', 'harvests', 'Date | Lot | Gross | Tare | Net', 'date | lot |  | tare | mass'],
    ['YIELDAUDIT', 'harvests', 'Date | Lot | kg | lbs', 'headerTwice'],
    ['YIELDAUDIT', 'harvests', 'Date | Room | Strain | Weight', 'noHeader lot'],
    [
      'YIELDAUDIT',
      'lots',
      'Batch | Strain | Bags | Bag wt lb | Moist | Date inoc | Date opened | Total yield',
      'lot | strain | blocks | block mass | moisture | inoculated | loaded | total',
    ],
    [
      'YIELDAUDIT',
      'lots',
      'Lot # | Variety | Qty | Block size | MC | Spawned | To fruiting | Total picked (kg)',
      'lot | strain | blocks | block mass | moisture | inoculated | loaded | total',
    ],
    [
      'YIELDAUDIT',
      'lots',
      'Lot | Strain | Number of bags | Bag weight | Moisture content | Inoc | Moved to fruiting | Lot total',
      'lot | strain | blocks | block mass | moisture | inoculated | loaded | total',
    ],
    ['MIX', 'recipe', 'Ingredient | % | Moisture', 'noHeader share'],
    ['MIX', 'recipe', 'Ingredient | Percent | Moist', 'ingredient | share | moisture'],
    [
      'MIX',
      'recipe',
      'Material | Share | Moisture content | Pack size',
      'ingredient | share | moisture | pack',
    ],
    ['MIX', 'recipe', 'Item | Dry share | MC | Bag size (lb)', 'ingredient | share | moisture | pack'],
    [
      'MIX',
      'recipe',
      'Component | Proportion | Water content | Nitrogen | Carbon',
      'ingredient | share | moisture | nitrogen | carbon',
    ],
    [
      'MIX',
      'recipe',
      'Ingredient | Ratio | Moisture % | N | C | Crude protein',
      'ingredient | share | moisture | nitrogen | carbon | protein',
    ],
    [
      'MIX',
      'recipe',
      'Ingredient | Percentage | Moisture percent | Bag weight kg | Nitrogen content',
      'ingredient | share | moisture | pack | nitrogen',
    ],
    ['MIXCOST', 'recipe', 'Ingredient | Pct | Moist % | Price', 'ingredient | share | moisture | cost'],
    [
      'MIXCOST',
      'recipe',
      'Material | Share | Moisture | Cost per kg',
      'ingredient | share | moisture | cost',
    ],
    [
      'MIXCOST',
      'recipe',
      'Item | Proportion | MC | Price per lb | Bag size',
      'ingredient | share | moisture | cost | pack',
    ],
    ['CHEAPESTMIX', 'needs', 'Nutrient | Min | Max', 'need | lowest | highest'],
    ['CHEAPESTMIX', 'needs', 'Requirement | Minimum | Maximum', 'need | lowest | highest'],
    ['CHEAPESTMIX', 'needs', 'Need | Least | Most', 'need | lowest | highest'],
    [
      'BACKPLAN',
      'steps',
      'Stage | Multiplies by | Run days | Loss % | Storage days',
      'step | makes | days | loss | store days',
    ],
    [
      'BACKPLAN',
      'steps',
      'Step | Expansion | Incubation days | Contamination | Shelf life',
      'step | makes | days | loss | store days',
    ],
    [
      'BACKPLAN',
      'steps',
      'Generation | Makes | Days to ready | Losses | Keeps | Variety',
      'step | makes | days | loss | store days | strain',
    ],
    [
      'BACKPLAN',
      'stock',
      'On hand | Strain | Stage | Ready date | Use by',
      'units | strain | step | ready | good until',
    ],
    [
      'BACKPLAN',
      'stock',
      'Qty | Variety | Generation | Ready | Expiry date',
      'units | strain | step | ready | good until',
    ],
    [
      'BACKPLAN',
      'stock',
      'Good units | Strain # | Step | Ready date | Best before',
      'units | strain | step | ready | good until',
    ],
    ...(
      [
        ['1st', '2nd', '3rd'],
        ['1st flush %', '2nd flush %', '3rd flush %'],
        ['Flush #1', 'Flush #2', 'Flush #3'],
        ['F1', 'F2', 'F3'],
        ['F1 share', 'F2 share', 'F3 share'],
        ['first flush', 'second flush', 'third flush'],
        ['First', 'Second', 'Third'],
        ['Flush No. 1 (%)', 'Flush No. 2 (%)', 'Flush No. 3 (%)'],
        ['1. flush', '2. flush', '3. flush'],
        ['Break 1', 'Break 2', 'Break 3'],
      ] as const
    ).map(
      (shares) =>
        [
          'PICKCALENDAR',
          'strains',
          `Strain | 1st pick | Pick days | Flush gap | ${shares.join(' | ')} | BE`,
          'strain | first pick | pick days | flush gap | flush | flush | flush | efficiency',
        ] as const,
    ),
    ...['1st flush kg', 'Flush 1 date', '2nd', '1', 'B1'].map(
      (header) =>
        [
          'SHELFUSE',
          'strains',
          `Strain | First pick | Pick days | ${header}`,
          'strain | first pick | pick days | ',
        ] as const,
    ),
    ['SHELFUSE', 'strains', 'Strain | First pick | Pick days | F1 | Flush 1', 'headerTwice'],
    ['STAGE', 'stages', 'Strain | Phase | Start day', 'strain | stage | from day'],
    ['STAGE', 'stages', 'Variety | Stage name | Day', 'strain | stage | from day'],
    ['BLOCKCOST', 'costs', 'Expense | Cost | Per', 'item | amount | per'],
    ['BLOCKCOST', 'costs', 'Description | Price | Per', 'item | amount | per'],
    ['BLOCKCOST', 'costs', 'Cost item | Spend | Per', 'item | amount | per'],
    [
      'COSTPERMASS',
      'crops',
      'Batch | Strain # | Bags | Total | Crop days',
      'lot | strain | blocks | total | days',
    ],
    [
      'COSTPERMASS',
      'crops',
      'Lot no. | Variety | No. of blocks | Total | Days | Shelf days',
      'lot | strain | blocks | total | days | shelf days',
    ],
  ])('%s, %s: %s is read as %s', (f, table, headers, properties) => {
    expect(readAs(f, table, headers)).toBe(properties);
  });
});

describe('what a header row says beside its names', () => {
  const unitOf = (f: string, table: string, column: string, header: string) => {
    const columns = columnsOf(f, table);
    const needed = Object.entries(columns).flatMap(([own, { role }]) =>
      own !== column && (role === 'key' || role === 'required') ? [own] : [],
    );
    const { located } = tableHead(table, columns, [[...needed, header]]);
    return located.find(({ property }) => property === column)!.unit;
  };

  test.each([
    ['°C', ['°C', 'C', 'deg C', 'degrees Celsius', 'celsius', 'CELSIUS']],
    ['°F', ['°F', 'F', 'deg F', 'degrees Fahrenheit', 'fahrenheit']],
  ])('%s is read in all its spellings', (unit, spellings) => {
    for (const spelling of spellings) {
      for (const header of [`best temp (${spelling})`, `best temp [${spelling}]`]) {
        expect([header, unitOf('READYFROMLOG', 'strains', 'best temp', header)]).toEqual([
          header,
          { of: 'temperature', unit },
        ]);
      }
    }
  });

  test('an error cell or a blank among the headers is none, also where the headers are told', () => {
    const row = ['Lot', cellError('#REF!', 'gone'), null, 'Colour'];
    const { rows } = evaluate(
      catalogue.find(({ name }) => name === 'BLOCKCOST')!,
      [[row], [[1]]],
    );
    expect(rows[0]![0]).toMatchObject({
      reason: 'costs needs columns headed item and amount; its headers are Lot, Colour',
    });
  });
});
