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

export const audit: Sheet = {
  name: 'Audit',
  title: 'Audit',
  notes: [
    'What cannot be right, is unlikely, or wants a second look. Row counts from the header row of its table.',
  ],
  things: [
    figures(
      'A3',
      { label: 'Cannot be', formula: `=COUNTIF(J9:J${8 + ROWS}, "cannot be")`, reads: 'count' },
      { label: 'Unlikely', formula: `=COUNTIF(J9:J${8 + ROWS}, "unlikely")`, reads: 'count' },
      { label: 'Look again', formula: `=COUNTIF(J9:J${8 + ROWS}, "look again")`, reads: 'count' },
    ),
    formula(
      'A8',
      '=PINSET.YIELDAUDIT(Picks[#All], Lots[#All], Strains[#All], Limits[#All])',
      ['text', 'count', 'text', 'text', 'text', 'number', 'number', 'number', 'text', 'text'],
      { headed: true, growth: 20 },
    ),
    heading('L7', 'Limits'),
    table(
      'L8',
      'Limits',
      [column('Setting'), column('Value', 'number')],
      [
        ['deviations', 3],
        ['lowest efficiency', 0.1],
        ['highest efficiency', 2],
      ],
    ),
  ],
  highlights: [
    { range: 'J9:J60', when: '=$J9="cannot be"', tint: 'late' },
    { range: 'J9:J60', when: '=$J9="unlikely"', tint: 'soon' },
  ],
  widths: { E: 40, F: 14, G: 26, H: 12, I: 28 },
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
          `=IF(COUNTIFS(${found('A')}, [@Table], ${found('B')}, [@Row])>0, "found", "missed")`,
        ),
      ],
      plantedRows,
    ),
    figures(
      'I5',
      { label: 'Slips planted', formula: '=COUNTA(Planted[Slip])', reads: 'count' },
      { label: 'Found', formula: '=COUNTIF(Planted[Audit], "found")', reads: 'count' },
      { label: 'Findings', formula: `=COUNTIF(${found('J')}, "?*")`, reads: 'count' },
    ),
    remark('I9', 'A finding that is no planted slip may be its echo, or an alarm without cause.'),
  ],
  freeze: 'A6',
};
