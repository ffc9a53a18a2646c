import { column, formula, table, type Sheet } from '../../src/hosts/xlsx/describe';
import { correctedRows, pickRows } from './records';

export const picks: Sheet = {
  name: 'Picks',
  title: 'Picks as typed',
  notes: ['Every weighing of the quarter as it was typed, slips included: see Audit and Planted.'],
  things: [
    table(
      'A5',
      'Picks',
      [
        column('Lot'),
        column('Date', 'date'),
        column('Mass (kg)', 'mass'),
        column('Flush', 'count'),
        column('Blocks', 'count'),
      ],
      pickRows,
    ),
  ],
  freeze: 'A6',
  upright: true,
};

export const corrected: Sheet = {
  name: 'Corrected',
  title: 'Picks, corrected: the flush of each',
  notes: [
    'The same picks after the findings were settled. The flush is found from the dates and is right beside the table,',
    'so that a range over all four columns is a table with flushes.',
  ],
  things: [
    formula('A5', '=PINSET.FLUSHSPLIT(Corrected[#All], Lots[#All], Strains[#All])', 'count', {
      headed: true,
      growth: 40,
    }),
    table(
      'B5',
      'Corrected',
      [column('Lot'), column('Date', 'date'), column('Mass (kg)', 'mass')],
      correctedRows,
    ),
  ],
  freeze: 'A6',
  upright: true,
};
