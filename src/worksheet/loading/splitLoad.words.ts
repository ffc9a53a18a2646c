import type { Words } from '../words';
import { exampleCrops, unknownStrain } from './examples';

const HEADER = ['load', 'loaded', 'blocks', 'first pick', 'last pick'];

export const words: Words = {
  summary:
    'The fewest loads, and their dates, into which blocks are split so that no picking day passes a limit.',
  notes: [
    'A load can be no larger than the limit over what one block gives on its best day. ' +
      'The fewest loads are the blocks over that, rounded up, and they are as even as whole blocks allow.',
    'Each load goes in on the first day on which all picking stays within the limit, later flushes of earlier loads included.',
    'Without a first day, days are counted from the first load, day 0.',
    'Only these blocks are looked at. LOADPLAN also takes account of what is on the shelves already.',
  ],
  sources: ['A lower bound that is reached: the limit over a block’s largest day'],
  questions: ['too much to pick in a day', 'stagger the blocks', 'spread out the harvest', 'open in stages'],
  examples: [
    {
      title:
        'Birch-1 gives half its 0.45 kg on each of two days: 20 kg a day is 88 blocks, 200 blocks are three loads',
      arguments: [200, 0.45, 20, 'Birch-1', exampleCrops, 46146],
      gives: [
        HEADER,
        [1, 46146, 67, 46152, 46153],
        [2, 46148, 67, 46154, 46155],
        [3, 46150, 66, 46156, 46157],
      ],
    },
    {
      title: 'Without a first day',
      arguments: [60, 0.45, 20, 'Birch-1', exampleCrops],
      gives: [HEADER, [1, 0, 60, 6, 7]],
    },
  ],
  faults: [
    {
      arguments: [200, 0.45, 0.2, 'Birch-1', exampleCrops],
      code: '#VALUE!',
      says: 'daily limit must be 0.225 or more, what one block yields on its best day; it is 0.2',
      remedy: 'Raise the limit, or check that both masses are in one unit.',
    },
    unknownStrain('strain', [200, 0.45, 20, 'Hazel-9', exampleCrops]),
  ],
};
