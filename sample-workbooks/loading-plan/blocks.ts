import { column, formula, heading, table, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

export const blocks: Sheet = {
  name: 'Blocks',
  title: 'Blocks: what becomes of each lot',
  notes: [
    'First what the plan makes of each lot. On the right the lots that wait,',
    'and what is on the shelves already and is picked as the weeks pass.',
  ],
  things: [
    heading('A5', 'What becomes of them'),
    formula('A6', view('lots'), ['text', 'text', 'count', 'count', 'count', 'count', 'date'], {
      headed: true,
      growth: 12,
    }),
    heading('I5', 'Lots waiting'),
    table(
      'I6',
      'Lots',
      [
        column('Lot'),
        column('Strain', 'text', 'Strains[Strain]'),
        column('Blocks', 'count'),
        column('Block mass (kg)', 'mass'),
        column('Moisture', { code: '0%' }),
        column('Inoculated', 'date'),
        column('Product'),
        column('Not before', 'date'),
      ],
      [
        ['A-061', 'Alder-3', 72, 2.4, 0.6, '2026-01-26', 'shiitake', null],
        ['A-062', 'Alder-3', 84, 2.4, 0.6, '2026-02-05', 'shiitake', null],
        ['A-063', 'Alder-3', 96, 2.4, 0.6, '2026-02-16', 'shiitake', null],
        ['A-064', 'Alder-3', 96, 2.4, 0.6, '2026-02-26', 'shiitake', null],
        ['A-065', 'Alder-3', 84, 2.4, 0.6, '2026-03-09', 'shiitake', null],
        ['H-021', 'Hazel-6', 48, 2.4, 0.59, '2026-02-18', 'shiitake', null],
        ['H-022', 'Hazel-6', 60, 2.4, 0.59, '2026-03-03', 'shiitake', null],
        ['H-023', 'Hazel-6', 60, 2.4, 0.59, '2026-03-17', 'shiitake', '2026-05-18'],
        ['B-107', 'Birch-1', 36, 3.2, 0.63, '2026-04-15', 'oyster', null],
        ['B-108', 'Birch-1', 40, 3.2, 0.63, '2026-04-22', 'oyster', null],
        ['B-109', 'Birch-1', 40, 3.2, 0.63, '2026-04-29', 'oyster', null],
        ['B-110', 'Birch-1', 40, 3.2, 0.63, '2026-05-06', 'oyster', null],
        ['B-111', 'Birch-1', 40, 3.2, 0.63, '2026-05-13', 'oyster', null],
      ],
    ),
    heading('R5', 'On the shelves now'),
    table(
      'R6',
      'Standing',
      [
        column('Loaded', 'date'),
        column('Room', 'text', 'Rooms[Room]'),
        column('Strain', 'text', 'Strains[Strain]'),
        column('Blocks', 'count'),
        column('Block mass (kg)', 'mass'),
        column('Moisture', { code: '0%' }),
        column('Product'),
      ],
      [
        ['2026-04-07', 'North', 'Alder-3', 72, 2.4, 0.6, 'shiitake'],
        ['2026-04-10', 'South', 'Hazel-6', 48, 2.4, 0.59, 'shiitake'],
        ['2026-04-15', 'North', 'Alder-3', 84, 2.4, 0.6, 'shiitake'],
        ['2026-04-20', 'South', 'Alder-3', 60, 2.4, 0.6, 'shiitake'],
        ['2026-04-24', 'Vault', 'Birch-1', 36, 3.2, 0.63, 'oyster'],
        ['2026-04-27', 'North', 'Alder-3', 66, 2.4, 0.6, 'shiitake'],
        ['2026-05-01', 'Vault', 'Birch-1', 30, 3.2, 0.63, 'oyster'],
      ],
    ),
  ],
  highlights: [{ range: 'F7:F31', when: '=$F7>0', tint: 'late' }],
  freeze: 'A7',
  prints: 'A:G',
};
