import { formula, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

/** Above any number of blocks a number is a day. */
const BLOCKS_UNDER_DAYS = { code: '[>=30000]d\\ mmm;0' } as const;

export const board: Sheet = {
  name: 'Board',
  title: 'The rooms, day by day',
  notes: [
    'Above, the blocks on the shelves of each room; below, the places free: red where a room is full, yellow where less than a tenth is free.',
    'The tab Board of the pane draws the same plan, and loads can be moved there to see which rules they would break.',
  ],
  things: [
    formula('A5', view('board'), ['text', 'text', 'count', BLOCKS_UNDER_DAYS], {
      growth: 6,
      widths: [10, 10, 7, ...new Array<number>(35).fill(6.5)],
    }),
  ],
  highlights: [
    { range: 'D6:AL40', when: '=D6="closed"', tint: 'quiet' },
    { range: 'D6:AL40', when: '=AND($A6="free",ISNUMBER(D6),D6<=0)', tint: 'late' },
    { range: 'D6:AL40', when: '=AND($A6="free",ISNUMBER(D6),D6<0.1*$C6)', tint: 'soon' },
    { range: 'D6:AL40', when: '=AND($A6="free",ISNUMBER(D6))', tint: 'good' },
  ],
  freeze: 'D6',
  prints: 'A:T',
};
