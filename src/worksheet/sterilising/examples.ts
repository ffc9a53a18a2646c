import type { FaultExample } from '../words';

// Sentences, sources, logs and faults that the words of several functions of the family share.

export const CORE =
  'The coldest core decides. A gauge, or a probe in the chamber, does not show what the middle of a block has seen.';
export const NO_PROOF =
  'No figure proves sterility. It holds for the probe that was read, if the probe was right, the air was out and the ' +
  'spores are as resistant as assumed.';
export const AIR =
  'Air pockets defeat pressure readings: with air in it a vessel is colder than its gauge suggests.';
export const VESSEL =
  'Pressure vessels and steam maim and kill. Use an inspected vessel with a working relief valve, run by trained ' +
  'people. Open it only at zero pressure, from behind the door, and wait: liquids may be superheated. Local codes and ' +
  'licensed practice decide.';

export const PASTEURISED =
  'Steam at outside pressure pasteurises; it does not sterilise. Spores that resist heat outlast hours of it.';
export const SCALDS =
  'Steam scalds, and a closed vessel may burst. Let a steamer vent freely, keep water in it, and open it away from ' +
  'you. Local codes and licensed practice decide.';

export const BIGELOW =
  'Bigelow, W. D. (1921) The logarithmic nature of thermal death time curves. J. Infect. Dis. 29:528–536';
export const BALL_OLSON =
  'Ball, C. O. & Olson, F. C. W. (1957) Sterilization in Food Technology: general method, integrated exactly along a ' +
  'straight line between readings';
export const IF97 = 'IAPWS R7-97(2012) Industrial Formulation 1997 for Water and Steam, region 4';
export const ISO2533 = 'ISO 2533:1975 Standard Atmosphere';

export const CONVENTIONS =
  'The reference is 121.1 °C and z is 10 °C unless given. References of 121, 121.1 and 121.11 °C (250 °F) are all in ' +
  'use and change the result by up to 2.6%: state yours with the figure.';
export const LOG_NOTES = [
  'Times are minutes. For dates with times of day, set the time unit to dates.',
  'A row with neither a time nor a temperature does not count. A time with a blank or zero temperature is refused: to ' +
    'bridge a dead probe would credit heat that nobody saw.',
  'A log in minutes that begins with such a row is refused: it may be minute 0 with a dead probe.',
];

const COME_UP = [
  [0, 100],
  [5, 121.1],
];
export const exampleTimes = COME_UP.map(([minute]) => [minute!]);
export const exampleCore = COME_UP.map(([, core]) => [core!]);
/** 5 minutes × (1 − 10^−2.11) / ln 10^2.11: the mean lethal rate along the line from 100 to 121.1 °C. */
export const COME_UP_LETHALITY = (5 * (1 - 10 ** -2.11)) / (2.11 * Math.LN10);

export const logFaults: readonly FaultExample[] = [
  {
    arguments: [
      [[0], [10], [10]],
      [[100], [121], [121]],
    ],
    code: '#VALUE!',
    says: 'times must rise from row to row; 10 comes after 10 (row 3 of the column)',
    remedy: 'Sort the log by time and delete repeated rows.',
  },
  {
    arguments: [
      [[0], [10], [20]],
      [[100], [null], [121]],
    ],
    code: '#VALUE!',
    says: 'temperatures must have a reading beside each time; it is blank or 0 (row 2 of the column)',
    remedy:
      'Find out whether the probe was dead. Leave a row out only if you know what the core did meanwhile.',
  },
  {
    arguments: [
      [[0], [10], [20]],
      [[null], [112], [121]],
    ],
    code: '#VALUE!',
    says: 'temperatures must have a reading at minute 0; it is blank or 0 – if the row is an empty one, begin the range below it (row 1 of the column)',
    remedy: 'Find out whether the probe was dead, or begin both ranges at the first reading.',
  },
  {
    arguments: [
      [[46000.5], [46000.6]],
      [[121], [121]],
    ],
    code: '#VALUE!',
    says: 'times look like dates or times of day: set the time unit to dates',
    remedy: 'Give "dates" as the time unit where the times column holds dates or times of day.',
  },
  {
    arguments: [
      [[0], [10]],
      [[121], [850]],
    ],
    code: '#VALUE!',
    says: 'temperatures must be from -40 to 160 °C; it is 850 °C (row 2 of the column)',
    remedy: 'Check the probe and the unit: give F where the log is in °F.',
  },
  {
    arguments: [
      [['2026-03-11 08:00'], ['2026-03-11 08:05']],
      [[121], [121]],
    ],
    code: '#VALUE!',
    says: 'times must be a number, 0 or more; it is "2026-03-11 08:00" – it is text that looks like a date or time: type it again so that the sheet takes it as one',
    remedy: 'The logger wrote text. Turn it into dates, for instance with Text to Columns.',
  },
  {
    arguments: [[[0]], [[121]]],
    code: '#N/A',
    says: 'times must hold at least 2 readings; there is 1',
    remedy: 'Give the columns of the log, from the first reading to the last.',
  },
];
