import {
  calculatedColumn,
  column,
  figures,
  formula,
  heading,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';
import { plantedRows } from './records';

const ROWS = 100;
const found = (columnLetter: string): string => `Audit!$${columnLetter}$5:$${columnLetter}$${4 + ROWS}`;

// Compared as text: not every program finds the text of a spilled result with COUNTIF.
const SURENESS = `${found('I')}&""`;
const counted = (words: string): string => `SUMPRODUCT(--(${SURENESS}="${words}"))`;

/** How many findings there are of each sureness. */
export const surenesses = [
  { label: 'Certain', formula: `=${counted('certain')}`, reads: 'count' },
  { label: 'Almost certain', formula: `=${counted('almost certain')}`, reads: 'count' },
  {
    label: 'Less sure',
    formula: `=SUMPRODUCT(--(RIGHT(${SURENESS}, 6)="likely")) + ${counted('look again')}`,
    reads: 'count',
  },
] as const;

export const audit: Sheet = {
  name: 'Audit',
  title: 'Audit: what cannot be right in the picks',
  notes: ['One line for one cause, the surest first. Row counts from the header row of its table.'],
  things: [
    formula(
      'A4',
      '=PINSET.YIELDAUDIT(Picks[#All], Lots[#All], Strains[#All], Limits[#All])',
      ['text', 'count', 'text', 'text', 'number', 'number', 'number', 'text', 'text', 'percent'],
      { headed: true, growth: 20 },
    ),
    heading('L4', 'Findings'),
    figures('L5', ...surenesses),
    table(
      'L9',
      'Limits',
      [column('Setting'), column('Value', 'number')],
      [
        ['sureness', 0.5],
        ['highest efficiency', 2],
      ],
    ),
  ],
  highlights: [
    { range: 'I5:I60', when: '=$I5="certain"', tint: 'late' },
    { range: 'I5:I60', when: '=$I5="almost certain"', tint: 'soon' },
  ],
  widths: { D: 40, E: 14, F: 26, G: 14, H: 32, I: 16 },
  freeze: 'A5',
  prints: 'A:J',
};

export const planted: Sheet = {
  name: 'Planted',
  title: 'Planted slips: how many the audit found',
  notes: [
    'Every slip planted in Picks and Lots, and whether the audit names its row.',
    'A finding that is no planted slip may be its echo, or an alarm without cause.',
  ],
  things: [
    figures(
      'A5',
      { label: 'Slips planted', formula: '=COUNTA(Planted[Slip])', reads: 'count' },
      { label: 'Found', formula: '=SUMPRODUCT(--(Planted[Audit]="found"))', reads: 'count' },
      { label: 'Findings', formula: `=COUNTIF(${found('I')}, "?*")`, reads: 'count' },
    ),
    table(
      'D5',
      'Planted',
      [
        column('Table'),
        column('Row', 'count'),
        column('Lot'),
        column('Slip'),
        column('As typed'),
        column('Truth'),
        calculatedColumn(
          'Audit',
          'text',
          `=IF(SUMPRODUCT((${found('A')}&""=[@Table])*(${found('B')}&""=[@Row]&""))>0, "found", "missed")`,
        ),
      ],
      plantedRows,
    ),
  ],
  freeze: 'A6',
};
