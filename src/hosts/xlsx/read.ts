import { type CellError, type Cell, type ErrorCode, cellError } from '../../worksheet/cells/cell';
import { serialOf, writtenDate, type DateSystem } from '../../worksheet/calendar';
import type { CellContent, SheetContent, WorkbookContent } from './content';
import { addressOf, areaOf, cellsIn, covers, type Area, type Place } from './address';
import {
  asWritten,
  callsPinset,
  CannotWriteOut,
  cut,
  isPlain,
  writtenOut,
  type Formula,
  type TableShape,
  type Vocabulary,
} from './formula';
import { Package, WorkbookFileError } from './package';
import { isTrue, onlyPart, partsOf, relationshipsOf, type SheetPart, type WorkbookParts } from './parts';
import { MOST_CELLS, numberOf, walkSheet, type StoredCell } from './sheet';
import { readStyles, type Styles } from './styles';
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
  const tables = readTables(file, parts);
  const context: Context = {
    dateSystem: dateSystemOf(parts),
    sharedTexts: sharedPart && file.has(sharedPart) ? readSharedTexts(file.text(sharedPart), sharedPart) : [],
    styles: stylesPart && file.has(stylesPart) ? readStyles(file.text(stylesPart), stylesPart) : undefined,
    vocabulary: vocabularyOf(parts, tables),
    filteredTables: tables.filter(({ isFiltered }) => isFiltered),
    cells: 0,
    filled: 0,
    characters: 0,
  };
  return {
    dateSystem: context.dateSystem,
    vocabulary: context.vocabulary,
    ...(isStale(parts) && { isStale: true as const }),
    sheets: parts.sheets.map((sheet) => readSheet(sheet, file.text(sheet.part), context)),
  };
}

interface Context {
  readonly dateSystem: DateSystem;
  readonly sharedTexts: readonly string[];
  readonly styles: Styles | undefined;
  readonly vocabulary: Vocabulary;
  readonly filteredTables: readonly TableShape[];
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

/** Whether the file asks for a calculation on opening or was saved before its own was complete (18.2.2). */
function isStale({ root }: WorkbookParts): boolean {
  const { fullCalcOnLoad, calcCompleted = '1' } = child(root, 'calcPr')?.attributes ?? {};
  return isTrue(fullCalcOnLoad) || !isTrue(calcCompleted);
}

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
            isFiltered:
              childrenOf(
                children.find(({ name }) => name === 'autoFilter'),
                'filterColumn',
              ).length > 0,
            columns: childrenOf(columns, 'tableColumn').map((one) =>
              decodeCellText(one.attributes['name'] ?? ''),
            ),
          },
        ];
      }),
  );
}

/** The names that a workbook gives to cells and formulas. */
export const definedNames = ({ root }: WorkbookParts): readonly string[] =>
  childrenOf(child(root, 'definedNames'), 'definedName').map(({ attributes }) => attributes['name'] ?? '');

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

/** Tells of a sheet of too many cells before any of it is read: that takes seconds. */
function checkSize(xml: string, before: number): void {
  const most = MOST_CELLS - before;
  if (xml.length < most * '<c><v>1</v></c>'.length) return;
  const opened = /<(?:\w+:)?c[\s>]/g;
  for (let found = 0; opened.test(xml);) if (++found > most) throw tooManyCells();
}

const tooManyCells = (): WorkbookFileError =>
  new WorkbookFileError(`the workbook has more than ${MOST_CELLS} cells`);

function readSheet({ name, part, isMacro }: SheetPart, xml: string, context: Context): SheetContent {
  checkSize(xml, context.cells);
  const cells: CellContent[] = [];
  /** Cells that share a formula which stands further on, by their positions among the others. */
  const waiting: [at: number, cell: StoredCell][] = [];
  const shared = new Map<string, Origin>();
  const hidden: number[] = [];
  const filters = context.filteredTables.filter(({ sheet }) => sheet === name).map(({ area }) => area);
  let filterArea: Area | undefined;
  const merged: Area[] = [];
  walkSheet(xml, part, {
    cell(read) {
      if (++context.cells > MOST_CELLS) throw tooManyCells();
      const cell = isMacro ? { ...read, formula: undefined } : read;
      const formula = cell.formula;
      if (formula?.kind === 'shared' && formula.text) {
        shared.set(formula.shared ?? '', { row: cell.row, column: cell.column, tokens: cut(formula.text) });
      }
      if (formula?.kind === 'shared' && !shared.has(formula.shared ?? '')) waiting.push([cells.length, cell]);
      cells.push(contentOf(cell, name, shared, context));
    },
    row({ row, attributes }) {
      if (isTrue(attributes['hidden'])) hidden.push(row);
    },
    other(element, attributes) {
      const area = element === 'mergeCell' ? areaOf(attributes['ref'] ?? '') : undefined;
      if (area && area.bottom > area.top) merged.push(area);
      if (element === 'autoFilter') filterArea = areaOf(attributes['ref'] ?? '');
      if (element === 'filterColumn' && filterArea) filters.push(filterArea);
    },
  });
  for (const [at, cell] of waiting) cells[at] = contentOf(cell, name, shared, context);
  const hiddenRows = new Map(
    hidden.map((row) => {
      const isFiltered = filters.some(({ top, bottom }) => row > top && row <= bottom);
      return [row, isFiltered ? 'filter' : 'hand'] as const;
    }),
  );
  return {
    name,
    ...(hiddenRows.size > 0 && { hiddenRows }),
    ...(merged.length > 0 && { merged }),
    cells: withSpills(cells).filter(
      ({ value, formula, unsupported, numberFormat, spilledFrom }) =>
        value !== null ||
        formula !== undefined ||
        unsupported !== undefined ||
        spilledFrom !== undefined ||
        numberFormat !== undefined,
    ),
  };
}

