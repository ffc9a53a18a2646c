import {
  chart,
  column,
  figures,
  formula,
  heading,
  inputs,
  remark,
  spilled,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';
import { correctedEnd, lotCount, lotsOf, strains } from './records';

const LAST = 5 + lotCount;
const withFlushes = `Corrected!$A$5:$D$${correctedEnd}`;
const crop = (letter: string, from = 6, to = LAST): string => `Crops!$${letter}$${from}:$${letter}$${to}`;
/** A column of Crops for one strain: the lots are kept by strain. */
const ofAlder = (letter: string): string => crop(letter, 6, 5 + lotsOf('Alder-3'));
const ofBirch = (letter: string): string =>
  crop(letter, 6 + lotsOf('Alder-3'), 5 + lotsOf('Alder-3') + lotsOf('Birch-1'));

/** Room for a chart in columns that are empty. */
const room = (letters: string): Record<string, number> =>
  Object.fromEntries([...letters].map((letter) => [letter, 10]));

/** How far points that break a rule lie above or below the centre of a control chart in columns I to M; else 0. */
const marked = (from: number, rows: number, side: '>' | '<'): string => {
  const cells = (letter: string): string => `${letter}${from}:${letter}${from + rows - 1}`;
  const [value, centre, broken] = [cells('I'), cells('J'), cells('M')];
  return `=IF((LEN(${broken})>0)*(${value}${side}${centre}),ABS(${value}-${centre}),0)`;
};

export const crops: Sheet = {
  name: 'Crops',
  title: 'Crops',
  notes: ['What each lot gave, from the corrected picks; and what a shelf brought in a day.'],
  things: [
    formula(
      'A5',
      `=PINSET.CROPTABLE(${withFlushes}, Lots[#All])`,
      ['text', 'text', 'count', 'mass', 'mass', 'mass', 'mass', 'mass', 'percent', 'count', 'percent'],
      { headed: true, growth: 10 },
    ),
    inputs('N3', { label: 'Blocks per shelf', value: 20, reads: 'count', name: 'PerShelf' }),
    formula('M6', `=PINSET.SHELFDAYYIELD(G6:G${LAST}, C6:C${LAST}, PerShelf, J6:J${LAST})`, 'mass', {
      headers: ['kg per shelf and day'],
      growth: 10,
    }),
    chart('P5:W21', 'column', 'Efficiency by lot', {
      says: 'Efficiency of every lot, a column a lot, strain by strain.',
      across: spilled('A5', 1),
      series: [{ title: 'Efficiency', values: spilled('A5', 9) }],
      upReads: 'percent',
    }),
  ],
  widths: room('PQRSTUVW'),
  freeze: 'A6',
};

export const compared: Sheet = {
  name: 'Compared',
  title: 'Strains compared',
  notes: ['Means with their intervals, which strains truly differ, and where the next lot will lie.'],
  things: [
    heading('A4', 'What the records say of each strain'),
    formula(
      'A5',
      `=PINSET.STRAINTABLE(${withFlushes}, Lots[#All])`,
      [
        'text',
        'count',
        'count',
        'percent',
        'percent',
        'percent',
        'number',
        'number',
        'number',
        'count',
        'percent',
        'percent',
        'percent',
        'text',
      ],
      { headed: true },
    ),
    heading('A11', 'Do they differ? One value per lot'),
    formula(
      'A12',
      `=PINSET.COMPARE(${crop('B')}, ${crop('I')})`,
      ['text', 'count', 'percent', 'percent', 'percent', 'number', 'number', { code: '0.0000' }, 'text'],
      { headed: true, growth: 3 },
    ),
    heading('A26', 'The next lot, 9 times out of 10'),
    formula('B28', `=PINSET.YIELDRANGE(${ofAlder('I')})`, ['percent', 'percent', 'percent', 'count'], {
      headers: ['From', 'Mean', 'To', 'Lots'],
    }),
    formula('B30', `=PINSET.YIELDRANGE(${ofBirch('I')})`, ['percent', 'percent', 'percent', 'count'], {
      headers: ['From', 'Mean', 'To', 'Lots'],
    }),
    remark('A28', 'Alder-3'),
    remark('A30', 'Birch-1'),
    formula('Y6', `=D6:D${5 + strains.length}-E6:E${5 + strains.length}`, 'percent', {
      headers: ['Mean less from'],
      spills: true,
    }),
    formula('Z6', `=F6:F${5 + strains.length}-D6:D${5 + strains.length}`, 'percent', {
      headers: ['To less mean'],
      spills: true,
    }),
    chart('P4:W20', 'dots', 'Mean efficiency and its 95% interval', {
      says: 'Mean efficiency of each strain as a dot, its 95% interval as whiskers.',
      across: spilled('A5', 1),
      series: [{ title: 'Mean', values: spilled('A5', 4) }],
      whiskers: { down: spilled('Y6'), up: spilled('Z6') },
      upReads: 'percent',
    }),
  ],
  widths: room('PQRSTUVW'),
};

const WEEKS: [string, number, number | 'none'][] = [
  ['2026-01-05', 320, 9],
  ['2026-01-12', 300, 7],
  ['2026-01-19', 340, 12],
  ['2026-01-26', 320, 8],
  ['2026-02-02', 310, 10],
  ['2026-02-09', 330, 6],
  ['2026-02-16', 300, 11],
  ['2026-02-23', 320, 31],
  ['2026-03-02', 320, 9],
  ['2026-03-09', 340, 'none'],
  ['2026-03-16', 300, 8],
  ['2026-03-23', 310, 10],
];

export const charts: Sheet = {
  name: 'Charts',
  title: 'Control charts',
  notes: [
    'Blocks lost by week of inoculation, and the efficiencies of one strain’s lots in the order they were loaded.',
  ],
  things: [
    table(
      'A5',
      'Losses',
      [column('Week from', 'date'), column('Blocks', 'count'), column('Lost', 'count')],
      WEEKS,
    ),
    formula('E6', '=PINSET.LOSSRATE(Losses[Lost], Losses[Blocks])', 'percent', {
      headers: ['Rate', 'From', 'To'],
      growth: 10,
    }),
    formula(
      'I6',
      '=PINSET.CONTROLCHART(Losses[Lost], "proportions", Losses[Blocks])',
      ['percent', 'percent', 'percent', 'percent', 'text'],
      { headers: ['Lost', 'Centre', 'Lower limit', 'Upper limit', 'Rules broken'], growth: 10 },
    ),
    formula('X6', marked(6, WEEKS.length, '>'), 'percent', {
      headers: ['Broken above'],
      spills: true,
      growth: 10,
    }),
    formula('Y6', marked(6, WEEKS.length, '<'), 'percent', {
      headers: ['Broken below'],
      spills: true,
      growth: 10,
    }),
    chart('O4:W20', 'line', 'Share of blocks lost, by week', {
      says: 'Share of blocks lost in each week about the centre, between a lower and an upper limit. A thick stem to the centre marks each week that breaks a rule.',
      across: 'Losses[Week from]',
      series: [{ title: 'Lost', values: spilled('I6', 1) }],
      centre: { title: 'Centre', values: spilled('I6', 2) },
      whiskers: { down: spilled('X6'), up: spilled('Y6'), mark: true },
      limits: [
        { title: 'Lower limit', values: spilled('I6', 3) },
        { title: 'Upper limit', values: spilled('I6', 4) },
      ],
      acrossReads: 'date',
      upReads: 'percent',
    }),
    heading('A30', 'Alder-3, lot by lot'),
    formula('A32', `=${ofAlder('A')}`, 'text', { headers: ['Lot'], spills: true, growth: 10 }),
    formula('B32', `=${ofAlder('I')}`, 'percent', {
      headers: ['Efficiency'],
      spills: true,
      growth: 10,
    }),
    formula('D32', `=PINSET.OUTLIERS(${ofAlder('I')})`, ['number', 'text'], {
      headers: ['Score', 'Finding'],
      growth: 10,
    }),
    formula(
      'I32',
      `=PINSET.CONTROLCHART(${ofAlder('I')})`,
      ['percent', 'percent', 'percent', 'percent', 'text'],
      {
        headers: ['Efficiency', 'Centre', 'Lower limit', 'Upper limit', 'Rules broken'],
        growth: 10,
      },
    ),
    formula('X32', marked(32, lotsOf('Alder-3'), '>'), 'percent', {
      headers: ['Broken above'],
      spills: true,
      growth: 10,
    }),
    formula('Y32', marked(32, lotsOf('Alder-3'), '<'), 'percent', {
      headers: ['Broken below'],
      spills: true,
      growth: 10,
    }),
    chart('O30:W46', 'line', 'Efficiency of Alder-3, lot by lot', {
      says: 'Efficiency of each lot of Alder-3 in the order they were loaded, about the centre, between limits. A thick stem to the centre marks each lot that breaks a rule.',
      across: spilled('A32', 1),
      series: [{ title: 'Efficiency', values: spilled('I32', 1) }],
      centre: { title: 'Centre', values: spilled('I32', 2) },
      whiskers: { down: spilled('X32'), up: spilled('Y32'), mark: true },
      limits: [
        { title: 'Lower limit', values: spilled('I32', 3) },
        { title: 'Upper limit', values: spilled('I32', 4) },
      ],
      upReads: 'percent',
    }),
  ],
  widths: room('OPQRSTUVW'),
};

export const costs: Sheet = {
  name: 'Costs',
  title: 'Costs',
  notes: [
    'Amounts are invented. Per block, per batch (all lots together), per kg picked, per shelf and day.',
  ],
  things: [
    table(
      'A5',
      'Costs',
      [
        column('Item'),
        column('Amount', 'money'),
        column('Per', 'text', ['block', 'batch', 'mass', 'shelf day']),
      ],
      [
        ['substrate', 1.1, 'block'],
        ['spawn', 0.45, 'block'],
        ['bag and label', 0.3, 'block'],
        ['filling and steaming, labour', 1900, 'batch'],
        ['steam and power', 650, 'batch'],
        ['picking and packing', 2.4, 'mass'],
        ['room, heating and air', 0.35, 'shelf day'],
      ],
    ),
    heading('A14', 'What it sells for'),
    inputs('A15', { label: 'Price per kg', value: 11.5, reads: 'money', name: 'Price' }),
    heading('A17', 'A block'),
    figures(
      'A18',
      {
        label: 'Cost of a block',
        formula: '=PINSET.BLOCKCOST(Costs[#All], SUM(Lots[Blocks]))',
        reads: 'money',
      },
      {
        label: 'Efficiency that pays for it',
        formula: '=PINSET.BREAKEVEN(Costs[#All], SUM(Lots[Blocks]), 2.5, 60%, Price, PerShelf, 45)',
        reads: 'percent',
        remark: '2.5 kg at 60%, 45 days on the shelf',
      },
    ),
    heading('A22', 'Margin per shelf and day: what to rank strains by where shelves are short'),
    formula(
      'A23',
      `=PINSET.SHELFDAYMARGIN(Costs[#All], Crops!$A$5:$K$${LAST}, Price, PerShelf)`,
      ['text', 'count', 'number', 'money', 'money', 'money', 'money', 'money', 'money'],
      { headed: true },
    ),
    heading('K4', 'Cost per kg, lot by lot'),
    formula(
      'K5',
      `=PINSET.COSTPERMASS(Costs[#All], Crops!$A$5:$K$${LAST}, PerShelf)`,
      ['text', 'count', 'mass', 'money', 'money'],
      {
        headed: true,
        growth: 10,
      },
    ),
  ],
};

export const coldChain: Sheet = {
  name: 'Cold chain',
  title: 'Cold chain',
  notes: [
    'A logger that rode with a delivery. Quality only: food safety is another matter, see your own plan and local rules.',
  ],
  things: [
    table(
      'A5',
      'Log',
      [column('Time', 'dateTime'), column('Temperature (°C)', 'temperature')],
      [
        ['2026-03-16 06:00', 12],
        ['2026-03-16 07:00', 6],
        ['2026-03-16 09:00', 2.5],
        ['2026-03-16 18:00', 2],
        ['2026-03-17 06:00', 2.2],
        ['2026-03-17 08:30', 9],
        ['2026-03-17 11:00', 14],
        ['2026-03-17 12:00', 5],
        ['2026-03-18 08:00', 4],
      ],
    ),
    inputs(
      'D5',
      { label: 'Days they keep', value: 11, reads: 'days', remark: 'at the reference; your own records' },
      { label: 'Reference (°C)', value: 4, reads: 'temperature' },
      { label: 'Q10', value: 1.9, reads: 'number', remark: 'shiitake 1.9, oyster 2.8, button 1.5 to 2.2' },
    ),
    formula('E10', '=PINSET.SHELFLIFE(Log[Time], Log[Temperature (°C)], E5, E6, E7)', ['percent', 'number'], {
      headers: ['Life used', 'Days left'],
    }),
  ],
};
