import { parseA1Ref, stringifyA1Ref, type ReferenceA1Xlsx } from '@borgar/fx/xlsx';
import { addressOf, areaOf, COLUMNS, covers, placeOf, rangeOf, ROWS, type Area, type Place } from './address';
import { withoutChainEntries } from './calcChain';
import { callsPinset, cut, movedFormula, type TableShape } from './formula';
import { Package, WorkbookFileError } from './package';
import { onlyPart, partsOf, relationshipsOf, type WorkbookParts } from './parts';
import { readTables } from './read';
import { walkSheet, type StoredCell, type StoredRow } from './sheet';
import {
  childrenOf,
  element,
  escapeText,
  parseXml,
  prefixAt,
  spliced,
  withAttribute,
  type Edit,
  type Element,
} from './xml';

/** Rows or columns that come into a sheet, or go out of it. */
export interface LineChange {
  readonly sheet: string;
  readonly axis: 'row' | 'column';
  readonly kind: 'insert' | 'delete';
  /** The first of them, from 0: new ones come before the one that is there now. */
  readonly at: number;
  readonly count: number;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * An .xlsx file with rows or columns put in or taken out. All that speaks of the cells behind follows: formulas on every
 * sheet, names, tables, merged cells, lists, rules for looks, links, notes, charts and pictures. Parts that say nothing
 * of them stay byte for byte.
 * @throws WorkbookFileError where a table or the result of a formula would be cut, in a sentence
 */
export function withLines(bytes: Uint8Array, change: LineChange): Uint8Array {
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const sheet = parts.sheets.find(({ name }) => name.toLowerCase() === change.sheet.toLowerCase());
  if (!sheet) throw new WorkbookFileError(`the workbook has no sheet ${change.sheet}`);
  const lines = new Lines({ ...change, sheet: sheet.name });
  const tables = readTables(file, parts);
  for (const table of tables) if (table.sheet === sheet.name) checkTable(table, lines);
  const changes = new Map<string, string | null>();
  const put = (part: string, edits: (text: string) => readonly Edit[]): void => {
    if (!file.has(part)) return;
    const text = file.text(part);
    const after = spliced(text, edits(text));
    if (after !== text) changes.set(part, after);
  };
  for (const { name, part } of parts.sheets) {
    if (name !== sheet.name && !lines.isNamedIn(file.text(part))) continue;
    put(part, (text) => new SheetLines(text, part, name, lines, tables).edits());
  }
  put(parts.workbook, (text) =>
    childrenOf(childOf(parseXml(text, parts.workbook), 'definedNames'), 'definedName').flatMap((one) =>
      lines.inText(one, ''),
    ),
  );
  for (const { kind, target } of relationshipsOf(file, sheet.part)) putBeside(kind, target, file, lines, put);
  for (const name of file.names) {
    if (/\/charts\/[^/]*\.xml$/i.test(name) && lines.isNamedIn(file.text(name))) {
      put(name, (text) => elementsIn(parseXml(text, name), ['f']).flatMap((one) => lines.inText(one, '')));
    }
  }
  withoutChain(file, parts, changes);
  return file.with(changes);
}

/** Where a cell is after a change; undefined where it is gone. */
export function addressAfter(change: LineChange, sheet: string, address: string): string | undefined {
  const place = placeOf(address);
  if (!place || sheet.toLowerCase() !== change.sheet.toLowerCase()) return address;
  const there = new Lines(change).place(place);
  return there && addressOf(there);
}

/** Parts that belong to the sheet alone. */
function putBeside(
  kind: string,
  target: string,
  file: Package,
  lines: Lines,
  put: (part: string, edits: (text: string) => readonly Edit[]) => void,
): void {
  const shiftsRefs = (...names: readonly string[]) =>
    put(target, (text) =>
      elementsIn(parseXml(text, target), names).flatMap((one) => lines.inAttribute(text, one, 'ref')),
    );
  if (kind === 'table') {
    shiftsRefs('table', 'autoFilter', 'sortState', 'sortCondition');
  } else if (kind === 'comments' || kind === 'threadedComment') {
    shiftsRefs('comment', 'threadedComment');
  } else if (kind === 'pivotTable') {
    shiftsRefs('location');
  } else if (kind === 'drawing') {
    put(target, (text) =>
      elementsIn(parseXml(text, target), ['from', 'to']).flatMap((anchor) =>
        childrenOf(anchor, lines.change.axis === 'row' ? 'row' : 'col').map((one) => ({
          start: one.inner,
          end: one.innerEnd,
          text: String(lines.shifted(Number(one.text)) ?? lines.change.at),
        })),
      ),
    );
  } else if (kind === 'vmlDrawing' && file.has(target)) {
    const tag = lines.change.axis === 'row' ? 'Row' : 'Column';
    put(target, (text) =>
      [...text.matchAll(new RegExp(`(<x:${tag}>\\s*)(\\d+)(\\s*</x:${tag}>)`, 'g'))].map((found) => ({
        start: found.index + found[1]!.length,
        end: found.index + found[1]!.length + found[2]!.length,
        text: String(lines.shifted(Number(found[2])) ?? lines.change.at),
      })),
    );
  }
}

/** A calculation chain is rebuilt by whoever calculates; one that names wrong cells counts as damage. */
function withoutChain(file: Package, parts: WorkbookParts, changes: Map<string, string | null>): void {
  const part = onlyPart(parts, 'calcChain');
  if (part === undefined || !file.has(part)) return;
  let sheet = '';
  const all = childrenOf(parseXml(file.text(part), part), 'c').map(({ attributes }) => {
    sheet = attributes['i'] ?? sheet;
    return `${sheet}!${attributes['r']}`;
  });
  withoutChainEntries(file, parts, all, changes);
}

function checkTable({ name, area, headerRows, totalsRows }: TableShape, lines: Lines): void {
  const { axis, kind, at, count } = lines.change;
  if (axis === 'row') {
    if (kind === 'insert') return;
    const left = lines.shiftedSpan({ from: area.top + headerRows, to: area.bottom - totalsRows });
    const header = lines.shiftedSpan({ from: area.top, to: area.top + headerRows - 1 });
    const isHeaderCut = headerRows > 0 && (header === undefined || header.to - header.from + 1 < headerRows);
    if (left === undefined || isHeaderCut) {
      throw new WorkbookFileError(
        `the table ${name} must keep its header and a row: clear its cells instead`,
      );
    }
  } else if (
    kind === 'insert' ? at > area.left && at <= area.right : at <= area.right && at + count > area.left
  ) {
    throw new WorkbookFileError(`the table ${name} lies across these columns: change columns beside it`);
  }
}

/** Where rows or columns go. */
class Lines {
  readonly isRow: boolean;

