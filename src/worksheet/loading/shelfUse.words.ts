import type { Words } from '../words';
import { exampleCrops, exampleRooms } from './examples';

const LOAD_HEADER = ['loaded', 'room', 'strain', 'blocks'];

export const words: Words = {
  summary: 'Blocks on the shelves and places free, per day and room; over-full and shut rooms are flagged.',
  notes: [
    'A load takes its places from the day it is loaded to the day of its strain’s last pick, that day included. ' +
      'Places are shelves × blocks per shelf.',
    'Name a room to see that room alone, as a chart needs it.',
    'Where a room is over-full, or holds blocks while it is shut, free is below 0 and the note says by how many.',
  ],
  sources: ['Counting the blocks that are in a room'],
  questions: ['is the room full', 'free shelf space', 'room for more blocks', 'over-full room'],
  examples: [
    {
      title:
        '65 blocks of a strain that takes its places for eight days, in a room of 60 places that is shut on two of them',
      arguments: [
        [LOAD_HEADER, [46148, 'South', 'Birch-1', 65]],
        exampleRooms.filter(([room]) => room !== 'North'),
        exampleCrops,
        46149,
        46152,
      ],
      gives: [
        ['date', 'room', 'blocks', 'places', 'free', 'note'],
        [46149, 'South', 65, 60, -5, 'over-full by 5 blocks'],
        [46150, 'South', 65, 0, -65, 'shut with 65 blocks inside'],
        [46151, 'South', 65, 0, -65, 'shut with 65 blocks inside'],
        [46152, 'South', 65, 60, -5, 'over-full by 5 blocks'],
      ],
    },
    {
      title: 'One room of two',
      arguments: [
        [LOAD_HEADER, [46148, 'South', 'Birch-1', 65], [46148, 'North', 'Birch-1', 20]],
        exampleRooms,
        exampleCrops,
        46152,
        46152,
        'South',
      ],
      gives: [
        ['date', 'room', 'blocks', 'places', 'free', 'note'],
        [46152, 'South', 65, 60, -5, 'over-full by 5 blocks'],
      ],
    },
  ],
  faults: [
    {
      arguments: [[LOAD_HEADER, [46148, 'East', 'Birch-1', 65]], exampleRooms, exampleCrops],
      code: '#N/A',
      says: 'room in loads: "East" is not in rooms (row 2 of loads)',
      remedy: 'Add the room to the rooms table, or correct its spelling.',
    },
  ],
};
