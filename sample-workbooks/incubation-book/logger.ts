import {
  chart,
  column,
  figures,
  formula,
  heading,
  inputs,
  remark,
  spilled,
  table,
  type Sheet,
  type Typed,
} from '../../src/hosts/xlsx/describe';

const START = Date.UTC(2026, 0, 12, 8);
const HOUR = 3_600_000;

/** Invented readings, one an hour for twelve weeks: days a little warmer than nights, a cold spell, and a flat battery. */
function readings(): Typed[][] {
  let state = 12;
  const rows: Typed[][] = [];
  for (let hour = 0; hour < 2050; hour++) {
    state = (state * 48_271) % 2_147_483_647;
    const noise = state / 2_147_483_647 - 0.5;
    if (hour >= 900 && hour < 931) continue;
    const day = hour / 24;
    const spell = day > 50 && day < 58 ? -4 : 0;
    const temperature = 20.5 + 1.2 * Math.sin((2 * Math.PI * (hour - 4)) / 24) + spell + 0.6 * noise;
    const time = new Date(START + hour * HOUR).toISOString();
    rows.push([`${time.slice(0, 10)} ${time.slice(11, 16)}`, Math.round(temperature * 10) / 10]);
  }
  return rows;
}

export const logger: Sheet = {
  name: 'Logger',
  title: 'Logger',
  notes: [
    'A room’s temperature logger, one invented reading an hour for twelve weeks; a battery was flat for a day and a half.',
  ],
  things: [
    table('A4', 'Log', [column('Time', 'dateTime'), column('Temperature (°C)', 'temperature')], readings()),
    heading('D3', 'A lot in this room'),
    inputs(
      'D4',
      { label: 'Inoculated', value: '2026-01-12', reads: 'date' },
      { label: 'Strain', value: 'Alder-3', reads: 'text', choices: 'Strains[Strain]' },
    ),
    figures('D7', { label: 'Readings', formula: '=COUNT(Log[Temperature (°C)])', reads: 'count' }),
    formula(
      'D10',
      '=PINSET.READYFROMLOG(E4, E5, Strains[#All], Log[Time], Log[Temperature (°C)], Today)',
      ['percent', 'date', { code: '0.0' }, 'text'],
      { headers: ['Progress', 'Ready', 'Hours without readings', 'Where'] },
    ),
    figures('D12', {
      label: 'By the calendar alone',
      formula: '=PINSET.READYDATE(E4, E5, Strains[#All])',
      reads: 'date',
      remark: 'the strain’s days, whatever the room was like',
    }),
    chart('D14:K30', 'line', 'Room temperature (°C)', {
      says: 'Temperature of the incubation room over the days of the logger, in degrees Celsius.',
      across: 'Log[Time]',
      series: [{ title: 'Temperature (°C)', values: 'Log[Temperature (°C)]' }],
      acrossReads: 'date',
      upReads: 'temperature',
    }),

    heading('M3', 'Growth of mycelium by temperature'),
    inputs(
      'M4',
      { label: 'Min temp (°C)', value: 5, reads: 'temperature' },
      { label: 'Best temp (°C)', value: 24, reads: 'temperature' },
      { label: 'Max temp (°C)', value: 32, reads: 'temperature' },
    ),
    table(
      'M8',
      'Degrees',
      [column('At (°C)', 'count')],
      Array.from({ length: 16 }, (_, i) => [2 * (i + 2)]),
    ),
    formula('N9', '=PINSET.GROWTHRATE(Degrees[At (°C)], N4, N5, N6)', 'percent', {
      headers: ['Growth rate'],
      growth: 8,
    }),
    chart('P8:W24', 'line', 'Growth rate, best temperature = 100%', {
      says: 'How fast mycelium grows at each temperature, as a share of its growth at the best one. It stops at the lowest and the highest.',
      across: 'Degrees[At (°C)]',
      series: [{ title: 'Growth rate', values: spilled('N9') }],
      upReads: 'percent',
    }),
    remark(
      'M27',
      'How fast mycelium grows, not whether it fruits: many strains fruit only after a drop in temperature.',
      'Put the probe among the blocks: their core is warmer than the room, and the core is what ripens.',
    ),
  ],
  freeze: 'A5',
};