  constructor(readonly change: LineChange) {
    this.isRow = change.axis === 'row';
  }

  /** Whether a text may speak of the sheet. */
  isNamedIn(text: string): boolean {
    const sheet = this.change.sheet.toLowerCase();
    const all = text.toLowerCase();
    return all.includes(sheet) || all.includes(escapeText(sheet.replaceAll("'", "''")));
  }

  /** Where a row or column is afterwards; undefined where it is gone. */
  shifted(line: number): number | undefined {
    const { kind, at, count } = this.change;
    if (line < at) return line;
    if (kind === 'insert') return line + count;
    return line >= at + count ? line - count : undefined;
  }

  place({ row, column }: Place): Place | undefined {
    const to = this.shifted(this.isRow ? row : column);
    if (to === undefined) return undefined;
    return this.isRow ? { row: to, column } : { row, column: to };
  }

  shiftedSpan({ from, to }: Span): Span | undefined {
    const { kind, at, count } = this.change;
    if (kind === 'insert') return { from: from < at ? from : from + count, to: to < at ? to : to + count };
    const first = from < at ? from : Math.max(at, from - count);
    const last = to < at ? to : Math.max(at - 1, to - count);
    return first > last ? undefined : { from: first, to: last };
  }

  shiftedArea(area: Area): Area | undefined {
    const { top, bottom, left, right } = area;
    const span = this.shiftedSpan(this.isRow ? { from: top, to: bottom } : { from: left, to: right });
    if (!span) return undefined;
    const most = this.isRow ? ROWS : COLUMNS;
    if (span.from >= most) return undefined;
    const to = Math.min(span.to, most - 1);
    return this.isRow ? { ...area, top: span.from, bottom: to } : { ...area, left: span.from, right: to };
  }

