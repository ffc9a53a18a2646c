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
  summary: 'Earliest, best and latest date on which each lot may be opened, in three columns.',
  notes: [
    'Works as READYDATE does, for all three points at once. A point with no days in the strains table gives an error of its own.',
  ],
  sources: [CALENDAR, ROSSO],
  questions: ['too young or too old', 'past its best', 'how long can a lot wait', 'over age'],
  examples: [
    {
      title: 'A lot inoculated on 2 February 2026',
      arguments: [46055, 'Alder-3', exampleStrains],
      gives: [[46118, 46132, 46153]],
    },
    {
      title: 'The same in a room at 25 °C, where it grows 1 against 0.8125 at 20 °C',
      arguments: [46055, 'Alder-3', exampleResponses, 25],
      gives: [[46055 + 63 * 0.8125, 46055 + 77 * 0.8125, 46055 + 98 * 0.8125]],
    },
  ],
  faults: [
    ...commonFaults,
    {
      arguments: [46055, 'Alder-3', [['strain', 'earliest', 'best', 'latest'], ['Alder-3', 90, 70, 80]]], // prettier-ignore
      code: '#VALUE!',
      says: 'best in strains must be 90 days or more, which is earliest; it is 70 (row 2 of strains)',
      remedy: 'Give the days of the strain in order: earliest, best, latest.',
    },
    ...temperatureFaults(),
  ],
};
