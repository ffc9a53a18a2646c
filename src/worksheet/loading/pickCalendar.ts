import { optionalSetting, table } from '../cells/arguments';
import { choice, serial } from '../cells/kinds';
import { amount, date, namedIn, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { loadColumns } from './farmTables';
import { yieldColumns } from './strainTables';

export const PICKCALENDAR = defineFunction({
  name: 'PICKCALENDAR',
  family: 'loading',
  arguments: [
    table(
      'loads',
      loadColumns,
      'table with loaded, strain, blocks, block mass, moisture; product and room if wanted',
    ),
    table('strains', yieldColumns, 'table with first pick, pick days, flush gap, flush 1…, efficiency, loss'),
    optionalSetting('from', serial(), undefined, 'first day shown; the first pick if left out'),
    optionalSetting('to', serial(), undefined, 'last day shown; the last pick if left out'),
    optionalSetting(
      'by',
      choice({
        product: 'a column for each product; a load without one counts under its strain',
        strain: 'a column for each strain',
        room: 'a column for each room',
      }),
      undefined,
      'a column for each product, strain or room; only the total if left out',
    ),
  ],
  result: tableResult({
    date: date(),
    total: amount('fresh mass'),
    'product, strain or room': namedIn(amount('where asked for with by')),
  }),
  needs: ['planning'],
  needsDateSystem: true,
  whole: (loads, strains, from, to, by, { tools: { planning } }) => {
    const picked = loads.rows.map((load) => {
      const strain = strains.find(load.strain, 'loads, strain', load.at);
      return {
        loaded: load.loaded,
        blocks: load.blocks,
        yieldPerBlock: planning.yieldOf(load, strain),
        curve: planning.curveOf(load.strain, strains, 'loads, strain', load.at),
        labels: {
          product: load.product ?? strain.strain,
          strain: strain.strain,
          room: load.room ?? '(no room)',
        },
      };
    });
    const calendar = planning.pickCalendar(picked, ({ labels }) => (by ? labels[by] : ''), from, to);
    const groups = by ? [...calendar.byGroup] : [];
    return calendar.total.map((total, day) => ({
      date: calendar.from + day,
      total,
      'product, strain or room': new Map(groups.map(([name, masses]) => [name, masses[day]!])),
    }));
  },
});
