import {
  helpers,
  registries,
  type Arg,
  type ArgDefinition,
  type CellValue,
  type EvalContext,
  type FunctionResultObject,
  type Matrix,
  type Maybe,
} from '@odoo/o-spreadsheet';
import type { WorkbookSettings } from './functions';

// Built-ins of the engine that give another answer than the one a grower's workbook was made with. Expected results
// are those of ISO/IEC 29500-1:2016, 18.17.7, and of the vendor's own pages for functions that came later.

type Held = FunctionResultObject;
type Scalars = Maybe<Held>[];
type Compute = (this: EvalContext, ...given: Scalars) => Held | Matrix<Held>;

const registry = registries.functionRegistry;
const fault = (value: string, message: string): Held => ({ value, message });
const matrixOf = (given: Arg): Matrix<Held> =>
  given === undefined ? [[{ value: null }]] : helpers.isMatrix(given) ? given : [[given]];
const transposed = <T>(matrix: readonly (readonly T[])[]): T[][] =>
  matrix[0]!.map((_, at) => matrix.map((line) => line[at]!));
const argument = (name: string, options: Partial<ArgDefinition> = {}): ArgDefinition => ({
  name,
  description: name,
  type: ['ANY'],
  ...options,
});
const block = (name: string, options: Partial<ArgDefinition> = {}): ArgDefinition =>
  argument(name, { type: ['ANY', 'RANGE<ANY>'], acceptMatrix: true, acceptErrors: true, ...options });

/** Puts `around` between the engine and its own function; matrices have been taken apart into single values before. */
function correct(names: string, around: (own: Compute) => Compute): void {
  for (const name of names.split(' ')) {
    const description = registry.get(name);
    const own = description.compute as unknown as Compute;
    registry.replace(name, { ...description, compute: around(own) as typeof description.compute });
  }
}

const isEmptyText = (held: Maybe<Held>): boolean =>
  typeof held?.value === 'string' && held.value.trim() === '';

// Empty text is no number: ""+1 is an error, not 1.
correct('ADD MINUS MULTIPLY DIVIDE POWER UMINUS UNARY.PERCENT', (own) => {
  return function (...given) {
    if (given.some(isEmptyText)) return fault('#VALUE!', 'a number needed, got empty text');
    return own.apply(this, given);
  };
});

// A1# of another sheet is what A1 spills there, not what the same cell of this sheet spills.
correct('SPILLED.RANGE', (own) => {
  return function (...given) {
    const sheetId = matrixOf(given[0])[0]?.[0]?.position?.sheetId;
    const there = Object.create(this) as EvalContext & { __originSheetId?: string };
    if (sheetId !== undefined) there.__originSheetId = sheetId;
    return own.apply(there, given);
  };
});

// The days between two dates are no date.
correct('MINUS', (own) => {
  return function (...given) {
    const held = own.apply(this, given) as Held;
    const areDates = given.every((one) => one?.format !== undefined && helpers.isDateTimeFormat(one.format));
    return areDates ? { value: held.value } : held;
  };
});

// Numbers come before text, text before TRUE and FALSE.
const RANK: Readonly<Record<string, number>> = { number: 0, string: 1, boolean: 2 };
correct('GT GTE LT LTE', (own) => {
  const isGreater = own.call({} as EvalContext, { value: 2 }, { value: 1 });
  const whenGreater = typeof isGreater === 'object' && 'value' in isGreater ? isGreater.value : isGreater;
  return function (...given) {
    const [left, right] = given.map((one) => RANK[typeof one?.value]);
    if (left === undefined || right === undefined || left === right) return own.apply(this, given);
    return { value: left > right ? whenGreater === true : whenGreater !== true };
  };
});

/** A number as text, to the fifteen digits that a sheet keeps. */
export function numberAsText(number: number): string {
  const digits = Number(number.toPrecision(15));
  const size = Math.abs(digits);
  if (size >= 1e-9 && size < 1e-6) return digits.toFixed(23).replace(/0+$/, '');
  return String(digits)
    .replace(/e([+-])(\d)$/, 'E$10$2')
    .replace('e', 'E');
}

function asText(value: Maybe<CellValue>): string {
  if (typeof value === 'number') return numberAsText(value);
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return value ?? '';
}

const firstError = (matrices: readonly Matrix<Held>[]): Held | undefined =>
  matrices.flat(2).find(({ value }) => typeof value === 'string' && registries.errorTypes.has(value));

// `&` joins cell by cell, so that a column joined to a column is a column.
registry.replace('CONCATENATE', {
  ...registry.get('CONCATENATE'),
  args: [argument('text', { repeating: true })],
  compute: (...given) => ({ value: (given as Scalars).map((one) => asText(one?.value)).join('') }),
});

// CONCAT joins everything in its ranges, row by row.
registry.replace('CONCAT', {
  ...registry.get('CONCAT'),
  args: [block('text', { repeating: true })],
  compute(...given) {
    const matrices = given.map((one) => transposed(matrixOf(one)));
    return (
      firstError(matrices) ?? {
        value: matrices
          .flat(2)
          .map(({ value }) => asText(value))
          .join(''),
      }
    );
  },
});