  /** Whether something over an area would be torn. */
  cuts({ top, bottom, left, right }: Area): boolean {
    const { kind, at, count } = this.change;
    const [from, to] = this.isRow ? [top, bottom] : [left, right];
    if (kind === 'insert') return at > from && at <= to;
    const gone = Math.max(0, Math.min(to, at + count - 1) - Math.max(from, at) + 1);
    return gone > 0 && gone < to - from + 1;
  }

  /** A formula of `own`, as files store it, that speaks of the same cells afterwards. */
  formula(text: string, own: string): string {
    if (own !== this.change.sheet && !this.isNamedIn(text)) return text;
    return cut(text)
      .map(({ type, value }) =>
        type === 'range' || type === 'range_beam' ? this.reference(value, own) : value,
      )
      .join('');
  }

  private reference(value: string, own: string): string {
    const reference = parseA1Ref(value) as ReferenceA1Xlsx | undefined;
    if (!reference || !('range' in reference)) return value;
    const { workbookName, sheetName = '', range } = reference;
    if (workbookName && workbookName !== '0') return value;
    if (sheetName.includes(':'))
      throw new WorkbookFileError(`a formula speaks of several sheets at once (${value})`);
    if ((sheetName || own).toLowerCase() !== this.change.sheet.toLowerCase()) return value;
    const [first, last] = this.isRow ? [range.top, range.bottom] : [range.left, range.right];
    if (first === null || first === undefined || last === null || last === undefined) return value;
    const span = this.shiftedSpan({ from: first, to: last });
    if (!span) return value.includes('!') ? `${value.slice(0, value.lastIndexOf('!') + 1)}#REF!` : '#REF!';
    if (span.from === first && span.to === last) return value;
    const moved = this.isRow
      ? { ...range, top: span.from, bottom: span.to }
      : { ...range, left: span.from, right: span.to };
    return stringifyA1Ref({ ...reference, range: moved });
  }

  /** Ranges parted by spaces; empty where none is left. */
  ranges(list: string): string {
    return list
      .split(/\s+/)
      .flatMap((one) => {
        const area = areaOf(one);
        const there = area ? this.shiftedArea(area) : undefined;
        return area === undefined ? [one] : there ? [rangeOf(there)] : [];
      })
      .join(' ');
  }

  /** The ranges in an attribute; the whole element goes where none is left. */
  inAttribute(text: string, one: Element, name: string): Edit[] {
    const list = one.attributes[name];
    if (list === undefined) return [];
    const after = this.ranges(list);
    if (after === list) return [];
    return after === ''
      ? [{ start: one.start, end: one.end, text: '' }]
      : [withAttribute(text, one, name, after)];
  }

  /** The formula that is the text of an element. */
  inText(one: Element, own: string): Edit[] {
    const after = this.formula(one.text, own);
    return after === one.text ? [] : [{ start: one.inner, end: one.innerEnd, text: escapeText(after) }];
  }
}

/** Elements of a sheet outside its cells that name ranges, and the attribute that does. */
const RANGES: Readonly<Record<string, string>> = {
  mergeCell: 'ref',
  hyperlink: 'ref',
  autoFilter: 'ref',
  sortState: 'ref',
  sortCondition: 'ref',
  protectedRange: 'sqref',
  conditionalFormatting: 'sqref',
  dataValidation: 'sqref',
  ignoredError: 'sqref',
};
/** Lists that may not be empty, and the count that they state. */
const LISTS = ['mergeCells', 'hyperlinks', 'dataValidations', 'protectedRanges', 'ignoredErrors'];

class SheetLines {
  private readonly isOwn: boolean;
  private readonly rows: StoredRow[] = [];
  private readonly cells: StoredCell[] = [];
  private readonly heads = new Map<string, StoredCell>();
  private data = { start: 0, inner: 0, innerEnd: 0, end: 0 };
  private prefix = '';

