import type { FaultExample } from '../words';

// Tables, sources and faults that the words of several functions of the family share. The farm in them is invented.

export const CALENDAR = 'Calendar arithmetic on the days in your own strains table';

export const ROSSO =
  'Rosso, L., Lobry, J. R., Flandrois, J.-P. (1993) Journal of Theoretical Biology 162:447–463: cardinal temperature ' +
  'model with inflection';

export const exampleStrains = [
  ['strain', 'earliest', 'best', 'latest'],
  ['Alder-3', 63, 77, 98],
  ['Birch-1', 12, 16, 24],
];

export const exampleResponses = [
  ['strain', 'earliest', 'best', 'latest', 'observed at', 'min temp', 'best temp', 'max temp'],
  ['Alder-3', 63, 77, 98, 20, 5, 25, 33],
  ['Birch-1', 12, 16, 24, null, null, null, null],
];

export const commonFaults: readonly FaultExample[] = [
  {
    arguments: [46054, 'Hazel-9', exampleStrains],
    code: '#N/A',
    says: 'strain: "Hazel-9" is not in strains',
    remedy: 'Add the strain to the strains table, or correct its spelling in the lot.',
  },
  {
    arguments: ['2026-02-02', 'Alder-3', exampleStrains],
    code: '#VALUE!',
    says: 'inoculated must be a date; it is "2026-02-02" – it is text: type it again so that the sheet takes it as a date',
    remedy: 'The date was typed or pasted as text: type it again.',
  },
  {
    arguments: [
      46054,
      'Alder-3',
      [
        ['strain', 'earliest'],
        ['Birch-1', 12],
        ['Alder-3', 'nine weeks'],
      ],
    ],
    code: '#VALUE!',
    says: 'earliest in strains must be a number of days above 0; it is "nine weeks" (row 3 of strains)',
    remedy: 'Correct the row of the strains table that is named.',
  },
];

/** For a call with a temperature; `between` are the arguments between the strains table and it. */
export const temperatureFaults = (...between: string[]): readonly FaultExample[] => [
  {
    arguments: [46055, 'Birch-1', exampleResponses, ...between, 22],
    code: '#N/A',
    says: 'strain: "observed at" in strains is blank or 0; for 0 degrees write 0.01',
    remedy:
      'Fill in observed at, min temp, best temp and max temp of the strain, or leave the temperature out.',
  },
  {
    arguments: [46055, 'Alder-3', exampleResponses, ...between, 34],
    code: '#N/A',
    says: 'temperature: the strain does not grow at or beyond its min temp and max temp',
    remedy:
      'Such a room never ripens the lot: correct the temperature, or the strain’s min temp and max temp.',
  },
];
