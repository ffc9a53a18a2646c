import { daysIn, isLeap, type Day } from './calendar';

// Days and years as money counts them. Definitions: ISO/IEC 29500-1:2016, 18.17.7, DAYS360 and YEARFRAC.

const isLastOfFebruary = ({ year, month, day }: Day): boolean => month === 2 && day === daysIn(year, 2);

const between = (a: Day, b: Day, from: number, to: number): number =>
  (b.year - a.year) * 360 + (b.month - a.month) * 30 + to - from;

/** Days between two days of a year of twelve months of thirty days, by the method of the US or of Europe. */
export function daysBetween360(a: Day, b: Day, isEuropean: boolean): number {
  if (isEuropean) return between(a, b, Math.min(a.day, 30), Math.min(b.day, 30));
  const from = isLastOfFebruary(a) ? 30 : Math.min(a.day, 30);
  if (b.day === 31) return between(a, b, from, from < 30 ? 31 : 30);
  return between(a, b, from, b.day);
}

function bondDays(a: Day, b: Day): number {
  const bothEnd = isLastOfFebruary(a) && isLastOfFebruary(b);
  const from = isLastOfFebruary(a) ? 30 : Math.min(a.day, 30);
  const to = bothEnd ? 30 : b.day === 31 && from === 30 ? 30 : b.day;
  return between(a, b, from, to);
}

const isOnOrBefore = (a: Day, month: number, day: number): boolean =>
  a.month < month || (a.month === month && a.day <= day);

/** How long a year is where days are counted as they are. */
function yearLength(a: Day, b: Day): number {
  const isWithinAYear =
    a.year === b.year ||
    (b.year === a.year + 1 && (b.month < a.month || (b.month === a.month && b.day <= a.day)));
  if (!isWithinAYear) {
    let days = 0;
    for (let year = a.year; year <= b.year; year++) days += isLeap(year) ? 366 : 365;
    return days / (b.year - a.year + 1);
  }
  if (a.year === b.year) return isLeap(a.year) ? 366 : 365;
  const hasLeapDay =
    (isLeap(a.year) && isOnOrBefore(a, 2, 29)) || (isLeap(b.year) && !isOnOrBefore(b, 2, 28));
  return hasLeapDay ? 366 : 365;
}

/** The part of a year between two days, the earlier first. */
export function yearFraction(a: Day, b: Day, days: number, basis: number): number {
  switch (basis) {
    case 1:
      return days / yearLength(a, b);
    case 2:
      return days / 360;
    case 3:
      return days / 365;
    case 4:
      return daysBetween360(a, b, true) / 360;
    default:
      return bondDays(a, b) / 360;
  }
}