  constructor(
    private readonly text: string,
    private readonly part: string,
    private readonly name: string,
    private readonly lines: Lines,
    private readonly tables: readonly TableShape[],
  ) {
    this.isOwn = name === lines.change.sheet;
    walkSheet(text, part, {
      cell: (cell) => {
        this.cells.push(cell);
        const { kind, text: formula, shared = '' } = cell.formula ?? {};
        if (kind === 'shared' && formula) this.heads.set(shared, cell);
      },
      row: (row) => this.rows.push(row),
      other: (name, _, start, inner) => {
        if (name !== 'sheetData') return;
        this.prefix = prefixAt(text, start);
        this.data = { ...this.data, start, inner };
      },
      sheetDataEnds: (innerEnd, end) => {
        this.data = { ...this.data, innerEnd, end };
      },
    });
  }

  edits(): Edit[] {
    return [...this.inCells(), ...this.outside()];
  }

  private inCells(): Edit[] {
    const { lines, isOwn } = this;
    const edits: Edit[] = [];
    const goneRows = new Set<number>();
    if (isOwn) {
      for (const row of this.rows) {
        const to = lines.isRow ? lines.shifted(row.row) : row.row;
        if (to === undefined) {
          goneRows.add(row.row);
          edits.push({ start: row.start, end: row.end, text: '' });
        } else if (lines.isRow && to !== row.row) {
          edits.push(withAttribute(this.text, row, 'r', String(to + 1)));
        }
        const spans = /^(\d+):(\d+)$/.exec(row.attributes['spans'] ?? '');
        if (!lines.isRow && spans && to !== undefined) {
          const span = lines.shiftedSpan({ from: Number(spans[1]) - 1, to: Number(spans[2]) - 1 });
          const text = span ? `${span.from + 1}:${span.to + 1}` : '1:1';
          edits.push(withAttribute(this.text, row, 'spans', text));
        }
      }
    }
    for (const cell of this.cells) {
      if (goneRows.has(cell.row)) {
        this.checkArray(cell);
        continue;
      }
      edits.push(...this.cellEdits(cell));
    }
    if (isOwn && lines.change.kind === 'insert')
      edits.push(...(lines.isRow ? this.newRows() : this.newColumns()));
    return edits;
  }

  private cellEdits(cell: StoredCell): Edit[] {
    const { lines, isOwn } = this;
    const to = isOwn ? lines.place(cell) : cell;
    if (isOwn) this.checkArray(cell);
    if (!to) return [{ start: cell.start, end: cell.end, text: '' }];
    const edits: Edit[] = [];
    const address = addressOf(to);
    if (isOwn && cell.attributes['r'] !== address) edits.push(withAttribute(this.text, cell, 'r', address));
    const { formula, formulaAt } = cell;
    if (!formula || !formulaAt) return edits;
    const [start, end] = formulaAt;
    const f = `${this.prefix}f`;
    if (formula.kind === 'shared') {
      const text = this.formulaOf(cell);
      if (text !== undefined) {
        edits.push({ start, end, text: `<${f}>${escapeText(lines.formula(text, this.name))}</${f}>` });
      }
      return edits;
    }
    const source = this.text.slice(start, end);
    const inner = source.indexOf('>') + 1;
    const text = lines.formula(formula.text, this.name);
    if (text !== formula.text) {
      edits.push({ start: start + inner, end, text: `${escapeText(text)}</${f}>` });
    }
    const area = isOwn && formula.ref !== undefined ? areaOf(formula.ref) : undefined;
    const there = area && lines.shiftedArea(area);
    if (there && rangeOf(there) !== formula.ref) {
      edits.push(withAttribute(this.text, { start, inner: start + inner }, 'ref', rangeOf(there)));
    }
    return edits;
  }

