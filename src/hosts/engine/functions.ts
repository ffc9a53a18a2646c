import { registries, type ArgDefinition, type EvalContext } from '@odoo/o-spreadsheet';
import type { Argument } from '../../worksheet/cells/arguments';
import { CellError } from '../../worksheet/cells/cell';
import { catalogue } from '../../worksheet/catalogue';
import type { DateSystem, WorksheetFunction } from '../../worksheet/define';
import { toGrid, toHeld, toHeldError } from './cells';

/** What a workbook hands to its functions beside their arguments. */
export interface WorkbookSettings {
  readonly dateSystem: DateSystem;
}

const PREFIX = 'PINSET.';
const ready = new Set<WorksheetFunction>(catalogue.filter(({ prepare }) => !prepare));
const byName = new Map(catalogue.map((definition) => [PREFIX + definition.name, definition]));

/** Whether a name, in capitals, is one of the catalogue's. */
export const isCatalogueName = (name: string): boolean => byName.has(name);

/** Loads what the functions of these names cannot do without. */
export async function prepareFunctions(names: Iterable<string>): Promise<void> {
  for (const name of names) {
    const definition = byName.get(name);
    if (!definition || ready.has(definition)) continue;
    await definition.prepare?.();
    ready.add(definition);
  }
}

const waiting = new Set<() => void>();

/** Calls `then` whenever a function that was called too early can be called. Returns what ends that. */
export function whenPrepared(then: () => void): () => void {
  waiting.add(then);
  return () => waiting.delete(then);
}

async function prepareLate(definition: WorksheetFunction): Promise<void> {
  await prepareFunctions([PREFIX + definition.name]);
  for (const then of waiting) then();
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
      if (!ready.has(definition)) {
        void prepareLate(definition);
        return toHeldError(new CellError('#BUSY!', 'what this function needs is being loaded'));
      }
      const { dateSystem } = this as unknown as WorkbookSettings;
      return toHeld(definition.evaluate(given.map(toGrid), dateSystem), dateSystem);
    },
  });
}
