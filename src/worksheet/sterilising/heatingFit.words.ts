import type { Words } from '../words';
import { CONVENTIONS, CORE, LOG_NOTES, NO_PROOF, VESSEL } from './examples';

export const words: Words = {
  summary:
    'How a core follows the steam: heating rate f, lag factor j and lag, from the straight part of its curve.',
  notes: [
    'The gap between medium and core shrinks to a tenth every f minutes once the core has come out of its lag.',
    'j is the gap at which that line starts, over the gap at the first reading. The lag is f × log10(j).',
    'Start the log when the medium is at its temperature. Readings near the medium and after the hottest are left out.',
    'Lethality is that of the fitted line up to the hottest reading, and of the readings from there to the last as hot. Cooling is not counted.',
    'The straight part is told in the minutes of the log; with dates and times of day, in minutes from the first reading.',
    CONVENTIONS,
    ...LOG_NOTES,
  ],
  cautions: [CORE, NO_PROOF, VESSEL],
  sources: [
    'Ball, C. O. (1923) Thermal process time for canned food. Bull. Natl. Res. Counc. 7(37)',
    'Stoforos, N. G. (2010) Food Eng. Rev. 2:1–16',
  ],
  questions: ['how fast does the core heat', 'heating up time', 'come-up time', 'lag of the core'],
  examples: [
    {
      // The gap 100, 100, 50, 25, 12.5, 6.25, 3.125 °C halves every 10 minutes after a lag of 10 minutes:
      // f = 10 / log10(2), j = 2. Lethal rates are 10^(−gap / 10) at a reference that is the medium; the integral
      // over halvings, (10 / ln 2) × [E1(a / 64) − E1(a)] with a = 20 ln 10, is 5.19683 by a numerical integral as well.
      title: 'A gap that halves every 10 minutes after a lag of 10 minutes',
      arguments: [
        [[0], [10], [20], [30], [40], [50], [60]],
        [[20], [20], [70], [95], [107.5], [113.75], [116.875]],
        120,
        10,
        120,
      ],
      gives: [
        [
          'heating rate f (minutes)',
          'lag factor j',
          'lag (minutes)',
          'r squared',
          'straight from (minute)',
          'straight to (minute)',
          'lethality (minutes)',
        ],
        [10 / Math.log10(2), 2, 10, 1, 10, 60, 5.1968326622389],
      ],
    },
  ],
  faults: [
    {
      arguments: [[[0], [10], [20], [30], [40], [50]], [[20], [25], [30], [35], [40], [45]], 121],
      code: '#N/A',
      says: 'temperatures have no straight part: the core closes only 24.75% of its gap to the medium; a fit needs 68.38%',
      remedy: 'Log until the core is near the temperature of the medium.',
    },
    {
      arguments: [[[0], [10], [20], [30], [40], [50]], [[20], [40], [60], [80], [100], [115]], 121],
      code: '#N/A',
      says: 'temperatures have no straight part: the slope of log(medium − core) changes by',
      remedy: 'Check that the medium held one temperature and that the probe sat in the core.',
    },
    {
      arguments: [[[0], [10], [20]], [[20], [100], [110]], 121],
      code: '#N/A',
      says: 'temperatures must hold at least 5 readings on the way to the medium; there are 3',
      remedy: 'Log more often.',
    },
    {
      arguments: [[[0], [10], [20]], [[60], [100], [110]], 50],
      code: '#VALUE!',
      says: 'medium must be above 60 °C, the first reading; it is 50 °C',
      remedy: 'Give the temperature of the steam around the block.',
    },
  ],
};
