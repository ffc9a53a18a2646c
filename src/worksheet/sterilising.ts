import { CalcError, invalid, missing } from '../maths/shared/calcError';
import { METRES_A_FOOT } from '../maths/shared/ambientPressure';
import { requireWithin } from '../maths/shared/checks';
import {
  celsiusWithin,
  differenceToCelsius,
  fromCelsius,
  type TemperatureUnit,
} from '../maths/shared/temperature';
import { boilingPoint } from '../maths/sterilising/boilingPoint';
import { heatingFit } from '../maths/sterilising/heatingFit';
import { heatingLethality } from '../maths/sterilising/heatingLethality';
import { holdMinutes } from '../maths/sterilising/holdMinutes';
import { COLDEST_READING, HOTTEST_READING, SPORES, type Resistance } from '../maths/sterilising/lethalRate';
import { runningLethality } from '../maths/sterilising/runningLethality';
import { steamGaugePressure } from '../maths/sterilising/steamGaugePressure';
import { steamTemperature } from '../maths/sterilising/steamTemperature';
import { column, keyColumn, optionalColumn, optionalSetting, setting } from './cells/arguments';
import type { Cell } from './cells/cell';
import { choice, number, temperature } from './cells/kinds';
import { defineFunction, resultColumn, tableResult, value, type Answer } from './define';
import { altitude, temperatureUnit } from './settings';

const CORE =
  'The coldest core decides. A gauge, or a probe in the chamber, does not show what the middle of a block has seen.';
const NO_PROOF =
  'No figure proves sterility: it holds for the probe that was read, if the probe was right, the air was out and the ' +
  'spores are as resistant as assumed.';
const AIR =
  'Air pockets defeat pressure readings: with air in it a vessel is colder than its gauge suggests.';
const VESSEL =
  'Pressure vessels and steam maim and kill. Use an inspected vessel with a working relief valve, run by trained ' +
  'people. Open it only at zero pressure, from behind the door, and wait: liquids may be superheated. Local codes and ' +
  'licensed practice decide.';

const BIGELOW =
  'Bigelow, W. D. (1921) The logarithmic nature of thermal death time curves. J. Infect. Dis. 29:528–536';
const BALL_OLSON =
  'Ball, C. O. & Olson, F. C. W. (1957) Sterilization in Food Technology: general method, integrated exactly along a ' +
  'straight line between readings';
const IF97 = 'IAPWS R7-97(2012) Industrial Formulation 1997 for Water and Steam, region 4';
const ISO2533 = 'ISO 2533:1975 Standard Atmosphere';

const CONVENTIONS =
  'The reference is 121.1 °C and z is 10 °C unless given. References of 121, 121.1 and 121.11 °C (250 °F) are all in ' +
  'use and differ by up to 2.6% in the result: state yours with the figure.';
const LOG =
  'Rows with neither a time nor a temperature do not count. A missing or zero temperature beside a time is refused, ' +
  'since bridging a dead probe would credit heat that nobody saw. Times are minutes; for dates with times of day set ' +
  'the time unit to dates.';

const times = column(
  'times',
  {
    ...number({ word: 'time', from: 0 }),
    hint: (cell: Cell) =>
      typeof cell === 'string'
        ? 'it is text: retype it so that the sheet takes it as a number or a date'
        : undefined,
  },
  'time of each reading, rising',
);
const temperatures = column('temperatures', temperature(), 'core temperature of each reading');
const zKind = number({ word: 'z', above: 0 });
const Z_MEANING = 'degrees for ten times the kill; 10 °C (18 °F) if left out';
const REFERENCE_MEANING = 'temperature at which a minute is a minute; 121.1 °C if left out';
const z = optionalSetting('z', zKind, undefined, Z_MEANING);
const reference = optionalSetting('reference', temperature(), undefined, REFERENCE_MEANING);
const timeUnit = optionalSetting(
  'time unit',
  choice(['minutes', 'dates']),
  undefined,
  'minutes, or dates for dates and times of day; minutes if left out',
);
const logArguments = [times, temperatures, z, reference, temperatureUnit, timeUnit] as const;

/** z and reference in °C. What is left out is the same kill in either unit. */
function resistanceOf(
  z: number | undefined,
  reference: number | undefined,
  unit: TemperatureUnit,
): Resistance {
  const degrees = unit === 'C' ? 1 : 1.8;
  return {
    zC:
      z === undefined
        ? SPORES.zC
        : differenceToCelsius(requireWithin('z', z, 2 * degrees, 50 * degrees, `°${unit}`), unit),
    referenceC:
      reference === undefined ? SPORES.referenceC : celsiusWithin('reference', reference, unit, 50, 150),
  };
}

