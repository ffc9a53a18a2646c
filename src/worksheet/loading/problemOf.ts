import type { LoadingProblem } from '../../maths/loading/loadingProblem';
import type { DateSystem } from '../calendar';
import { limitsOf, lotsOf, ordersOf, planRoomsOf } from './problem';
import { settingsOf } from './settings';
import { standingOf } from './standing';

/** The tables of a farm, as the functions that plan for it take them. */
interface FarmTables {
  readonly lots: Parameters<typeof lotsOf>[0];
  readonly strains: Parameters<typeof lotsOf>[1];
  readonly rooms: Parameters<typeof planRoomsOf>[0];
  readonly orders: Parameters<typeof ordersOf>[0];
  readonly calendar: Parameters<typeof limitsOf>[0];
  readonly standing: Parameters<typeof standingOf>[0];
  readonly settings: Parameters<typeof settingsOf>[0];
}

/** What is to be planned for a farm in some days from a start. */
export const problemOf = (
  { lots, strains, rooms, orders, calendar, standing, settings }: FarmTables,
  start: number,
  days: number,
  dateSystem: DateSystem,
): LoadingProblem => ({
  lots: lotsOf(lots, strains, standing),
  rooms: planRoomsOf(rooms, strains),
  orders: ordersOf(orders),
  standing: standingOf(standing, lots, rooms, strains, start),
  start: Math.floor(start),
  days,
  limitsOn: limitsOf(calendar, dateSystem),
  settings: settingsOf(settings),
});
