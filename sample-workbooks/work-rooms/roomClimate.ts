import {
  chart,
  column,
  figures,
  formula,
  heading,
  inputs,
  spilled,
  table,
  type Sheet,
  type Typed,
} from '../../src/hosts/xlsx/describe';

const HOURS = 7 * 24;

/** A room that warms by day and dries when the door stands open on working mornings; rounded as sensors round. */
const week: Typed[][] = Array.from({ length: HOURS }, (_, hour) => {
  const [day, clock] = [Math.floor(hour / 24), hour % 24];
  const warmth = Math.sin(((clock - 9) / 24) * 2 * Math.PI);
  const open = day < 5 && clock >= 8 && clock <= 10;
  const drift = Math.sin(hour / 17) / 2;
  const temperature = Math.round(10 * (16 + 0.9 * warmth + 0.4 * drift)) / 10;
  const humidity = Math.round(1000 * (0.91 - 0.02 * warmth + 0.02 * drift - (open ? 0.09 : 0))) / 1000;
  const time = `2026-03-${String(9 + day).padStart(2, '0')} ${String(clock).padStart(2, '0')}:00`;
  return [time, temperature, humidity];
});

const growth = 48;

export const roomClimate: Sheet = {
  name: 'Room climate',
  title: 'Room climate: how fast caps dry',
  notes: ['One room by the hour for a week, invented: what its temperature and humidity come to.'],
  things: [
    formula(
      'A5',
      '=Hours[Time]',
      { code: 'yyyy-mm-dd hh:mm' },
      { headers: ['Time'], spills: true, growth, widths: [18] },
    ),
    formula(
      'B5',
      '=PINSET.VPD(Hours[Air (°C)], Hours[Humidity])',
      { code: '0.000' },
      {
        headers: ['VPD (kPa)'],
        growth,
      },
    ),
    formula('C5', '=PINSET.DEWPOINT(Hours[Air (°C)], Hours[Humidity])', 'temperature', {
      headers: ['Dew point (°C)'],
      growth,
    }),
    formula('D5', '=PINSET.WETBULB(Hours[Air (°C)], Hours[Humidity], Altitude)', 'temperature', {
      headers: ['Wet bulb (°C)'],
      growth,
    }),
    formula(
      'E5',
      '=PINSET.HUMIDITYRATIO(Hours[Air (°C)], Hours[Humidity], Altitude)',
      { code: '0.00000' },
      {
        headers: ['Water (kg/kg)'],
        growth,
      },
    ),
    chart('G5:N22', 'line', 'Vapour pressure deficit (kPa)', {
      says: 'Vapour pressure deficit of the room over the days of the logger, in kilopascals: the higher the line, the faster caps dry.',
      across: spilled('A5'),
      series: [{ title: 'VPD', values: spilled('B5') }],
      acrossReads: { code: 'd mmm' },
      upReads: { code: '0.0' },
    }),
    inputs('G24', { label: 'Altitude (m)', value: 320, reads: 'count', name: 'Altitude' }),
    table(
      'P4',
      'Hours',
      [column('Time', 'dateTime'), column('Air (°C)', 'temperature'), column('Humidity', 'percent')],
      week,
    ),
  ],
  freeze: 'A5',
  prints: 'A:N',
};

