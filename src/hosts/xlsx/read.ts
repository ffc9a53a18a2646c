import { type Cell, type ErrorCode, cellError } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { CellContent, SheetContent, WorkbookContent } from '../engine/workbook';
import { addressOf, areaOf, cellsIn, covers, type Place } from './address';
import {
  asWritten,
  CannotWriteOut,
  cut,
  writtenOut,
  type Formula,
  type TableShape,
  type Vocabulary,
} from './formula';
import { Package, WorkbookFileError } from './package';
import { isTrue, onlyPart, partsOf, relationshipsOf, type WorkbookParts } from './parts';
import { MOST_CELLS, walkSheet, type StoredCell } from './sheet';
import { readStyles } from './styles';
import { child, childrenOf, decodeCellText, parseXml, walk } from './xml';

/**
 * The cells of an .xlsx file. Formulas come as the engine takes them: shared formulas, defined names and table
 * references written out, Pinset's functions as `PINSET.NAME`.
 * @throws WorkbookFileError with one sentence where the file is no sound .xlsx workbook
 */
export function readWorkbook(bytes: Uint8Array): WorkbookContent {
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const sharedPart = onlyPart(parts, 'sharedStrings');
  const stylesPart = onlyPart(parts, 'styles');
  const context: Context = {
    dateSystem: dateSystemOf(parts),
    sharedTexts: sharedPart && file.has(sharedPart) ? readSharedTexts(file.text(sharedPart), sharedPart) : [],
    formats: stylesPart && file.has(stylesPart) ? readStyles(file.text(stylesPart), stylesPart).formats : [],
    vocabulary: vocabularyOf(parts, readTables(file, parts)),
    cells: 0,
    filled: 0,
    characters: 0,
  };
  return {
    dateSystem: context.dateSystem,
    sheets: parts.sheets.map(({ name, part }) => readSheet(name, file.text(part), part, context)),
  };
}

interface Context {
  readonly dateSystem: DateSystem;
  readonly sharedTexts: readonly string[];
  readonly formats: readonly (string | undefined)[];
  readonly vocabulary: Vocabulary;
  /** Cells read so far, on all sheets. */
  cells: number;
  /** Cells that the stored results of formulas read so far lay claim to, overlapping ones counted again. */
  filled: number;
  /** Letters of the formulas read so far, shared ones and names written out. */
  characters: number;
}

/** A short formula shared by many cells, or a name in many of them, could unfold without end. */
const MOST_CHARACTERS = 20_000_000;

export const dateSystemOf = ({ root }: WorkbookParts): DateSystem =>
  isTrue(child(root, 'workbookPr')?.attributes['date1904']) ? 1904 : 1900;

function readSharedTexts(xml: string, part: string): string[] {
  const texts: string[] = [];
  let text: string | undefined;
  let reading = false;
  let phonetic = false;
  walk(xml, part, {
    open(name) {
      if (name === 'si') text = '';
      else if (name === 'rPh') phonetic = true;
      else if (name === 't') reading = !phonetic;
    },
    close(name) {
      if (name === 't') reading = false;
      else if (name === 'rPh') phonetic = false;
      else if (name === 'si') {
        texts.push(decodeCellText(text!));
        text = undefined;
      }
    },
    text(more) {
      if (reading && text !== undefined) text += more;
    },
  });
  return texts;
}

/** Every table of the workbook. */
export function readTables(file: Package, parts: WorkbookParts): TableShape[] {
  const read = new Set<string>();
  return parts.sheets.flatMap(({ name: sheet, part }) =>
    relationshipsOf(file, part)
      .filter(({ kind }) => kind === 'table')
      .flatMap(({ target }) => {
        if (read.has(target)) return [];
        read.add(target);
        const { attributes, children } = parseXml(file.text(target), target);
        const area = areaOf(attributes['ref'] ?? '');
        if (!area) return [];
        const columns = children.find(({ name }) => name === 'tableColumns');
        return [
          {
            name: attributes['displayName'] ?? attributes['name'] ?? '',
            sheet,
            area,
            headerRows: Number(attributes['headerRowCount'] ?? 1),
            totalsRows: Number(attributes['totalsRowCount'] ?? 0),
            columns: childrenOf(columns, 'tableColumn').map((one) =>
              decodeCellText(one.attributes['name'] ?? ''),
            ),
          },
        ];
      }),
  );
}

