import {
  chart,
  column,
  figures,
  formula,
  heading,
  inputs,
  remark,
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

const FIRST = 8;
const LAST = FIRST + HOURS - 1;

export const roomClimate: Sheet = {
  name: 'Room climate',
  title: 'Room climate',
  notes: ['One room by the hour for a week, its set points, fresh air and fog. Figures are invented.'],
  things: [
    inputs('A4', { label: 'Altitude (m)', value: 320, reads: 'count' }),
    table(
      'A7',
      'Hours',
      [column('Time', 'dateTime'), column('Air (°C)', 'temperature'), column('Humidity', 'percent')],
      week,
    ),
    formula('D8', '=PINSET.DEWPOINT(Hours[Air (°C)], Hours[Humidity])', 'temperature', {
      headers: ['Dew point (°C)'],
    }),
    formula('E8', '=PINSET.WETBULB(Hours[Air (°C)], Hours[Humidity], $B$4)', 'temperature', {
      headers: ['Wet bulb (°C)'],
    }),
    formula(
      'F8',
      '=PINSET.HUMIDITYRATIO(Hours[Air (°C)], Hours[Humidity], $B$4)',
      { code: '0.00000' },
      {
        headers: ['Water (kg/kg)'],
      },
    ),
    formula(
      'G8',
      '=PINSET.VPD(Hours[Air (°C)], Hours[Humidity])',
      { code: '0.000' },
      {
        headers: ['VPD (kPa)'],
      },
    ),
    chart('I25:Q44', 'line', 'Vapour pressure deficit (kPa)', {
      says: 'Vapour pressure deficit of the room over the days of the logger, in kilopascals: the higher the line, the faster caps dry.',
      across: `A${FIRST}:A${LAST}`,
      series: [{ title: 'VPD', values: `G${FIRST}:G${LAST}` }],
      acrossReads: { code: 'd mmm' },
      upReads: { code: '0.0' },
    }),

    heading('I6', 'Programme by days since load'),
    table(
      'I7',
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
    heading('I14', 'Set points of the rooms'),
    inputs('L14', { label: 'On', value: '2026-03-16 07:00', reads: 'dateTime' }),
    table(
      'I15',
      'Rooms',
      [column('Room'), column('Loaded', 'date')],
      [
        ['North', '2026-03-06'],
        ['South', '2026-03-11'],
        ['Loft', '2026-03-15'],
      ],
    ),
    formula(
      'K15',
      '=PINSET.CLIMATEPLAN(Rooms[Loaded], M14, Programme[#All])',
      [{ code: '0.0' }, 'temperature', 'percent', 'count', 'text'],
      { headed: true },
    ),

    heading('S6', 'Fresh air and fog'),
    inputs(
      'S8',
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
    figures(
      'S16',
      { label: 'Fresh air (m³/h)', formula: '=PINSET.FRESHAIR(T8, T9)', reads: { code: '0.0' } },
      {
        label: 'Fog (kg/h)',
        formula: '=PINSET.FOGWATER(T16, T11, T12, T13, T14, B4)',
        reads: { code: '0.00' },
        remark: 'less what the crop evaporates',
      },
    ),
    heading('S19', 'If the fan stops'),
    table('S20', 'Stopped', [column('Minutes', 'count')], [['none'], [15], [30], [60], [120], [240], [480]]),
    formula('T21', '=PINSET.CARBONDIOXIDE(T8, "none", T10, Stopped[Minutes], T9)', 'count', {
      headers: ['CO2 (ppm)'],
    }),
    heading('S30', 'Two thermometers'),
    table(
      'S31',
      'Bulbs',
      [column('Dry (°C)', 'temperature'), column('Wet (°C)', 'temperature')],
      [
        [16.2, 15.3],
        [16.4, 14.6],
        [15.8, 15.6],
      ],
    ),
    formula('U32', '=PINSET.HUMIDITYFROMWETBULB(Bulbs[Dry (°C)], Bulbs[Wet (°C)], $B$4)', 'percent', {
      headers: ['Humidity'],
    }),
    remark(
      'I46',
      'CO2 at work (United States): 5,000 ppm as a shift’s mean, 30,000 ppm for 15 minutes; 40,000 ppm is',
      'immediately dangerous. Ventilate before going in. Spores make lungs ill: masks among ripe crops. Local codes decide.',
    ),
  ],
  freeze: 'A8',
};
