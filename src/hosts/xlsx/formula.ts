import {
  parseA1Ref,
  parseStructRef,
  stringifyA1Ref,
  stringifyStructRef,
  tokenize,
  type RangeA1,
  type ReferenceA1Xlsx,
  type Token,
} from '@borgar/fx/xlsx';
import { PREFIX } from '../../worksheet/constants';
import { COLUMNS, ROWS, type Area, type Place } from './address';
import { FUTURE_FUNCTIONS, SPILLING_FUNCTIONS } from './functionNames';
import { closing, VARIABLE, withMarks } from './variables';

/** A table of a sheet. */
export interface TableShape {
  readonly name: string;
  readonly sheet: string;
  /** Header row, data and totals row. */
  readonly area: Area;
  readonly headerRows: number;
  readonly totalsRows: number;
  /** Whether a filter hides rows of it. */
  readonly isFiltered?: boolean;
  readonly columns: readonly string[];
}

/** What the words in a workbook's formulas stand for. */
export interface Vocabulary {
  /** The formula text of a defined name seen from `sheet`. */
  name(name: string, sheet: string): string | undefined;
  table(name: string): TableShape | undefined;
  tableAt(sheet: string, place: Place): TableShape | undefined;
}

/** Where a formula stands. */
export interface Standing {
  readonly sheet: string;
  readonly place: Place;
}

/** What a formula needs that cannot be written out or stored: the message is a noun with its details. */
export class CannotWriteOut extends Error {}

/** Names that refer to one another twice over could unfold a short formula without end. */
const MOST_CHARACTERS = 100_000;
/** Names within names; a longer chain is no grower's. */
const MOST_NESTED = 50;

const STORED_PINSET = '_XLDUDF_PINSET_';

/** Text of a formula, cut into tokens once: a shared formula is rewritten for many cells. */
export type Formula = readonly Token[];

export const cut = (formula: string): Formula =>
  tokenize(formula, { mergeRefs: true, negativeNumbers: false, withLocation: false });

/** Whether a formula calls one of Pinset's functions, in either spelling. */
export function callsPinset(formula: string | Formula): boolean {
  if (typeof formula === 'string' && !/pinset/i.test(formula)) return false;
  return (typeof formula === 'string' ? cut(formula) : formula).some(
    (token) => token.type === 'func' && plainName(token.value).startsWith(PREFIX),
  );
}

/** Signs, texts, numbers, calls of older built-ins and references within the workbook. */
const PLAIN =
  /^(?:[-+*/^&=<>%(),.;:{}\s]|"(?:[^"]|"")*"|(?:[A-Z][A-Za-z]{3,20}!|'[^'[\]:]+'!)?\$?(?:[A-Z]{1,2}|[A-W][A-Z]{2}|X[A-E][A-Z]|XF[A-D])\$?[1-9]\d{0,5}(?![\w.(!?\\])|(?:\d+(?:\.\d+)?(?:E[+-]?\d+)?)(?![\w.!])|[A-Z][A-Z0-9]*(?:\.[A-Z0-9]+)*(?=\())+$/;

/** Whether a formula of a file reads as it is written: it holds no names, tables or stored spellings. */
export const isPlain = (formula: string): boolean =>
  formula.length < 1000 && PLAIN.test(formula) && !formula.includes('LAMBDA(');

/** Whether a formula stands for more than its own reading: it names tables, names or variables. */
const hasWords = (formula: Formula): boolean =>
  formula.some(({ type }) => type === 'range_named' || type === 'structured');

/**
 * A formula of a file as the engine takes it, and as its author reads it where the two differ. `moved` is the
 * distance from the cell whose text it is (shared formulas). @throws CannotWriteOut
 */
export function writtenOut(
  formula: Formula,
  at: Standing,
  moved: Place,
  vocabulary: Vocabulary,
): { formula: string; written?: string } {
  const text = new Writer(at, vocabulary).write(formula, moved);
  if (!hasWords(formula)) return { formula: text };
  const written = asWritten(formula, moved);
  return written === text ? { formula: text } : { formula: text, written };
}

/** A formula of a file as its author reads it: names and table references kept, stored spellings undone. */
export const asWritten = (formula: Formula, moved: Place = { row: 0, column: 0 }): string =>
  new Writer().write(formula, moved);

