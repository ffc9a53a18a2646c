import { invalid } from '../shared/fault';
import { MASS_UNITS, type MassUnitName } from '../shared/massUnits';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A text that is no number, or more than one. */
    notANumber: { readonly given: string };
    /** A mark that may part thousands or begin the decimals. */
    eitherMark: { readonly given: string; readonly asDecimal: number; readonly asThousands: number };
    /** A mark that is in no place where the stated decimal mark leaves it. */
    otherMark: { readonly given: string; readonly mark: DecimalMark };
    /** A written unit that measures something else. */
    otherMeasure: { readonly given: string; readonly written: string; readonly unit: NumberUnit };
    /** A bare figure above 1 where a share is asked. */
    notAShare: { readonly given: string; readonly percent: number };
    /** A bare figure up to 1 that may be a share or a percentage. */
    eitherShare: { readonly given: string; readonly asShare: number; readonly asPercent: number };
    /** A percentage outside 0 to 100. */
    notInPercent: { readonly given: string };
  }
}

export type DecimalMark = 'point' | 'comma';
export type NumberUnit =
  | 'kg'
  | 'g'
  | 'lb'
  | 'oz'
  | 'share'
  | 'percent'
  | 'number'
  | 'days'
  | 'weeks'
  | 'C'
  | 'F';
/** Which figure of a range counts. */
export type OfRange = 'from' | 'to' | 'middle';

/** Words that count things and say nothing of their measure. */
const THINGS = (
  'block blocks blk blks bag bags bgs log logs jar jars sack sacks tray trays pc pcs piece pieces ea each x unit units ' +
  '$ € £ usd eur gbp zł zl pln kč czk kr sek nok dkk chf aud cad nzd a$ c$ nz$ r$ brl ft huf lei ron'
).split(' ');
/** Signs and short names of money that come before a figure. */
const BEFORE = /^(?:(?:a|c|nz|r)?[$€£]|(?:usd|eur|gbp|pln|czk|sek|nok|dkk|chf|aud|cad|nzd|brl|huf|ron)\b)\s*/;
const PERCENT = ['%', 'pct', 'percent', 'per cent'];
const CELSIUS = ['c', '°c', 'degc', 'celsius'];
const FAHRENHEIT = ['f', '°f', 'degf', 'fahrenheit'];

const DEGREES = ['°', 'deg', 'degree', 'degrees'];

/** Words for days, and for the weeks that are seven of them. */
const DAYS = 'd day days tag tage j jour jours dia días dias dag dage dagen giorno giorni dni dzień'.split(
  ' ',
);
const WEEKS =
  'w wk wks week weeks woche wochen sem semaine semaines semana semanas weken settimana settimane uge uger tyg'.split(
    ' ',
  );

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

type Measure =
  | { readonly of: 'mass'; readonly unit: MassUnitName }
  | { readonly of: 'percent' | 'things' | 'days' | 'weeks' | 'celsius' | 'fahrenheit' | 'degrees' | 'none' };

function measureOf(written: string): Measure | undefined {
  if (written === '') return { of: 'none' };
  const bare = written.replace(/[\s.]+/g, '');
  if (bare === '#') return { of: 'mass', unit: 'lb' };
  if (DEGREES.includes(bare)) return { of: 'degrees' };
  const mass = (Object.keys(MASS_UNITS) as MassUnitName[]).find((unit) =>
    (MASS_UNITS[unit].spellings as readonly string[]).includes(bare),
  );
  if (mass) return { of: 'mass', unit: mass };
  if (PERCENT.includes(written) || PERCENT.includes(bare)) return { of: 'percent' };
  if (CELSIUS.includes(bare)) return { of: 'celsius' };
  if (FAHRENHEIT.includes(bare)) return { of: 'fahrenheit' };
  if (DAYS.includes(bare)) return { of: 'days' };
  if (WEEKS.includes(bare)) return { of: 'weeks' };
  return THINGS.includes(bare) ? { of: 'things' } : undefined;
}

/** Whether digits are parted into thousands by a mark: `1,250`, `12 500`. */
const isInThousands = (digits: string, mark: string): boolean => {
  const [first = '', ...rest] = digits.split(mark);
  return /^[1-9]\d{0,2}$/.test(first) && rest.length > 0 && rest.every((group) => /^\d{3}$/.test(group));
};

