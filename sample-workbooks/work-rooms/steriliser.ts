import {
  chart,
  column,
  figures,
  formula,
  heading,
  inputs,
  table,
  type Sheet,
  type Typed,
} from '../../src/hosts/xlsx/describe';

/** Minutes between readings, of heating and of cooling. */
const STEP = 5;
const HEATING = 155;
const COOLING = 25;

/**
 * A core that lags behind its steam and follows it on a straight heat-penetration line, then cools; written to a tenth
 * of a degree as a logger does.
 */
function core(minute: number, steam: number, minutesPerTenth: number): number {
  const heating = (t: number): number =>
    Math.max(18, steam - 1.6 * (steam - 18) * 10 ** (-t / minutesPerTenth));
  const reading = minute <= HEATING ? heating(minute) : heating(HEATING) - 1.4 * (minute - HEATING);
  return Math.round(10 * reading) / 10;
}

function run(day: string, steam: number, minutesPerTenth: number): Typed[][] {
  const rows: Typed[][] = [];
  for (let minute = 0; minute <= HEATING + COOLING; minute += STEP) {
    const [hour, past] = [8 + Math.floor(minute / 60), minute % 60];
    const time = `${day} ${String(hour).padStart(2, '0')}:${String(past).padStart(2, '0')}`;
    rows.push([time, core(minute, steam, minutesPerTenth)]);
  }
  return rows;
}

/** From 09:40 on the probe of the third run gives nothing, then a figure no core has. */
const deadProbe = run('2026-03-13', 122, 55).map(([time, reading], i): Typed[] => [
  time!,
  i < 20 ? reading! : i < 24 ? null : 850,
]);

const columns = [column('Time', 'dateTime'), column('Core (°C)', 'temperature')];
const FIRST = 6;
const LAST = FIRST + (HEATING + COOLING) / STEP;
const NO_READING =
  'temperatures must have a reading beside each time; it is blank or 0 (row 21 of the column)';

const lethality = (run: string, name: string): string =>
  `=PINSET.${name}(${run}[Time], ${run}[Core (°C)], ZValue, Reference, "C", "dates")`;

const MAIMS = [
  'Pressure vessels and steam maim and kill: an inspected vessel, a working relief valve, trained people,',
  'zero pressure before the door is opened. Local codes and licensed practice decide.',
];

export const steriliser: Sheet = {
  name: 'Steriliser',
  title: 'Steriliser: the equivalent minutes of three runs',
  notes: [
    'A good run, one that never got there, one whose probe died; the logs are in Run logs. Figures are invented.',
    'The minutes hold for the probe that was read. They prove no sterility: the coldest core decides, and air pockets hide it.',
    ...MAIMS,
  ],
  things: [
    figures(
      'A7',
      { label: 'Run 1 (min)', formula: lethality('GoodRun', 'LETHALITY'), reads: { code: '0.00' } },
      { label: 'Run 2 (min)', formula: lethality('ColdRun', 'LETHALITY'), reads: { code: '0.00' } },
      { label: 'Run 3 (min)', formula: lethality('DeadProbe', 'LETHALITY'), reads: { code: '0.00' } },
    ),
    inputs(
      'A11',
      { label: 'Minutes wanted', value: 15, reads: 'count', name: 'MinutesWanted' },
      { label: 'z (°C)', value: 10, reads: 'count', name: 'ZValue' },
      { label: 'Reference (°C)', value: 121.1, reads: 'temperature', name: 'Reference' },
    ),
    chart('D7:L24', 'line', 'Core temperature (°C)', {
      says: 'Temperature in the core of the load through two runs, a line each, in degrees Celsius.',
      across: 'GoodRun[Time]',
      series: [
        { title: 'Run 1', values: 'GoodRun[Core (°C)]' },
        { title: 'Run 2', values: 'ColdRun[Core (°C)]' },
      ],
      acrossReads: { code: 'hh:mm' },
      upReads: 'count',
    }),
    heading('N7', 'How the core of run 1 follows the steam'),
    formula(
      'N8',
      '=PINSET.HEATINGFIT(GoodRun[Time], GoodRun[Core (°C)], 122, ZValue, Reference, "C", "dates")',
      [
        { code: '0.0' },
        { code: '0.00' },
        { code: '0.0' },
        { code: '0.0000' },
        { code: '0' },
        { code: '0' },
        { code: '0.00' },
      ],
      { headed: true, rows: 2 },
    ),
    heading('N11', 'Run 1 at 100 °C and above'),
    formula(
      'N13',
      '=PINSET.MINUTESABOVE(GoodRun[Time], GoodRun[Core (°C)], 100, "C", "dates")',
      [{ code: '0.0' }, { code: '0.0' }, 'temperature'],
      { headers: ['Minutes', 'Longest spell', 'Peak (°C)'] },
    ),
  ],
  highlights: [
    { range: 'B7:B9', when: '=AND(ISNUMBER(B7),B7>=MinutesWanted)', tint: 'good' },
    { range: 'B7:B9', when: '=AND(ISNUMBER(B7),B7<MinutesWanted)', tint: 'late' },
  ],
  prints: 'A:L',
  faults: [{ cells: 'B9', code: '#VALUE!', says: NO_READING }],
};