  /** The formula of a cell, that which it shares with others in its own terms. */
  private formulaOf({ formula, row, column }: StoredCell): string | undefined {
    if (!formula || formula.kind === 'array' || formula.kind === 'dataTable') return undefined;
    if (formula.kind !== 'shared' || formula.text !== '') return formula.text;
    const head = this.heads.get(formula.shared ?? '');
    return head && movedFormula(head.formula!.text, { row: row - head.row, column: column - head.column });
  }

  /** A result that spills is worked out again, but not without its formula; an array of fixed size is not torn. */
  private checkArray(cell: StoredCell): void {
    const { formula, ...place } = cell;
    const area = formula?.ref === undefined || formula.kind === 'shared' ? undefined : areaOf(formula.ref);
    if (!area || !this.lines.cuts(area)) return;
    if (isSpilling(cell) && this.lines.place(place)) return;
    const lines = this.lines.isRow ? 'rows' : 'columns';
    const what = `the result of the formula in ${addressOf(place)} fills these ${lines}`;
    throw new WorkbookFileError(
      isSpilling(cell)
        ? `${what}: the ${lines.slice(0, -1)} of the formula itself must stay`
        : `${what}: choose ${lines} outside ${rangeOf(area)}`,
    );
  }

  /** New rows look as the row above; in a table they hold its calculated columns. */
  private newRows(): Edit[] {
    const { at, count } = this.lines.change;
    const around = this.tables.filter(
      ({ sheet, area, headerRows }) =>
        sheet === this.name && at >= area.top + headerRows && at <= area.bottom,
    );
    const isFirst = around.some(({ area, headerRows }) => at === area.top + headerRows);
    const like = isFirst ? at : at - 1;
    const row = this.rows.find((one) => one.row === like);
    if (!row) return [];
    const cells = this.cells.filter((cell) => cell.row === like);
    const next = this.rows.find((one) => one.row >= at);
    const place = next?.start ?? this.data.innerEnd;
    const c = `${this.prefix}c`;
    const f = `${this.prefix}f`;
    const text = Array.from({ length: count }, (_, n) => {
      const number = at + n;
      const inside = cells.map((cell) => {
        const inTable = around.some(({ area }) => covers(area, { row: area.top, column: cell.column }));
        const formula = inTable ? this.formulaOf(cell) : undefined;
        const own =
          formula === undefined ? '' : `<${f}>${escapeText(this.filled(formula, like, number))}</${f}>`;
        const r = addressOf({ row: number, column: cell.column });
        const s = cell.attributes['s'];
        return s === undefined && own === '' ? '' : element(c, { r, s }, own);
      });
      const { s, customFormat } = row.attributes;
      return element(`${this.prefix}row`, { r: number + 1, s, customFormat }, ...inside);
    });
    return [{ start: place, end: place, text: text.join('') }];
  }

  /** The formula of a row, filled into a new one: what it says of its own row it says of the new one. */
  private filled(formula: string, like: number, row: number): string {
    const there = this.lines.shifted(like)!;
    return movedFormula(this.lines.formula(formula, this.name), { row: row - there, column: 0 });
  }

  private newColumns(): Edit[] {
    const { at, count } = this.lines.change;
    return this.cells
      .filter(({ column, attributes }) => column === at - 1 && attributes['s'] !== undefined)
      .map(({ row, end, attributes }) => ({
        start: end,
        end,
        text: Array.from({ length: count }, (_, n) =>
          element(`${this.prefix}c`, { r: addressOf({ row, column: at + n }), s: attributes['s'] }),
        ).join(''),
      }));
  }