export const setPoints: Sheet = {
  name: 'Set points',
  title: 'Set points of the rooms',
  notes: [
    'What each room is to be set to on the day on the right, by the programme of days since it was loaded.',
  ],
  things: [
    heading('A4', 'Now'),
    formula('A6', '=Rooms[Room]', 'text', { headers: ['Room'], spills: true, growth: 6 }),
    formula(
      'B5',
      '=PINSET.CLIMATEPLAN(Rooms[Loaded], L5, Programme[#All])',
      [{ code: '0.0' }, 'temperature', 'percent', 'count', 'text'],
      { headed: true, growth: 6 },
    ),
    heading('H4', 'Rooms'),
    table(
      'H5',
      'Rooms',
      [column('Room'), column('Loaded', 'date')],
      [
        ['North', '2026-03-06'],
        ['South', '2026-03-11'],
        ['Loft', '2026-03-15'],
      ],
    ),
    heading('N4', 'Programme by days since load'),
    table(
      'N5',
      'Programme',
      [
        column('Day', 'count'),
        column('Air (°C)', 'temperature'),
        column('Humidity', 'percent'),
        column('CO2 (ppm)', 'count'),
        column('Light'),
      ],
      [
        [0, 18, 0.95, 2000, 'off'],
        [3, 16, 0.95, 900, 'on'],
        [7, 16, 0.9, 900, 'on'],
        [12, 15, 0.83, 1000, 'on'],
      ],
    ),
    inputs('K5', { label: 'On', value: '2026-03-16 07:00', reads: 'dateTime' }),
  ],
};

export const freshAir: Sheet = {
  name: 'Fresh air',
  title: 'Fresh air and fog',
  notes: [
    'What the fan and the fogger must give for the room below.',
    'CO2 at work (United States): 5,000 ppm as a shift’s mean, 30,000 ppm for 15 minutes; 40,000 ppm is immediately dangerous.',
    'Ventilate before going in. Spores make lungs ill: masks among ripe crops. Local codes decide.',
  ],
  things: [
    figures(
      'A6',
      { label: 'Fresh air (m³/h)', formula: '=PINSET.FRESHAIR(B9, B10)', reads: { code: '0.0' } },
      {
        label: 'Fog (kg/h)',
        formula: '=PINSET.FOGWATER(B6, B12, B13, B14, B15, Altitude)',
        reads: { code: '0.00' },
        remark: 'less what the crop evaporates',
      },
    ),
    inputs(
      'A9',
      {
        label: 'CO2 given off (m³/h)',
        value: 0.06,
        reads: { code: '0.000' },
        remark: 'measure it: close the room',
      },
      { label: 'Limit (ppm)', value: 1000, reads: 'count' },
      { label: 'Room (m³)', value: 90, reads: 'count' },
      { label: 'Outside air (°C)', value: 5, reads: 'temperature' },
      { label: 'Outside humidity', value: 0.8, reads: 'percent' },
      { label: 'Room air (°C)', value: 16, reads: 'temperature' },
      { label: 'Room humidity', value: 0.9, reads: 'percent' },
    ),
    heading('F5', 'If the fan stops'),
    formula('F7', '=PINSET.CARBONDIOXIDE(B9, "none", B11, Stopped[Minutes], B10)', 'count', {
      headers: ['CO2 (ppm)'],
      growth: 6,
    }),
    table(
      'G6',
      'Stopped',
      [column('Minutes', 'count')],
      [['none'], [60], [120], [180], [240], [300], [360], [420], [480]],
    ),
    chart('I6:P22', 'line', 'CO2 if the fan stops (ppm)', {
      says: 'Carbon dioxide in the closed room by the minutes since the fan stopped, in parts per million.',
      across: 'Stopped[Minutes]',
      series: [{ title: 'CO2', values: spilled('F7') }],
      acrossTitle: 'minutes',
      upReads: 'count',
    }),
  ],
  widths: { C: 28 },
};

export const bulbs: Sheet = {
  name: 'Two thermometers',
  title: 'Humidity from two thermometers',
  notes: ['One dry, one with a wet wick in moving air. Figures are invented.'],
  things: [
    formula('A5', '=PINSET.HUMIDITYFROMWETBULB(Bulbs[Dry (°C)], Bulbs[Wet (°C)], Altitude)', 'percent', {
      headers: ['Humidity'],
      growth: 8,
    }),
    table(
      'C4',
      'Bulbs',
      [column('Dry (°C)', 'temperature'), column('Wet (°C)', 'temperature')],
      [
        [16.2, 15.3],
        [16.4, 14.6],
        [15.8, 15.6],
      ],
    ),
  ],
};
