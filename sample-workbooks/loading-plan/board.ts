import { formula, remark, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

/** Above any number of blocks a number is a day. */
const BLOCKS_UNDER_DAYS = { code: '[>=30000]d\\ mmm;0' } as const;

export const board: Sheet = {
  name: 'Board',
  title: 'Rooms by day',
  notes: [],
  things: [
    // Over the days: what is over the columns that stay is cut off where these end.
    remark(
      'D1',
      'Above, the blocks on the shelves of each room; below, the places free: red where a room is full, yellow where less than a tenth is free.',
      'The tab Board of the pane draws the same plan, and loads can be moved there to see which rules they would break.',
    ),
    formula('A4', view('board'), ['text', 'text', 'count', BLOCKS_UNDER_DAYS], {
      growth: 6,
      widths: [10, 10, 7, ...new Array<number>(35).fill(6.5)],
    }),
  ],
  highlights: [
    { range: 'D5:AL40', when: '=D5="closed"', tint: 'quiet' },
    { range: 'D5:AL40', when: '=AND($A5="free",ISNUMBER(D5),D5<=0)', tint: 'late' },
    { range: 'D5:AL40', when: '=AND($A5="free",ISNUMBER(D5),D5<0.1*$C5)', tint: 'soon' },
    { range: 'D5:AL40', when: '=AND($A5="free",ISNUMBER(D5))', tint: 'good' },
  ],
  freeze: 'D5',
  prints: 'A:T',
};
