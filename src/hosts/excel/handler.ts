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

/** What Excel calls: the arguments, always followed by an object about the call. */
export type Handler = (...given: unknown[]) => ExcelValue[][] | Promise<ExcelValue[][]>;

/** The function Excel calls for a definition. It answers at once unless something must be loaded or asked first. */
export function handlerOf(definition: WorksheetFunction, excel: ExcelSide): Handler {
  const { prepare, needsDateSystem } = definition;
  const calculate = (given: readonly unknown[], dateSystem: DateSystem): ExcelValue[][] => {
    const block = explaining(definition, () =>
      definition.evaluate(given.slice(0, -1).map(gridOf), dateSystem),
    );
    excel.note((given.at(-1) as { address?: string } | undefined)?.address, block);
    return excelValuesOf(block, excel.takesFormats());
  };
  if (prepare === undefined && needsDateSystem === undefined) return (...given) => calculate(given, 1900);
  return async (...given) => {
    const dateSystem = await readied(definition, excel);
    return calculate(given, dateSystem);
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
