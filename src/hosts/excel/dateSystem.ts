/// <reference types="office-js" />
import type { DateSystem } from '../../worksheet/calendar';

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
let known: DateSystem | undefined;

/** A workbook's date system does not change while it is open, so it is asked once; a failure is asked again. */
export function dateSystem(): Promise<DateSystem> {
  asked ??= askDateSystem().then(
    (system) => (known = system),
    (fault: unknown) => {
      asked = undefined;
      throw fault;
    },
  );
  return asked;
}

/** The same as far as it is known by now. */
export const knownDateSystem = (): DateSystem | undefined => known;
