import { chart, column, formula, heading, spilled, table, type Sheet } from '../../src/hosts/xlsx/describe';
import { ofAlder } from './crops';
import { lotsOf } from './records';

const FIRST = 5;
const growth = 10;

/** How far points that break a rule lie above or below the centre; else 0. The value is in column B, as in the calls. */
const marked = (rows: number, side: '>' | '<'): string => {
  const cells = (letter: string): string => `${letter}${FIRST}:${letter}${FIRST - 1 + rows}`;
  const [value, centre, broken] = [cells('B'), cells('C'), cells('F')];
  return `=IF((LEN(${broken})>0)*(${value}${side}${centre}),ABS(${value}-${centre}),0)`;
};

/** Values about their centre, between limits, with stems at those that break a rule: the calls are in A to F, X and Y. */
const controlChart = (over: string, title: string, says: string, value: string, days: boolean) =>
  chart(over, 'line', title, {
    says: `${says} A thick stem to the centre marks each that breaks a rule.`,
    across: spilled('A5'),
    series: [{ title: value, values: spilled('B5', 1) }],
    centre: { title: 'Centre', values: spilled('B5', 2) },
    whiskers: { down: spilled('X5'), up: spilled('Y5'), mark: true },
    limits: [
      { title: 'Lower limit', values: spilled('B5', 3) },
      { title: 'Upper limit', values: spilled('B5', 4) },
    ],
    ...(days && { acrossReads: 'date' as const }),
    upReads: 'percent',
  });

const stems = (rows: number) => [
  heading('X3', 'For the chart'),
  formula('X5', marked(rows, '>'), 'percent', { headers: ['Broken above'], spills: true, growth }),
  formula('Y5', marked(rows, '<'), 'percent', { headers: ['Broken below'], spills: true, growth }),
];

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

export const losses: Sheet = {
  name: 'Losses',
  title: 'Losses: blocks lost by week of inoculation',
  notes: [
    'The share of each week between the limits within which it would lie by chance, and its own range.',
  ],
  things: [
    formula('A5', '=Losses[Week from]', 'date', { headers: ['Week from'], spills: true, growth }),
    formula(
      'B5',
      '=PINSET.CONTROLCHART(Losses[Lost], "proportions", Losses[Blocks])',
      ['percent', 'percent', 'percent', 'percent', 'text'],
      { headers: ['Lost', 'Centre', 'Lower limit', 'Upper limit', 'Rules broken'], growth },
    ),
    formula('G5', '=PINSET.LOSSRATE(Losses[Lost], Losses[Blocks])', 'percent', {
      headers: ['Rate', 'From', 'To'],
      growth,
    }),
    controlChart(
      'K5:R21',
      'Share of blocks lost, by week',
      'Share of blocks lost in each week about the centre, between a lower and an upper limit.',
      'Lost',
      true,
    ),
    table(
      'T4',
      'Losses',
      [column('Week from', 'date'), column('Blocks', 'count'), column('Lost', 'count')],
      WEEKS,
    ),
    ...stems(WEEKS.length),
  ],
  freeze: 'A5',
  prints: 'A:R',
};

export const oneStrain: Sheet = {
  name: 'One strain',
  title: 'Alder-3, lot by lot',
  notes: [
    'The efficiencies of its lots in the order they were loaded: which lie where chance alone would not put them.',
  ],
  things: [
    formula('A5', `=${ofAlder('A')}`, 'text', { headers: ['Lot'], spills: true, growth }),
    formula(
      'B5',
      `=PINSET.CONTROLCHART(${ofAlder('I')})`,
      ['percent', 'percent', 'percent', 'percent', 'text'],
      { headers: ['Efficiency', 'Centre', 'Lower limit', 'Upper limit', 'Rules broken'], growth },
    ),
    formula('G5', `=PINSET.OUTLIERS(${ofAlder('I')})`, ['number', 'text'], {
      headers: ['Score', 'Finding'],
      growth,
    }),
    controlChart(
      'J5:Q21',
      'Efficiency of Alder-3, lot by lot',
      'Efficiency of each lot of Alder-3 in the order they were loaded, about the centre, between limits.',
      'Efficiency',
      false,
    ),
    ...stems(lotsOf('Alder-3')),
  ],
  freeze: 'A5',
  prints: 'A:Q',
};