  /** Merged cells, lists, rules and the like, and the formulas in them. */
  private outside(): Edit[] {
    const { inner, innerEnd } = this.data;
    const gap = innerEnd - inner;
    const without = this.text.slice(0, inner) + this.text.slice(innerEnd);
    const root = parseXml(without, this.part);
    const edits: Edit[] = [];
    const visit = (one: Element): void => {
      const { name, children } = one;
      if (name === 'sheetData') return;
      if (this.isOwn) {
        const before = edits.length;
        if (name in RANGES) edits.push(...this.lines.inAttribute(without, one, RANGES[name]!));
        if (edits.slice(before).some(({ text }) => text === '')) return;
        if (name === 'autoFilter' && !this.lines.isRow) edits.push(...this.filterEdits(without, one));
        if (name === 'cols' && !this.lines.isRow) {
          edits.push({ start: one.start, end: one.end, text: this.columnsText(one) });
          return;
        }
        if (LISTS.includes(name) && children.length > 0 && children.every((child) => this.isGone(child))) {
          edits.push({ start: one.start, end: one.end, text: '' });
          return;
        }
        if (LISTS.includes(name) && one.attributes['count'] !== undefined) {
          const left = children.filter((child) => !this.isGone(child)).length;
          if (left < children.length) edits.push(withAttribute(without, one, 'count', String(left)));
        }
        if (name === 'sqref' && children.length === 0) {
          edits.push({ start: one.inner, end: one.innerEnd, text: this.lines.ranges(one.text) || one.text });
        }
      }
      if (['formula', 'formula1', 'formula2', 'f'].includes(name))
        edits.push(...this.lines.inText(one, this.name));
      children.forEach(visit);
    };
    visit(root);
    return edits.map(({ start, end, text }) =>
      start >= inner ? { start: start + gap, end: end + gap, text } : { start, end, text },
    );
  }

  /** The columns of a filter count from its first. */
  private filterEdits(text: string, filter: Element): Edit[] {
    const area = areaOf(filter.attributes['ref'] ?? '');
    const there = area && this.lines.shiftedArea(area);
    if (!area || !there) return [];
    return childrenOf(filter, 'filterColumn').flatMap((one) => {
      const to = this.lines.shifted(area.left + Number(one.attributes['colId']));
      if (to !== undefined) return [withAttribute(text, one, 'colId', String(to - there.left))];
      if (one.children.length === 0) return [{ start: one.start, end: one.end, text: '' }];
      throw new WorkbookFileError('a filter hides rows by one of these columns: show all rows first');
    });
  }

  private isGone({ name, attributes }: Element): boolean {
    const list = name in RANGES ? attributes[RANGES[name]!] : undefined;
    return list !== undefined && this.lines.ranges(list) === '';
  }

  private columnsText(cols: Element): string {
    const { at, count, kind } = this.lines.change;
    const runs = childrenOf(cols, 'col').flatMap(({ attributes }) => {
      const run = { from: Number(attributes['min']) - 1, to: Number(attributes['max']) - 1 };
      // New columns are as wide as the one before them.
      const grows = kind === 'insert' && run.from < at && run.to === at - 1;
      const span = grows ? { from: run.from, to: run.to + count } : this.lines.shiftedSpan(run);
      return span && span.from < COLUMNS ? [{ ...span, attributes }] : [];
    });
    const col = `${this.prefix}col`;
    const all = runs.map(({ from, to, attributes }) =>
      element(col, { ...attributes, min: from + 1, max: Math.min(to + 1, COLUMNS) }),
    );
    return all.length === 0 ? '' : element(`${this.prefix}cols`, {}, ...all);
  }
}

/** Whether the size of a result follows from its calculation: files mark such cells, and Pinset's own are so anyway. */
const isSpilling = ({ formula, attributes }: StoredCell): boolean =>
  formula?.kind === 'array' && (attributes['cm'] !== undefined || callsPinset(formula.text));

const childOf = (one: Element, name: string): Element | undefined =>
  one.children.find((child) => child.name === name);

function elementsIn(root: Element, names: readonly string[]): Element[] {
  const own = names.includes(root.name) ? [root] : [];
  return [...own, ...root.children.flatMap((one) => elementsIn(one, names))];
}
