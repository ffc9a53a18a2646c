import { newCaller } from '../../../worksheet/call';
import { catalogue } from '../../../worksheet/catalogue';
import { cellOf, type Grid } from '../../../worksheet/cells/cell';
import { PREFIX } from '../../../worksheet/constants';
import type { BuiltIn } from './builtIn';
import type { Frame } from './frame';
import { toCell, toScalar } from './pinsetValues';
import { isMatrix, VALUE, type Argument } from './values';

// The only file that knows how Pinset's functions are called.

/** Answers the calls of all workbooks. */
export const caller = newCaller();

function gridOf(given: Argument): Grid | undefined {
  if (given === undefined) return undefined;
  if (isMatrix(given)) return given.map((row) => row.map(toCell));
  if (typeof given === 'object' && given !== null && !('code' in given)) throw VALUE;
  return [[toCell(given)]];
}

/** Pinset's functions as the evaluator calls them: each says itself in words which argument is missing. */
export const pinsetFunctions: ReadonlyMap<string, BuiltIn> = new Map(
  catalogue.map((definition) => {
    const builtIn: BuiltIn = {
      name: PREFIX + definition.name,
      least: 0,
      most: definition.arguments.length,
      takes: ['block'],
      call(context, given) {
        const grids = given.map(gridOf);
        const frame = context as Frame;
        const mustWait = definition.takesLong || !caller.isReady(definition.name);
        const block =
          (mustWait ? frame.longAnswer(definition, grids) : undefined) ??
          caller.call(definition.name, grids, context);
        const { rows } = block;
        const cells = rows.map((row, r) => row.map((_, c) => cellOf(block, r, c)));
        frame.formats = cells.map((row) =>
          row.map(([, format]) => (format === 'plain' ? undefined : format)),
        );
        if (rows.length === 1 && rows[0]!.length === 1) return toScalar(cells[0]![0]![0]);
        return cells.map((row) => row.map(([value]) => toScalar(value)));
      },
    };
    return [builtIn.name, builtIn];
  }),
);

/** Loads what the functions of these names cannot do without. */
export function prepareFunctions(names: Iterable<string>): Promise<void> {
  const asked = new Set(names);
  return caller.ready(catalogue.flatMap(({ name }) => (asked.has(PREFIX + name) ? [name] : [])));
}
