import { readyDate } from '../maths/ripening/readyDate';
import { column, keyColumn, optionalSetting, table } from './cells/arguments';
import { choice, serial, text } from './cells/kinds';
import { CalcError } from '../maths/shared/calcError';
import { defineFunction, resultColumn, row, value } from './define';
import { only, strainColumns } from './tables';

const ripeningStrains = table(
  'strains',
  only(strainColumns, 'strain', 'earliest', 'best', 'latest'),
  'table with strain and its days to ready: earliest, best, latest',
);

const inoculated = keyColumn('inoculated', serial(), 'date each lot was inoculated');
const strain = column('strain', text('strain'), 'strain of each lot, as in strains');

const exampleStrains = [
  ['strain', 'earliest', 'best', 'latest'],
  ['Alder-3', 63, 77, 98],
  ['Birch-1', 12, 16, 24],
];

const commonFaults = [
  {
    arguments: [46054, 'Hazel-9', exampleStrains],
    code: '#N/A' as const,
    says: 'strain: "Hazel-9" is not in strains',
    remedy: 'Add the strain to the strains table, or mend its spelling in the lot.',
  },
  {
    arguments: ['2026-02-02', 'Alder-3', exampleStrains],
    code: '#VALUE!' as const,
    says: 'it is text: retype it so that the sheet takes it as a date',
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
    code: '#VALUE!' as const,
    says: 'strains, earliest: a number above 0 days needed, got "nine weeks" (row 3)',
    remedy: 'Mend the row of the strains table that is named.',
  },
];

export const ripening = [
  defineFunction({
    name: 'READYDATE',
    family: 'ripening',
    summary: 'Date on which each lot is ready to open: its inoculation plus its strain’s days.',
    notes:
      'Looks the strain up in your strains table and adds its days. One call over the whole column of lots is quicker ' +
      'than a call in every row. A lot without an inoculation date reads blank.',
    arguments: [
      inoculated,
      strain,
      ripeningStrains,
      optionalSetting(
        'point',
        choice(['earliest', 'best', 'latest']),
        'best',
        'earliest, best or latest; best if left out',
      ),
    ],
    result: value('date ready', 'date'),
    sources: ['Calendar arithmetic on the days in your own strains table'],
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
    ],
    faults: [
      ...commonFaults,
      {
        arguments: [46054, 'Alder-3', exampleStrains, 'soonest'],
        code: '#VALUE!',
        says: 'point: one of earliest, best, latest needed, got "soonest"',
        remedy: 'Write earliest, best or latest.',
      },
      {
        arguments: [
          46054,
          'Alder-3',
          [
            ['strain', 'best'],
            ['Alder-3', 77],
          ],
          'latest',
        ],
        code: '#N/A',
        says: 'strain: no days under "latest" in strains',
        remedy: 'Fill in that column of the strains table for this strain.',
      },
    ],
    eachRow: (inoculatedSerial, strainName, strains, point) =>
      readyDate(inoculatedSerial, strains.find(strainName, 'strain'), point),
  }),

  defineFunction({
    name: 'READYWINDOW',
    family: 'ripening',
    summary: 'Earliest, best and latest date on which each lot may be opened, in three columns.',
    notes:
      'As READYDATE, all three points at once. A point with no days in the strains table faults on its own.',
    arguments: [inoculated, strain, ripeningStrains],
    result: row(
      resultColumn('earliest', 'date'),
      resultColumn('best', 'date'),
      resultColumn('latest', 'date'),
    ),
    sources: ['Calendar arithmetic on the days in your own strains table'],
    examples: [
      {
        title: 'A lot inoculated on 2 February 2026',
        arguments: [46055, 'Alder-3', exampleStrains],
        gives: [[46118, 46132, 46153]],
      },
    ],
    faults: commonFaults,
    eachRow: (inoculatedSerial, strainName, strains) => {
      const days = strains.find(strainName, 'strain');
      return (['earliest', 'best', 'latest'] as const).map((point) => {
        try {
          return readyDate(inoculatedSerial, days, point);
        } catch (fault) {
          if (fault instanceof CalcError) return fault;
          throw fault;
        }
      });
    },
  }),
];
