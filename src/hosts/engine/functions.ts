import { registries, type ArgDefinition, type EvalContext } from '@odoo/o-spreadsheet';
import type { Argument } from '../../worksheet/cells/arguments';
import { catalogue } from '../../worksheet/catalogue';
import type { DateSystem } from '../../worksheet/define';
import { toGrid, toHeld } from './cells';
import type { LongCalls } from './longCalls';

/** What a workbook hands to its functions beside their arguments. */
export interface WorkbookSettings {
  readonly dateSystem: DateSystem;
  /** Answers functions that must be prepared, where not at once; without it they are prepared beforehand. */
  readonly longCalls: LongCalls | undefined;
}

const PREFIX = 'PINSET.';
const byName = new Map(catalogue.map((definition) => [PREFIX + definition.name, definition]));

/** Whether a name, in capitals, is one of the catalogue's. */
export const isCatalogueName = (name: string): boolean => byName.has(name);

/** How many arguments the function of a name, in capitals, takes; undefined for what is none of the catalogue's. */
export const mostArguments = (name: string): number | undefined => byName.get(name)?.arguments.length;

/** Loads what the functions of these names cannot do without. */
export async function prepareFunctions(names: Iterable<string>): Promise<void> {
  for (const name of names) await byName.get(name)?.prepare?.();
}

const described = (argument: Argument): ArgDefinition => ({
  name: argument.name.replaceAll(' ', '_'),
  description: argument.meaning,
  type: ['ANY', 'RANGE<ANY>'],
  // The boundary itself says in words which argument is missing, and refuses error cells.
  optional: true,
  acceptErrors: true,
  acceptMatrix: true,
});

for (const definition of catalogue) {
  registries.functionRegistry.replace(PREFIX + definition.name, {
    description: definition.summary,
    category: 'Pinset',
    args: definition.arguments.map(described),
    isExported: false,
    compute(this: EvalContext, ...given) {
      const { dateSystem, longCalls } = this as unknown as WorkbookSettings;
      const grids = given.map(toGrid);
      const block =
        definition.prepare && longCalls
          ? longCalls.answer(this.__originCellPosition, definition, grids, dateSystem)
          : definition.evaluate(grids, dateSystem);
      return toHeld(block, dateSystem);
    },
  });
}