type TimeUnit = 'minutes' | 'dates' | undefined;

/** A core logger's readings without the rows that hold neither time nor temperature. */
interface CoreLog {
  readonly minutes: Float64Array;
  readonly temperaturesC: Float64Array;
  /** The entry of each reading in the columns given. */
  readonly entries: Int32Array;
}

const MINUTES_A_DAY = 1440;
const LONGEST_LOG_DAYS = 30;
/** 1954: no log of minutes is as long, no logger as old. */
const FIRST_DATE = 20_000;

function readLog(
  times: readonly number[],
  temperatures: readonly number[],
  unit: TemperatureUnit,
  timeUnit: TimeUnit,
): CoreLog {
  const entries = new Int32Array(times.length);
  const minutes = new Float64Array(times.length);
  const temperaturesC = new Float64Array(times.length);
  let count = 0;
  const scale = timeUnit === 'dates' ? MINUTES_A_DAY : 1;
  const [coldest, hottest] = [COLDEST_READING, HOTTEST_READING];
  const [degree, zero] = unit === 'C' ? [1, 0] : [1.8, 32];
  let [first, before] = [0, -Infinity];
  for (let i = 0; i < times.length; i++) {
    const time = times[i]!;
    const reading = temperatures[i]!;
    if (reading === 0) {
      if (time === 0) continue;
      throw new CalcError('invalid', 'temperatures: a reading needed, got a blank cell or 0', {
        argument: 'temperatures',
        index: i,
      });
    }
    if (!(time > before)) throw invalid('times', 'a time later than the one before', time, i);
    const celsius = (reading - zero) / degree;
    if (!(celsius >= coldest && celsius <= hottest)) {
      celsiusWithin('temperatures', reading, unit, coldest, hottest, i);
    }
    if (count === 0) first = time;
    entries[count] = i;
    minutes[count] = (time - first) * scale;
    temperaturesC[count] = celsius;
    count++;
    before = time;
  }
  if (count < 2) throw missing('times', 'two readings or more needed');
  const span = before - first;
  if (timeUnit === undefined && (first >= FIRST_DATE || span < 1)) {
    throw new CalcError(
      'invalid',
      'times: minutes needed, got what looks like dates or times of day – set the time unit to dates (or to minutes)',
    );
  }
  if (timeUnit === 'dates' && !(span <= LONGEST_LOG_DAYS)) {
    throw invalid('times', `dates within ${LONGEST_LOG_DAYS} days`, span);
  }
  return {
    minutes: minutes.subarray(0, count),
    temperaturesC: temperaturesC.subarray(0, count),
    entries: entries.subarray(0, count),
  };
}

const COME_UP = [
  [0, 100],
  [5, 121.1],
];
const exampleTimes = COME_UP.map(([minute]) => [minute!]);
const exampleCore = COME_UP.map(([, core]) => [core!]);
/** 5 minutes × (1 − 10^−2.11) / ln 10^2.11: the mean lethal rate along the line from 100 to 121.1 °C. */
const COME_UP_LETHALITY = (5 * (1 - 10 ** -2.11)) / (2.11 * Math.LN10);

const logFaults = [
  {
    arguments: [
      [[0], [10], [10]],
      [[100], [121], [121]],
    ],
    code: '#VALUE!' as const,
    says: 'times: a time later than the one before needed, got 10 (row 3)',
    remedy: 'Sort the log by time and delete repeated rows.',
  },
  {
    arguments: [
      [[0], [10], [20]],
      [[100], [null], [121]],
    ],
    code: '#VALUE!' as const,
    says: 'temperatures: a reading needed, got a blank cell or 0 (row 2)',
    remedy:
      'Find out whether the probe was dead. Leave a row out only if you know what the core did meanwhile.',
  },
  {
    arguments: [
      [[46000.5], [46000.6]],
      [[121], [121]],
    ],
    code: '#VALUE!' as const,
    says: 'set the time unit to dates',
    remedy: 'Give "dates" as the time unit where the times column holds dates or times of day.',
  },
  {
    arguments: [
      [[0], [10]],
      [[121], [850]],
    ],
    code: '#VALUE!' as const,
    says: 'temperatures: -40 to 160 °C needed, got 850 (row 2)',
    remedy: 'Check the probe and the unit: give F where the log is in °F.',
  },
  {
    arguments: [
      [['2026-03-11 08:00'], ['2026-03-11 08:05']],
      [[121], [121]],
    ],
    code: '#VALUE!' as const,
    says: 'it is text: retype it so that the sheet takes it as a number or a date (row 1)',
    remedy: "Turn the logger's text into dates, for instance with Text to Columns.",
  },
  {
    arguments: [[[0]], [[121]]],
    code: '#N/A' as const,
    says: 'times: two readings or more needed',
    remedy: 'Give the columns of the log, from the first reading to the last.',
  },
];

