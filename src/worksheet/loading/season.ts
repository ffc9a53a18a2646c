import { optionalSetting, setting } from '../cells/arguments';
import { count, serial, type Kind } from '../cells/kinds';
import { label, mixed, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { planTables } from './arguments';

/** The ways a season can be run; beside them, a number of blocks a week. */
const WAYS = {
  plan: 'the plan of LOADPLAN, made again each week',
  certain: 'the same, with nothing said of spreads',
  thumb: 'whatever is worth most on the day, without a look ahead',
};
type Way = keyof typeof WAYS | number;

/** The most blocks a week that a rule may say. */
const MOST_BLOCKS = 1_000_000;

function way(): Kind<Way> {
  return {
    word: 'choice',
    choices: WAYS,
    needed: 'plan, certain, thumb, or a number of blocks a week',
    accept: (cell) => {
      if (typeof cell === 'number') return count(1, MOST_BLOCKS).accept(cell);
      const word = typeof cell === 'string' ? cell.trim().toLowerCase() : '';
      return Object.keys(WAYS).find((known): known is keyof typeof WAYS => known === word);
    },
    samples: [...Object.keys(WAYS), 120],
  };
}

export const SEASON = defineFunction({
  name: 'SEASON',
  family: 'loading',
  arguments: [
    planTables.lots,
    planTables.strains,
    planTables.rooms,
    planTables.orders,
    setting('start', serial(), 'first day of the season'),
    setting('weeks', count(1, 52), 'weeks to play'),
    planTables.calendar,
    planTables.standing,
    planTables.settings,
    optionalSetting('rule', way(), 'plan', 'plan, certain, thumb, or blocks a week; plan if left out'),
    optionalSetting('seasons', count(1, 64), 8, 'seasons played; 8 if left out'),
    optionalSetting('seed', count(1, 1_000_000), 1, 'other seasons for another number; 1 if left out'),
  ],
  result: tableResult({
    what: label(),
    mean: mixed('over the seasons played'),
    lowest: mixed('in one of them'),
    highest: mixed('in one of them'),
    note: label(),
  }),
  needs: ['solver', 'planning'],
  needsDateSystem: true,
  takesLong: true,
  whole: (
    lots,
    strains,
    rooms,
    orders,
    start,
    weeks,
    calendar,
    standing,
    settings,
    rule,
    seasons,
    seed,
    { dateSystem, tools: { planning, solver }, onProgress },
  ) => {
    const farm = { lots, strains, rooms, orders, calendar, standing, settings };
    const problem = planning.problemOf(farm, start, 7 * weeks, dateSystem);
    return planning.seasonRows(problem, rule, weeks, seasons, seed, solver, onProgress);
  },
});
