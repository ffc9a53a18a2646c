import type { Words } from '../words';
import {
  AIR,
  BALL_OLSON,
  BIGELOW,
  COME_UP_LETHALITY,
  CONVENTIONS,
  CORE,
  logFaults,
  LOG_NOTES,
  NO_PROOF,
  VESSEL,
} from './examples';

export const words: Words = {
  summary: 'Running total of equivalent minutes beside each reading of a core temperature logger.',
  notes: [
    'The last figure is what LETHALITY gives. A bad reading gives an error in its row and in all rows after it.',
    CONVENTIONS,
    ...LOG_NOTES,
  ],
  cautions: [CORE, NO_PROOF, AIR, VESSEL],
  sources: [BIGELOW, BALL_OLSON],
  questions: ['when in the run was it sterile', 'sterilising minute by minute', 'chart of the run'],
  examples: [
    {
      title: 'Come-up in 5 minutes, then 15 minutes at 121.1 °C',
      arguments: [
        [[0], [5], [20], [null]],
        [[100], [121.1], [121.1], [null]],
      ],
      gives: [[0], [COME_UP_LETHALITY], [COME_UP_LETHALITY + 15], ['']],
    },
  ],
  faults: logFaults,
};
