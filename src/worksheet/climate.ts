import { carbonDioxide } from '../maths/climate/carbonDioxide';
import { dewPoint } from '../maths/climate/dewPoint';
import { fogWater } from '../maths/climate/fogWater';
import { freshAir, OUTSIDE_PPM } from '../maths/climate/freshAir';
import { humidityFromWetBulb } from '../maths/climate/humidityFromWetBulb';
import { humidityRatio } from '../maths/climate/humidityRatio';
import { COLDEST_AIR, HOTTEST_AIR } from '../maths/climate/moistAir';
import { setPointOn } from '../maths/climate/setPointOn';
import { vapourPressureDeficit } from '../maths/climate/vapourPressureDeficit';
import { wetBulb } from '../maths/climate/wetBulb';
import { METRES_A_FOOT } from '../maths/shared/ambientPressure';
import { CalcError, invalid } from '../maths/shared/calcError';
import { celsiusWithin, fromCelsius, toCelsius, type TemperatureUnit } from '../maths/shared/temperature';
import { column, keyColumn, optionalColumn, table } from './cells/arguments';
import { CellError, type Cell } from './cells/cell';
import { SheetFault, toCellError } from './cells/fault';
import { anything, fraction, number, serial, temperature } from './cells/kinds';
import { others } from './cells/table';
import { defineFunction, freeTable, resultColumn, value, type Answer } from './define';
import { altitude, temperatureUnit } from './settings';

const SPORES =
  'Mushroom spores make lungs ill, some for good: fresh air, masks and medical checks where people work among ripe crops.';
const CO2 =
  'CO2 harms people long before it harms mushrooms. At work in the United States: 5,000 ppm as the mean of a shift (OSHA, ' +
  'NIOSH, ACGIH), 30,000 ppm for 15 minutes (NIOSH, ACGIH); 40,000 ppm is immediately dangerous (NIOSH). Incubation rooms ' +
  'often pass the first: ventilate before going in and hang up an alarm. Local codes decide.';
const MOULD =
  'Walls and packs below the dew point drip; standing fog breeds bacteria in fog machines and lungs.';

const ASHRAE = 'ASHRAE Handbook – Fundamentals (2017) chapter 1, computed by PsychroLib 2.5';
const ISO2533 = 'ISO 2533:1975 Standard Atmosphere';
const BALANCE = 'ASHRAE Standard 62.1, appendix: mass balance of CO2 in a space';

const UNITS = 'Unit C takes °C and metres, F takes °F and feet.';
const HUMIDITY_KEY = 'A blank or 0 humidity gives a blank.';
const airArguments = [
  column('temperature', temperature(), 'air temperature (dry bulb)'),
  keyColumn('humidity', fraction(), 'relative humidity: 90% or 0.9'),
  altitude,
  temperatureUnit,
] as const;

const airCelsius = (argument: string, temperature: number, unit: TemperatureUnit): number =>
  celsiusWithin(argument, temperature, unit, COLDEST_AIR, HOTTEST_AIR);
const metres = (altitude: number, unit: TemperatureUnit): number =>
  unit === 'F' ? altitude * METRES_A_FOOT : altitude;

/** Cubic metres an hour in a cubic foot a minute, and pounds in a kilogram. */
const HOURLY_METRES_A_CFM = 60 * METRES_A_FOOT ** 3;
const KILOGRAMS_A_POUND = 0.45359237;

const percentFault = {
  arguments: [16, 85],
  code: '#VALUE!' as const,
  says: 'write 85% or 0.85',
  remedy: 'Give the humidity as a percentage or as a fraction of 1.',
};
const unitFault = {
  arguments: [75, 0.85],
  code: '#VALUE!' as const,
  says: 'temperature: -40 to 60 °C needed, got 75',
  remedy: 'Give F as the unit where temperatures are in °F.',
};

const ppm = number({ word: 'level', unit: 'ppm', above: 0, to: 1e6 });
const outside = optionalColumn(
  'outside',
  ppm,
  OUTSIDE_PPM,
  `level outside in ppm; ${OUTSIDE_PPM} if left out`,
);
const production = column(
  'production',
  number({ word: 'volume', from: 0 }),
  'volume of CO2 given off an hour, in the unit of the airflow',
);
const PRODUCTION =
  'One unit of volume for all: m³ an hour with m³, or ft³ an hour with ft³. A kilogram of CO2 is 0.54 m³ at 16 °C. ' +
  'Production is yours to measure: close the room and watch the level rise.';