export function vocabularyOf({ root, allSheets }: WorkbookParts, tables: readonly TableShape[]): Vocabulary {
  const key = (name: string, sheet = ''): string => `${sheet}\n${name}`.toLowerCase();
  const names = new Map(
    childrenOf(child(root, 'definedNames'), 'definedName').map(({ attributes, text }) => {
      const scope = attributes['localSheetId'];
      return [key(attributes['name'] ?? '', scope === undefined ? '' : allSheets[Number(scope)]), text];
    }),
  );
  const byName = new Map(tables.map((table) => [key(table.name), table]));
  return {
    name: (name, sheet) => names.get(key(name, sheet)) ?? names.get(key(name)),
    table: (name) => byName.get(key(name)),
    tableAt: (sheet, place) => tables.find((table) => table.sheet === sheet && covers(table.area, place)),
  };
}

/** A formula of the sheet and the cell its text was written for. */
interface Origin extends Place {
  readonly tokens: Formula;
}

function readSheet(name: string, xml: string, part: string, context: Context): SheetContent {
  const stored: StoredCell[] = [];
  const shared = new Map<string, Origin>();
  walkSheet(xml, part, {
    cell(cell) {
      if (++context.cells > MOST_CELLS) {
        throw new WorkbookFileError(`the workbook has more than ${MOST_CELLS} cells`);
      }
      stored.push(cell);
      const formula = cell.formula;
      if (formula?.kind === 'shared' && formula.text && !shared.has(formula.shared ?? '')) {
        shared.set(formula.shared ?? '', { row: cell.row, column: cell.column, tokens: cut(formula.text) });
      }
    },
  });
  const cells = stored.map((cell): CellContent => {
    const numberFormat = context.formats[Number(cell.attributes['s'] ?? 0)];
    return {
      address: addressOf(cell),
      value: valueOf(cell, part, context),
      ...(cell.formula && formulaWithin(cell, name, shared, context)),
      ...(numberFormat !== undefined && { numberFormat }),
    };
  });
  return {
    name,
    cells: withSpills(stored, cells).filter(
      ({ value, formula, unsupported, numberFormat, spilledFrom }) =>
        value !== null ||
        formula !== undefined ||
        unsupported !== undefined ||
        spilledFrom !== undefined ||
        numberFormat !== undefined,
    ),
  };
}

/** The formula of a cell. @throws WorkbookFileError where formulas come to more than a calculation can hold */
function formulaWithin(
  cell: StoredCell,
  sheet: string,
  shared: ReadonlyMap<string, Origin>,
  context: Context,
): FormulaContent {
  const content = formulaOf(cell, sheet, shared, context.vocabulary);
  context.characters += (content.formula?.length ?? 0) + (content.written?.length ?? 0);
  if (context.characters > MOST_CHARACTERS) {
    throw new WorkbookFileError(`the formulas of the workbook have more than ${MOST_CHARACTERS} letters`);
  }
  if (content.spill !== undefined) context.filled += cellsIn(areaOf(content.spill)!);
  if (context.filled > MOST_CELLS) {
    throw new WorkbookFileError(`the results of the workbook’s formulas fill more than ${MOST_CELLS} cells`);
  }
  return content;
}

type FormulaContent = Pick<CellContent, 'formula' | 'written' | 'unsupported' | 'spill'>;