/**
 * Writes tokens again: stored spellings undone and, where a vocabulary is given, names and table references replaced
 * by what they stand for.
 */
class Writer {
  private readonly within: string[] = [];

  constructor(
    private readonly at?: Standing,
    private readonly vocabulary?: Vocabulary,
  ) {}

  write(tokens: Formula, moved: Place): string {
    let text = '';
    for (let i = 0; i < tokens.length; i++) {
      const { type, value } = tokens[i]!;
      if (text.length > MOST_CHARACTERS)
        throw new CannotWriteOut(`a formula of more than ${MOST_CHARACTERS} characters`);
      switch (type) {
        case 'func': {
          const name = plainName(value);
          if (name === 'ANCHORARRAY' || name === 'SINGLE') {
            const close = closing(tokens, i + 1);
            text += this.marked(name, tokens.slice(i + 2, close), moved);
            i = close;
          } else {
            this.checkOwnFunction(name);
            text += name;
          }
          break;
        }
        case 'range':
        case 'range_beam':
          text += this.reference(value, moved);
          break;
        case 'range_named':
          text += this.named(value);
          break;
        case 'structured':
          text += this.structured(value);
          break;
        case 'unknown':
          if (this.vocabulary) throw new CannotWriteOut(`something that is no formula (${value})`);
          text += value;
          break;
        default:
          text += value;
      }
    }
    return text;
  }

  /** `A1#` or `@A1:A9`. */
  private marked(name: 'ANCHORARRAY' | 'SINGLE', inner: Formula, moved: Place): string {
    const text = this.write(inner, moved);
    const single = inner.filter(({ type }) => type !== 'whitespace').length === 1;
    const call = inner[0]?.type === 'func' && closing(inner, 1) === inner.length - 1;
    const operand = single || call ? text : `(${text})`;
    return name === 'SINGLE' ? `@${operand}` : `${operand}#`;
  }

  private reference(value: string, moved: Place): string {
    const reference = parseA1Ref(value) as ReferenceA1Xlsx | undefined;
    if (!reference) return value;
    this.checkContext(reference, value);
    const { range } = reference;
    const { workbookName } = reference;
    if (moved.row === 0 && moved.column === 0 && !workbookName) return value;
    return stringifyA1Ref({
      ...(workbookName && workbookName !== '0' && { workbookName }),
      ...ownSheet(reference.sheetName),
      range: movedRange(range, moved),
    });
  }

  private named(value: string): string {
    if (value.toLowerCase().startsWith(VARIABLE)) return value.slice(VARIABLE.length);
    if (!this.vocabulary) return value;
    const reference = parseA1Ref(value);
    if (!reference || !('name' in reference)) return value;
    this.checkContext(reference, value);
    const { name } = reference;
    const table = this.vocabulary.table(name);
    if (table) return this.rangeIn(table, dataOf(table));
    const meaning = this.vocabulary.name(name, reference.sheetName || this.at!.sheet);
    if (meaning === undefined) return value;
    const key = name.toLowerCase();
    if (this.within.includes(key)) throw new CannotWriteOut(`the name ${name}, which refers to itself`);
    if (this.within.length >= MOST_NESTED) {
      throw new CannotWriteOut(`the name ${name}, which is nested too deeply`);
    }
    this.within.push(key);
    const tokens = cut(meaning);
    // Relative references in a name are kept as seen from A1.
    const text = this.write(tokens, this.at!.place);
    this.within.pop();
    return tokens.length === 1 ? text : `(${text})`;
  }

  private structured(value: string): string {
    const reference = parseStructRef(value);
    if (!reference) return value;
    if (!this.vocabulary) return stringifyStructRef(reference);
    const { sheet, place } = this.at!;
    this.checkContext(reference, value);
    const table = reference.table
      ? this.vocabulary.table(reference.table)
      : this.vocabulary.tableAt(sheet, place);
    if (!table) throw new CannotWriteOut(`the table of ${value}, which is not in the workbook`);
    const rows = rowsOf(table, reference.sections ?? [], place);
    if (rows === undefined) return '#VALUE!';
    if (rows === null) return '#REF!';
    const columns = (reference.columns ?? []).map((column) => {
      const at = table.columns.findIndex((one) => one.toLowerCase() === column.toLowerCase());
      if (at < 0) throw new CannotWriteOut(`a column ${column} in the table ${table.name}`);
      return table.area.left + at;
    });
    const { left, right } = columns.length
      ? { left: Math.min(...columns), right: Math.max(...columns) }
      : table.area;
    return this.rangeIn(table, { ...rows, left, right });
  }

