import {
  calculatedColumn,
  column,
  figures,
  formula,
  heading,
  remark,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';
import { plantedRows } from './records';

const ROWS = 100;
const found = (columnLetter: string): string => `Audit!$${columnLetter}$9:$${columnLetter}$${8 + ROWS}`;

// Compared as text: not every program finds the text of a spilled result with COUNTIF.
const SURENESS = `I9:I${8 + ROWS}&""`;
const counted = (words: string): string => `SUMPRODUCT(--(${SURENESS}="${words}"))`;

export const audit: Sheet = {
  name: 'Audit',
  title: 'Audit',
  notes: ['One line for one cause, the surest first. Row counts from the header row of its table.'],
  things: [
    figures(
      'A3',
      { label: 'Certain', formula: `=${counted('certain')}`, reads: 'count' },
      { label: 'Almost certain', formula: `=${counted('almost certain')}`, reads: 'count' },
      {
        label: 'Less sure',
        formula: `=SUMPRODUCT(--(RIGHT(${SURENESS}, 6)="likely")) + ${counted('look again')}`,
        reads: 'count',
      },
    ),
    formula(
      'A8',
      '=PINSET.YIELDAUDIT(Picks[#All], Lots[#All], Strains[#All], Limits[#All])',
      ['text', 'count', 'text', 'text', 'number', 'number', 'number', 'text', 'text', 'percent'],
      { headed: true, growth: 20 },
    ),
    heading('L7', 'Limits'),
    table(
      'L8',
      'Limits',
      [column('Setting'), column('Value', 'number')],
      [
        ['sureness', 0.5],
        ['highest efficiency', 2],
      ],
    ),
  ],
  highlights: [
    { range: 'I9:I60', when: '=$I9="certain"', tint: 'late' },
    { range: 'I9:I60', when: '=$I9="almost certain"', tint: 'soon' },
  ],
  widths: { D: 40, E: 14, F: 26, G: 14, H: 32, I: 16 },
  freeze: 'A9',
};

export const planted: Sheet = {
  name: 'Planted',
  title: 'Planted slips',
  notes: ['Every slip planted in Picks and Lots, and whether the audit names its row.'],
  things: [
    table(
      'A5',
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
    figures(
      'I5',
      { label: 'Slips planted', formula: '=COUNTA(Planted[Slip])', reads: 'count' },
      { label: 'Found', formula: '=SUMPRODUCT(--(Planted[Audit]="found"))', reads: 'count' },
      { label: 'Findings', formula: `=COUNTIF(${found('I')}, "?*")`, reads: 'count' },
    ),
    remark('I9', 'A finding that is no planted slip may be its echo, or an alarm without cause.'),
  ],
  freeze: 'A6',
};
