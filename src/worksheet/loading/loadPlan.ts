import { optionalSetting, optionalTable, setting } from '../cells/arguments';
import { choice, days, serial } from '../cells/kinds';
import { defineFunction } from '../define';
import { planTables } from './arguments';
import { planColumns } from './farmTables';
import { PLAN_VIEWS, planResult } from './views';

export const LOADPLAN = defineFunction({
  name: 'LOADPLAN',
  family: 'loading',
  arguments: [
    planTables.lots,
    planTables.strains,
    planTables.rooms,
    planTables.orders,
    setting('start', serial(), 'first day of loading; put today in a cell of its own'),
    setting('days', days({ from: 1, to: 1000, whole: true }), 'days of loading to plan'),
    planTables.calendar,
    planTables.standing,
    planTables.settings,
    optionalTable('previous', planColumns, 'the plan before, as values: loaded, lot, room, blocks'),
    optionalSetting(
      'view',
      choice(PLAN_VIEWS),
      'plan',
      'plan, picks, orders, lots, summary, week, worth or board; plan if left out',
    ),
  ],
  result: planResult,
  needs: ['solver', 'planning'],
  needsDateSystem: true,
  takesLong: true,
  whole: (
    lots,
    strains,
    rooms,
    orders,
    start,
    dayCount,
    calendar,
    standing,
    settings,
    previous,
    view,
    { dateSystem, tools: { planning, solver }, onProgress },
  ) => {
    const tables = [lots, strains, rooms, orders, calendar, standing, settings, previous];
    const farm = { lots, strains, rooms, orders, calendar, standing, settings };
    const problem = planning.problemOf(farm, start, dayCount, dateSystem);
    const ignored = tables.flatMap(
      (given) => given?.ignored.map((header) => `${given.name}: ${header}`) ?? [],
    );
    const lookAlikes = tables.flatMap(
      (given) => given?.lookAlikes.map((one) => ({ ...one, table: given.name })) ?? [],
    );
    const ever = lots.rows.reduce((sum, { blocks }) => sum + blocks, 0);
    const loadedBefore = ever - problem.lots.reduce((sum, { blocks }) => sum + blocks, 0);
    const cells = JSON.stringify([
      tables.map((given) => given?.rows ?? null),
      start,
      dayCount,
      dateSystem,
      ignored,
    ]);
    const call = {
      problem,
      previous: previous && planning.plannedOf(previous),
      lots,
      cells,
      dateSystem,
      ignored,
      lookAlikes,
      loadedBefore,
    };
    return planning.planView(call, view, solver, onProgress);
  },
});
