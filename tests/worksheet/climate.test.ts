import { describe, expect, test } from '@jest/globals';
import { volumeOfDryKilogram } from '../../src/maths/climate/moistAir';
import { catalogue } from '../../src/worksheet/catalogue';
import { cellError, isCellError, plainValues, type Grid } from '../../src/worksheet/cells/cell';
import { words } from '../../src/worksheet/climate/fogWater.words';
import { evaluate } from './prepared';

const call = (name: string, ...given: (Grid | null)[]) =>
  plainValues(
    evaluate(
      catalogue.find((f) => f.name === name)!,
      given,
    ),
  );

describe('CLIMATEPLAN', () => {
  const programme: Grid = [
    ['day', 'temperature'],
    [0, 18],
    [4, 16],
  ];

  test('has no set point where the programme gives none yet', () => {
    const light: Grid = [
      ['day', 'temperature', 'light'],
      [0, 18, null],
      [4, 16, 'on'],
    ];
    expect(call('CLIMATEPLAN', [[46006], [46002]], [[46008]], light)).toEqual([
      ['day', 'temperature', 'light'],
      [2, 17, ''],
      [6, 16, 'on'],
    ]);
  });

  test('a room that is loaded after the day asked for faults in its own row only', () => {
    const rows = call('CLIMATEPLAN', [[46006], [null], [46020]], [[46008]], programme);
    const says = 'on must not be before loaded (2025-12-29); it is 2025-12-17 (row 3 of the column)';
    const fault = cellError('#VALUE!', says, { argument: 'on', row: 3 });
    expect(rows).toEqual([
      ['day', 'temperature'],
      [2, 17],
      ['', ''],
      [fault, fault],
    ]);
  });

  test('keeps its headers where no room is loaded', () => {
    expect(call('CLIMATEPLAN', [[null]], [[46008]], programme)).toEqual([['day', 'temperature']]);
  });

  test('names the row and column of an error cell in the programme', () => {
    const broken = [...programme.slice(0, 2), [4, cellError('#N/A')]];
    const says = 'temperature in programme holds the error #N/A (row 3 of programme)';
    expect(call('CLIMATEPLAN', [[46006]], [[46008]], broken)).toEqual([
      [cellError('#N/A', says, { argument: 'programme, temperature', row: 3 })],
    ]);
  });
});

describe('FOGWATER', () => {
  // 0.06 m³ of CO2 are 0.06 ÷ 0.3048³ ft³, 5 °C 41 °F, 16 °C 60.8 °F, and a pound is 0.45359237 kg.
  test('takes the airflow that FRESHAIR gives, in feet and pounds as in metres and kilograms', () => {
    const fogFor = (co2: number, outside: number, room: number, unit: string): number => {
      const [[airflow]] = call('FRESHAIR', [[co2]], [[1000]]) as [[number]];
      const given = [airflow, outside, 0.8, room, 0.9, null, unit].map((cell): Grid => [[cell]]);
      return (call('FOGWATER', ...given) as [[number]])[0][0];
    };
    const kilograms = fogFor(0.06, 5, 16, 'C');
    const pounds = fogFor(0.06 / 0.3048 ** 3, 41, 60.8, 'F');
    expect(pounds * 0.45359237).toBeCloseTo(kilograms, 10);
  });

  test('says where the airflow is taken as measured, and how much more air the same figure is in the cold', () => {
    expect(words.notes.join(' ')).toContain('taken as measured at the temperature and humidity of the room');
    expect(words.notes.join(' ')).toContain('5% more at 5 °C than at 16 °C');
    const [room, cold] = [16, 5].map((celsius) => volumeOfDryKilogram({ celsius, humidity: 0.85 }, 101_325));
    expect(room! / cold!).toBeCloseTo(1.05, 2);
  });
});

describe('messages speak in the units of the call', () => {
  test.each<[string, (number | string | null)[], string]>([
    ['DEWPOINT', [68, 1e-9, null, 'F'], 'humidity is too low: the dew point would be below -148 °F'],
    // The altitudes that the barometric formula holds for: −500 to 11,000 m.
    ['HUMIDITYRATIO', [20, 0.5, 40_000, 'C'], 'altitude must be from -500 to 11000 m; it is 40000 m'],
    ['HUMIDITYRATIO', [68, 0.5, 40_000, 'F'], 'altitude must be from -1640 to 36089 ft; it is 40000 ft'],
    ['WETBULB', [200, 0.5, null, 'F'], 'temperature must be from -40 to 140 °F; it is 200 °F'],
    ['HUMIDITYFROMWETBULB', [75, 80, null, 'F'], 'wet bulb must be at most 75 °F, the dry bulb; it is 80 °F'],
    [
      'FOGWATER',
      [5, 300, 0.5, 60, 0.9, null, 'F'],
      'outside temperature must be from -40 to 140 °F; it is 300 °F',
    ],
  ])('%s of %p', (name, cells, says) => {
    const [[answer]] = call(name, ...cells.map((cell): Grid => [[cell]])) as [[unknown]];
    expect(isCellError(answer) ? answer.reason : answer).toBe(says);
  });
});
