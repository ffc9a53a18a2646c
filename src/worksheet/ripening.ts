import type { DaysBy } from '../maths/ripening/daysToReady';
import { growthRate } from '../maths/ripening/growthRate';
import { inoculateBy } from '../maths/ripening/inoculateBy';
import { readyDate } from '../maths/ripening/readyDate';
import { ripeCalendar, type RipeningLot } from '../maths/ripening/ripeCalendar';
import { ripeningProgress, type RipeningProgress } from '../maths/ripening/ripeningProgress';
import { ripeningSpeed, type TemperatureResponse } from '../maths/ripening/ripeningSpeed';
import { stageOn } from '../maths/ripening/stageOn';
import { strainWaits } from '../maths/ripening/strainWaits';
import { CalcError, missing } from '../maths/shared/calcError';
import { toCelsius } from '../maths/shared/temperature';
import {
  column,
  keyColumn,
  optionalColumn,
  optionalSetting,
  optionalTable,
  setting,
  table,
} from './cells/arguments';
import { choice, count, number, orBlank, serial, temperature, text } from './cells/kinds';
import { key, optional, type RowOf, type Table } from './cells/table';
import { defineFunction, resultColumn, row, tableResult, value, type Answer } from './define';
import { only, strainColumns } from './tables';

const ripeningStrains = table(
  'strains',
  only(
    strainColumns,
    'strain',
    'earliest',
    'best',
    'latest',
    'observed at',
    'min temp',
    'best temp',
    'max temp',
  ),
  'table: strain, earliest, best, latest (days); for temperature also observed at and min, best, max temp',
);

const loggedStrains = table(
  'strains',
  only(strainColumns, 'strain', 'best', 'observed at', 'min temp', 'best temp', 'max temp'),
  'table with strain, best (days), observed at, min temp, best temp and max temp',
);

const pickedStrains = table(
  'strains',
  only(strainColumns, 'strain', 'earliest', 'best', 'latest', 'first pick'),
  'table with strain, its days to ready (earliest, best, latest) and first pick',
);

const point = optionalSetting(
  'point',
  choice(['earliest', 'best', 'latest']),
  'best',
  'earliest, best or latest; best if left out',
);

const roomTemperature = optionalColumn(
  'temperature',
  temperature(),
  undefined,
  'room temperature, in the unit of the strains table; left out, the one the days were seen at',
);

const responseOf = (strainRow: {
  readonly 'observed at': number | undefined;
  readonly 'min temp': number | undefined;
  readonly 'best temp': number | undefined;
  readonly 'max temp': number | undefined;
}): TemperatureResponse => ({
  observedAt: strainRow['observed at'],
  min: strainRow['min temp'],
  best: strainRow['best temp'],
  max: strainRow['max temp'],
});

const speedAt = (room: number | undefined, strainRow: Parameters<typeof responseOf>[0]): number =>
  room === undefined ? 1 : ripeningSpeed(room, responseOf(strainRow));

const ROSSO =
  'Rosso, L., Lobry, J. R., Flandrois, J.-P. (1993) Journal of Theoretical Biology 162:447–463: cardinal temperature ' +
  'model with inflection';

const inoculated = keyColumn('inoculated', serial(), 'date each lot was inoculated');
const strain = column('strain', text('strain'), 'strain of each lot, as in strains');

const exampleStrains = [
  ['strain', 'earliest', 'best', 'latest'],
  ['Alder-3', 63, 77, 98],
  ['Birch-1', 12, 16, 24],
];

