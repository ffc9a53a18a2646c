import type { Argument } from './cells/arguments';
import type { Definition, WorksheetFunction } from './definition';
import { evaluate, type AnyDefinition } from './evaluate';
import type { ToolName } from './tools';

/** Makes a worksheet function from its one definition. The calculation gets plain values in the order of `arguments`. */
export function defineFunction<const A extends readonly Argument[], O, const N extends ToolName = never>(
  definition: Definition<A, N, O>,
): WorksheetFunction {
  const { name, family, arguments: argumentList, result, needs, takesLong, needsDateSystem } = definition;
  return {
    name,
    family,
    arguments: argumentList,
    result,
    needs: needs ?? [],
    ...(takesLong && { takesLong }),
    ...(needsDateSystem && { needsDateSystem }),
    calculates: 'eachRow' in definition ? 'eachRow' : 'beside' in definition ? 'beside' : 'whole',
    evaluate: (given, { dateSystem = 1900, tools = {}, onProgress } = {}) =>
      evaluate(definition as unknown as AnyDefinition, given, { dateSystem, tools, onProgress }),
  };
}
