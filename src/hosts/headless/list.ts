import { mayBeLeftOut } from '../../worksheet/cells/arguments';
import { PREFIX } from '../../worksheet/constants';
import { described } from '../../worksheet/described';
import { signature } from '../../worksheet/functionTable';
import type { Output, Status } from './command';
import { jsonText } from './terminal';

/** Prints every function: how it is called, a tab, what it gives. */
export function list(json: boolean, { out }: Output): Status {
  for (const definition of described) {
    const name = `${PREFIX}${definition.name}`;
    const { family, summary } = definition;
    const call = `${PREFIX}${signature(definition)}`;
    if (!json) {
      out(`${call}\t${summary}`);
      continue;
    }
    const args = definition.arguments.map((argument) => ({
      name: argument.name,
      meaning: argument.meaning,
      shape: argument.shape,
      optional: mayBeLeftOut(argument),
    }));
    out(jsonText({ name, family, call, summary, arguments: args, sources: definition.sources }));
  }
  return 0;
}
