import { defectWords, type Caller } from '../../worksheet/call';
import { cellError, type Block, type Grid } from '../../worksheet/cells/cell';
import { SheetFault } from '../../worksheet/cells/fault';
import type { DateSystem } from '../../worksheet/calendar';
import type { WorksheetFunction } from '../../worksheet/definition';
import type { Solve } from '../worker/solver';
import { excelValuesOf, gridOf, raise, type ExcelValue } from './adapter';

/** What a call may have to ask of the Excel it runs in. */
export interface ExcelSide {
  /** Whether this Excel takes numbers with a format. */
  readonly takesFormats: () => boolean;
  /** Which day the open workbook counts from. */
  readonly dateSystem: () => Promise<DateSystem>;
  /** The same as far as it is known by now. */
  readonly knownDateSystem: () => DateSystem | undefined;
  /** Answers at once what it has everything loaded for. */
  readonly caller: Caller;
  /** Answers the functions that need something loaded, or may take long. */
  readonly solve: Solve;
}

/** What Excel tells of a call, as far as it is looked at. */
interface Invocation {
  readonly isInValuePreview: boolean;
  onCanceled: () => void;
}

const PREVIEW = 'calculated when entered';

/** What Excel calls: the arguments, always followed by an object about the call. */
export type Handler = (...given: unknown[]) => ExcelValue[][] | Promise<ExcelValue[][]>;

/** The function Excel calls for a definition. It answers at once unless something must be loaded or asked first. */
export function handlerOf(definition: WorksheetFunction, excel: ExcelSide): Handler {
  const { name, needs, takesLong, needsDateSystem } = definition;
  const gridsOf = (given: readonly unknown[]): (Grid | undefined)[] => given.slice(0, -1).map(gridOf);
  const callOf = (given: readonly unknown[]): Partial<Invocation> | undefined =>
    given.at(-1) as Partial<Invocation> | undefined;
  const shown = (block: Block): ExcelValue[][] => excelValuesOf(block, excel.takesFormats());
  /** For dates in messages it will do if nothing is known yet: they must not keep an answer waiting. */
  const known = (): DateSystem => excel.knownDateSystem() ?? 1900;
  const atOnce = (given: readonly unknown[]): ExcelValue[][] =>
    shown(excel.caller.call(name, gridsOf(given), { dateSystem: known() }));
  const afterWaiting = async (given: readonly unknown[]): Promise<ExcelValue[][]> => {
    const call = callOf(given);
    // Excel shows what a part of a formula gives while it is typed: no time to solve a plan.
    if (takesLong && call?.isInValuePreview) return [[PREVIEW]];
    const cancelling = new AbortController();
    if (takesLong && call) call.onCanceled = () => cancelling.abort();
    let block: Block | undefined;
    try {
      const dateSystem = needsDateSystem ? await excel.dateSystem() : known();
      block =
        needs.length > 0
          ? await excel.solve(definition, gridsOf(given), dateSystem, cancelling.signal)
          : excel.caller.call(name, gridsOf(given), { dateSystem });
    } catch (defect) {
      if (defect instanceof SheetFault) raise(defect.cell);
      // Excel shows no text of an exception that is not its own, so what should not happen is put into words here.
      raise(cellError('#VALUE!', defectWords(name, defect)));
    }
    return block ? shown(block) : [['']];
  };
  return (...given) => {
    const mustAsk = needsDateSystem && excel.knownDateSystem() === undefined;
    return takesLong || mustAsk || !excel.caller.isReady(name) ? afterWaiting(given) : atOnce(given);
  };
}