correct('TEXTJOIN', (own) => {
  const shortened = (held: Held): Held =>
    typeof held?.value === 'number' ? { ...held, value: numberAsText(held.value) } : held;
  return function (delimiter, ignoreEmpty, ...texts) {
    const written = (texts as Arg[]).map((one) =>
      helpers.isMatrix(one) ? one.map((column) => column.map(shortened)) : one && shortened(one),
    );
    return own.call(this, delimiter, ignoreEmpty, ...(written as Scalars));
  };
});

/** Moves the decimal point in the written number, where 1.005 is 1.005, rather than in its binary neighbour. */
function shifted(number: number, places: number): number {
  const [digits, exponent = '0'] = String(number).split('e');
  return Number(`${digits}e${Number(exponent) + places}`);
}

const ROUNDINGS: readonly [string, (size: number) => number][] = [
  ['ROUND', Math.round],
  ['ROUNDUP', Math.ceil],
  ['ROUNDDOWN', Math.floor],
];
for (const [name, rounding] of ROUNDINGS) {
  correct(name, (own) => {
    return function (...given) {
      const [value, places] = given.map((one) => one?.value ?? 0);
      if (typeof value !== 'number' || typeof places !== 'number') return own.apply(this, given);
      const size = Number(Math.abs(value).toPrecision(15));
      const rounded = shifted(rounding(shifted(size, Math.trunc(places))), -Math.trunc(places));
      const format = given[0]?.format;
      return { value: Math.sign(value) * rounded, ...(format !== undefined && { format }) };
    };
  });
}

correct('POWER', (own) => {
  return function (...given) {
    const [base, exponent] = given.map((one) => one?.value ?? 0);
    if (base === 0 && exponent === 0) return fault('#NUM!', '0 to the power 0 has no value');
    if (base === 0 && typeof exponent === 'number' && exponent < 0) {
      return fault('#DIV/0!', '0 has no negative power');
    }
    return own.apply(this, given);
  };
});

// A number outside a function's domain is #NUM!, not #VALUE!.
correct('SQRT LN LOG POWER ACOS ASIN ACOSH ATANH LARGE SMALL MEDIAN', (own) => {
  return function (...given) {
    const isText = (one: Maybe<Held>): boolean => typeof one?.value === 'string';
    try {
      const held = own.apply(this, given) as Held;
      return held?.value === '#ERROR' && !given.some(isText) ? { ...held, value: '#NUM!' } : held;
    } catch (thrown) {
      const held = thrown as Held;
      if (held.value === '#ERROR' && !given.some(isText)) return fault('#NUM!', held.message ?? '');
      throw thrown;
    }
  };
});

// Serials below 61 count a 29 February 1900; a blank is day 0 of January.
const EARLY: Readonly<Record<string, (serial: number) => number>> = {
  YEAR: () => 1900,
  MONTH: (serial) => (serial < 32 ? 1 : 2),
  DAY: (serial) => (serial < 32 ? serial : serial - 31),
};
for (const [name, early] of Object.entries(EARLY)) {
  correct(name, (own) => {
    return function (date) {
      const serial = date === undefined || date.value === null ? 0 : date.value;
      if (typeof serial !== 'number' || serial >= 61 || serial < 0) return own.call(this, date);
      return { value: early(Math.floor(serial)) };
    };
  });
}

/** Built-ins that turn dates into numbers or back: the engine counts days from 1900 in all of them. */
export const CALENDAR_FUNCTIONS: ReadonlySet<string> = new Set(
  (
    'DATE DATEDIF DATEVALUE DAY DAYS DAYS360 EDATE EOMONTH ISOWEEKNUM MONTH NETWORKDAYS NETWORKDAYS.INTL NOW TEXT ' +
    'TODAY WEEKDAY WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC'
  ).split(' '),
);
correct([...CALENDAR_FUNCTIONS].join(' '), (own) => {
  return function (...given) {
    if ((this as unknown as WorkbookSettings).dateSystem === 1904) {
      return fault('#NAME?', 'not available in a workbook that counts its days from 1904');
    }
    return own.apply(this, given);
  };
});

type Line = readonly Held[];

const folded = ({ value }: Held): CellValue => (typeof value === 'string' ? value.toLowerCase() : value);

/** Numbers, then text without regard to case, then FALSE and TRUE; blanks last, whatever the order. */
function compared(left: Held, right: Held, order: 1 | -1): number {
  const [a, b] = [folded(left), folded(right)];
  if (a === null || b === null) return a === b ? 0 : a === null ? 1 : -1;
  if (typeof a !== typeof b) return order * (RANK[typeof a]! - RANK[typeof b]!);
  if (typeof a === 'string') return order * a.localeCompare(b as string, 'en');
  return a === b ? 0 : a < b ? -order : order;
}

