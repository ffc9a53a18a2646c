import type { Words } from '../words';
import { exampleResponses, ROSSO } from './examples';

export const words: Words = {
  summary: 'How far a lot has ripened by a temperature logger’s readings, and when it is ready.',
  notes: [
    'Gives four columns: progress, date ready, hours without readings, and where they are missing.',
    'Each day counts as the growth rate at the logged temperature over the growth rate at observed at. The lot is ready when these add up to the strain’s days under best.',
    'The rate is summed along straight lines between readings, so the logger’s step does not matter. A straight line also bridges gaps over 6 hours.',
    'Time before the first reading counts at the mean rate of the first seven days of readings. Time after the last, and the rest of the run, counts at the mean rate of the last seven.',
    'Readings and strains table are in one unit. A blank or 0 among the temperatures is refused: delete the row, or write 0.01 for 0 degrees.',
    'Put the probe among the blocks: their core is what ripens.',
  ],
  sources: [ROSSO, 'Rate summation: progress is the integral of the rate over time'],
  questions: ['ready by the room’s temperature', 'data logger', 'cold room slowed ripening'],
  examples: [
    {
      title: 'Eleven days at 20 °C, where the strain’s 77 days were seen: a seventh of the way',
      arguments: [46055, 'Alder-3', exampleResponses, [[46055], [46060.2], [46066]], [[20], [20], [20]]],
      gives: [[11 / 77, 46132, 264, '2 gaps over 6 h']],
    },
    {
      title: 'Half a day at 77 °F from a logger started a quarter of a day late, with a strains table in °F',
      arguments: [
        46055,
        'Alder-3',
        [
          ['strain', 'best', 'observed at (°F)', 'min temp (°F)', 'best temp (°F)', 'max temp (°F)'],
          ['Alder-3', 77, 68, 41, 77, 91.4],
        ],
        [[46055.25], [46055.375], [46055.5]],
        [[77], [77], [77]],
        null,
        'F',
      ],
      gives: [[0.5 / 0.8125 / 77, 46055 + 77 * 0.8125, 6, '6 h before the first']],
    },
  ],
  faults: [
    {
      arguments: [46055, 'Alder-3', exampleResponses, [[46056], [46057], [46056.5]], 20],
      code: '#VALUE!',
      says: 'times must rise from row to row; 2026-02-03 12:00 comes after 2026-02-04 00:00 (row 3 of the column)',
      remedy: 'Sort the log by time. Where clocks went back, shift the readings of the repeated hour.',
    },
    {
      arguments: [46055, 'Alder-3', exampleResponses, [[46040], [46050]], 20],
      code: '#N/A',
      says: 'times: there is no reading after inoculated (2026-02-02)',
      remedy: 'Take the log of the room the lot was in, or correct the date of inoculation.',
    },
    {
      arguments: [46055, 'Birch-1', exampleResponses, [[46055], [46066]], 20],
      code: '#N/A',
      says: 'strain: "observed at" in strains is blank or 0; for 0 degrees write 0.01',
      remedy: 'Fill in observed at, min temp, best temp and max temp of the strain.',
    },
    {
      arguments: [46055, 'Alder-3', exampleResponses, [[46055], [46066]], 4],
      code: '#N/A',
      says: 'temperatures: the strain did not grow in the last 7 days of readings',
      remedy:
        'The room is too cold or too hot for the strain. If they are in °F, give the unit F and a strains table in °F.',
    },
    {
      arguments: [
        46055,
        'Alder-3',
        [
          ['strain', 'best', 'observed at', 'min temp', 'best temp', 'max temp'],
          ['Alder-3', 77, 68, 41, 77, 91.4],
        ],
        [[46055], [46066]],
        68,
      ],
      code: '#VALUE!',
      says: 'best temp in strains must be from 5 to 60 °C; it is 77 °C (row 2 of strains)',
      remedy: 'Give the unit F where readings and strains table are in °F, or correct the temperature.',
    },
    {
      arguments: [
        46055,
        'Alder-3',
        [
          ['strain', 'best', 'observed at (°F)', 'min temp (°F)', 'best temp (°F)', 'max temp (°F)'],
          ['Alder-3', 77, 68, 41, 77, 91.4],
        ],
        [[46055], [46066]],
        20,
      ],
      code: '#VALUE!',
      says: 'observed at in strains is in °F, but unit is in °C: use one unit in a call',
      remedy: 'Give the unit F, with the readings in °F too, or a strains table in °C.',
    },
    {
      arguments: [46055, 'Alder-3', exampleResponses, [[46055], [46060], [46066]], [[20], [null], [20]]],
      code: '#VALUE!',
      says: 'for 0 degrees write 0.01 (row 2 of the column)',
      remedy: 'Delete a row without a reading, or write 0.01 for 0 degrees.',
    },
  ],
};
