import type { Words } from '../words';
import { CORE, logFaults, LOG_NOTES, PASTEURISED, SCALDS } from './examples';

/** A steamer that ran dry and was filled again: the line crosses 95 °C at 15, 45 and 75 minutes. */
const twoSpells = [
  [[0], [30], [60], [90], [120]],
  [[90], [100], [90], [100], [100]],
] as const;

export const words: Words = {
  summary: 'Minutes a core was at or above a temperature, the longest spell without a break, and the peak.',
  notes: [
    'Between two readings the temperature runs straight, so a crossing lies where that line meets the threshold.',
    'Nothing counts before the first reading or after the last. A spell ends where the line falls below the threshold.',
    'The peak is the hottest reading, in the degrees of the log. The core may have been hotter between two readings.',
    ...LOG_NOTES,
  ],
  cautions: [PASTEURISED, CORE, SCALDS],
  sources: [
    'Definition: the time for which the straight line between readings is at or above the threshold',
    'Which temperature to hold, and for how many minutes: common practice, no source',
  ],
  questions: ['minutes above a temperature', 'steamer log', 'pasteurising', 'hottest core temperature'],
  examples: [
    {
      // 95 °C is met 15/16 of the way from 80 to 96 °C and 3/28 of the way from 98 to 70 °C: at 116.25 and 186.43 min.
      title: 'A steamer that holds its core above 95 °C for 70 minutes',
      arguments: [[[0], [60], [120], [180], [240]], [[20], [80], [96], [98], [70]], 95],
      gives: [[180 + 60 * (3 / 28) - 116.25, 180 + 60 * (3 / 28) - 116.25, 98]],
    },
    {
      title: 'A steamer that ran dry: two spells, of 30 and 45 minutes',
      arguments: [...twoSpells, 95],
      gives: [[75, 45, 100]],
    },
    {
      title: 'The same in °F, with dates and times of day',
      arguments: [
        twoSpells[0].map(([minute]) => [46000.25 + minute / 1440]),
        twoSpells[1].map(([core]) => [core * 1.8 + 32]),
        203,
        'F',
        'dates',
      ],
      gives: [[75, 45, 212]],
      // A serial of today holds the minute to some seven digits.
      digits: 6,
    },
  ],
  faults: [
    ...logFaults.map((fault) => ({ ...fault, arguments: [...fault.arguments, 95] })),
    {
      arguments: [...twoSpells, null],
      code: '#VALUE!',
      says: 'threshold must be a temperature; it is blank or 0',
      remedy: 'Give the temperature from which minutes count, in the degrees of the log.',
    },
    {
      arguments: [...twoSpells, 203],
      code: '#VALUE!',
      says: 'threshold must be from -40 to 160 °C; it is 203 °C',
      remedy: 'Give F as the unit where the log and the threshold are in °F.',
    },
  ],
};
