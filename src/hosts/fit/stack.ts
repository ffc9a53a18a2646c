import type { Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { cellAt, textOf, type BookSheet } from './book';
import type { Area } from '../xlsx/address';
import { lastRowOf } from './columns';
import type { Candidate } from './candidate';
import { looseKey } from './labels';
import { onceForText } from './once';
import { monthsIn } from './monthNames';
import { weekdaysIn } from './standing';

// The same table on several sheets, as one a month, or several times side by side on one: its parts are read as if they lay
// below each other.

/** How many columns further right the second of two parts with the same headers in the same order lies. */
const rightOf = (one: Candidate, other: Candidate): number => other.area.left - one.area.left;

/** Whether two parts have the same headers in the same order, on different sheets or side by side. */
export function areAlike(one: Candidate, other: Candidate): boolean {
  const right = rightOf(one, other);
  return (
    (one.sheet !== other.sheet || right !== 0) &&
    one.isTurned === other.isTurned &&
    one.lies === other.lies &&
    one.headers.size === other.headers.size &&
    [...one.headers].every(
      ([column, header]) => bareHeader(other.headers.get(column + right) ?? '') === bareHeader(header),
    )
  );
}

/** A header without the group over it, which says which of two it is. */
const bareHeader = onceForText(headerKey);

/** Whether two parts are lots of their own under other headers: two people keep a list each. */
export function areOtherLots(one: Candidate, other: Candidate): boolean {
  const isListed = ({ table, matches, dataRows, lies, parts, isTurned }: Candidate): boolean =>
    table.name === 'lots' &&
    !lies &&
    !parts &&
    !isTurned &&
    dataRows.length >= FEWEST_LOTS &&
    OF_LOTS.every((name) =>
      matches.some(({ wanted, by }) => wanted === name && (by !== 'its data' || name === 'inoculated')),
    );
  return isListed(one) && isListed(other) && areApart([one, other]);
}

const FEWEST_LOTS = 3;
const OF_LOTS = ['lot', 'strain', 'blocks', 'inoculated'];

/** A part with other headers as if it had those of the first, as far as both say the same. */
function withColumnsOf(first: Candidate, part: Candidate): Candidate {
  const ownColumns = new Map(
    first.matches.flatMap(({ wanted, column }) => {
      const own = part.matches.find((match) => match.wanted === wanted);
      return own ? [[column, own.column] as const] : [];
    }),
  );
  const { sheet, area, origin } = part;
  const { left, right } = first.area;
  const at = (column: number): number => ownColumns.get(column) ?? Number.NaN;
  return {
    ...part,
    ownColumns,
    block: area,
    area: { ...area, left, right },
    headers: first.headers,
    matches: first.matches,
    sheet: {
      ...sheet,
      rows: sheet.rows.map((cells) =>
        Array.from({ length: right + 1 }, (_, column) => cells[at(column)] ?? null),
      ),
      formatAt: (row, column) => sheet.formatAt(row, at(column)),
      isFormula: (row, column) => sheet.isFormula(row, at(column)),
      isStruck: (row, column) => sheet.isStruck?.(row, at(column)) === true,
    },
    origin: (row, column) => origin(row, ownColumns.get(column) ?? area.left),
    ignored: [...part.headers].flatMap(([column, header]) =>
      [...ownColumns.values()].includes(column) ? [] : [header],
    ),
  };
}

/** A part as if it lay in the columns of the first. */
function inColumnsOf(first: Candidate, part: Candidate): Candidate {
  const hasOtherHeaders = part !== first && part.table.name === 'lots' && !areAlike(first, part);
  if (hasOtherHeaders && !part.lies && !first.lies) return withColumnsOf(first, part);
  const right = rightOf(first, part);
  if (right === 0 || part.lies) return part;
  const { sheet, area, origin } = part;
  const moved = (column: number): number => column - right;
  const inSheet = (at: Area): Area => ({ ...at, left: moved(at.left), right: moved(at.right) });
  return {
    ...part,
    right,
    block: area,
    area: inSheet(area),
    headers: new Map([...part.headers].map(([column, header]) => [moved(column), header])),
    matches: part.matches.map((match) => ({ ...match, column: moved(match.column) })),
    sheet: {
      ...sheet,
      rows: sheet.rows.map((cells) => cells.map((_, column) => cells[column + right] ?? null)),
      formatAt: (row, column) => sheet.formatAt(row, column + right),
      isFormula: (row, column) => sheet.isFormula(row, column + right),
      isStruck: (row, column) => sheet.isStruck?.(row, column + right) === true,
    },
    origin: (row, column) => origin(row, column + right),
  };
}

const PERIOD = /\b(?:spring|summer|autumn|fall|winter|week|wk|cw|kw|uge|sem|q[1-4]|20\d\d)\b/i;

/** Whether a sheet is named after a stretch of time. */
export const isOfPeriod = ({ sheet }: Candidate): boolean =>
  monthsIn(sheet.name).length > 0 || PERIOD.test(sheet.name);

/** `Room A` and `Room B`, `Tent 1` and `Tent 2`. */
const NUMBERED = /^(.*\p{L}.*?)[\s_-]*(?:\d{1,3}|(?<=[\s_-])[A-Z])$/u;

/** Whether alike parts lie side by side on one sheet. */
export const areSideBySide = (parts: readonly Candidate[]): boolean =>
  new Set(parts.map(({ sheet }) => sheet)).size === 1;

/**
 * Whether alike parts are on sheets of one kind, and no record of one is in another: their names differ in a number alone,
 * or each is that of a strain.
 */
export function areOfOneKind(parts: readonly Candidate[], strains: ReadonlySet<string>): boolean {
  const kinds = new Set(parts.map(({ sheet }) => NUMBERED.exec(sheet.name.trim())?.[1]?.toLowerCase()));
  const areNumbered = kinds.size === 1 && !kinds.has(undefined);
  const areOfStrains = parts.every(({ sheet }) => strains.has(looseKey(sheet.name)));
  return (areNumbered || areOfStrains) && areApart(parts);
}

/** Whether no record of a part is in another. */
export function areApart(parts: readonly Candidate[]): boolean {
  const seen = new Set<string>();
  return parts.every(({ table, sheet, dataRows, matches }) => {
    // A lot is its name, a pick all that is written of it.
    const told = table.name === 'lots' ? matches.filter(({ wanted }) => wanted === 'lot') : matches;
    const own = new Set(
      dataRows.map((row) => told.map(({ column }) => textOf(cellAt(sheet, row, column)).trim()).join('\n')),
    );
    const isNew = [...own].every((record) => !seen.has(record));
    for (const record of own) seen.add(record);
    return isNew && told.length > 0;
  });
}

/** Alike parts as one, in the order of the book's sheets. */
export function stacked(given: readonly Candidate[]): Candidate {
  if (given.length === 1 && !given[0]!.lies) return given[0]!;
  const parts = given.map((part) => ({ ...inColumnsOf(given[0]!, part), isPart: true }));
  const [first] = parts as [Candidate, ...Candidate[]];
  const origins: { readonly part: Candidate; readonly row: number }[] = [
    { part: first, row: first.area.top },
  ];
  for (const part of parts) {
    for (let row = part.area.top + 1; row <= lastRowOf(part); row++) origins.push({ part, row });
  }
  const at = (row: number, column: number): Cell => {
    const origin = origins[row];
    return origin ? cellAt(origin.part.sheet, origin.row, column) : null;
  };
  const [left, right] = first.lies ? [0, first.lies.length - 1] : [first.area.left, first.area.right];
  // Columns of other tables are to the right.
  const last = Math.max(right, ...(first.joined?.keys() ?? []));
  const sheet: BookSheet = {
    name: first.sheet.name,
    rows: origins.map((_, row) => Array.from({ length: last + 1 }, (__, column) => at(row, column))),
    formatAt: (row, column) => {
      const { part, row: own } = origins[row]!;
      return part.sheet.formatAt(own, column);
    },
    isFormula: (row, column) => {
      const { part, row: own } = origins[row]!;
      return part.sheet.isFormula(own, column);
    },
  };
  const rowsOf = (pick: (part: Candidate) => readonly number[]): number[] =>
    origins.flatMap(({ part, row }, i) => (i > 0 && pick(part).includes(row) ? [i] : []));
  return {
    ...first,
    sheet,
    area: { top: 0, bottom: origins.length - 1, left, right },
    tableName: undefined,
    parts,
    dataRows: rowsOf(({ dataRows }) => dataRows),
    passedOver: rowsOf(({ passedOver }) => passedOver),
    origin: (row, column) => {
      const { part, row: own } = origins[row]!;
      return part.origin(own, column);
    },
  };
}

/** Rows below the last order that are read for each week as well. */
const WEEK_GROWTH = 20;

/** Orders that stand, once for each week and each day that a cell of the column `due` names. */
export function everyWeek(candidate: Candidate, due: number, weeks: number): Candidate {
  const base = (candidate.parts ?? [candidate]).flatMap((part) => {
    const growth = Math.min(part.growth ?? WEEK_GROWTH, lastRowOf(part, WEEK_GROWTH) - part.area.bottom);
    const daysAt = (row: number): number => weekdaysIn(textOf(cellAt(part.sheet, row, due))).length;
    const most = Math.max(1, ...part.dataRows.map(daysAt));
    return Array.from({ length: most }, (_, day): Candidate => {
      const dataRows = day === 0 ? part.dataRows : part.dataRows.filter((row) => daysAt(row) > day);
      return { ...part, growth, day, dataRows };
    });
  });
  // A date among them is the day of one order.
  const inWeek = (part: Candidate, week: number): Candidate => {
    const isStanding = (row: number): boolean => weekdaysIn(textOf(cellAt(part.sheet, row, due))).length > 0;
    return { ...part, week, dataRows: week === 0 ? part.dataRows : part.dataRows.filter(isStanding) };
  };
  return stacked(Array.from({ length: weeks }, (_, week) => base.map((part) => inWeek(part, week))).flat());
}