function sorted(lines: readonly Line[], keys: readonly { line: Line; order: 1 | -1 }[]): Line[] {
  const positions = lines.map((_, at) => at);
  positions.sort((a, b) => {
    for (const { line, order } of keys) {
      const difference = compared(line[a]!, line[b]!, order);
      if (difference !== 0) return difference;
    }
    return a - b;
  });
  return positions.map((at) => lines[at]!);
}

const NOT_ORDER = fault('#VALUE!', 'sort order: 1 or -1 needed');
const orderOf = (held: Held | undefined): 1 | -1 | undefined => {
  const value = held?.value ?? 1;
  return value === 1 || value === -1 ? value : undefined;
};
const isTrue = (given: Arg): boolean => {
  const value = matrixOf(given)[0]![0]?.value;
  return value === true || (typeof value === 'number' && value !== 0);
};

registry.replace('SORT', {
  ...registry.get('SORT'),
  args: [
    block('array'),
    block('sort_index', { optional: true }),
    block('sort_order', { optional: true }),
    argument('by_column', { optional: true }),
  ],
  compute(array, sortIndex, sortOrder, byColumn) {
    const [columns, across] = [matrixOf(array), isTrue(byColumn)];
    const lines = across ? columns : transposed(columns);
    const indices = sortIndex === undefined ? [{ value: 1 }] : matrixOf(sortIndex).flat();
    const orders = sortOrder === undefined ? [] : matrixOf(sortOrder).flat();
    const keys: { line: Line; order: 1 | -1 }[] = [];
    for (const [at, { value }] of indices.entries()) {
      const index = typeof value === 'number' ? Math.trunc(value) : 0;
      if (!(index >= 1 && index <= lines[0]!.length)) {
        return fault('#VALUE!', `sort index: 1 to ${lines[0]!.length} needed`);
      }
      const order = orderOf(orders.length === 1 ? orders[0] : orders[at]);
      if (order === undefined) return NOT_ORDER;
      keys.push({ line: lines.map((line) => line[index - 1]!), order });
    }
    const result = sorted(lines, keys).map((line) => [...line]);
    return across ? result : transposed(result);
  },
});

registry.replace('SORTBY', {
  description: 'Sorts a block by the values beside it.',
  args: [block('array'), block('by_array_and_order', { repeating: true })],
  isExported: true,
  compute(array, ...given) {
    const columns = matrixOf(array);
    const first = matrixOf(given[0]);
    const across = first.length > 1 && first[0]!.length === 1;
    const lines = across ? columns : transposed(columns);
    const keys: { line: Line; order: 1 | -1 }[] = [];
    for (let at = 0; at < given.length; at += 2) {
      const line = matrixOf(given[at]).flat();
      if (line.length !== lines.length) return fault('#VALUE!', 'as many values to sort by as lines needed');
      const order = orderOf(given[at + 1] === undefined ? undefined : matrixOf(given[at + 1])[0]![0]);
      if (order === undefined) return NOT_ORDER;
      keys.push({ line, order });
    }
    const result = sorted(lines, keys).map((line) => [...line]);
    return across ? result : transposed(result);
  },
});

registry.replace('FILTER', {
  ...registry.get('FILTER'),
  args: [block('array'), block('include'), block('if_empty', { optional: true })],
  compute(array, include, ifEmpty) {
    const [columns, wanted] = [matrixOf(array), matrixOf(include)];
    const error = firstError([wanted]);
    if (error) return error;
    const across = wanted.length > 1 && wanted[0]!.length === 1;
    const lines: readonly Line[] = across ? columns : transposed(columns);
    const chosen = wanted.flat();
    if ((!across && wanted.length > 1) || chosen.length !== lines.length) {
      return fault('#VALUE!', `include: one column or row of ${lines.length} values needed`);
    }
    if (chosen.some(({ value }) => typeof value === 'string')) {
      return fault('#VALUE!', 'include: TRUE, FALSE or numbers needed, got text');
    }
    const result = lines.filter((_, at) => Boolean(chosen[at]!.value)).map((line) => [...line]);
    if (result.length) return across ? result : transposed(result);
    return ifEmpty === undefined ? fault('#CALC!', 'nothing is left after filtering') : ifEmpty;
  },
});

registry.replace('UNIQUE', {
  ...registry.get('UNIQUE'),
  args: [
    block('array'),
    argument('by_column', { optional: true }),
    argument('exactly_once', { optional: true }),
  ],
  compute(array, byColumn, exactlyOnce) {
    const [columns, across] = [matrixOf(array), isTrue(byColumn)];
    const lines: readonly Line[] = across ? columns : transposed(columns);
    const seen = new Map<string, { line: Line; times: number }>();
    for (const line of lines) {
      const key = JSON.stringify(line.map(folded));
      const entry = seen.get(key);
      if (entry) entry.times++;
      else seen.set(key, { line, times: 1 });
    }
    const result = [...seen.values()]
      .filter(({ times }) => times === 1 || !isTrue(exactlyOnce))
      .map(({ line }) => [...line]);
    if (!result.length) return fault('#CALC!', 'no value stands only once');
    return across ? result : transposed(result);
  },
});

// Its pounds and ounces are off in the sixth digit.
registry.remove('CONVERT');