function formulaOf(
  cell: StoredCell,
  sheet: string,
  shared: ReadonlyMap<string, Origin>,
  vocabulary: Vocabulary,
): FormulaContent {
  const { kind, text, ref, shared: id } = cell.formula!;
  const spill = kind === 'array' && ref !== undefined && areaOf(ref) ? { spill: ref } : {};
  if (kind === 'dataTable') return { written: '=TABLE()', unsupported: 'a what-if data table' };
  const origin =
    kind === 'shared'
      ? shared.get(id ?? '')
      : text
        ? { row: cell.row, column: cell.column, tokens: cut(text) }
        : undefined;
  // A cell inside a legacy array formula or data table may hold an empty element.
  if (!origin)
    return kind === 'shared' ? { unsupported: 'the formula it shares, which is missing from the file' } : {};
  const moved = { row: cell.row - origin.row, column: cell.column - origin.column };
  try {
    const { formula, written } = writtenOut(origin.tokens, { sheet, place: cell }, moved, vocabulary);
    return { formula: `=${formula}`, ...(written !== undefined && { written: `=${written}` }), ...spill };
  } catch (fault) {
    if (!(fault instanceof CannotWriteOut)) throw fault;
    return { written: `=${asWritten(origin.tokens, moved)}`, unsupported: fault.message, ...spill };
  }
}

/** Marks the cells that stored spills filled. A formula that is not calculated keeps them as they are: constants. */
function withSpills(stored: readonly StoredCell[], cells: readonly CellContent[]): CellContent[] {
  const marked = [...cells];
  let index: Map<string, number> | undefined;
  cells.forEach(({ spill, formula, address }, at) => {
    if (spill === undefined || formula === undefined) return;
    const area = areaOf(spill)!;
    if (cellsIn(area) === 1) return;
    const mark = (n: number | undefined): void => {
      if (n === undefined || n === at || stored[n]!.formula?.text) return;
      const { address: own, value, numberFormat } = cells[n]!;
      marked[n] = {
        address: own,
        value,
        spilledFrom: address,
        ...(numberFormat !== undefined && { numberFormat }),
      };
    };
    index ??= new Map(cells.map((cell, n) => [cell.address, n]));
    for (let row = area.top; row <= area.bottom; row++) {
      for (let column = area.left; column <= area.right; column++) {
        mark(index.get(addressOf({ row, column })));
      }
    }
  });
  return marked;
}

const ERROR_CODES: ReadonlySet<string> = new Set<ErrorCode>([
  '#VALUE!',
  '#N/A',
  '#DIV/0!',
  '#NUM!',
  '#REF!',
  '#NAME?',
  '#NULL!',
  '#SPILL!',
  '#CALC!',
  '#BUSY!',
]);

function valueOf(cell: StoredCell, part: string, { sharedTexts, dateSystem }: Context): Cell {
  const { value, inlineText } = cell;
  const type = cell.attributes['t'] ?? 'n';
  if (type === 'inlineStr') return inlineText === undefined ? null : decodeCellText(inlineText);
  if (value === undefined) return null;
  const unreadable = (): WorkbookFileError =>
    new WorkbookFileError(`the file is damaged: cell ${addressOf(cell)} of ${part} cannot be read`);
  switch (type) {
    case 's': {
      const text = sharedTexts[Number(value)];
      if (text === undefined) throw unreadable();
      return text;
    }
    case 'str':
      return decodeCellText(value);
    case 'b':
      return isTrue(value);
    case 'e':
      return ERROR_CODES.has(value)
        ? cellError(value as ErrorCode)
        : cellError('#VALUE!', `the cell holds ${value}`);
    case 'd': {
      const serial = serialOfWritten(value, dateSystem);
      if (Number.isNaN(serial)) throw unreadable();
      return serial;
    }
    default: {
      if (value.trim() === '') return null;
      const number = Number(value);
      if (!Number.isFinite(number)) throw unreadable();
      return number;
    }
  }
}

/** The serial of a date written out (`2026-03-01T06:00:00`), as strict files may hold it; NaN for anything else. */
function serialOfWritten(date: string, system: DateSystem): number {
  const [, day, time = 'T00:00', zone = 'Z'] =
    /^(\d{4}-\d\d-\d\d)(T[\d:.]+)?(Z|[+-]\d\d:\d\d)?$/.exec(date) ?? [];
  const moment = Date.parse(`${day}${time}${zone}`);
  return (moment - (system === 1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, 30))) / 86_400_000;
}