export const climate = [
  defineFunction({
    name: 'DEWPOINT',
    family: 'climate',
    summary: 'Dew point: the temperature at which walls, packs and mushrooms begin to drip.',
    notes: `The frost point below 0 °C. Altitude does not change it. ${UNITS} ${HUMIDITY_KEY}`,
    cautions: [MOULD],
    arguments: airArguments,
    result: value('dew point'),
    sources: [ASHRAE],
    examples: [
      {
        title: 'Rooms of 16 °C at 85% and 18 °C at 92%',
        arguments: [
          [[16], [18]],
          [[0.85], [0.92]],
        ],
        gives: [[13.481703170104], [16.681413283073]],
      },
      { title: '64 °F at 90%, in °F', arguments: [64, 0.9, null, 'F'], gives: 61.010106656557 },
    ],
    faults: [
      percentFault,
      unitFault,
      {
        arguments: [20, 1e-9],
        code: '#VALUE!',
        says: 'humidity: more needed, the dew point would be below -100 °C',
        remedy: 'Check the humidity sensor.',
      },
    ],
    eachRow: (temperature, humidity, _altitude, unit) =>
      fromCelsius(dewPoint({ celsius: airCelsius('temperature', temperature, unit), humidity }), unit),
  }),

  defineFunction({
    name: 'WETBULB',
    family: 'climate',
    summary: 'Wet bulb: the temperature that evaporation brings a wetted surface in moving air down to.',
    notes:
      'The lowest temperature evaporative cooling can reach. Below 0 °C the bulb counts as frozen; where the wet bulb ' +
      `passes 0 °C the published equations jump by up to 0.9 °C. ${UNITS} ${HUMIDITY_KEY}`,
    cautions: [MOULD],
    arguments: airArguments,
    result: value('wet bulb'),
    sources: [ASHRAE, ISO2533],
    examples: [
      {
        title: '16 °C at 85%, at sea level and at 1,500 m',
        arguments: [16, 0.85, [[0], [1500]]],
        gives: [[14.457095039735], [14.351556688721]],
      },
    ],
    faults: [percentFault, unitFault],
    eachRow: (temperature, humidity, altitude, unit) =>
      fromCelsius(
        wetBulb({ celsius: airCelsius('temperature', temperature, unit), humidity }, metres(altitude, unit)),
        unit,
      ),
  }),

  defineFunction({
    name: 'HUMIDITYRATIO',
    family: 'climate',
    summary:
      'Humidity ratio: mass of water vapour to a mass of dry air, the figure to compare airs of two temperatures.',
    notes: `Kilograms to a kilogram, the same in pounds. ${UNITS} ${HUMIDITY_KEY}`,
    cautions: [MOULD],
    arguments: airArguments,
    result: value('humidity ratio'),
    sources: [ASHRAE, ISO2533],
    examples: [
      {
        title: '16 °C at 85%, at sea level and at 1,500 m',
        arguments: [16, 0.85, [[0], [1500]]],
        gives: [[0.009634500621752], [0.01158077716015]],
      },
    ],
    faults: [percentFault, unitFault],
    eachRow: (temperature, humidity, altitude, unit) =>
      humidityRatio(
        { celsius: airCelsius('temperature', temperature, unit), humidity },
        metres(altitude, unit),
      ),
  }),

  defineFunction({
    name: 'VPD',
    family: 'climate',
    summary:
      'Vapour pressure deficit in kPa: how hard the air of a room pulls water out of pins and mushrooms.',
    notes: `At the temperature of the air, in kPa in either unit. Altitude does not change it. ${UNITS} ${HUMIDITY_KEY}`,
    cautions: [MOULD],
    arguments: airArguments,
    result: value('vapour pressure deficit (kPa)'),
    sources: [
      ASHRAE,
      'Oke, T. R. (1987) Boundary Layer Climates, 2nd ed., equation 2.13a: saturated less actual pressure',
    ],
    examples: [
      {
        title: 'Rooms of 16 °C at 85% and 18 °C at 92%',
        arguments: [
          [[16], [18]],
          [[0.85], [0.92]],
        ],
        gives: [[0.27276593362719], [0.16514333111493]],
      },
    ],
    faults: [percentFault, unitFault],
    eachRow: (temperature, humidity, _altitude, unit) =>
      vapourPressureDeficit({ celsius: airCelsius('temperature', temperature, unit), humidity }),
  }),

  defineFunction({
    name: 'HUMIDITYFROMWETBULB',
    family: 'climate',
    summary: 'Relative humidity from a dry and a wet bulb thermometer in moving air.',
    notes:
      'Move the air past the bulbs at 3 m/s or more. Below 0 °C the wet bulb counts as frozen. Where both temperatures ' +
      `are blank or 0 the row does not count. ${UNITS}`,
    cautions: [MOULD],
    arguments: [
      column('temperature', temperature(), 'dry bulb'),
      column('wet bulb', temperature(), 'wet bulb, at most the dry bulb'),
      altitude,
      temperatureUnit,
    ],
    result: value('relative humidity', 'percent'),
    sources: [ASHRAE, ISO2533],
    examples: [
      {
        title: '24 °C dry and 20 °C wet, at sea level and at 1,500 m',
        arguments: [24, 20, [[0], [1500]]],
        gives: [[0.69580741568586], [0.71061080459431]],
      },
      { title: '75 °F dry and 68 °F wet', arguments: [75, 68, null, 'F'], gives: 0.70291999858234 },
    ],
    faults: [
      {
        arguments: [20, 24],
        code: '#VALUE!',
        says: 'wet bulb: it must not be above the dry bulb',
        remedy: 'Swap the two columns, or check the thermometers.',
      },
      {
        arguments: [40, 5],
        code: '#VALUE!',
        says: 'wet bulb: even bone-dry air reads higher beside this dry bulb',
        remedy: 'Check the thermometers and the unit.',
      },
    ],
    eachRow: (temperature, wetBulb, altitude, unit) => {
      if (temperature === 0 && wetBulb === 0) return '';
      return humidityFromWetBulb(
        airCelsius('temperature', temperature, unit),
        toCelsius(wetBulb, unit),
        metres(altitude, unit),
      );
    },
  }),

  defineFunction({
    name: 'CLIMATEPLAN',
    family: 'climate',
    summary: 'Set points of rooms on a date, read off your own programme by days since load.',
    notes:
      'Numbers run straight between the days of the programme, and stay as on its first and last day outside it; words ' +
      '(lights on, lights off) hold until the next. A blank number is a 0: fill every cell. One row of set points for ' +
      'each loaded room, under a row of headers. Common practice, no source: humidity of 90 to 95% at pinning, coming ' +
      'down to the low 80s at harvest.',
    cautions: [CO2, SPORES],
    arguments: [
      keyColumn('loaded', serial(), 'day each room was loaded'),
      column('on', serial(), 'date, with the time of day if you like'),
      table(
        'programme',
        { day: number({ word: 'days', unit: 'days', from: 0 }), 'set points': others(anything()) },
        'table with day (since load) and a column for each set point',
      ),
    ],
    result: freeTable(),
    sources: ['Linear interpolation; the programme is your own'],
    examples: [
      {
        title: 'Half-way between days 4 and 12 of the programme, and on day 0',
        arguments: [
          [[46000], [46008]],
          46008,
          [
            ['day', 'temperature', 'humidity', 'light'],
            [0, 18, 0.95, 'off'],
            [4, 16, 0.95, 'on'],
            [12, 14, 0.83, null],
          ],
        ],
        gives: [
          ['day', 'temperature', 'humidity', 'light'],
          [8, 15, 0.89, 'on'],
          [0, 18, 0.95, 'off'],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          46008,
          46000,
          [
            ['day', 'humidity'],
            [0, 0.95],
          ],
        ],
        code: '#VALUE!',
        says: 'on: 0 or more days since load needed, got -8',
        remedy: 'Check the two dates.',
      },
      {
        arguments: [
          46000,
          46008,
          [
            ['day', 'humidity'],
            [4, 0.95],
            [4, 0.9],
          ],
        ],
        code: '#VALUE!',
        says: 'programme, day: each day once needed, got 4 (row 3)',
        remedy: 'For a jump give two days close together, such as 4 and 4.01.',
      },
      {
        arguments: [
          46000,
          46008,
          [
            ['day', 'humidity'],
            [4, 0.95],
            [12, '90%'],
          ],
        ],
        code: '#VALUE!',
        says: 'programme, humidity: numbers in all rows or words in all rows needed, got "90%" (row 3)',
        remedy: 'Retype numbers that are stored as text.',
      },
      {
        arguments: [46000, 46008, [['day', 'humidity']]],
        code: '#N/A',
        says: 'programme: no day in it',
        remedy: 'Give at least one day of the programme.',
      },
    ],
    whole: (loaded, on, programme, { rowNumbers }) => {
      const { days, columns } = readProgramme(programme.rows);
      const headers = [...columns.keys()];
      const blank = new Array<Answer>(headers.length + 1).fill('');
      const rows = new Array<readonly Answer[]>(rowNumbers.at(-1) ?? 0).fill(blank);
      loaded.forEach((load, i) => {
        const [day, row] = [on[i]! - load, rowNumbers[i]!];
        rows[row - 1] =
          day < 0
            ? blank.map(() => toCellError(invalid('on', '0 or more days since load', day), ` (row ${row})`))
            : [day, ...headers.map((header) => setPointOn(days, columns.get(header)!, day) ?? '')];
      });
      return { columns: [resultColumn('day'), ...headers.map((header) => resultColumn(header))], rows };
    },
  }),

  defineFunction({
    name: 'FRESHAIR',
    family: 'climate',
    summary: 'Airflow of outside air that holds a room at a CO2 limit.',
    notes: `At steady production. ${PRODUCTION}`,
    cautions: [CO2, SPORES],
    arguments: [
      keyColumn(production.name, production.kind, production.meaning),
      column('limit', ppm, 'level to hold, in ppm'),
      outside,
    ],
    result: value('airflow an hour'),
    sources: [BALANCE],
    examples: [
      {
        title: '0.29 m³ of CO2 an hour, to be held at 1,000 ppm: 0.29 / 0.00058',
        arguments: [0.29, 1000],
        gives: 500,
      },
    ],
    faults: [
      {
        arguments: [0.29, 400],
        code: '#VALUE!',
        says: 'limit: more than the 420 ppm outside needed, got 400',
        remedy: 'Outside air cannot bring a room below its own level.',
      },
    ],
    eachRow: freshAir,
  }),

  defineFunction({
    name: 'CARBONDIOXIDE',
    family: 'climate',
    summary: 'CO2 level of a well-mixed room, in ppm, after some minutes of steady production and airflow.',
    notes: `Airflow and production are per hour. An airflow of 0 is a closed room. ${PRODUCTION}`,
    cautions: [CO2, SPORES],
    arguments: [
      production,
      column(
        'airflow',
        number({ word: 'volume', from: 0 }),
        'volume of outside air an hour; 0 for a closed room',
      ),
      keyColumn('volume', number({ word: 'volume', above: 0 }), 'volume of air in the room'),
      column('minutes', number({ word: 'minutes', from: 0 }), 'minutes since the level was at its start'),
      optionalColumn('start', ppm, undefined, 'level at the start in ppm; that outside if left out'),
      outside,
    ],
    result: value('CO2 level (ppm)'),
    sources: [BALANCE],
    examples: [
      {
        // 2,000 ppm above outside at first, n t = 10 × 6 / 60 = 1: 420 + 2,000 / e
        title: 'Airing a room of 100 m³ from 2,420 ppm with 1,000 m³/h for 6 minutes',
        arguments: [0, 1000, 100, 6, 2420],
        gives: 420 + 2000 / Math.E,
      },
      {
        title: 'A closed room of 100 m³ with 0.1 m³ of CO2 an hour: 1,000 ppm more each hour',
        arguments: [0.1, 0, 100, [[0], [60], [120]]],
        gives: [[420], [1420], [2420]],
      },
    ],
    faults: [
      {
        arguments: [100, 0, 100, 120],
        code: '#VALUE!',
        says: 'production: less needed, the room would be more than all CO2 by then',
        remedy: 'Check that production, airflow and volume are in one unit of volume.',
      },
    ],
    eachRow: (production, airflow, volume, minutes, start, outside) =>
      carbonDioxide({ production, airflow, volume }, minutes, start ?? outside, outside),
  }),

  defineFunction({
    name: 'FOGWATER',
    family: 'climate',
    summary: 'Water an hour that outside air needs to come to the humidity of the room.',
    notes:
      'Kilograms an hour for an airflow in m³/h; with unit F pounds an hour for an airflow in cubic feet a minute, ' +
      'altitude in feet. What the crop evaporates comes off it. Below 0 the outside air brings more water than the room ' +
      'holds. Each kilogram evaporated cools the air by 2,500 kJ, which heating must give back. A blank or 0 airflow ' +
      'gives a blank.',
    cautions: [MOULD, CO2],
    arguments: [
      keyColumn(
        'airflow',
        number({ word: 'airflow', from: 0 }),
        'outside air: m³ an hour (cubic feet a minute)',
      ),
      column('outside temperature', temperature(), 'temperature of the outside air'),
      column('outside humidity', fraction(), 'relative humidity of the outside air'),
      column('room temperature', temperature(), 'temperature to hold'),
      column('room humidity', fraction(), 'relative humidity to hold'),
      altitude,
      temperatureUnit,
    ],
    result: value('water an hour'),
    sources: [
      ASHRAE,
      'ASHRAE Handbook – HVAC Systems and Equipment, chapter on humidifiers: load from ventilation air',
    ],
    examples: [
      {
        title: '500 m³/h from 5 °C at 80%, and from 25 °C at 80%, to 16 °C at 90%',
        arguments: [500, [[5], [25]], 0.8, 16, 0.9],
        gives: [[3.5411053083929], [-3.4539086065745]],
      },
      {
        title: '300 cfm from 41 °F at 80% to 61 °F at 90%, in pounds',
        arguments: [300, 41, 0.8, 61, 0.9, null, 'F'],
        gives: 8.0540392034544,
      },
    ],
    faults: [
      {
        arguments: [500, 5, 80, 16, 0.9],
        code: '#VALUE!',
        says: 'outside humidity: 0 to 1 needed, got 80 – percentages are fractions: write 80% or 0.8',
        remedy: 'Give the humidity as a percentage or as a fraction of 1.',
      },
    ],
    eachRow: (
      airflow,
      outsideTemperature,
      outsideHumidity,
      roomTemperature,
      roomHumidity,
      altitude,
      unit,
    ) => {
      const imperial = unit === 'F';
      const kilograms = fogWater(
        imperial ? airflow * HOURLY_METRES_A_CFM : airflow,
        { celsius: airCelsius('outside temperature', outsideTemperature, unit), humidity: outsideHumidity },
        { celsius: airCelsius('room temperature', roomTemperature, unit), humidity: roomHumidity },
        metres(altitude, unit),
      );
      return imperial ? kilograms / KILOGRAMS_A_POUND : kilograms;
    },
  }),
];

type SetPoint = number | string | boolean | undefined;

/** The programme's days and, for each other column that holds anything, its set points. */
function readProgramme(
  rows: readonly { readonly day: number; readonly 'set points': ReadonlyMap<string, Cell | undefined> }[],
): { days: readonly number[]; columns: ReadonlyMap<string, readonly SetPoint[]> } {
  if (rows.length === 0) throw new CalcError('missing', 'programme: no day in it');
  const columns = new Map<string, SetPoint[]>();
  for (const header of rows[0]!['set points'].keys()) {
    const cells = rows.map((row) => row['set points'].get(header) ?? undefined);
    const fault = cells.find((cell) => cell instanceof CellError);
    if (fault) throw new SheetFault(fault);
    const points = cells as SetPoint[];
    const numbers = typeof points.find((point) => point !== undefined) === 'number';
    const odd = points.findIndex((point) => point !== undefined && (typeof point === 'number') !== numbers);
    if (odd >= 0) {
      throw invalid(`programme, ${header}`, 'numbers in all rows or words in all rows', points[odd], odd);
    }
    columns.set(header, points);
  }
  return { days: rows.map(({ day }) => day), columns };
}