/** The number that digits with their marks write. `given` is the whole text, for the fault. */
function numberOf(written: string, given: string, stated: DecimalMark | undefined): number {
  const fraction = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(written);
  if (fraction) {
    const [, whole = '0', over, under] = fraction;
    // `45/28` is 45 days of one thing and 28 of another, not more than a whole.
    if (Number(over) >= Number(under)) throw invalid('figures', 'notANumber', { given });
    return Number(whole) + Number(over) / Number(under);
  }
  const notANumber = invalid('figures', 'notANumber', { given });
  const [integers = '', ...decimals] = written.split(/(?=[.,])/);
  const parted = integers.includes(' ')
    ? ' '
    : /['’]/.test(integers)
      ? integers.match(/['’]/)![0]
      : undefined;
  if (parted !== undefined && !isInThousands(integers, parted)) throw notANumber;
  const joined = (parted === undefined ? integers : integers.replaceAll(parted, '')) + decimals.join('');
  const marks = joined.replace(/\d/g, '');
  if (!/^[.,]*$/.test(marks)) throw notANumber;
  if (marks === '') return Number(joined);
  const last = marks.at(-1)!;
  const other = last === '.' ? ',' : '.';
  const decimalMark = stated === undefined ? undefined : stated === 'point' ? '.' : ',';
  const otherMark =
    stated === undefined ? notANumber : invalid('figures', 'otherMark', { given, mark: stated });
  const thousands = (mark: string, digits: string): number => {
    if (!isInThousands(digits, mark)) throw otherMark;
    return Number(digits.replaceAll(mark, ''));
  };
  if (marks.length > 1 && new Set(marks).size === 1) {
    // A mark that comes twice parts thousands.
    if (decimalMark === last) throw otherMark;
    return thousands(last, joined);
  }
  const at = joined.lastIndexOf(last);
  const [left, right] = [joined.slice(0, at), joined.slice(at + 1)];
  if (left.includes(other)) {
    if (decimalMark === other || left.includes(last)) throw otherMark;
    return Number(`${thousands(other, left)}.${right}`);
  }
  const asDecimal = Number(`${left}.${right}`);
  if (decimalMark === last) return asDecimal;
  if (decimalMark !== undefined) return thousands(last, joined);
  if (parted === undefined && isInThousands(joined, last)) {
    const asThousands = Number(joined.replace(last, ''));
    throw invalid('figures', 'eitherMark', { given, asDecimal, asThousands });
  }
  return asDecimal;
}

/** A figure and the unit written behind it. */
interface Piece {
  readonly value: number;
  readonly written: string;
  readonly measure: Measure;
}

function piecesOf(
  given: string,
  unit: NumberUnit,
  stated: DecimalMark | undefined,
): readonly [number, Piece[]] {
  const notANumber = invalid('figures', 'notANumber', { given });
  const clean = given
    .replace(/(\d?)([½⅓⅔¼¾⅛⅜⅝⅞])/g, (_, before: string, sign: string) => `${before} ${FRACTIONS[sign]!}`)
    .replace(/º/g, '°')
    .normalize('NFKC')
    .replace(/[−–]/g, '-')
    .replace(/(?<=\p{L}\.?)\s*(?:,|&|\band\b)\s*(?=\d)/giu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();
  const [, sign = '', rest = ''] = /^([-+]?)\s*(.*)$/.exec(clean) ?? [];
  const unsigned = unit === 'number' ? rest.replace(BEFORE, '') : rest;
  if (!/^[.,]?\d/.test(unsigned)) throw notANumber;
  const figure = /((?:\d+ )?\d+\/\d+|[.,]?\d[\d.,'’]*(?: \d{3}(?!\d)[\d.,]*)*)\s*([^\d.,'’]*[^\d,'’]*)/gy;
  const pieces: Piece[] = [];
  let end = 0;
  for (const [whole, digits, behind] of unsigned.matchAll(figure)) {
    end += whole.length;
    const written = behind!.trim();
    const measure = measureOf(written);
    if (measure === undefined) throw notANumber;
    pieces.push({ value: numberOf(digits!.replace(/[.,]$/, ''), given, stated), written, measure });
  }
  if (end !== unsigned.length || pieces.length === 0) throw notANumber;
  return [sign === '-' ? -1 : 1, pieces];
}

function massIn(unit: MassUnitName, pieces: readonly Piece[], given: string): number {
  let before = Infinity;
  let sum = 0;
  for (const { value, measure, written } of pieces) {
    if (measure.of === 'none' && pieces.length === 1) return value;
    if (measure.of !== 'mass') {
      if (pieces.length > 1 || measure.of === 'none') throw invalid('figures', 'notANumber', { given });
      throw invalid('figures', 'otherMeasure', { given, written, unit: unit as NumberUnit });
    }
    const { kilograms } = MASS_UNITS[measure.unit];
    // Pounds, then ounces: one unit twice, the smaller first, or 20 ounces behind pounds are two figures, not one.
    if (kilograms >= before || value * kilograms >= before) throw invalid('figures', 'notANumber', { given });
    before = kilograms;
    sum += measure.unit === unit ? value : value * (kilograms / MASS_UNITS[unit].kilograms);
  }
  return sum;
}

/** The least and the greatest of a column's shares that can be read in one way only. */
export interface ShareRange {
  readonly least: number;
  readonly most: number;
}

/** How many times further than the rest of its column a share may lie. */
const FAR_FROM_REST = 3;

/**
 * A bare figure as a share. Of `share` it is one up to 1. Of `percent` a figure above 1 is a percentage; 0.5 may be 50% or
 * 0.5%, and is the one that lies by the rest of its column.
 *
 * @throws invalid where both do, or neither, and where nothing is known of the rest
 */
export function shareOfFigure(
  value: number,
  unit: 'share' | 'percent',
  rest?: ShareRange,
  given = String(value),
): number {
  if (value === 0) return 0;
  if (!(value > 0 && value <= 100)) throw invalid('figures', 'notInPercent', { given });
  if (unit === 'share') {
    if (value > 1) throw invalid('figures', 'notAShare', { given, percent: value });
    return value;
  }
  const asPercent = value / 100;
  if (value > 1) return asPercent;
  const isByRest = (share: number): boolean =>
    rest !== undefined && share >= rest.least / FAR_FROM_REST && share <= rest.most * FAR_FROM_REST;
  if (isByRest(value) === isByRest(asPercent)) {
    throw invalid('figures', 'eitherShare', { given, asShare: value, asPercent });
  }
  return isByRest(value) ? value : asPercent;
}

/**
 * The number that a text writes, in a stated unit: `10 lb`, `1 lb 4 oz`, `24,1`, `63%`, `10 1/2 kg`, `12 bags`.
 *
 * A figure without a unit is in the stated one. A written unit of the same measure is converted, of another measure refused.
 * One mark with three digits behind it (`1,250`) may part thousands or begin decimals: it is refused until the decimal mark
 * is stated. Two different marks say themselves which is which, and so does a mark with other than three digits behind it.
 *
 * @param unit what the answer is in; `share` and `percent` both give a share from 0 to 1
 * @param decimalMark how decimals are written, where it is known
 * @param rest the shares of the column that can be read in one way only
 * @throws invalid where the text is no number, may be two, or is of another measure
 */
export function textNumber(
  given: string,
  unit: NumberUnit,
  decimalMark?: DecimalMark,
  rest?: ShareRange,
): number {
  const [sign, pieces] = piecesOf(given, unit, decimalMark);
  const first = pieces[0]!;
  const refuse = (): never => {
    throw invalid('figures', 'otherMeasure', { given, written: first.written, unit });
  };
  if (unit === 'kg' || unit === 'g' || unit === 'lb' || unit === 'oz')
    return sign * massIn(unit, pieces, given);
  if (pieces.length > 1) throw invalid('figures', 'notANumber', { given });
  const { of } = first.measure;
  const value = sign * first.value;
  switch (unit) {
    case 'share':
    case 'percent':
      if (of === 'none') return shareOfFigure(value, unit, rest, given);
      return of === 'percent' ? value / 100 : refuse();
    case 'days':
      if (of === 'weeks') return 7 * value;
      return of === 'none' || of === 'days' ? value : refuse();
    case 'weeks':
      if (of === 'days') return value / 7;
      return of === 'none' || of === 'weeks' ? value : refuse();
    case 'number':
      return of === 'none' || of === 'things' ? value : refuse();
    case 'C':
      if (of === 'fahrenheit') return (value - 32) / 1.8;
      return of === 'none' || of === 'degrees' || of === 'celsius' ? value : refuse();
    case 'F':
      if (of === 'celsius') return value * 1.8 + 32;
      return of === 'none' || of === 'degrees' || of === 'fahrenheit' ? value : refuse();
  }
}

/** `70–80 days`, `8 to 10`: two figures, the unit behind the second. */
const RANGE = /^([\d.,]+)\s*(\p{L}*|%)\s*(?:-|–|—|\bto\b|\bbis\b|\btot\b|\bà\b)\s*([\d.,]+)\s*(.*)$/iu;

/**
 * The number that a text writes, as `textNumber` reads it; of a range, which is two, the figure that is stated.
 *
 * @param end which figure of a range counts: its first, its second or the one half-way between
 * @throws invalid as `textNumber` does, and where the second figure of a range is below the first
 */
export function textNumberOrRange(
  given: string,
  unit: NumberUnit,
  decimalMark: DecimalMark | undefined,
  rest: ShareRange | undefined,
  end: OfRange | undefined,
): number {
  const [, first, own = '', second, behind = ''] = (end && RANGE.exec(given)) ?? [];
  if (first === undefined) return textNumber(given, unit, decimalMark, rest);
  const read = (figure: string, written: string): number =>
    textNumber(`${figure} ${written}`.trim(), unit, decimalMark, rest);
  const [from, to] = [read(first, own === '' ? behind : own), read(second!, behind)];
  if (to < from) throw invalid('figures', 'notANumber', { given });
  return end === 'from' ? from : end === 'to' ? to : (from + to) / 2;
}
