import { CellError, type Block } from '../../worksheet/cells/cell';
import type { DateSystem, WorksheetFunction } from '../../worksheet/define';
import { excelValuesOf, gridOf, raise, type ExcelValue } from './adapter';

/** What a call may have to ask of the Excel it runs in. */
export interface ExcelSide {
  /** Whether this Excel takes numbers with a format. */
  readonly takesFormats: () => boolean;
  /** Which day the open workbook counts from. */
  readonly dateSystem: () => Promise<DateSystem>;
  /** Told what a call at an address answers, so that the pane can say why it faults. */
  readonly note: (address: string | undefined, block: Block) => void;
}

/** What Excel tells of a call, as far as it is looked at. */
interface Invocation {
  readonly address: string;
  readonly isInValuePreview: boolean;
  onCanceled: () => void;
}

const PREVIEW = 'calculated when entered';

/** A call that Excel has replaced by a newer one is cancelled before its long work begins. */
const untilOthersHadTheirTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** What Excel calls: the arguments, always followed by an object about the call. */
export type Handler = (...given: unknown[]) => ExcelValue[][] | Promise<ExcelValue[][]>;

/** The function Excel calls for a definition. It answers at once unless something must be loaded or asked first. */
export function handlerOf(definition: WorksheetFunction, excel: ExcelSide): Handler {
  const { prepare, needsDateSystem } = definition;
  const calculate = (given: readonly unknown[], dateSystem: DateSystem): ExcelValue[][] => {
    const block = explaining(definition, () =>
      definition.evaluate(given.slice(0, -1).map(gridOf), dateSystem),
    );
    excel.note((given.at(-1) as Partial<Invocation> | undefined)?.address, block);
    return excelValuesOf(block, excel.takesFormats());
  };
  if (prepare === undefined && needsDateSystem === undefined) return (...given) => calculate(given, 1900);
  return async (...given) => {
    const call = given.at(-1) as Partial<Invocation> | undefined;
    // Excel shows what a part of a formula gives while it is typed: no time to solve a plan.
    if (prepare && call?.isInValuePreview) return [[PREVIEW]];
    let cancelled = false;
    if (prepare && call) call.onCanceled = () => void (cancelled = true);
    const dateSystem = await readied(definition, excel);
    if (prepare) await untilOthersHadTheirTurn();
    return cancelled ? [['']] : calculate(given, dateSystem);
  };
}

async function readied(definition: WorksheetFunction, excel: ExcelSide): Promise<DateSystem> {
  try {
    await definition.prepare?.();
    return definition.needsDateSystem === undefined ? 1900 : await excel.dateSystem();
  } catch (fault) {
    unexplained(definition, fault);
  }
}

/** Excel shows no text of an exception that is not its own, so what should not happen is put into words here. */
function explaining<T>(definition: WorksheetFunction, work: () => T): T {
  try {
    return work();
  } catch (fault) {
    unexplained(definition, fault);
  }
}

function unexplained({ name }: WorksheetFunction, fault: unknown): never {
  const detail = fault instanceof Error ? fault.message : String(fault);
  raise(new CellError('#VALUE!', `${name} could not be calculated: ${detail}`));
}
