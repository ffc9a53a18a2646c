/// <reference types="custom-functions-runtime" />
/// <reference types="office-js" />
import { newCaller } from '../../worksheet/call';
import { catalogue } from '../../worksheet/catalogue';
import { BUILD } from './build';
import { dateSystem, knownDateSystem } from './dateSystem';
import { handlerOf } from './handler';
import { supports } from './requirements';
import { caller, solve } from './solving';

/** For the pane, which runs in the same page: webpack.config.js makes what it imports of these modules these very ones. */
export { BUILD, caller, catalogue, dateSystem, knownDateSystem, newCaller, solve };

let formats: boolean | undefined;

/** Numbers with a format came with this version of the vendor's functions runtime. A calculation may be quicker than office.js. */
function takesFormats(): boolean {
  formats ??= supports('CustomFunctionsRuntime', '1.4');
  return formats === true;
}

for (const definition of catalogue) {
  CustomFunctions.associate(
    definition.name,
    handlerOf(definition, { takesFormats, dateSystem, knownDateSystem, caller, solve }),
  );
}

// Asked before anybody needs it; what cannot be told now is asked again by the first call that must know.
void dateSystem().catch(() => undefined);
