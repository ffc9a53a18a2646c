import { areaOf, fixedRangeOf, rangeOf, type Area } from './address';
import { Package, WorkbookFileError } from './package';
import { isTrue, partsOf, relationshipsOf, type WorkbookParts } from './parts';
import { walkSheet, type StoredRow } from './sheet';
import {
  appended,
  child,
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

// Filters as files hold them: ISO/IEC 29500-1, 18.3.1.2 (autoFilter) and 18.3.2.

export type Comparison =
  | 'equal'
  | 'notEqual'
  | 'lessThan'
  | 'lessThanOrEqual'
  | 'greaterThan'
  | 'greaterThanOrEqual';

/** What rows must hold in a column to be shown. */
export type Criterion =
  /** One of these texts as cells show them, or of these days; or nothing, where `blanks` says so. */
  | {
      readonly kind: 'values';
      readonly texts: readonly string[];
      /** `2026-03-04` */
      readonly days: readonly string[];
      readonly blanks: boolean;
    }
  /** One or two comparisons; a text may hold `*` and `?`, and `~` before one that is meant itself. */
  | {
      readonly kind: 'compared';
      readonly both: boolean;
      readonly with: readonly { readonly is: Comparison; readonly than: string }[];
    }
  /** As the file says it: its rows stay as they are. */
  | { readonly kind: 'other' };

/** A column of a filter, counted from the filter's first. */
export interface FilterColumn {
  readonly column: number;
  readonly criterion: Criterion;
  /** The element that says so in the file, where it comes from there. */
  readonly xml?: string;
}

/** A filter over cells of a sheet, their header row included. */
export interface Filter {
  /** The table whose filter it is; a sheet has one filter besides. */
  readonly table?: string | undefined;
  readonly area: Area;
  readonly columns: readonly FilterColumn[];
  /** The rows that it hides, from 0. */
  readonly hidden: readonly number[];
}

export interface SheetFilters {
  readonly sheet: string;
  readonly filters: readonly Filter[];
}

/** The filters of a file, those that hide nothing included. */
export function readFilters(bytes: Uint8Array): SheetFilters[] {
  const file = Package.open(bytes);
  return partsOf(file).sheets.flatMap(({ name, part }) => {
    const hidden: number[] = [];
    const text = file.text(part);
    if (!text.includes('autoFilter') && !relationshipsOf(file, part).some(({ kind }) => kind === 'table')) {
      return [];
    }
    const { inner, innerEnd } = dataOf(text, part, ({ row, attributes }) => {
      if (isTrue(attributes['hidden'])) hidden.push(row);
    });
    const outside = text.slice(0, inner) + text.slice(innerEnd);
    const own = filterIn(parseXml(outside, part), outside, hidden);
    const filters = [
      ...(own ? [own] : []),
      ...tablesOf(file, part).flatMap(({ root, text: xml, table }) => {
        const filter = filterIn(root, xml, hidden);
        return filter ? [{ ...filter, table }] : [];
      }),
    ];
    return filters.length === 0 ? [] : [{ sheet: name, filters }];
  });
}

function filterIn(parent: Element, xml: string, hidden: readonly number[]): Filter | undefined {
  const found = child(parent, 'autoFilter');
  const area = areaOf(found?.attributes['ref'] ?? '');
  if (!found || !area) return undefined;
  const columns = childrenOf(found, 'filterColumn').flatMap((one): FilterColumn[] => {
    // A column may say no more than that it has no button.
    if (one.children.length === 0) return [];
    const column = Number(one.attributes['colId']);
    return [{ column, criterion: criterionOf(one), xml: xml.slice(one.start, one.end) }];
  });
  const isHere = (row: number): boolean => columns.length > 0 && row > area.top && row <= area.bottom;
  return { area, columns, hidden: hidden.filter(isHere) };
}

function criterionOf({ children }: Element): Criterion {
  const [one, ...more] = children;
  if (one?.name === 'filters' && more.length === 0) {
    const days = childrenOf(one, 'dateGroupItem').map(dayOf);
    if (days.some((day) => day === undefined)) return { kind: 'other' };
    const texts = childrenOf(one, 'filter').map(({ attributes }) => attributes['val'] ?? '');
    return { kind: 'values', texts, days: days as string[], blanks: isTrue(one.attributes['blank']) };
  }
  if (one?.name === 'customFilters' && more.length === 0) {
    return {
      kind: 'compared',
      both: isTrue(one.attributes['and']),
      with: childrenOf(one, 'customFilter').map(({ attributes }) => ({
        is: (attributes['operator'] ?? 'equal') as Comparison,
        than: attributes['val'] ?? '',
      })),
    };
  }
  return { kind: 'other' };
}

function dayOf({ attributes }: Element): string | undefined {
  const { dateTimeGrouping, year, month, day } = attributes;
  if (dateTimeGrouping !== 'day' || !year || !month || !day) return undefined;
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}

function columnText({ column, criterion, xml }: FilterColumn, prefix: string): string {
  if (xml !== undefined) return xml;
  const named = (name: string): string => prefix + name;
  const within = (): string => {
    if (criterion.kind === 'values') {
      const { texts, days, blanks } = criterion;
      return element(
        named('filters'),
        { blank: blanks ? 1 : undefined },
        ...texts.map((val) => element(named('filter'), { val })),
        ...days.map((written) => {
          const [year, month, day] = written.split('-').map(Number);
          return element(named('dateGroupItem'), { year, month, day, dateTimeGrouping: 'day' });
        }),
      );
    }
    if (criterion.kind === 'other') return '';
    return element(
      named('customFilters'),
      { and: criterion.both ? 1 : undefined },
      ...criterion.with.map(({ is, than }) =>
        element(named('customFilter'), { operator: is === 'equal' ? undefined : is, val: than }),
      ),
    );
  };
  return element(named('filterColumn'), { colId: column }, within());
}

/**
 * The file with the filters of some sheets in place of those it has, and with their rows hidden and all others shown that
 * its filters hid. Rows that are hidden by hand stay so.
 * @throws WorkbookFileError where it has no such sheet
 */
export function withFilters(bytes: Uint8Array, sheets: readonly SheetFilters[]): Uint8Array {
  if (sheets.length === 0) return bytes;
  const file = Package.open(bytes);
  const parts = partsOf(file);
  const before = new Map(readFilters(bytes).map(({ sheet, filters }) => [sheet, filters]));
  const changes = new Map<string, string>();
  const named = new Map<string, Area>();
  for (const { sheet, filters } of sheets) {
    const part = parts.sheets.find(({ name }) => name === sheet)?.part;
    if (part === undefined) throw new WorkbookFileError(`the workbook has no sheet ${sheet}`);
    const text = file.text(part);
    const own = filters.find(({ table }) => table === undefined);
    const edits = [
      ...rowEdits(text, part, before.get(sheet) ?? [], filters),
      ...(own ? sheetEdits(text, part, own, filters.some(isActive)) : []),
    ];
    changes.set(part, spliced(text, edits));
    if (own) named.set(sheet, own.area);
    for (const { root, text: xml, table, part: at } of tablesOf(file, part)) {
      const filter = filters.find((one) => one.table === table);
      if (filter) changes.set(at, spliced(xml, [filterEdit(root, xml, filter, root.inner)]));
    }
  }
  const names = nameEdits(file.text(parts.workbook), parts, named);
  if (names.length > 0) changes.set(parts.workbook, spliced(file.text(parts.workbook), names));
  return file.with(changes);
}

const isActive = ({ columns }: Filter): boolean => columns.length > 0;

/** What may stand before a sheet's filter, behind its cells (ISO/IEC 29500-1, 18.3.1.99). */
const BEFORE = ['sheetData', 'sheetCalcPr', 'sheetProtection', 'protectedRanges', 'scenarios'];

function sheetEdits(text: string, part: string, filter: Filter, isFiltering: boolean): Edit[] {
  const { inner, innerEnd } = dataOf(text, part);
  const gap = innerEnd - inner;
  const outside = text.slice(0, inner) + text.slice(innerEnd);
  const root = parseXml(outside, part);
  const behind = root.children.filter(({ name }) => BEFORE.includes(name)).at(-1)!.end;
  const edits = [filterEdit(root, outside, filter, behind)];
  const properties = child(root, 'sheetPr');
  if (properties) {
    if (isFiltering !== isTrue(properties.attributes['filterMode'])) {
      edits.push(withAttribute(outside, properties, 'filterMode', isFiltering ? '1' : '0'));
    }
  } else if (isFiltering) {
    const sheetPr = element(`${prefixAt(outside, root.start)}sheetPr`, { filterMode: 1 });
    edits.push({ start: root.inner, end: root.inner, text: sheetPr });
  }
  return edits.map((edit) =>
    edit.start >= inner ? { ...edit, start: edit.start + gap, end: edit.end + gap } : edit,
  );
}

/** The edit that writes a filter in place of the one that stands, or in a place of the part. */
function filterEdit(root: Element, xml: string, { area, columns }: Filter, place: number): Edit {
  const prefix = prefixAt(xml, root.start);
  const standing = child(root, 'autoFilter');
  // Columns without a criterion may say how they look.
  const other = childrenOf(standing, 'filterColumn')
    .filter(({ children }) => children.length === 0)
    .map((one) => ({ column: Number(one.attributes['colId']), text: xml.slice(one.start, one.end) }))
    .filter(({ column }) => !columns.some((one) => one.column === column));
  const all = [...columns.map((one) => ({ column: one.column, text: columnText(one, prefix) })), ...other]
    .sort((a, b) => a.column - b.column)
    .map(({ text }) => text);
  const rest = (standing?.children ?? [])
    .filter(({ name }) => name !== 'filterColumn')
    .map(({ start, end }) => xml.slice(start, end));
  const attributes = { ...standing?.attributes, ref: rangeOf(area) };
  const text = element(`${prefix}autoFilter`, attributes, ...all, ...rest);
  return standing ? { start: standing.start, end: standing.end, text } : { start: place, end: place, text };
}

function rowEdits(text: string, part: string, before: readonly Filter[], after: readonly Filter[]): Edit[] {
  const were = new Set(before.flatMap(({ hidden }) => hidden));
  const are = new Set(after.flatMap(({ hidden }) => hidden));
  const missing = new Set(are);
  const rows: StoredRow[] = [];
  const data = dataOf(text, part, (row) => rows.push(row));
  const edits = rows.flatMap((row): Edit[] => {
    missing.delete(row.row);
    const isHidden = isTrue(row.attributes['hidden']);
    if (are.has(row.row)) return isHidden ? [] : [withAttribute(text, row, 'hidden', '1')];
    return isHidden && were.has(row.row) ? [withoutAttribute(text, row, 'hidden')] : [];
  });
  // Rows that hold nothing have no element.
  const prefix = prefixAt(text, data.start);
  for (const row of [...missing].sort((a, b) => a - b)) {
    const at = rows.find((one) => one.row > row)?.start ?? data.innerEnd;
    edits.push({ start: at, end: at, text: element(`${prefix}row`, { r: row + 1, hidden: 1 }) });
  }
  return edits;
}

function withoutAttribute(text: string, { start, inner }: StoredRow, name: string): Edit {
  const found = new RegExp(`\\s${name}\\s*=\\s*("[^"]*"|'[^']*')`).exec(text.slice(start, inner))!;
  return { start: start + found.index, end: start + found.index + found[0].length, text: '' };
}

/** The name by which programs know the cells of a sheet's filter. */
const FILTER_NAME = '_xlnm._FilterDatabase';

function nameEdits(
  text: string,
  { root, allSheets }: WorkbookParts,
  named: ReadonlyMap<string, Area>,
): Edit[] {
  const list = child(root, 'definedNames');
  const prefix = prefixAt(text, root.start);
  const added: string[] = [];
  const edits: Edit[] = [];
  for (const [sheet, area] of named) {
    const localSheetId = String(allSheets.indexOf(sheet));
    const refersTo = escapeText(`'${sheet.replaceAll("'", "''")}'!${fixedRangeOf(area)}`);
    const standing = childrenOf(list, 'definedName').find(
      ({ attributes }) => attributes['name'] === FILTER_NAME && attributes['localSheetId'] === localSheetId,
    );
    if (standing) edits.push({ start: standing.inner, end: standing.innerEnd, text: refersTo });
    else
      added.push(element(`${prefix}definedName`, { name: FILTER_NAME, localSheetId, hidden: 1 }, refersTo));
  }
  if (added.length === 0) return edits;
  if (list) return [...edits, appended(text, list, added.join(''))];
  const behind = root.children.filter(({ name }) =>
    ['sheets', 'functionGroups', 'externalReferences'].includes(name),
  );
  const { end } = behind.at(-1)!;
  return [...edits, { start: end, end, text: element(`${prefix}definedNames`, {}, ...added) }];
}

/** Where the cells of a sheet stand in its text; visits its rows. */
function dataOf(text: string, part: string, visit?: (row: StoredRow) => void) {
  const data = { start: 0, inner: 0, innerEnd: 0 };
  walkSheet(text, part, {
    cell: () => undefined,
    row: (row) => visit?.(row),
    other: (name, _, start, inner) => {
      if (name === 'sheetData') Object.assign(data, { start, inner });
    },
    sheetDataEnds: (innerEnd) => {
      data.innerEnd = innerEnd;
    },
  });
  return data;
}

function tablesOf(file: Package, sheet: string) {
  return relationshipsOf(file, sheet).flatMap(({ kind, target }) => {
    if (kind !== 'table' || !file.has(target)) return [];
    const text = file.text(target);
    const root = parseXml(text, target);
    const { displayName, name = '' } = root.attributes;
    return [{ part: target, text, root, table: displayName ?? name }];
  });
}
