import {
  chart,
  column,
  figures,
  formula,
  inputs,
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
  title: 'Logger: how far a lot has come in this room',
  notes: [
    'A room’s temperature logger, one invented reading an hour for twelve weeks; a battery was flat for a day and a half.',
    'Put the probe among the blocks: their core is warmer than the room, and the core is what ripens.',
  ],
  things: [
    formula(
      'A6',
      '=PINSET.READYFROMLOG(B11, B12, Strains[#All], Log[Time], Log[Temperature (°C)], Today)',
      ['percent', 'date', { code: '0.0' }, 'text'],
      { headers: ['Progress', 'Ready', 'Hours without readings', 'Where'] },
    ),
    figures(
      'A8',
      {
        label: 'By the calendar alone',
        formula: '=PINSET.READYDATE(B11, B12, Strains[#All])',
        reads: 'date',
        remark: 'whatever the room was like',
      },
      { label: 'Readings', formula: '=COUNT(Log[Temperature (°C)])', reads: 'count' },
    ),
    inputs(
      'A11',
      { label: 'Inoculated', value: '2026-01-12', reads: 'date' },
      { label: 'Strain', value: 'Alder-3', reads: 'text', choices: 'Strains[Strain]' },
    ),
    chart('F5:M21', 'line', 'Room temperature (°C)', {
      says: 'Temperature of the incubation room over the days of the logger, in degrees Celsius.',
      across: 'Log[Time]',
      series: [{ title: 'Temperature (°C)', values: 'Log[Temperature (°C)]' }],
      acrossReads: 'date',
      upReads: 'temperature',
    }),
    table('O5', 'Log', [column('Time', 'dateTime'), column('Temperature (°C)', 'temperature')], readings()),
  ],
  prints: 'A:M',
};

export const growth: Sheet = {
  name: 'Growth',
  title: 'Growth of mycelium by temperature',
  notes: [
    'How fast mycelium grows, not whether it fruits: many strains fruit only after a drop in temperature.',
  ],
  things: [
    formula('A5', '=Degrees[At (°C)]', 'count', { headers: ['At (°C)'], spills: true, growth: 8 }),
    formula('B5', '=PINSET.GROWTHRATE(Degrees[At (°C)], O5, O6, O7)', 'percent', {
      headers: ['Growth rate'],
      growth: 8,
    }),
    chart('D4:L20', 'line', 'Growth rate, best temperature = 100%', {
      says: 'How fast mycelium grows at each temperature, as a share of its growth at the best one. It stops at the lowest and the highest.',
      across: spilled('A5'),
      series: [{ title: 'Growth rate', values: spilled('B5') }],
      acrossTitle: '°C',
      upReads: 'percent',
    }),
    inputs(
      'N5',
      { label: 'Min temp (°C)', value: 5, reads: 'temperature' },
      { label: 'Best temp (°C)', value: 24, reads: 'temperature' },
      { label: 'Max temp (°C)', value: 32, reads: 'temperature' },
    ),
    table(
      'Q4',
      'Degrees',
      [column('At (°C)', 'count')],
      Array.from({ length: 16 }, (_, i) => [2 * (i + 2)]),
    ),
  ],
  prints: 'A:L',
};
