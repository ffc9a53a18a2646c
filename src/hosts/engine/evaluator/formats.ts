import { FormulaCell, type Formats, type SheetStore } from './sheetStore';

/**
 * How the numbers of a formula's result read: as its program says, as the function of Pinset it called, or as the
 * formula that it refers to.
 */
export function formatsOf(cell: FormulaCell, called: Formats, stores: readonly SheetStore[]): Formats {
  const { format, areas } = cell.program;
  if (format === undefined) return undefined;
  if (format !== 'passed') return [[format]];
  if (called) return called;
  const [first] = areas;
  if (!first) return undefined;
  const { sheet, top, left } = first.from(cell);
  const slot = stores[sheet]!.get(top, left);
  const formats = slot instanceof FormulaCell ? slot.formats : undefined;
  // The result may hold its rows in another order: each column reads as its first number does.
  return formats && [formats[0]!.map((_, column) => formats.find((row) => row[column])?.[column])];
}

/** The format at a place of a result; a single row goes for all rows. */
export function formatAt(
  formats: Formats,
  row: number,
  column: number,
): NonNullable<Formats>[number][number] {
  const line = formats && (formats.length === 1 ? formats[0]! : formats[row]);
  return line && (line.length === 1 ? line[0] : line[column]);
}
