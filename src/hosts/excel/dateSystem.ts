/// <reference types="office-js" />
import type { DateSystem } from '../../worksheet/calendar';
import { cellError } from '../../worksheet/cells/cell';
import { SheetFault } from '../../worksheet/cells/fault';

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

/**
 * A question inside a calculation can wait for ever: while a cell is typed into, while a book loads, in a hidden file.
 * Past this many milliseconds the cell says so, and the next call asks again.
 */
export const ASKING_LIMIT = 10_000;

const NO_ANSWER =
  'Excel did not say which day the workbook counts from, 1900 or 1904. Finish editing, then calculate again';

async function within<T>(limit: number, answer: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout>;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new SheetFault(cellError('#VALUE!', NO_ANSWER))), limit);
  });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

let asked: Promise<DateSystem> | undefined;
let known: DateSystem | undefined;

/** A workbook's date system does not change while it is open, so it is asked once; a failure is asked again. */
export function dateSystem(): Promise<DateSystem> {
  if (known !== undefined) return Promise.resolve(known);
  // An answer that comes late is kept for the next call.
  const answer = async (): Promise<DateSystem> => (known = await askDateSystem());
  asked ??= within(ASKING_LIMIT, answer()).catch((fault: unknown) => {
    asked = undefined;
    throw fault;
  });
  return asked;
}

/** The same as far as it is known by now. */
export const knownDateSystem = (): DateSystem | undefined => known;