/** Gauges: Pascals a unit, and the range taken, which catches a gauge read in another unit. */
const GAUGES = {
  metric: { pascals: 1e5, low: -0.9, high: 10, name: 'bar' },
  kPa: { pascals: 1e3, low: -90, high: 1000, name: 'kPa' },
  US: { pascals: 6894.757293168361, low: -13, high: 145, name: 'psi' },
} as const;
type SteamUnits = keyof typeof GAUGES;
const steamUnits = optionalSetting(
  'units',
  choice(['metric', 'kPa', 'US']),
  'metric',
  'metric: bar, m, °C; kPa: kPa, m, °C; US: psi, ft, °F; metric if left out',
);
const degreesOf = (units: SteamUnits): TemperatureUnit => (units === 'US' ? 'F' : 'C');
const metresOf = (altitude: number, units: SteamUnits): number =>
  units === 'US' ? altitude * METRES_A_FOOT : altitude;

export const sterilising = [
  defineFunction({
    name: 'LETHALITY',
    family: 'sterilising',
    summary:
      'Equivalent minutes at the reference temperature, from the columns of a core temperature logger.',
    notes: `${CONVENTIONS} ${LOG}`,
    cautions: [CORE, NO_PROOF, AIR, VESSEL],
    arguments: logArguments,
    result: value('equivalent minutes'),
    sources: [BIGELOW, BALL_OLSON],
    examples: [
      {
        title: '15 minutes at 111 °C are worth 1.5 minutes at 121 °C',
        arguments: [[[0], [15]], [[111], [111]], 10, 121],
        gives: 1.5,
      },
      {
        title: 'A come-up from 100 to 121.1 °C in 5 minutes',
        arguments: [exampleTimes, exampleCore],
        gives: COME_UP_LETHALITY,
      },
      {
        title: 'The same in °F and in 22.5 minutes, with dates and times of day',
        arguments: [[[46000.5], [46000.515625]], [[212], [249.98]], null, null, 'F', 'dates'],
        gives: (COME_UP_LETHALITY / 5) * 22.5,
      },
    ],
    faults: logFaults,
    whole: (times, temperatures, z, reference, unit, timeUnit) => {
      const log = readLog(times, temperatures, unit, timeUnit);
      return runningLethality(log.minutes, log.temperaturesC, resistanceOf(z, reference, unit)).at(-1)!;
    },
  }),

  defineFunction({
    name: 'LETHALITYCURVE',
    family: 'sterilising',
    summary: 'Running total of equivalent minutes beside each reading of a core temperature logger.',
    notes: `The last figure is what LETHALITY gives. A bad reading faults in its row and all after it. ${CONVENTIONS} ${LOG}`,
    cautions: [CORE, NO_PROOF, AIR, VESSEL],
    arguments: logArguments,
    result: value('equivalent minutes so far'),
    sources: [BIGELOW, BALL_OLSON],
    examples: [
      {
        title: 'Come-up in 5 minutes, then 15 minutes at 121.1 °C',
        arguments: [
          [[0], [5], [20], [null]],
          [[100], [121.1], [121.1], [null]],
        ],
        gives: [[0], [COME_UP_LETHALITY], [COME_UP_LETHALITY + 15], ['']],
      },
    ],
    faults: logFaults,
    beside: (times, temperatures, z, reference, unit, timeUnit) => {
      const resistance = resistanceOf(z, reference, unit);
      const curve = (end: number): Answer[] => {
        const log = readLog(times.slice(0, end), temperatures.slice(0, end), unit, timeUnit);
        const running = runningLethality(log.minutes, log.temperaturesC, resistance);
        const answers = new Array<Answer>(end).fill('');
        log.entries.forEach((entry, i) => (answers[entry] = running[i]!));
        return answers;
      };
      try {
        return curve(times.length);
      } catch (fault) {
        const bad = fault instanceof CalcError ? fault.place.index : undefined;
        if (bad === undefined || bad < 2) throw fault;
        // The total is known up to the reading before the bad one.
        return [...curve(bad), ...new Array<Answer>(times.length - bad).fill(fault as CalcError)];
      }
    },
  }),

  defineFunction({
    name: 'HOLDMINUTES',
    family: 'sterilising',
    summary: 'Minutes to hold a core at a steady temperature for a wanted number of equivalent minutes.',
    notes:
      `Heating and cooling are not counted. ${CONVENTIONS} There is no published target for mushroom substrate: yours ` +
      'comes from your own contamination records.',
    cautions: [CORE, NO_PROOF, VESSEL],
    arguments: [
      keyColumn('target', number({ word: 'minutes', from: 0 }), 'equivalent minutes wanted'),
      column('temperature', temperature(), 'steady core temperature'),
      optionalColumn('z', zKind, undefined, Z_MEANING),
      optionalColumn('reference', temperature(), undefined, REFERENCE_MEANING),
      temperatureUnit,
    ],
    result: value('minutes to hold'),
    sources: [BIGELOW],
    examples: [
      {
        title: 'What 1.5 minutes at 121 °C take at 111 °C',
        arguments: [1.5, 111, 10, 121],
        gives: 15,
      },
      {
        title: '15 minutes at 250 °F take ten times as long at 232 °F',
        arguments: [15, [[250], [232]], 18, 250, 'F'],
        gives: [[15], [150]],
      },
    ],
    faults: [
      {
        arguments: [15, 250],
        code: '#VALUE!',
        says: 'temperature: 50 to 160 °C needed, got 250',
        remedy: 'Give F as the unit where temperatures are in °F.',
      },
    ],
    eachRow: (target, temperature, z, reference, unit) =>
      holdMinutes(
        target,
        celsiusWithin('temperature', temperature, unit, 50, HOTTEST_READING),
        resistanceOf(z, reference, unit),
      ),
  }),

  defineFunction({
    name: 'HEATINGFIT',
    family: 'sterilising',
    summary:
      'How a core follows the steam: heating rate f, lag factor j and lag, from the straight part of its curve.',
    notes:
      'The gap between medium and core shrinks to a tenth every f minutes once the core has come out of its lag. j is ' +
      'the gap at which that line starts, over the gap there was at the first reading; the lag is f × log10(j). Start ' +
      'the log when the medium is at its temperature. Readings near the medium and after the hottest are left out. ' +
      'Lethality is that of the fitted line from the first to the hottest reading: cooling is not counted. ' +
      `${CONVENTIONS} ${LOG}`,
    cautions: [CORE, NO_PROOF, VESSEL],
    arguments: [
      times,
      temperatures,
      setting('medium', temperature(), 'steady temperature of the steam or water around it'),
      z,
      reference,
      temperatureUnit,
      timeUnit,
    ],
    result: tableResult(
      resultColumn('heating rate f (minutes)'),
      resultColumn('lag factor j'),
      resultColumn('lag (minutes)'),
      resultColumn('r squared'),
      resultColumn('straight from (minute)'),
      resultColumn('straight to (minute)'),
      resultColumn('lethality (minutes)'),
    ),
    sources: [
      'Ball, C. O. (1923) Thermal process time for canned food. Bull. Natl. Res. Counc. 7(37)',
      'Stoforos, N. G. (2010) Food Eng. Rev. 2:1–16',
    ],
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
        says: 'no straight part: the core closes only',
        remedy: 'Log until the core is near the temperature of the medium.',
      },
      {
        arguments: [[[0], [10], [20], [30], [40], [50]], [[20], [40], [60], [80], [100], [115]], 121],
        code: '#N/A',
        says: 'no straight part: the slope of log(medium − core) changes by',
        remedy: 'Check that the medium held one temperature and that the probe sat in the core.',
      },
      {
        arguments: [[[0], [10], [20]], [[20], [100], [110]], 121],
        code: '#N/A',
        says: '5 or more readings on the way to the medium needed, got 3',
        remedy: 'Log more often.',
      },
      {
        arguments: [[[0], [10], [20]], [[60], [100], [110]], 50],
        code: '#VALUE!',
        says: 'medium: a temperature above the first reading',
        remedy: 'Give the temperature of the steam around the block.',
      },
    ],
    whole: (times, temperatures, medium, z, reference, unit, timeUnit) => {
      const { minutes, temperaturesC } = readLog(times, temperatures, unit, timeUnit);
      const mediumC = celsiusWithin('medium', medium, unit, 40, HOTTEST_READING);
      const fit = heatingFit([...minutes], [...temperaturesC], mediumC);
      const heated = minutes[fit.hottest]! - minutes[0]!;
      const resistance = resistanceOf(z, reference, unit);
      return [
        [
          fit.minutesPerTenth,
          fit.lagFactor,
          fit.minutesPerTenth * Math.log10(fit.lagFactor),
          fit.rSquared,
          minutes[fit.first]!,
          minutes[fit.last]!,
          heatingLethality(fit, temperaturesC[0]!, mediumC, heated, resistance),
        ],
      ];
    },
  }),

  defineFunction({
    name: 'STEAMTEMP',
    family: 'sterilising',
    summary: 'Temperature of saturated, air-free steam in a vessel from what its gauge shows.',
    notes:
      'A gauge shows pressure above the outside air, so the same reading is colder on a mountain. Ambient pressure is ' +
      'that of the standard atmosphere; weather moves it by up to 3%. A blank reads as a gauge of 0.',
    cautions: [AIR, CORE, VESSEL],
    arguments: [
      column('gauge pressure', number({ word: 'pressure' }), 'what the gauge shows, above outside air'),
      altitude,
      steamUnits,
    ],
    result: value('steam temperature'),
    sources: [IF97, ISO2533],
    examples: [
      {
        title: 'A gauge at 1 bar, at sea level and at 1,500 m',
        arguments: [
          [[1], [1]],
          [[0], [1500]],
        ],
        gives: [[120.42043278514], [117.68938178712]],
      },
      {
        title: '15 psi at sea level and at 5,000 ft, in °F',
        arguments: [[[15], [15]], [[0], [5000]], 'US'],
        gives: [[249.7183996907], [244.79819836309]],
      },
    ],
    faults: [
      {
        arguments: [15],
        code: '#VALUE!',
        says: 'gauge pressure: -0.9 to 10 bar needed, got 15',
        remedy: 'Give the units of the gauge: US for psi.',
      },
    ],
    eachRow: (gauge, altitude, units) => {
      const { pascals, low, high, name } = GAUGES[units];
      const gaugePa = requireWithin('gauge pressure', gauge, low, high, name) * pascals;
      return fromCelsius(steamTemperature(gaugePa, metresOf(altitude, units)), degreesOf(units));
    },
  }),

  defineFunction({
    name: 'STEAMPRESSURE',
    family: 'sterilising',
    summary: 'What the gauge of a vessel of saturated, air-free steam shows at a temperature.',
    notes:
      'Below 0 where water boils hotter than that at this altitude. Ambient pressure is that of the standard atmosphere.',
    cautions: [AIR, CORE, VESSEL],
    arguments: [keyColumn('temperature', temperature(), 'steam temperature wanted'), altitude, steamUnits],
    result: value('gauge pressure'),
    sources: [IF97, ISO2533],
    examples: [
      {
        title: '121.1 °C at sea level and at 1,500 m, in bar',
        arguments: [
          [[121.1], [121.1]],
          [[0], [1500]],
        ],
        gives: [[1.0436027531377], [1.211292847902]],
      },
      {
        title: '250 °F at sea level, in psi',
        arguments: [250, null, 'US'],
        gives: 15.14661034573,
      },
    ],
    faults: [
      {
        arguments: [250],
        code: '#VALUE!',
        says: 'temperature: 10 to 185 °C needed, got 250',
        remedy: 'Give US as the units where temperatures are in °F.',
      },
    ],
    eachRow: (temperature, altitude, units) => {
      const celsius = celsiusWithin('temperature', temperature, degreesOf(units), 10, 185);
      return steamGaugePressure(celsius, metresOf(altitude, units)) / GAUGES[units].pascals;
    },
  }),

  defineFunction({
    name: 'BOILINGPOINT',
    family: 'sterilising',
    summary: 'Temperature at which water boils in an open vessel at an altitude.',
    notes:
      'The hottest an unpressurised steamer gets. By the standard atmosphere; weather moves it by about 1 °C. A blank ' +
      'reads as sea level.',
    cautions: [
      'Steaming without pressure never reaches the temperatures that kill heat-resistant spores quickly.',
      VESSEL,
    ],
    arguments: [
      column('altitude', number({ word: 'altitude' }), 'altitude above sea level'),
      optionalSetting(
        'units',
        choice(['metric', 'US']),
        'metric',
        'metric: m, °C; US: ft, °F; metric if left out',
      ),
    ],
    result: value('boiling point'),
    sources: [IF97, ISO2533],
    examples: [
      {
        title: 'Sea level and 1,500 m',
        arguments: [[[0], [1500]]],
        gives: [[99.97430000048], [94.982993363586]],
      },
      {
        title: '5,000 ft, in °F',
        arguments: [5000, 'US'],
        gives: 202.82537095407,
      },
    ],
    faults: [
      {
        arguments: [30000],
        code: '#VALUE!',
        says: 'altitude: -500 to 11000 m needed, got 30000',
        remedy: 'Give US as the units where the altitude is in feet.',
      },
    ],
    eachRow: (altitude, units) => fromCelsius(boilingPoint(metresOf(altitude, units)), degreesOf(units)),
  }),
];