function contentOf(
  cell: StoredCell,
  sheet: string,
  shared: ReadonlyMap<string, Origin>,
  context: Context,
): CellContent {
  const style = Number(cell.attributes['s'] ?? 0);
  const numberFormat = context.styles?.formats[style];
  return {
    address: addressOf(cell),
    value: valueOf(cell, context),
    ...(cell.formula && formulaWithin(cell, sheet, shared, context)),
    ...(numberFormat !== undefined && { numberFormat }),
    ...(context.styles?.followReader[style] && { followsReader: true as const }),
    ...(context.styles?.struck[style] && { isStruck: true as const }),
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

type FormulaContent = Pick<
  CellContent,
  'formula' | 'written' | 'unsupported' | 'notWrittenOut' | 'spill' | 'isFixedArray'
>;

function formulaOf(
  cell: StoredCell,
  sheet: string,
  shared: ReadonlyMap<string, Origin>,
  vocabulary: Vocabulary,
): FormulaContent {
  const { kind, text, ref, shared: id } = cell.formula!;
  if (kind === 'normal' && isPlain(text)) return { formula: `=${text}` };
  const fills = ref !== undefined && areaOf(ref) !== undefined;
  const isArray = kind === 'array' && fills;
  // Excel marks formulas that spill; Pinset's own do so whoever wrote the file.
  const isFixedArray = isArray && cell.attributes['cm'] === undefined && !callsPinset(text);
  const spill = { ...(isArray && { spill: ref }), ...(isFixedArray && { isFixedArray }) };
  if (kind === 'dataTable') {
    return { written: '=TABLE()', unsupported: 'a what-if data table', ...(fills && { spill: ref }) };
  }
  const origin = text
    ? { row: cell.row, column: cell.column, tokens: cut(text) }
    : kind === 'shared'
      ? shared.get(id ?? '')
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
    return { formula: `=${asWritten(origin.tokens, moved)}`, notWrittenOut: fault.message, ...spill };
  }
}

/** Marks the cells that stored spills filled. A formula that is not calculated keeps them as they are: constants. */
function withSpills(cells: readonly CellContent[]): readonly CellContent[] {
  let marked: CellContent[] | undefined;
  let index: Map<string, number> | undefined;
  cells.forEach(({ spill, address }, at) => {
    if (spill === undefined) return;
    const area = areaOf(spill)!;
    if (cellsIn(area) === 1) return;
    const mark = (n: number | undefined): void => {
      if (n === undefined || n === at) return;
      const { address: own, value, numberFormat, followsReader, formula: another, unsupported } = cells[n]!;
      if (another !== undefined || unsupported !== undefined) return;
      marked ??= [...cells];
      marked[n] = {
        address: own,
        value,
        spilledFrom: address,
        ...(numberFormat !== undefined && { numberFormat }),
        ...(followsReader && { followsReader }),
      };
    };
    index ??= new Map(cells.map((cell, n) => [cell.address, n]));
    for (let row = area.top; row <= area.bottom; row++) {
      for (let column = area.left; column <= area.right; column++) {
        mark(index.get(addressOf({ row, column })));
      }
    }
  });
  return marked ?? cells;
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

const unreadable = (value: string, place: Place): CellError =>
  cellError('#VALUE!', `the file is damaged: ${value} in ${addressOf(place)} cannot be read`);

function valueOf(cell: StoredCell, { sharedTexts, dateSystem }: Context): Cell {
  const { value, inlineText } = cell;
  const type = cell.attributes['t'] ?? 'n';
  if (type === 'inlineStr') return inlineText === undefined ? null : decodeCellText(inlineText);
  if (value === undefined) return null;
  switch (type) {
    case 's': {
      const text = sharedTexts[numberOf(value)];
      if (text === undefined) return unreadable(value, cell);
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
      if (value.trim() === '') return null;
      const serial = serialOfWritten(value, dateSystem);
      if (Number.isNaN(serial)) return unreadable(value, cell);
      return serial;
    }
    default: {
      if (value.trim() === '') return null;
      const number = numberOf(value);
      if (!Number.isFinite(number)) return unreadable(value, cell);
      return number;
    }
  }
}

/**
 * The serial of a date or time written out (`2026-03-01T06:00:00`, `06:00`), as files may hold it; NaN for anything
 * else, a day that the calendar lacks included.
 */
function serialOfWritten(written: string, system: DateSystem): number {
  const found = /^(?:(\d{4}-\d\d-\d\d)T?)?(\d\d:\d\d(?::\d\d(?:\.\d+)?)?)?(Z|[+-]\d\d:\d\d)?$/.exec(
    written.trim().replace(/^T| /, (mark) => (mark === ' ' ? 'T' : '')),
  );
  if (!found) return NaN;
  const [, day, time = '00:00', zone = 'Z'] = found;
  const ofDay = Date.parse(`1970-01-01T${time}${day === undefined ? 'Z' : zone}`) / 86_400_000;
  if (day === undefined) return ofDay;
  const [year, month, date] = day.split('-').map(Number);
  const serial = serialOf(year!, month!, date!, system);
  return writtenDate(serial, system) === day ? serial + ofDay : NaN;
}
