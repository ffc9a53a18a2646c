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
};

export const corrected: Sheet = {
  name: 'Corrected',
  title: 'Picks, corrected',
  notes: [
    'The same picks after the findings were settled. The flush is found from the dates and is right beside the table,',
    'so that a range over all four columns is a table with flushes.',
  ],
  things: [
    table(
      'A5',
      'Corrected',
      [column('Lot'), column('Date', 'date'), column('Mass (kg)', 'mass')],
      correctedRows,
    ),
    formula('D5', '=PINSET.FLUSHSPLIT(Corrected[#All], Lots[#All], Strains[#All])', 'count', {
      headed: true,
    }),
  ],
  freeze: 'A6',
};
