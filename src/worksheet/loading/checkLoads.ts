import { table } from '../cells/arguments';
import { amount, date, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { planTables } from './arguments';
import { labelKey } from '../../maths/shared/labels';
import { blocksLeft } from '../../maths/shared/loadedBlocks';
import { planColumns } from './farmTables';

export const CHECKLOADS = defineFunction({
  name: 'CHECKLOADS',
  family: 'loading',
  arguments: [
    table('loads', planColumns, 'the plan to check: loaded, lot, room, blocks'),
    planTables.lots,
    planTables.strains,
    planTables.rooms,
    planTables.orders,
    planTables.calendar,
    planTables.standing,
    planTables.settings,
  ],
  result: tableResult({
    rule: label('the rule that is broken'),
    date: date(),
    where: label('lot, room or product'),
    found: amount(),
    allowed: amount(),
    'in words': label(),
  }),
  needs: ['planning'],
  needsDateSystem: true,
  whole: (
    loads,
    lots,
    strains,
    rooms,
    orders,
    calendar,
    standing,
    settings,
    { dateSystem, tools: { planning } },
  ) => {
    const planned = planning.plannedOf(loads);
    const firstDay = planned.length > 0 ? Math.min(...planned.map(({ day }) => day)) : undefined;
    const listed = new Set(planned.map(({ lot, day }) => `${labelKey(lot)}\n${day}`));
    const check = {
      loads: planned,
      // A lot loaded on a day that the plan lists is loaded by the plan, not a second time.
      lots: planning.lotsOf(lots, strains, standing, (row) => {
        const isListed = listed.has(`${labelKey(row.lot)}\n${Math.floor(row.loaded ?? 0)}`);
        return isListed ? row.blocks : blocksLeft(row);
      }),
      rooms: planning.planRoomsOf(rooms, strains),
      orders: planning.ordersOf(orders),
      // What has been picked says what is still to come from the first day of the plan on.
      standing: planning.standingOf(standing, lots, rooms, strains, firstDay),
      limitsOn: planning.limitsOf(calendar, dateSystem),
      settings: planning.settingsOf(settings),
    };
    return planning.brokenRows(planning.checkLoads(check), check.settings.margin);
  },
});