  private rangeIn(table: TableShape, { top, left, bottom, right }: Area): string {
    const range: RangeA1 = { top, left, bottom, right, $top: true, $left: true, $bottom: true, $right: true };
    return stringifyA1Ref({ ...ownSheet(table.sheet === this.at!.sheet ? '' : table.sheet), range });
  }

  private checkOwnFunction(name: string): void {
    const meaning = this.vocabulary?.name(name, this.at!.sheet);
    if (meaning === undefined || plainName(cut(meaning)[0]?.value ?? '') !== 'LAMBDA') return;
    throw new CannotWriteOut(`the function ${name} that the workbook defines itself`);
  }

  private checkContext(
    { workbookName, sheetName }: { workbookName?: string; sheetName?: string },
    value: string,
  ): void {
    // Excel writes [0] for the workbook itself.
    if (!this.vocabulary) return;
    if (workbookName && workbookName !== '0') {
      throw new CannotWriteOut(`another workbook (${value})`);
    }
    if (sheetName?.includes(':')) throw new CannotWriteOut(`several sheets at once (${value})`);
  }
}

/** The name of a function without the marks it has in files; Pinset's as `PINSET.NAME`. */
export function plainName(stored: string): string {
  const upper = stored.toUpperCase();
  if (upper.startsWith(STORED_PINSET)) return PREFIX + upper.slice(STORED_PINSET.length);
  if (upper.startsWith(PREFIX)) return upper;
  for (const mark of ['_XLFN._XLWS.', '_XLFN.', '_XLWS.', '_XLUDF.']) {
    if (upper.startsWith(mark)) return upper.slice(mark.length);
  }
  return stored;
}

const ownSheet = (sheetName: string | undefined): { sheetName?: string } => (sheetName ? { sheetName } : {});

/** A range moved by a distance in its relative parts; past the edge of the sheet it comes in at the other, as in Excel. */
function movedRange(range: RangeA1, { row, column }: Place): RangeA1 {
  const move = (at: number | null | undefined, fixed: unknown, by: number, size: number): number | null =>
    at === null || at === undefined ? null : fixed ? at : (((at + by) % size) + size) % size;
  return {
    ...range,
    top: move(range.top, range.$top, row, ROWS),
    bottom: move(range.bottom, range.$bottom, row, ROWS),
    left: move(range.left, range.$left, column, COLUMNS),
    right: move(range.right, range.$right, column, COLUMNS),
  };
}

export const dataOf = ({ area, headerRows, totalsRows }: TableShape): Area => ({
  ...area,
  top: area.top + headerRows,
  bottom: area.bottom - totalsRows,
});

/** The rows of a table's sections; null where the table has none of them, undefined for `@` beside no data row. */
export function rowsOf(
  table: TableShape,
  sections: readonly string[],
  place: Place,
): { top: number; bottom: number } | null | undefined {
  const data = dataOf(table);
  if (sections.includes('this row')) {
    const inside = place.row >= data.top && place.row <= data.bottom;
    return inside ? { top: place.row, bottom: place.row } : undefined;
  }
  const asked = sections.length ? sections : ['data'];
  const bands = asked.map((section) => {
    switch (section) {
      case 'all':
        return { top: table.area.top, bottom: table.area.bottom };
      case 'headers':
        return { top: table.area.top, bottom: data.top - 1 };
      case 'totals':
        return { top: data.bottom + 1, bottom: table.area.bottom };
      default:
        return { top: data.top, bottom: data.bottom };
    }
  });
  const top = Math.min(...bands.map((band) => band.top));
  const bottom = Math.max(...bands.map((band) => band.bottom));
  return top > bottom ? null : { top, bottom };
}

/**
 * A formula as Excel stores it, without the leading `=`: Pinset's functions as `_xldudf_PINSET_NAME`, newer built-ins
 * with their `_xlfn.` mark, `A1#` and `@` as the functions they are in files. `tableHere` is the table the formula
 * stands in, for `[@Strain]`. @throws CannotWriteOut for a variable of LET or LAMBDA that is no plain word
 */
