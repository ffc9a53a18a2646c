import { column, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const stages: Sheet = {
  name: 'Stages',
  title: 'Stages of each strain',
  notes: [
    'By days from inoculation: each stage lasts until the next begins. Ripening looks them up here. Invented.',
  ],
  things: [
    table(
      'A4',
      'Stages',
      [column('Strain', 'text', 'Strains[Strain]'), column('Stage'), column('From day', 'count')],
      [
        ['Alder-3', 'spawn run', 0],
        ['Alder-3', 'browning', 35],
        ['Alder-3', 'ready', 70],
        ['Alder-3', 'over age', 106],
        ['Hazel-6', 'spawn run', 0],
        ['Hazel-6', 'browning', 30],
        ['Hazel-6', 'ready', 60],
        ['Hazel-6', 'over age', 91],
        ['Birch-1', 'spawn run', 0],
        ['Birch-1', 'ready', 14],
        ['Birch-1', 'over age', 26],
        ['Willow-4', 'spawn run', 0],
        ['Willow-4', 'ready', 28],
        ['Willow-4', 'over age', 46],
        ['Rowan-2', 'spawn run', 0],
        ['Rowan-2', 'ready', 18],
        ['Rowan-2', 'over age', 31],
        ['Maple-5', 'spawn run', 0],
        ['Maple-5', 'ready', 45],
        ['Maple-5', 'over age', 71],
      ],
    ),
  ],
  freeze: 'A5',
  upright: true,
};
