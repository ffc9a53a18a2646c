import type { Words } from '../words';
import { exampleLots, examplePicks, unknownLot, unknownPick } from './examples';

export const words: Words = {
  summary:
    'What your records say of each strain: efficiency with its interval, flush shares, days to first pick.',
  notes: [
    'The result has the shape of the strains table: copy it back there as values.',
    'Each lot counts once. Efficiency is the mean over lots with its confidence interval, which needs two lots. ' +
      'First pick, pick days and flush gap are medians. Flush shares are by mass, over lots whose every pick has its flush.',
    '“differs from” names the strains whose mean differs by the method of Games and Howell at the same confidence. ' +
      'None named does not prove that strains are equal.',
    'Yield spread and pick spread say how far lots differ from one another; LOADPLAN can plan for it. A crop that failed ' +
      'widens the yield spread.',
    'A crop that failed counts as 0 where harvests have a row for it with the mass none. Lots not picked are counted apart ' +
      'and not averaged in. Lots still cropping pull the efficiency down.',
    'A lot that cannot be read or found is left out. A line at the end names it and counts its rows of harvests; the ' +
      'reason is under “differs from”.',
  ],
  sources: [
    'NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2: confidence limits for the mean',
    'Games, P. A., Howell, J. F. (1976) Journal of Educational Statistics 1:113–125',
  ],
  questions: ['which strain is best', 'strain averages', 'compare strains from records'],
  examples: [
    {
      title:
        'Efficiencies 100% and 80%: t with one degree of freedom is 12.7062, ± 127%; flushes 19 and 7 of 26 kg',
      arguments: [examplePicks, exampleLots],
      gives: [
        [
          'strain',
          'lots',
          'not picked',
          'efficiency',
          'from',
          'to',
          'first pick',
          'pick days',
          'flush gap',
          'flushes',
          'flush 1',
          'flush 2',
          'differs from',
          'yield spread',
          'pick spread',
        ],
        [
          'Alder-3',
          2,
          0,
          0.9,
          0.9 - 0.1 * Math.tan(0.475 * Math.PI),
          0.9 + 0.1 * Math.tan(0.475 * Math.PI),
          7.5,
          2,
          18.5,
          2,
          19 / 26,
          7 / 26,
          'none shown',
          (0.1 * Math.SQRT2) / 0.9,
          Math.SQRT1_2,
        ],
        ['Birch-1', 0, 1, '', '', '', '', '', '', '', '', '', '', '', ''],
      ],
    },
  ],
  faults: [
    {
      arguments: [examplePicks.slice(0, 3), exampleLots],
      code: '#N/A',
      says: 'lots must hold at least 2 picked lots of Alder-3; there is 1',
      remedy: 'The interval appears once a second lot of the strain is picked.',
    },
    { arguments: [unknownPick, exampleLots], ...unknownLot },
    {
      arguments: [examplePicks, [...exampleLots, ['C-301', 'Birch-1', 10, 2.5, 62, 46020]]],
      code: '#VALUE!',
      says: 'moisture in lots must be',
      remedy: 'Write the moisture as a share: 62% or 0.62.',
    },
  ],
};
