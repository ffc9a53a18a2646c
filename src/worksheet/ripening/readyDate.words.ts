import type { Words } from '../words';
import {
  CALENDAR,
  commonFaults,
  exampleResponses,
  exampleStrains,
  ROSSO,
  temperatureFaults,
} from './examples';

export const words: Words = {
  summary: 'Date on which each lot is ready to open: its inoculation plus its strain’s days.',
  notes: [
    'Looks the strain up in your strains table and adds its days. A lot without an inoculation date reads blank.',
    'One call over the whole column of lots is faster than a call in every row.',
    'With a room temperature, the days are divided by how much faster the strain grows there than at observed at (see GROWTHRATE).',
    'That blocks ripen in step with the growth of mycelium is an assumption. It is best near the temperature the days were seen at. ' +
      'A core warmer than its room, as in a heap of fresh blocks, ripens at the temperature of the core.',
  ],
  sources: [CALENDAR, ROSSO],
  questions: [
    'when is a lot ready',
    'when can I open the blocks or bags',
    'how long to incubate',
    'colonised by when',
  ],
  examples: [
    {
      title: 'A lot inoculated on 2 February 2026 that is best after 77 days is ready on 20 April',
      arguments: [46055, 'Alder-3', exampleStrains],
      gives: 46132,
    },
    {
      title: 'A column of lots, one without a date, at the earliest',
      arguments: [
        [[46055], [null], [46060]],
        [['Alder-3'], ['Birch-1'], ['birch-1 ']],
        exampleStrains,
        'earliest',
      ],
      gives: [[46118], [''], [46072]],
    },
    {
      title:
        'Seen to take 77 days at 20 °C; at 25 °C, where growth is 1 against 0.8125, 62.5625 days, at 15 °C, 0.45, 139.03',
      arguments: [[[46055], [46055]], 'Alder-3', exampleResponses, 'best', [[25], [15]]],
      gives: [[46055 + 77 * 0.8125], [46055 + (77 * 0.8125) / 0.45]],
    },
  ],
  faults: [
    ...commonFaults,
    {
      arguments: [46054, 'Alder-3', exampleStrains, 'soonest'],
      code: '#VALUE!',
      says: 'point must be one of earliest, best, latest; it is "soonest"',
      remedy: 'Write earliest, best or latest.',
    },
    {
      arguments: [46054, 'Alder-3', [['strain', 'best'], ['Alder-3', 77]], 'latest'], // prettier-ignore
      code: '#N/A',
      says: 'strain: "latest" in strains is blank',
      remedy: 'Fill in that column of the strains table for this strain.',
    },
    ...temperatureFaults('best'),
    {
      arguments: [46055, 'Alder-3', exampleResponses, 'best', 5.001],
      code: '#N/A',
      says: 'temperature: at these temperatures the lot is not ready before the year 10000',
      remedy: 'The room is barely above the strain’s min temp: correct the temperature or the strains table.',
    },
  ],
};
