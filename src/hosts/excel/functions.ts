/// <reference types="custom-functions-runtime" />
/// <reference types="office-js" />
import { catalogue } from '../../worksheet/catalogue';
import type { DateSystem } from '../../worksheet/define';
import { handlerOf } from './handler';

let formats: boolean | undefined;

/** Undefined until office.js knows its host, which a calculation may be quicker than. */
const requirements = (): Office.RequirementSetSupport | undefined =>
  (Office as Partial<typeof Office>).context?.requirements;

/** Numbers with a format came with this version of the vendor's functions runtime. */
function takesFormats(): boolean {
  formats ??= requirements()?.isSetSupported('CustomFunctionsRuntime', '1.4');
  return formats === true;
}

/** 1 January 2000 in the two date systems. */
const SYSTEMS: Readonly<Record<number, DateSystem>> = { 36526: 1900, 35064: 1904 };

async function askDateSystem(): Promise<DateSystem> {
  await Office.onReady();
  return Excel.run({ delayForCellEdit: true }, async (context) => {
    const day = context.workbook.functions.date(2000, 1, 1);
    day.load('value');
    await context.sync();
    const system = SYSTEMS[day.value];
    if (system === undefined) throw new Error(`1 January 2000 is day ${day.value} in this workbook`);
    return system;
  });
}

let asked: Promise<DateSystem> | undefined;

/** A workbook's date system does not change while it is open, so it is asked once; a failure is asked again. */
function dateSystem(): Promise<DateSystem> {
  asked ??= askDateSystem().catch((fault: unknown) => {
    asked = undefined;
    throw fault;
  });
  return asked;
}

for (const definition of catalogue) {
  CustomFunctions.associate(definition.name, handlerOf(definition, { takesFormats, dateSystem }));
}