export function stored(formula: string, tableHere?: string): string {
  const text = formula.trim();
  const tokens = withMarks(cut(text.startsWith('=') ? text.slice(1) : text), plainName, (name) => {
    throw new CannotWriteOut(`variables, which ${name} brings in`);
  });
  return storedTokens(tokens, tableHere);
}

function storedTokens(tokens: Formula, tableHere: string | undefined): string {
  const pieces: string[] = [];
  /** Where the operand that ends here began, for a `#` behind it. */
  for (let i = 0; i < tokens.length; i++) {
    const { type, value } = tokens[i]!;
    if (type === 'operator' && value === '#') {
      pieces.push(`_xlfn.ANCHORARRAY(${pieces.pop() ?? ''})`);
    } else if (type === 'operator' && value === '@') {
      const end = operandEnd(tokens, i + 1);
      pieces.push(`_xlfn.SINGLE(${storedTokens(tokens.slice(i + 1, end), tableHere)})`);
      i = end - 1;
    } else if (type === 'func') {
      pieces.push(storedName(value));
    } else if (type === 'structured') {
      pieces.push(storedTableReference(value, tableHere));
    } else {
      pieces.push(value);
    }
  }
  return pieces.join('');
}

function storedTableReference(value: string, tableHere: string | undefined): string {
  const reference = parseStructRef(value);
  if (!reference) return value;
  const table = reference.table || tableHere;
  if (!table) throw new CannotWriteOut(`a table around the cell for ${value}`);
  return stringifyStructRef({ ...reference, table }, { thisRow: true });
}

function storedName(value: string): string {
  if (value.startsWith(VARIABLE)) return value;
  const name = plainName(value).toUpperCase();
  if (name.startsWith(PREFIX)) return `_xldudf_PINSET_${name.slice(PREFIX.length)}`;
  if (name === 'LET' || name === 'LAMBDA') return `_xlfn.${name}`;
  return (FUTURE_FUNCTIONS.get(name) ?? '') + (plainName(value) === value ? value : name);
}

/** The end of what an `@` applies to: a call, a bracket or a single token, with a `#` behind it. */
function operandEnd(tokens: Formula, start: number): number {
  const first = tokens[start];
  let end = start + 1;
  if (first?.type === 'func') end = closing(tokens, start + 1) + 1;
  else if (first?.type === 'operator' && first.value === '(') end = closing(tokens, start) + 1;
  return tokens[end]?.type === 'operator' && tokens[end]?.value === '#' ? end + 1 : end;
}

/** The text of a shared formula, in stored spelling, for another cell than the one it was written for. */
export const movedFormula = (formula: string, moved: Place): string =>
  cut(formula)
    .map(({ type, value }) => {
      const reference = type === 'range' || type === 'range_beam' ? parseA1Ref(value) : undefined;
      return reference && 'range' in reference
        ? stringifyA1Ref({ ...reference, range: movedRange(reference.range, moved) })
        : value;
    })
    .join('');

/**
 * A typed formula of `sheet` with `A1#` written as the range it covers, for spills that are about to become
 * constants. `coveredBy` gives the range of such a spill, undefined for those that stay.
 */
export const withoutSpillsOf = (
  formula: string,
  sheet: string,
  coveredBy: (sheet: string, first: Place) => Area | undefined,
): string => {
  const tokens = cut(formula);
  let text = '';
  for (let i = 0; i < tokens.length; i++) {
    const { type, value } = tokens[i]!;
    const next = tokens[i + 1];
    const isSpill = type === 'range' && next?.type === 'operator' && next.value === '#';
    const reference = isSpill ? parseA1Ref(value) : undefined;
    const first = reference && 'range' in reference ? reference : undefined;
    const covered =
      first && coveredBy(first.sheetName || sheet, { row: first.range.top!, column: first.range.left! });
    text += covered ? stringifyA1Ref({ ...first, range: { ...first.range, ...covered } }) : value;
    if (covered) i++;
  }
  return text;
};

/** Whether Excel keeps a formula as a spilling array whatever the size of its result. */
export function spills(formula: string): boolean {
  return cut(formula).some(({ type, value }) =>
    type === 'func'
      ? plainName(value).startsWith(PREFIX) || SPILLING_FUNCTIONS.has(plainName(value).toUpperCase())
      : type === 'operator' && value === '#',
  );
}