export const runLogs: Sheet = {
  name: 'Run logs',
  title: 'Run logs: the equivalent minutes so far',
  notes: ['Core temperatures of the three runs, each with its minutes on the left. Figures are invented.'],
  things: [
    heading('A4', 'Run 1: steam at 122 °C'),
    formula(
      `A${FIRST}`,
      lethality('GoodRun', 'LETHALITYCURVE'),
      { code: '0.00' },
      { headers: ['Minutes so far'] },
    ),
    table('B5', 'GoodRun', columns, run('2026-03-11', 122, 55)),
    heading('E4', 'Run 2: air left in, 112 °C'),
    formula(
      `E${FIRST}`,
      lethality('ColdRun', 'LETHALITYCURVE'),
      { code: '0.00' },
      { headers: ['Minutes so far'] },
    ),
    table('F5', 'ColdRun', columns, run('2026-03-12', 112, 62)),
    heading('I4', 'Run 3: the probe died'),
    formula(
      `I${FIRST}`,
      lethality('DeadProbe', 'LETHALITYCURVE'),
      { code: '0.00' },
      { headers: ['Minutes so far'] },
    ),
    table('J5', 'DeadProbe', columns, deadProbe),
  ],
  freeze: `A${FIRST}`,
  upright: true,
  faults: [{ cells: `I${FIRST + 20}:I${LAST}`, code: '#VALUE!', says: NO_READING }],
};

export const steam: Sheet = {
  name: 'Hold and steam',
  title: 'Minutes to hold the core, and what the gauge says of the steam',
  notes: [...MAIMS],
  things: [
    heading('A5', 'To hold'),
    formula('A7', '=Holds[Core (°C)]', 'temperature', { headers: ['Core (°C)'], spills: true, growth: 8 }),
    formula(
      'B7',
      '=PINSET.HOLDMINUTES(MinutesWanted, Holds[Core (°C)], ZValue, Reference)',
      { code: '0.0' },
      {
        headers: ['Minutes'],
        growth: 8,
      },
    ),
    heading('D5', 'Steam without air'),
    formula('D7', '=PINSET.STEAMTEMP(Gauges[Gauge (bar)], Gauges[Altitude (m)])', 'temperature', {
      headers: ['Steam (°C)'],
      growth: 8,
    }),
    formula(
      'E7',
      '=PINSET.STEAMPRESSURE(Reference, Gauges[Altitude (m)])',
      { code: '0.00' },
      {
        headers: ['Bar for reference'],
        growth: 8,
      },
    ),
    formula('F7', '=PINSET.BOILINGPOINT(Gauges[Altitude (m)])', 'temperature', {
      headers: ['Boils at (°C)'],
      growth: 8,
    }),
    heading('H5', 'For these'),
    table(
      'H6',
      'Gauges',
      [column('Altitude (m)', 'count'), column('Gauge (bar)', { code: '0.00' })],
      [
        [0, 0.8],
        [0, 1.04],
        [500, 1.04],
        [1000, 1.04],
        [1500, 1.04],
        [2000, 1.04],
      ],
    ),
    table('K6', 'Holds', [column('Core (°C)', 'temperature')], [[105], [110], [115], [118], [121.1], [124]]),
  ],
};
