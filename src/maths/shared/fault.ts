/**
 * Why a calculation has no answer:
 * `invalid` an input is of the wrong kind or outside its range; `missing` something looked up is not there, or
 * the data cannot answer; `zeroBase` a ratio to nothing; `noConvergence` a search that did not settle.
 */
export type FaultKind = 'invalid' | 'missing' | 'zeroBase' | 'noConvergence';

/** A figure that reads differently by the workbook's date system or by the units a call asks in. */
export interface Quantity {
  readonly of: 'date' | 'time' | 'celsius' | 'degrees' | 'pascals' | 'metres' | 'share';
  readonly value: number;
}

const quantity =
  (of: Quantity['of']) =>
  (value: number): Quantity => ({ of, value });

/** A day, as its serial. */
export const dateOf = quantity('date');
/** A day and time of day, as its serial. */
export const timeOf = quantity('time');
/** A temperature in °C. */
export const celsiusOf = quantity('celsius');
/** A difference of temperatures in degrees of °C. */
export const degreesOf = quantity('degrees');
/** A pressure in Pa. */
export const pascalsOf = quantity('pascals');
/** An altitude in metres. */
export const metresOf = quantity('metres');
/** A share from 0 to 1, or an efficiency. */
export const shareOf = quantity('share');

export type Figure = number | Quantity;

/** What a fault found where it expected something else. */
export type Given = Figure | string | boolean | null | undefined;

/** The numbers that are taken: each limit is optional. */
export interface Limits {
  /** The lowest that is taken. */
  readonly from?: Figure;
  /** More than this. */
  readonly above?: Figure;
  /** The highest that is taken. */
  readonly to?: Figure;
  /** Less than this. */
  readonly below?: Figure;
  readonly whole?: boolean;
  /** What the numbers count, where that is not clear: `days`, `ppm`. */
  readonly unit?: string;
}

/**
 * What each code of a fault carries. A family adds codes of its own beside the function that finds the fault, by
 * `declare module '../shared/fault'`; the worksheet's wording must then have a sentence for each, or does not compile.
 */
export interface FaultDetails {
  /** A number outside its limits. `what` says what a limit is, where a number alone would puzzle. */
  outside: Limits & { readonly given: Given; readonly what?: string };
  /** A date or time that must not be before another. */
  notBefore: { readonly other: string; readonly date: Quantity; readonly given: Quantity };
  /** A date or time that must come after another. */
  after: { readonly other: string; readonly date: Quantity; readonly given: Quantity };
  /** Readings that do not go forward in time. */
  notLater: { readonly before: Figure; readonly given: Figure };
  /** A date that leads past the last day that a sheet can show. */
  pastCalendar: { readonly given: Quantity };
  /** A date that leads back past the first day that a sheet can show. */
  beforeCalendar: { readonly given: Quantity };
  /** Fewer values than an answer takes: `things` is what they are, in the plural. */
  tooFew: { readonly least: number; readonly things: string; readonly found: number };
  /** A list that must be as long as another. */
  notAsLong: { readonly other: string; readonly length: number; readonly found: number };
  /** A label that is not in a table. */
  notIn: { readonly label: string; readonly table: string; readonly nearest?: string };
  /** A figure that a row lacks. */
  blank: { readonly header: string; readonly table: string; readonly of?: string };
}
export type FaultCode = keyof FaultDetails;

/** What is wrong, as data: the worksheet floor makes the sentence. */
export interface Fault<C extends FaultCode = FaultCode> {
  readonly code: C;
  /** The argument as the worksheet names it; a column of a table as `table, column`. */
  readonly argument: string;
  /** The entry of an array argument that is at fault, from 0. */
  readonly index?: number | undefined;
  /** The place that an entry carries in `at`, where the fault concerns one. */
  readonly at?: number | undefined;
  readonly details: FaultDetails[C];
}

/** An entry that knows its place, the row of its table, and carries it through the maths untouched. */
export interface Placed {
  readonly at?: number | undefined;
}

/** Where in an argument a fault lies: an index into the array that was passed in, or the entry itself. */
export type Where = number | Placed | undefined;

/** The only error the maths throws on purpose. Its message is for developers: code and details. */
export class CalcError extends Error {
  constructor(
    readonly kind: FaultKind,
    readonly fault: Fault,
  ) {
    super(`${fault.argument}: ${fault.code} ${JSON.stringify(fault.details)}`);
  }
}

type Details<C extends FaultCode> = keyof FaultDetails[C] extends never
  ? [details?: undefined, where?: Where]
  : [details: FaultDetails[C], where?: Where];

const faultOfKind =
  (kind: FaultKind) =>
  <C extends FaultCode>(argument: string, code: C, ...[details, where]: Details<C>): CalcError =>
    new CalcError(kind, {
      code,
      argument,
      ...(typeof where === 'number' ? { index: where } : where?.at === undefined ? {} : { at: where.at }),
      details: details ?? {},
    });

/** An input of the wrong kind or outside its range. */
export const invalid = faultOfKind('invalid');
/** Something looked up is not there, or the data given cannot answer. */
export const missing = faultOfKind('missing');
/** A ratio whose base is zero. */
export const zeroBase = faultOfKind('zeroBase');
/** A search that did not settle. */
export const noConvergence = faultOfKind('noConvergence');
