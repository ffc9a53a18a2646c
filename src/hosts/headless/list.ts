import { catalogue } from '../../worksheet/catalogue';
import type { Argument } from '../../worksheet/cells/arguments';
import type { Output, Status } from './command';
import { jsonText } from './terminal';

/** Prints every function: how it is called, a tab, what it gives. */
export function list(json: boolean, { out }: Output): Status {
  for (const definition of catalogue) {
    const name = `PINSET.${definition.name}`;
    const { family, summary } = definition;
    const call = `${name}(${definition.arguments.map(argumentText).join(', ')})`;
    if (!json) {
      out(`${call}\t${summary}`);
      continue;
    }
    const described = definition.arguments.map((argument) => ({
      name: argument.name,
      meaning: argument.meaning,
      shape: argument.shape,
      optional: isOptional(argument),
    }));
    out(jsonText({ name, family, call, summary, arguments: described, sources: definition.sources }));
  }
  return 0;
}

const isOptional = (argument: Argument): boolean =>
  argument.shape !== 'range' && argument.role === 'optional';

const argumentText = (argument: Argument): string =>
  isOptional(argument) ? `[${argument.name}]` : argument.name;
