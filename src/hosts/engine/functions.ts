import { registries, type ArgDefinition, type EvalContext } from '@odoo/o-spreadsheet';
import type { Argument } from '../../worksheet/cells/arguments';
import { newCaller } from '../../worksheet/call';
import { catalogue } from '../../worksheet/catalogue';
import { PREFIX } from '../../worksheet/constants';
import { described } from '../../worksheet/described';
import type { DateSystem } from '../../worksheet/calendar';
import { toGrid, toHeld } from './cells';
import type { LongCalls } from './longCalls';

/** What a workbook hands to its functions beside their arguments. */
export interface WorkbookSettings {
  readonly dateSystem: DateSystem;
  /** Answers functions that must be prepared, where not at once; without it they are prepared beforehand. */
  readonly longCalls: LongCalls | undefined;
}

const byName = new Map(catalogue.map((definition) => [PREFIX + definition.name, definition]));

/** Whether a name, in capitals, is one of the catalogue's. */
export const isCatalogueName = (name: string): boolean => byName.has(name);

/** How many arguments the function of a name, in capitals, takes; undefined for what is none of the catalogue's. */
export const mostArguments = (name: string): number | undefined => byName.get(name)?.arguments.length;

/** Answers the calls of all workbooks. */
export const caller = newCaller();

/** Loads what the functions of these names cannot do without. */
export function prepareFunctions(names: Iterable<string>): Promise<void> {
  return caller.ready([...names].flatMap((name) => byName.get(name)?.name ?? []));
}

const argumentOf = (argument: Argument): ArgDefinition => ({
  name: argument.name.replaceAll(' ', '_'),
  description: argument.meaning,
  type: ['ANY', 'RANGE<ANY>'],
  // The boundary itself says in words which argument is missing, and refuses error cells.
  optional: true,
  acceptErrors: true,
  acceptMatrix: true,
});

for (const definition of described) {
  registries.functionRegistry.replace(PREFIX + definition.name, {
    description: definition.summary,
    category: 'Pinset',
    args: definition.arguments.map(argumentOf),
    isExported: false,
    compute(this: EvalContext, ...given) {
      const { dateSystem, longCalls } = this as unknown as WorkbookSettings;
      const grids = given.map(toGrid);
      const block =
        definition.needs.length > 0 && longCalls
          ? longCalls.answer(this.__originCellPosition, definition, grids, dateSystem)
          : caller.call(definition.name, grids, { dateSystem });
      return toHeld(block, dateSystem);
    },
  });
}
