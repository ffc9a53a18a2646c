import { calculatedColumn, column, formula, table, type Sheet } from '../../src/hosts/xlsx/describe';
import { pickRows } from './picks';

/** The lots of the picks: what was loaded since the winter. */
const cropLots = [...new Set(pickRows.map(([, lot]) => lot as string))].sort();

const ofLot = (columnName: string): string => `=INDEX(Lots[${columnName}], MATCH([@Lot], Lots[Lot], 0))`;
const ofStrain = (columnName: string): string =>
  `=INDEX(Strains[${columnName}], MATCH([@Strain], Strains[Strain], 0))`;

const growth = 20;
/** Its moisture in Lots is 62, not 62%. */
const faulty = 5 + cropLots.indexOf('D141');

export const crops: Sheet = {
  name: 'Crops',
  title: 'Crops: what each lot has given so far',
  notes: [
    'A lot still in its flushes will rise towards what is expected. D141 shows a fault on purpose: its moisture in Lots is 62, not 62%.',
  ],
  things: [
    formula('A5', '=Crops[Lot]', 'text', { headers: ['Lot'], spills: true, growth }),
    formula(
      'B5',
      '=PINSET.BIOEFFICIENCY(Crops[Picked (kg)], Crops[Block mass (kg)], Crops[Moisture], Crops[Blocks])',
      'percent',
      { headers: ['Efficiency so far'], growth },
    ),
    formula(
      'C5',
      '=PINSET.EXPECTEDYIELD(Crops[Blocks], Crops[Block mass (kg)], Crops[Moisture], Crops[Strain’s efficiency], Crops[Strain’s loss])',
      'mass',
      { headers: ['Expected (kg)'], growth },
    ),
    table(
      'E4',
      'Crops',
      [
        column('Lot', 'text', 'Lots[Lot]'),
        calculatedColumn('Strain', 'text', ofLot('Strain')),
        calculatedColumn('Blocks', 'count', ofLot('Blocks')),
        calculatedColumn('Block mass (kg)', 'mass', ofLot('Block mass (kg)')),
        calculatedColumn('Moisture', 'percent', ofLot('Moisture')),
        calculatedColumn('Strain’s efficiency', 'percent', ofStrain('Efficiency')),
        calculatedColumn('Strain’s loss', 'percent', ofStrain('Loss')),
        calculatedColumn('Picked (kg)', 'mass', '=SUMIFS(Picks[Mass (kg)], Picks[Lot], [@Lot])'),
      ],
      cropLots.map((lot) => [lot]),
    ),
  ],
  faults: [{ cells: `B${faulty}:C${faulty}`, code: '#VALUE!', says: 'write 62% or 0.62' }],
  freeze: 'A5',
  upright: true,
};
