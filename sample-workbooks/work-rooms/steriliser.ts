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
const FIRST = 12;
const LAST = FIRST + (HEATING + COOLING) / STEP;

export const steriliser: Sheet = {
  name: 'Steriliser',
  title: 'Steriliser',
  notes: [
    'Core temperatures of three loads: a good run, one that never got there, one whose probe died. Figures are invented.',
  ],
  things: [
    inputs(
      'A4',
      { label: 'z (°C)', value: 10, reads: 'count' },
      { label: 'Reference (°C)', value: 121.1, reads: 'temperature' },
      { label: 'Minutes wanted', value: 15, reads: 'count' },
    ),
    figures(
      'E4',
      {
        label: 'Run 1 (min)',
        formula: '=PINSET.LETHALITY(GoodRun[Time], GoodRun[Core (°C)], B4, B5, "C", "dates")',
        reads: { code: '0.00' },
      },
      {
        label: 'Run 2 (min)',
        formula: '=PINSET.LETHALITY(ColdRun[Time], ColdRun[Core (°C)], B4, B5, "C", "dates")',
        reads: { code: '0.00' },
      },
      {
        label: 'Run 3 (min)',
        formula: '=PINSET.LETHALITY(DeadProbe[Time], DeadProbe[Core (°C)], B4, B5, "C", "dates")',
        reads: { code: '0.00' },
      },
    ),
    remark(
      'A8',
      'Equivalent minutes hold for the probe that was read. They prove no sterility: the coldest core decides, and air pockets hide it.',
    ),

    heading('A10', 'Run 1: steam at 122 °C'),
    table('A11', 'GoodRun', columns, run('2026-03-11', 122, 55)),
    formula(
      `C${FIRST}`,
      '=PINSET.LETHALITYCURVE(GoodRun[Time], GoodRun[Core (°C)], $B$4, $B$5, "C", "dates")',
      { code: '0.00' },
      {
        headers: ['Minutes so far'],
      },
    ),
    heading('E10', 'Run 2: air left in, 112 °C'),
    table('E11', 'ColdRun', columns, run('2026-03-12', 112, 62)),
    formula(
      `G${FIRST}`,
      '=PINSET.LETHALITYCURVE(ColdRun[Time], ColdRun[Core (°C)], $B$4, $B$5, "C", "dates")',
      { code: '0.00' },
      {
        headers: ['Minutes so far'],
      },
    ),
    heading('I10', 'Run 3: the probe died'),
    table('I11', 'DeadProbe', columns, deadProbe),
    formula(
      `K${FIRST}`,
      '=PINSET.LETHALITYCURVE(DeadProbe[Time], DeadProbe[Core (°C)], $B$4, $B$5, "C", "dates")',
      { code: '0.00' },
      {
        headers: ['Minutes so far'],
      },
    ),

    heading('M10', 'How the core of run 1 follows the steam'),
    formula(
      'M11',
      '=PINSET.HEATINGFIT(GoodRun[Time], GoodRun[Core (°C)], 122, $B$4, $B$5, "C", "dates")',
      [
        { code: '0.0' },
        { code: '0.00' },
        { code: '0.0' },
        { code: '0.0000' },
        { code: '0' },
        { code: '0' },
        { code: '0.00' },
      ],
      { headed: true },
    ),
    heading('U10', 'Run 1 at 100 °C and above'),
    formula(
      'U12',
      '=PINSET.MINUTESABOVE(GoodRun[Time], GoodRun[Core (°C)], 100, "C", "dates")',
      [{ code: '0.0' }, { code: '0.0' }, 'temperature'],
      { headers: ['Minutes', 'Longest spell', 'Peak (°C)'] },
    ),
    heading('M15', 'Minutes to hold the core'),
    table('M16', 'Holds', [column('Core (°C)', 'temperature')], [[105], [110], [115], [118], [121.1], [124]]),
    formula(
      'N17',
      '=PINSET.HOLDMINUTES($B$6, Holds[Core (°C)], $B$4, $B$5)',
      { code: '0.0' },
      {
        headers: ['Minutes'],
      },
    ),
    heading('P15', 'Gauge and steam, no air'),
    table(
      'P16',
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
    formula('R17', '=PINSET.STEAMTEMP(Gauges[Gauge (bar)], Gauges[Altitude (m)])', 'temperature', {
      headers: ['Steam (°C)'],
    }),
    formula(
      'S17',
      '=PINSET.STEAMPRESSURE(B5, Gauges[Altitude (m)])',
      { code: '0.00' },
      {
        headers: ['Bar for 121.1'],
      },
    ),
    formula('T17', '=PINSET.BOILINGPOINT(Gauges[Altitude (m)])', 'temperature', {
      headers: ['Boils at (°C)'],
    }),
    chart('M25:T44', 'line', 'Core temperature (°C)', {
      says: 'Temperature in the core of the load through two runs, a line each, in degrees Celsius.',
      across: `A${FIRST}:A${LAST}`,
      series: [
        { title: 'Run 1', values: `B${FIRST}:B${LAST}` },
        { title: 'Run 2', values: `F${FIRST}:F${LAST}` },
      ],
      acrossReads: { code: 'hh:mm' },
      upReads: 'count',
    }),
    remark(
      'M46',
      'Pressure vessels and steam maim and kill: an inspected vessel, a working relief valve, trained people, zero pressure',
      'before the door is opened. Local codes and licensed practice decide.',
    ),
  ],
  freeze: `A${FIRST}`,
  faults: [
    {
      cells: 'F6',
      code: '#VALUE!',
      says: 'temperatures must have a reading beside each time; it is blank or 0 (row 21 of the column)',
    },
    {
      cells: `K${FIRST + 20}:K${LAST}`,
      code: '#VALUE!',
      says: 'temperatures must have a reading beside each time; it is blank or 0 (row 21 of the column)',
    },
  ],
};
