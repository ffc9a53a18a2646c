import { registries, type AddFunctionDescription, type ArgDefinition } from '@odoo/o-spreadsheet';
import { mayBeLeftOut, type Argument } from '../../worksheet/cells/arguments';
import { PREFIX } from '../../worksheet/constants';
import { described } from '../../worksheet/described';
import { FORMS } from './evaluator/forms';
import { builtIns } from './evaluator/functions/index';

// The grid only offers functions and reads formulas; the evaluator calculates. So the grid knows the evaluator's
// functions by name and no others, but for those that it makes of the signs + - * / and their like.

const SIGNS: ReadonlySet<string> = new Set(
  (
    'ADD MINUS MULTIPLY DIVIDE POWER CONCATENATE UMINUS UPLUS UNARY.PERCENT SPILLED.RANGE EQ NE GT GTE LT LTE ' +
    'ARRAY.LITERAL ARRAY.ROW'
  ).split(' '),
);

const registry = registries.functionRegistry;

const argumentOf = (argument: Argument): ArgDefinition => ({
  name: argument.name.replaceAll(' ', '_'),
  description: argument.meaning + (mayBeLeftOut(argument) ? ' (may be left out)' : ''),
  type: ['ANY', 'RANGE<ANY>'],
  // The boundary itself says in words which argument is missing.
  optional: true,
});

const ANYTHING: ArgDefinition = {
  name: 'value',
  description: 'a value or a range',
  type: ['ANY', 'RANGE<ANY>'],
  repeating: true,
  optional: true,
};

const known = (description: string, category: string, args: ArgDefinition[]): AddFunctionDescription => ({
  description,
  category,
  args,
  isExported: false,
  compute: () => {
    throw new Error('the grid calculates nothing');
  },
});

const calculated = new Set([...builtIns.keys(), ...Object.keys(FORMS)]);
for (const name of registry.getKeys()) {
  if (!calculated.has(name) && !SIGNS.has(name)) registry.remove(name);
}
for (const name of calculated) {
  if (!registry.contains(name)) registry.add(name, known('', 'Worksheet', [ANYTHING]));
}
for (const { name, summary, arguments: all } of described) {
  registry.replace(PREFIX + name, known(summary, 'Pinset', all.map(argumentOf)));
}
