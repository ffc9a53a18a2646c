import type { Grid } from './cells/cell';
import type { DateSystem } from './calendar';
import { LOADPLAN } from './loading/loadPlan';
import { planTables } from './loading/arguments';
import { readFixed } from './reading';
import type { Tools } from './tools';
import { METRIC } from './voice';

type Farm = Parameters<Tools['planning']['problemOf']>[0];

export { LOADPLAN };

/** The farm that a call of LOADPLAN plans for. The call must have answered: what it refuses is refused there, in words. */
export function readPlan(
  given: readonly (Grid | null | undefined)[],
  dateSystem: DateSystem,
): { readonly farm: Farm; readonly start: number; readonly days: number } {
  const gridOf = (name: string): Grid | undefined =>
    given[LOADPLAN.arguments.findIndex((argument) => argument.name === name)] ?? undefined;
  const telling = { dateSystem, voice: METRIC };
  const tables = Object.entries(planTables).map(([name, argument]) => [
    name,
    readFixed(argument, gridOf(name), telling),
  ]);
  const setting = (name: string): number => gridOf(name)?.[0]?.[0] as number;
  return { farm: Object.fromEntries(tables) as Farm, start: setting('start'), days: setting('days') };
}
