import type { Words } from '../words';
import {
  AIR,
  BALL_OLSON,
  BIGELOW,
  COME_UP_LETHALITY,
  CONVENTIONS,
  CORE,
  exampleCore,
  exampleTimes,
  logFaults,
  LOG_NOTES,
  NO_PROOF,
  VESSEL,
} from './examples';

export const words: Words = {
  summary: 'Equivalent minutes at the reference temperature, from the columns of a core temperature logger.',
  notes: [CONVENTIONS, ...LOG_NOTES],
  cautions: [CORE, NO_PROOF, AIR, VESSEL],
  sources: [BIGELOW, BALL_OLSON],
  questions: [
    'was a load sterilised long enough',
    'was it sterilised enough',
    'did the core get hot enough',
    'autoclave log',
    'sterilisation value',
  ],
  examples: [
    {
      title: '15 minutes at 111 °C are worth 1.5 minutes at 121 °C',
      arguments: [[[0], [15]], [[111], [111]], 10, 121],
      gives: 1.5,
    },
    {
      title: 'A come-up from 100 to 121.1 °C in 5 minutes',
      arguments: [exampleTimes, exampleCore],
      gives: COME_UP_LETHALITY,
    },
    {
      title: 'The same in °F and in 22.5 minutes, with dates and times of day',
      arguments: [[[46000.5], [46000.515625]], [[212], [249.98]], null, null, 'F', 'dates'],
      gives: (COME_UP_LETHALITY / 5) * 22.5,
    },
  ],
  faults: logFaults,
};