const exampleResponses = [
  ['strain', 'earliest', 'best', 'latest', 'observed at', 'min temp', 'best temp', 'max temp'],
  ['Alder-3', 63, 77, 98, 20, 5, 25, 33],
  ['Birch-1', 12, 16, 24, null, null, null, null],
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

const examplePicked = [
  ['strain', 'earliest', 'best', 'latest', 'first pick'],
  ['Alder-3', 63, 77, 98, 7],
  ['Birch-1', 12, 16, null, 6],
];

const exampleStages = [
  ['strain', 'stage', 'from day'],
  ['Alder-3', 'spawn run', 0],
  ['Alder-3', 'browning', 21],
  ['Alder-3', 'ready', 48],
];

const STATS_HEADER = [
  'strain',
  'lots',
  'waiting',
  ...['median', '10% ready', '90% ready'].flatMap((which) => [
    `${which} (days)`,
    `${which} from`,
    `${which} to`,
  ]),
];

const calendarLots = {
  lot: key(text('lot')),
  strain: text('strain'),
  blocks: count(0),
  inoculated: optional(serial()),
  earliest: optional(serial()),
  latest: optional(serial()),
  loaded: optional(serial()),
};

const exampleLots = [
  ['lot', 'strain', 'blocks', 'inoculated'],
  ['L-1', 'Alder-3', 40, 46055],
];

const CALENDAR_HEADER = ['date', 'strain', 'coming ready', 'loaded', 'going over age', 'in hand'];

/** For a call with a temperature; `between` are the arguments between the strains table and it. */
const temperatureFaults = [
  {
    arguments: (...between: string[]) => [46055, 'Birch-1', exampleResponses, ...between, 22],
    code: '#N/A' as const,
    says: 'strain: no "observed at" in strains',
    remedy:
      'Fill in observed at, min temp, best temp and max temp of the strain, or leave the temperature out.',
  },
  {
    arguments: (...between: string[]) => [46055, 'Alder-3', exampleResponses, ...between, 34],
    code: '#N/A' as const,
    says: 'temperature: the strain does not grow at or beyond its min temp and max temp',
    remedy: 'Such a room never ripens the lot: mend the temperature, or the strain’s min temp and max temp.',
  },
];

export const ripening = [
  defineFunction({
    name: 'READYDATE',
    family: 'ripening',
    summary: 'Date on which each lot is ready to open: its inoculation plus its strain’s days.',
    notes:
      'Looks the strain up in your strains table and adds its days. One call over the whole column of lots is quicker ' +
      'than a call in every row. A lot without an inoculation date reads blank. With a room temperature the days are ' +
      'divided by how much faster the strain grows there than at observed at (see GROWTHRATE). That blocks ripen in ' +
      'step with the growth of mycelium is an assumption, best near the temperature the days were seen at. A core ' +
      'warmer than its room, as a heap of fresh blocks is, ripens at the temperature of the core.',
    arguments: [inoculated, strain, ripeningStrains, point, roomTemperature],
    result: value('date ready', 'date'),
    sources: ['Calendar arithmetic on the days in your own strains table', ROSSO],
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
      ...temperatureFaults.map((fault) => ({ ...fault, arguments: fault.arguments('best') })),
    ],
    eachRow: (inoculatedSerial, strainName, strains, atPoint, room) => {
      const strainRow = strains.find(strainName, 'strain');
      return readyDate(inoculatedSerial, strainRow, atPoint, speedAt(room, strainRow));
    },
  }),

  defineFunction({
    name: 'READYWINDOW',
    family: 'ripening',
    summary: 'Earliest, best and latest date on which each lot may be opened, in three columns.',
    notes:
      'As READYDATE, all three points at once. A point with no days in the strains table faults on its own.',
    arguments: [inoculated, strain, ripeningStrains, roomTemperature],
    result: row(
      resultColumn('earliest', 'date'),
      resultColumn('best', 'date'),
      resultColumn('latest', 'date'),
    ),
    sources: ['Calendar arithmetic on the days in your own strains table', ROSSO],
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
      ...temperatureFaults.map((fault) => ({ ...fault, arguments: fault.arguments() })),
    ],
    eachRow: (inoculatedSerial, strainName, strains, room) => {
      const strainRow = strains.find(strainName, 'strain');
      const speed = speedAt(room, strainRow);
      return (['earliest', 'best', 'latest'] as const).map((each) => {
        try {
          return readyDate(inoculatedSerial, strainRow, each, speed);
        } catch (fault) {
          if (fault instanceof CalcError) return fault;
          throw fault;
        }
      });
    },
  }),

  defineFunction({
    name: 'INOCULATEBY',
    family: 'ripening',
    summary: 'Last day on which to inoculate for a first pick on a wanted date.',
    notes:
      'The wanted date, less the strain’s days from load to the first pick, less its days from inoculation to the point ' +
      'at which you open it; a part of a day counts as the whole. Weekdays are the sheet’s own WORKDAY.',
    arguments: [
      keyColumn('wanted', serial(), 'date of the first pick'),
      column('strain', text('strain'), 'strain to inoculate, as in strains'),
      pickedStrains,
      point,
    ],
    result: value('day to inoculate', 'date'),
    sources: ['Calendar arithmetic on the days in your own strains table'],
    examples: [
      {
        title: 'First pick on 27 April 2026, opened after 77 days and picked 7 days later: 2 February',
        arguments: [46139, 'Alder-3', examplePicked],
        gives: 46055,
      },
      {
        title: 'A column of wanted dates, opened at the earliest',
        arguments: [[[46125], [null]], [['Alder-3'], ['Birch-1']], examplePicked, 'earliest'],
        gives: [[46055], ['']],
      },
    ],
    faults: [
      {
        arguments: [46139, 'Hazel-9', examplePicked],
        code: '#N/A',
        says: 'strain: "Hazel-9" is not in strains',
        remedy: 'Add the strain to the strains table, or mend its spelling.',
      },
      {
        arguments: [46139, 'Alder-3', exampleStrains],
        code: '#VALUE!',
        says: 'strains: a column headed first pick needed, found strain, earliest, best, latest',
        remedy: 'Add a column first pick to the strains table: days from load to the first pick.',
      },
      {
        arguments: [46139, 'Birch-1', examplePicked, 'latest'],
        code: '#N/A',
        says: 'strain: no days under "latest" in strains',
        remedy: 'Fill in that column of the strains table for this strain.',
      },
    ],
    eachRow: (wantedSerial, strainName, strains, atPoint) => {
      const strainRow = strains.find(strainName, 'strain');
      return inoculateBy(wantedSerial, strainRow, atPoint, strainRow['first pick']);
    },
  }),

  defineFunction({
    name: 'STAGE',
    family: 'ripening',
    needsDateSystem: true,
    summary: 'Name of the stage each lot is in on a date, by your own table of stages.',
    notes:
      'The day of inoculation is day 0. Of the strain’s stages begun by the date, the one that began last. Put the date ' +
      'of today in a cell of its own and point to it.',
    arguments: [
      inoculated,
      column('on', serial(), 'the date asked about'),
      column('strain', text('strain'), 'strain of each lot, as in stages'),
      table(
        'stages',
        {
          strain: key(text('strain')),
          stage: text('stage'),
          'from day': number({ word: 'days', unit: 'days', from: 0 }),
        },
        'table with strain, stage and from day: the day it begins, counted from inoculation as day 0',
      ),
    ],
    result: value('stage'),
    sources: ['Calendar arithmetic on your own table of stages'],
    examples: [
      {
        title: 'Inoculated on 2 February 2026, on 1 March (day 27) and 22 March (day 48)',
        arguments: [[[46055], [46055]], [[46082], [46103]], 'Alder-3', exampleStages],
        gives: [['browning'], ['ready']],
      },
    ],
    faults: [
      {
        arguments: [46055, 46082, 'Birch-1', exampleStages],
        code: '#N/A',
        says: 'strain: "Birch-1" is not in stages',
        remedy: 'Add the stages of the strain to the table of stages.',
      },
      {
        arguments: [46055, 46054, 'Alder-3', exampleStages],
        code: '#VALUE!',
        says: 'on: a date from inoculated (2026-02-02) on needed, got 2026-02-01',
        remedy: 'The lot was not inoculated by that date: mend one of the two.',
      },
      {
        arguments: [46055, 46055, 'Alder-3', [...exampleStages.slice(0, 1), ...exampleStages.slice(2)]],
        code: '#N/A',
        says: 'stages: on day 0 no stage of this strain has begun; the first begins on day 21',
        remedy: 'Give the strain a stage from day 0.',
      },
      {
        arguments: [46055, 46082, 'Alder-3', [...exampleStages, ['Alder-3', 'resting', 21]]],
        code: '#VALUE!',
        says: 'stages: one stage from day 21 needed, got "browning" and "resting"',
        remedy: 'Two stages of a strain begin on the same day: mend or remove one.',
      },
    ],
    eachRow: (inoculatedSerial, onSerial, strainName, stages, { dateSystem }) =>
      stageOn(
        inoculatedSerial,
        onSerial,
        stages
          .findAll(strainName, 'strain')
          .map((each) => ({ stage: each.stage, fromDay: each['from day'] })),
        dateSystem,
      ),
  }),

  defineFunction({
    name: 'GROWTHRATE',
    family: 'ripening',
    summary: 'Growth rate of mycelium at a temperature, relative to its best temperature: 0 to 1.',
    notes:
      'The cardinal temperature model with inflection: 0 at and beyond min and max, 1 at best, slow to start above min. ' +
      'It describes how fast mycelium grows, not fruiting: many strains fruit only after a drop in temperature. The four ' +
      'temperatures may be in °C or °F as long as all are in one. Take min, best and max from your own trials or your ' +
      'culture’s supplier. Inside a block it is warmer than in the room.',
    arguments: [
      column('temperature', temperature('°C or °F'), 'temperature of the mycelium'),
      column('min', temperature('°C or °F'), 'temperature at and below which the strain does not grow'),
      column(
        'best',
        temperature('°C or °F'),
        'temperature at which it grows fastest: above the middle of min and max',
      ),
      column('max', temperature('°C or °F'), 'temperature at and above which it does not grow'),
    ],
    result: value('relative growth rate', 'percent'),
    sources: [ROSSO],
    examples: [
      {
        title: 'At 15 °C, with min 5, best 25 and max 33: (−18 × 100) / (20 × (−200 − 0))',
        arguments: [15, 5, 25, 33],
        gives: 0.45,
      },
      {
        title: 'At min, 20 °C, best and beyond max',
        arguments: [[[5], [20], [25], [40]], 5, 25, 33],
        gives: [[0], [0.8125], [1], [0]],
      },
    ],
    faults: [
      {
        arguments: [15, 5, 18, 33],
        code: '#VALUE!',
        says: 'best: more than the middle of min and max (19) needed, got 18',
        remedy: 'The model’s curve leans to the warm side: best must lie above the middle of min and max.',
      },
      {
        arguments: [15, 33, 25, 5],
        code: '#VALUE!',
        says: 'max: more than min (33) needed, got 5',
        remedy: 'Give the temperatures in the order min, best, max.',
      },
    ],
    eachRow: (at, min, best, max) => growthRate(at, { min, best, max }),
  }),

  defineFunction({
    name: 'READYFROMLOG',
    family: 'ripening',
    needsDateSystem: true,
    summary: 'How far a lot has ripened by a temperature logger’s readings, and when it is ready.',
    notes:
      'Four columns: progress, date ready, hours without readings, and where they lack. Each day counts as growth rate ' +
      'at the logged temperature over growth rate at observed at; the lot is ready when these add up to the strain’s days ' +
      'under best. The rate is integrated along straight lines between readings, so the logger’s step does not matter. ' +
      'Gaps over 6 hours are bridged by a straight line. Time before the first reading counts at the mean rate of the ' +
      'first seven days of readings; time after the last, and the rest of the run, at the mean of the last seven. ' +
      'A row with a blank or 0 temperature is no reading. Put the probe among the blocks: their core is what ripens.',
    arguments: [
      setting('inoculated', serial(), 'date the lot was inoculated'),
      setting('strain', text('strain'), 'strain of the lot, as in strains'),
      loggedStrains,
      keyColumn('times', serial(), 'date and time of each reading, ever later'),
      keyColumn('temperatures', temperature('°C or °F'), 'temperature read at each time'),
      optionalSetting(
        'as of',
        serial(),
        undefined,
        'date to reckon up to; that of the last reading if left out',
      ),
      optionalSetting(
        'unit',
        choice(['C', 'F']),
        'C',
        'unit of the readings, C or F; the strains table is in °C; C if left out',
      ),
    ],
    result: row(
      resultColumn('progress', 'percent'),
      resultColumn('date ready', 'date'),
      resultColumn('hours without readings'),
      resultColumn('where'),
    ),
    sources: [ROSSO, 'Rate summation: progress is the integral of the rate over time'],
    examples: [
      {
        title: 'Eleven days at 20 °C, where the strain’s 77 days were seen: a seventh of the way',
        arguments: [46055, 'Alder-3', exampleResponses, [[46055], [46060.2], [46066]], [[20], [20], [20]]],
        gives: [[11 / 77, 46132, 264, '2 gaps over 6 h']],
      },
      {
        title: 'Half a day at 77 °F (25 °C) from a logger started a quarter of a day late',
        arguments: [
          46055,
          'Alder-3',
          exampleResponses,
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
        says: 'times: a time later than the reading before (2026-02-04 00:00) needed, got 2026-02-03 12:00 (row 3)',
        remedy: 'Sort the log by time. Where clocks went back, shift the readings of the repeated hour.',
      },
      {
        arguments: [46055, 'Alder-3', exampleResponses, [[46040], [46050]], 20],
        code: '#N/A',
        says: 'times: no reading after inoculated',
        remedy: 'Take the log of the room the lot stood in, or mend the date of inoculation.',
      },
      {
        arguments: [46055, 'Birch-1', exampleResponses, [[46055], [46066]], 20],
        code: '#N/A',
        says: 'strain: no "observed at" in strains',
        remedy: 'Fill in observed at, min temp, best temp and max temp of the strain.',
      },
      {
        arguments: [46055, 'Alder-3', exampleResponses, [[46055], [46066]], 4],
        code: '#N/A',
        says: 'temperatures: the strain did not grow in the last seven days of readings',
        remedy:
          'The room is too cold or too hot for the strain; or the readings are in °F: then give the unit F.',
      },
    ],
    whole: (inoculatedSerial, strainName, strains, times, temperatures, asOf, unit, { dateSystem }) => {
      const strainRow = strains.find(strainName, 'strain');
      if (strainRow.best === undefined) throw missing('strain', 'no days under "best" in strains');
      const log = ripeningProgress(
        {
          inoculatedSerial,
          days: strainRow.best,
          response: responseOf(strainRow),
          timeSerials: times,
          temperatures: temperatures.map((read) => toCelsius(read, unit)),
          asOfSerial: asOf,
        },
        dateSystem,
      );
      const hours = Math.round((log.gapHours + log.hoursBefore + log.hoursAfter) * 100) / 100;
      return [log.progress, log.readySerial, hours, unlogged(log)];
    },
  }),

  defineFunction({
    name: 'READYSTATS',
    family: 'ripening',
    needsDateSystem: true,
    summary: 'Days each strain takes to be ready, from your own records; lots still waiting count.',
    notes:
      'Per strain: lots, lots still waiting on the date, and the days by which half, 10% and 90% of the lots are ready, ' +
      'each with a 95% interval (from, to). A lot still waiting tells that it takes longer than so far; leaving it out ' +
      'would make every strain look faster (Kaplan–Meier). "not reached" where too many lots still wait to tell; "open" for ' +
      'an end of an interval that the records do not reach. The interval rests on Greenwood’s variance on the ' +
      'log(−log) scale; with few lots it is wide, and should be. Lots inoculated on or after the date do not count yet, ' +
      'and one ready after it counts as waiting.',
    arguments: [
      keyColumn('strain', text('strain'), 'strain of each lot'),
      keyColumn('inoculated', serial(), 'date each lot was inoculated'),
      column('ready', orBlank(serial()), 'date each lot was ready; blank while it waits'),
      setting('as of', serial(), 'the date the records stand at'),
    ],
    result: tableResult(
      resultColumn('strain'),
      resultColumn('lots'),
      resultColumn('waiting'),
      ...['median', '10% ready', '90% ready'].flatMap((which) => [
        resultColumn(`${which} (days)`),
        resultColumn(`${which} from`),
        resultColumn(`${which} to`),
      ]),
    ),
    sources: [
      'Kaplan, E. L., Meier, P. (1958) J. American Statistical Association 53:457–481',
      'Greenwood, M. (1926) Reports on Public Health and Medical Subjects 33',
      'Brookmeyer, R., Crowley, J. (1982) Biometrics 38:29–41: interval of a median',
      'Check: 6-MP arm of Freireich, E. J. et al. (1963) Blood 21:699–716',
    ],
    examples: [
      {
        title: 'The times of Freireich et al. (1963) as days: 9 ready, 12 waiting, median 23 as published',
        arguments: [
          'Alder-3',
          [6, 6, 6, 7, 10, 13, 16, 22, 23, 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((days) => [
            46100 - days,
          ]),
          [6, 6, 6, 7, 10, 13, 16, 22, 23].map(() => [46100]).concat(new Array(12).fill([null])),
          46100,
        ],
        gives: [STATS_HEADER, ['Alder-3', 21, 12, 23, 13, 'open', 6, 6, 10, 'not reached', 'open', 'open']],
      },
      {
        title: 'Two strains; the second only waits, so no median is invented',
        arguments: [
          [['Alder-3'], ['Birch-1'], ['Alder-3'], ['Birch-1']],
          [[46000], [46040], [46010], [46042]],
          [[46070], [null], [46082], [null]],
          46090,
        ],
        gives: [
          STATS_HEADER,
          ['Alder-3', 2, 0, 71, 70, 'open', 70, 70, 'open', 72, 70, 'open'],
          [
            'Birch-1',
            2,
            2,
            'not reached',
            'open',
            'open',
            'not reached',
            'open',
            'open',
            'not reached',
            'open',
            'open',
          ],
        ],
      },
    ],
    faults: [
      {
        arguments: ['Alder-3', [[46000], [46010]], [[46070], [46001]], 46090],
        code: '#VALUE!',
        says: 'ready: a date after inoculated (2025-12-19) needed, got 2025-12-10 (row 2)',
        remedy: 'Mend the two dates of that row. The figures of other strains stand.',
      },
      {
        arguments: ['Alder-3', [[46000], ['10 December']], null, 46090],
        code: '#VALUE!',
        says: 'inoculated: a date needed, got "10 December" – it is text',
        remedy: 'The date was typed or pasted as text: type it again.',
      },
    ],
    whole: (strainNames, inoculatedSerials, readySerials, asOf, { dateSystem }) =>
      strainWaits(
        strainNames.map((name, i) => ({
          strain: name,
          inoculatedSerial: inoculatedSerials[i]!,
          readySerial: readySerials[i] ?? undefined,
        })),
        asOf,
        dateSystem,
      ).map((of) => [
        of.strain,
        of.lots,
        of.waiting,
        ...(of.days instanceof CalcError
          ? new Array<Answer>(9).fill(of.days)
          : [of.days.median, of.days.p10, of.days.p90].flatMap(daysShown)),
      ]),
  }),

  defineFunction({
    name: 'RIPECALENDAR',
    family: 'ripening',
    needsDateSystem: true,
    summary: 'Per strain and day or week: blocks coming ready, loaded, going over age, and in hand.',
    notes:
      'In hand at the end of a step = in hand before + coming ready − loaded − going over age. A block comes ready on its ' +
      'lot’s earliest date and goes over age if it is not loaded by the end of its latest. Dates come from the lot’s own ' +
      'earliest and latest where it has them, else from inoculated and the strain’s days; a lot with neither does not ' +
      'count yet. What was loaded is taken off: by a date in the lot’s own column loaded (the whole lot), or row by row in ' +
      'loads, which name a lot, or a strain, of which the ready blocks nearest to going over age are taken. Blocks loaded ' +
      'before they were due count as coming ready that day. Weeks are seven days from the first, the last one whole.',
    arguments: [
      table(
        'lots',
        calendarLots,
        'table with lot, strain, blocks, inoculated (or earliest, latest dates); loaded if wanted',
      ),
      table(
        'strains',
        only(strainColumns, 'strain', 'earliest', 'latest'),
        'table with strain and its days to ready: earliest, latest',
      ),
      setting('from', serial(), 'first day shown'),
      setting('to', serial(), 'last day shown'),
      optionalSetting('step', choice(['day', 'week']), 'day', 'day or week; day if left out'),
      optionalTable(
        'loads',
        {
          loaded: key(serial()),
          blocks: count(),
          lot: optional(text('lot')),
          strain: optional(text('strain')),
        },
        'table with loaded (date), blocks, and lot or strain',
      ),
    ],
    result: tableResult(
      resultColumn('date', 'date'),
      resultColumn('strain'),
      resultColumn('coming ready'),
      resultColumn('loaded'),
      resultColumn('going over age'),
      resultColumn('in hand'),
    ),
    sources: ['Stock-keeping: in hand before + in − out, on the days in your own tables'],
    examples: [
      {
        title:
          'Two lots in weeks: ready from 6 and 13 April 2026; 30 of the first are loaded, the rest goes over age',
        arguments: [
          [
            ['lot', 'strain', 'blocks', 'inoculated'],
            ['L-1', 'Alder-3', 40, 46055],
            ['L-2', 'Alder-3', 50, 46062],
          ],
          exampleStrains,
          46118,
          46159,
          'week',
          [
            ['loaded', 'lot', 'blocks'],
            [46130, 'L-1', 30],
          ],
        ],
        gives: [
          CALENDAR_HEADER,
          [46118, 'Alder-3', 40, 0, 0, 40],
          [46125, 'Alder-3', 50, 30, 0, 60],
          [46132, 'Alder-3', 0, 0, 0, 60],
          [46139, 'Alder-3', 0, 0, 0, 60],
          [46146, 'Alder-3', 0, 0, 0, 60],
          [46153, 'Alder-3', 0, 0, 10, 50],
        ],
      },
      {
        title: 'Lots with dates of their own, one loaded as a whole',
        arguments: [
          [
            ['lot', 'strain', 'blocks', 'earliest', 'latest', 'loaded'],
            ['L-1', 'Hazel-9', 40, 46055, 46056, null],
            ['L-2', 'Hazel-9', 50, 46055, 46070, 46056],
          ],
          exampleStrains,
          46055,
          46056,
        ],
        gives: [CALENDAR_HEADER, [46055, 'Hazel-9', 90, 0, 0, 90], [46056, 'Hazel-9', 0, 50, 40, 0]],
      },
    ],
    faults: [
      {
        arguments: [exampleLots, exampleStrains, 46118, 46117],
        code: '#VALUE!',
        says: 'to: a date from 2026-04-06 on needed, got 2026-04-05',
        remedy: 'Give the first day before the last.',
      },
      {
        arguments: [
          exampleLots,
          exampleStrains,
          46118,
          46125,
          'day',
          [
            ['loaded', 'lot', 'blocks'],
            [46120, 'L-1', 60],
          ],
        ],
        code: '#VALUE!',
        says: 'loads, blocks: at most the 40 of L-1 on 2026-04-08 needed, got 60 (row 2)',
        remedy: 'More blocks were loaded than the lot has: mend the lot’s blocks or the load.',
      },
      {
        arguments: [[...exampleLots, ['L-3', 'Hazel-9', 10, 46060]], exampleStrains, 46118, 46125],
        code: '#N/A',
        says: 'lots, strain: "Hazel-9" is not in strains',
        remedy: 'Add the strain to the strains table, or mend its spelling in the lot.',
      },
    ],
    whole: (lots, strains, from, to, step, loads, { dateSystem }) =>
      ripeCalendar(
        lots.rows.map((lotRow, index) => ({ ...lotRow, ...ripeDates(lotRow, strains, index) })),
        (loads?.rows ?? []).map((load) => ({ ...load, loadedSerial: load.loaded })),
        { fromSerial: from, toSerial: to, stepDays: step === 'week' ? 7 : 1 },
        dateSystem,
      ).map((each) => [
        each.fromSerial,
        each.strain,
        each.comingReady,
        each.loaded,
        each.goingOverAge,
        each.inHand,
      ]),
  }),
];

function daysShown({ days, from, to }: DaysBy): Answer[] {
  return [days ?? 'not reached', from ?? 'open', to ?? 'open'];
}

/** A lot's dates: its own where it has them, else its inoculation and the strain's days. */
function ripeDates(
  lotRow: RowOf<typeof calendarLots>,
  strains: Table<{ readonly earliest: number | undefined; readonly latest: number | undefined }>,
  index: number,
): Pick<RipeningLot, 'earliestSerial' | 'latestSerial' | 'loadedSerial'> {
  const { inoculated: from, earliest, latest, loaded: loadedSerial } = lotRow;
  const own = { earliestSerial: earliest, latestSerial: latest, loadedSerial };
  if (from === undefined || (earliest !== undefined && latest !== undefined)) return own;
  const strainRow = strains.find(lotRow.strain, 'lots, strain');
  if (earliest === undefined && strainRow.earliest === undefined) {
    throw missing('lots, strain', `no days under "earliest" in strains for "${lotRow.strain}"`, index);
  }
  return {
    ...own,
    earliestSerial: earliest ?? from + strainRow.earliest!,
    latestSerial: latest ?? (strainRow.latest === undefined ? undefined : from + strainRow.latest),
  };
}

/** Where READYFROMLOG had no readings, in words; empty where it had them throughout. */
function unlogged({ gaps, hoursBefore, hoursAfter }: RipeningProgress): string {
  const hours = (time: number): string => `${Number(time.toFixed(1))} h`;
  const parts: string[] = [];
  if (hoursBefore > 0.05) parts.push(`${hours(hoursBefore)} before the first`);
  if (gaps > 0) parts.push(`${gaps} ${gaps === 1 ? 'gap' : 'gaps'} over 6 h`);
  if (hoursAfter > 0.05) parts.push(`${hours(hoursAfter)} after the last`);
  return parts.join(', ');
}
