/// <reference types="custom-functions-runtime" />
/// <reference types="office-js" />
import { newCaller } from '../../worksheet/call';
import { catalogue } from '../../worksheet/catalogue';
import { dateSystem, knownDateSystem } from './dateSystem';
import { faultAt, logFaults } from './faultLog';
import { handlerOf } from './handler';
import { caller, solve } from './solving';

/** For the pane, which runs in the same page: webpack.config.js makes what it imports of these modules these very ones. */
export { caller, catalogue, dateSystem, faultAt, knownDateSystem, logFaults, newCaller, solve };

let formats: boolean | undefined;

/** Undefined until office.js knows its host, which a calculation may be quicker than. */
const requirements = (): Office.RequirementSetSupport | undefined =>
  (Office as Partial<typeof Office>).context?.requirements;

/** Numbers with a format came with this version of the vendor's functions runtime. */
function takesFormats(): boolean {
  formats ??= requirements()?.isSetSupported('CustomFunctionsRuntime', '1.4');
  return formats === true;
}

for (const definition of catalogue) {
  CustomFunctions.associate(
    definition.name,
    handlerOf(definition, { takesFormats, dateSystem, knownDateSystem, caller, solve, note: logFaults }),
  );
}

// Asked before anybody needs it; what cannot be told now is asked again by the first call that must know.
void dateSystem().catch(() => undefined);
