import { parseA1Ref, parseStructRef, type ReferenceNameXlsx } from '@borgar/fx/xlsx';
import { dataOf, rowsOf, type TableShape } from '../../xlsx/formula';
import type { Compiler, Run } from './compiler';
import { Lacking } from './lacking';
import { parsed } from './parsed';
import { areaIn, sheetsOf, WrittenArea } from './references';
import { Lambda, REF, VALUE } from './values';

/** A name that is no variable: of a table, a defined one, or of a function given over as it is. @throws Lacking */
export function wordOf(compiler: Compiler, text: string): Run {
  const reference = parseA1Ref(text) as ReferenceNameXlsx | undefined;
  if (!reference || !('name' in reference)) throw new Lacking(`the name ${text}`);
  const { name } = reference;
  const sheets = sheetsOf(reference, text, compiler.book);
  const table = compiler.book.vocabulary?.table(name);
  if (table) return rangeOf(compiler, table, dataOf(table));
  const sheet = compiler.book.sheetNames[sheets ? sheets[0] : compiler.seat.sheet]!;
  const meaning = compiler.book.vocabulary?.name(name, sheet);
  if (meaning !== undefined) return meaningOf(compiler, name, meaning);
  const builtIn = compiler.book.builtIn(name.toUpperCase());
  if (!builtIn) throw new Lacking(`the name ${text}`);
  compiler.functions.add(builtIn.name);
  // SUM as it stands is a function of what it is given.
  return (frame) => new Lambda(builtIn.least, (given) => builtIn.call(frame, given));
}

/** What a defined name stands for. */
export function meaningOf(compiler: Compiler, name: string, meaning: string): Run {
  const run = compiler.within(name, () => compiler.any(parsed(meaning.replace(/^\s*=/, ''))));
  return (frame) => {
    const { environment } = frame;
    frame.environment = undefined;
    try {
      return run(frame);
    } finally {
      frame.environment = environment;
    }
  };
}

/** `Lots[Blocks]`, `[@Blocks]`. @throws Lacking, ErrorValue */
export function tableReference(compiler: Compiler, text: string): Run {
  const reference = parseStructRef(text);
  if (!reference) throw new Lacking(`the table reference ${text}`);
  if ('workbookName' in reference && reference.workbookName) throw new Lacking(`another workbook (${text})`);
  const { vocabulary, sheetNames } = compiler.book;
  const { seat } = compiler;
  const table = reference.table
    ? vocabulary?.table(reference.table)
    : vocabulary?.tableAt(sheetNames[seat.sheet]!, seat);
  if (!table) throw new Lacking(`the table of ${text}, which is not in the workbook`);
  const columns = (reference.columns ?? []).map((column) => {
    const at = table.columns.findIndex((one) => one.toLowerCase() === column.toLowerCase());
    if (at < 0) throw new Lacking(`a column ${column} in the table ${table.name}`);
    return table.area.left + at;
  });
  const { left, right } = columns.length
    ? { left: Math.min(...columns), right: Math.max(...columns) }
    : table.area;
  const sections = reference.sections ?? [];
  if (!sections.includes('this row')) {
    const rows = rowsOf(table, sections, seat);
    if (!rows) throw REF;
    return rangeOf(compiler, table, { ...rows, left, right });
  }
  const data = dataOf(table);
  const sheet = compiler.book.sheetAt(table.sheet)!;
  const own = { at: 0, isRelative: true };
  const area = new WrittenArea([sheet, sheet], own, { at: left, isRelative: false }, own, {
    at: right,
    isRelative: false,
  });
  compiler.areas.push(area);
  return (frame) => (frame.row >= data.top && frame.row <= data.bottom ? area.referenceFrom(frame) : VALUE);
}

function rangeOf(
  compiler: Compiler,
  table: TableShape,
  range: { top: number; left: number; bottom: number; right: number },
): Run {
  const sheet = compiler.book.sheetAt(table.sheet);
  if (sheet === undefined) throw REF;
  const fixed = { $top: true, $left: true, $bottom: true, $right: true };
  const area = areaIn({ ...range, ...fixed }, [sheet, sheet], compiler.seat);
  compiler.areas.push(area);
  return (frame) => area.referenceFrom(frame);
}
