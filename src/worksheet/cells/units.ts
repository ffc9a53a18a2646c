import { invalid } from '../../maths/shared/fault';
import { MASS_UNITS } from '../../maths/shared/massUnits';
import type { Kind } from './kinds';

/** What the brackets of a header, or a header that is a unit, say of a column. */
export interface HeaderUnit {
  readonly of: 'mass' | 'temperature' | 'days' | 'share';
  readonly unit: string;
}

/** Units as headers write them, by the one name that is told. */
const UNITS: Readonly<Record<HeaderUnit['of'], Readonly<Record<string, readonly string[]>>>> = {
  mass: Object.fromEntries(Object.entries(MASS_UNITS).map(([unit, { spellings }]) => [unit, spellings])),
  temperature: {
    '°C': ['c', '°c', 'degc', 'celsius', 'degreescelsius'],
    '°F': ['f', '°f', 'degf', 'fahrenheit', 'degreesfahrenheit'],
  },
  days: {
    days: ['d', 'day', 'days'],
    weeks: ['w', 'wk', 'wks', 'week', 'weeks'],
    months: ['mo', 'month', 'months'],
    hours: ['h', 'hr', 'hrs', 'hour', 'hours'],
    years: ['y', 'yr', 'yrs', 'year', 'years'],
  },
  share: {
    'wet basis': ['wb', 'wetbasis', 'wet'],
    'dry basis': ['db', 'drybasis', 'dry'],
  },
};

/** Units of a column of each kind that can be taken. Others contradict what is asked. */
const TAKEN: Readonly<Record<HeaderUnit['of'], readonly string[] | 'any'>> = {
  mass: 'any',
  temperature: 'any',
  days: ['days'],
  share: ['wet basis'],
};

const NEEDED = {
  days: 'in days',
  share: 'on a wet basis',
  mass: 'in a unit of mass',
  temperature: 'in °C or °F',
} as const;

export function measureOf(kind: Kind<unknown>, property: string): HeaderUnit['of'] | undefined {
  const word = kind.measures ?? kind.word;
  if (word === 'mass' || word === 'temperature' || word === 'days') return word;
  // A basis is named for moisture; a share of dry mass is another matter.
  return word === 'share' && /moisture/.test(property) ? 'share' : undefined;
}

const bare = (words: string): string => words.toLowerCase().replace(/[\s._-]+/g, '');

/** What stands in brackets in a header. */
const bracketsOf = (header: string): string[] =>
  [...header.matchAll(/\(([^)]*)\)|\[([^\]]*)\]/g)].map(([, round, square]) => round ?? square ?? '');

const namedIn = (of: HeaderUnit['of'], words: readonly string[]): string | undefined =>
  Object.entries(UNITS[of]).find(([, spellings]) => words.some((word) => spellings.includes(word)))?.[0];

/** Words outside brackets that are units of a mass or a temperature: `lbs picked`, `Temp F`. A lone t is no ton. */
const unitWordsIn = (of: HeaderUnit['of'], header: string): string[] => {
  if (of !== 'mass' && of !== 'temperature') return [];
  const words = header.replace(/\([^)]*\)|\[[^\]]*\]/g, ' ').match(/[\p{L}°]+/gu) ?? [];
  return words.filter((word) => word !== 't' && namedIn(of, [word.toLowerCase()]) !== undefined);
};

/** A header without the words that only say the unit of what is under it. */
export function withoutUnits(header: string, of: HeaderUnit['of'] | undefined): string {
  if (of === undefined || /\/|\bper\b/i.test(header)) return header;
  const units = unitWordsIn(of, header);
  return units.reduce((left, unit) => left.replace(unit, ' '), header);
}

/** The brackets of a header as written, or the unit that the header itself is: what a header keeps under another name. */
export function unitPartOf(header: string): string {
  const brackets = [...header.matchAll(/\([^)]*\)|\[[^\]]*\]/g)].map(([whole]) => whole).join(' ');
  if (brackets !== '') return ` ${brackets}`;
  const own = (['mass', 'temperature', 'days'] as const)
    .map((of) => namedIn(of, [bare(header)]))
    .find((unit) => unit !== undefined);
  return own === undefined ? '' : ` (${own})`;
}

/**
 * The unit that a column's header names, if any.
 *
 * @throws CalcError where it contradicts what is asked: weeks for days, dry basis for wet, a mass for a temperature
 */
export function unitInHeader(
  table: string,
  property: string,
  kind: Kind<unknown>,
  header: string,
): HeaderUnit | undefined {
  const of = measureOf(kind, property);
  if (of === undefined) return undefined;
  const brackets = bracketsOf(header);
  // `lbs/bag` and `kg per block` say their unit in front.
  const [before] = header.split(/\s*\/\s*|\s+per\s+/i);
  const whole = [...brackets, header, before!].map(bare);
  const words = brackets.flatMap((inside) => inside.toLowerCase().split(/[^\p{L}°]+/u));
  const unit =
    namedIn(of, whole) ??
    namedIn(of, words) ??
    namedIn(
      of,
      unitWordsIn(of, header).map((word) => word.toLowerCase()),
    );
  const taken = TAKEN[of];
  if (unit !== undefined && (taken === 'any' || taken.includes(unit))) return { of, unit };
  const other =
    unit ??
    (Object.keys(UNITS) as HeaderUnit['of'][])
      .filter((one) => one !== of && one !== 'share')
      .map((one) => namedIn(one, brackets.map(bare)))
      .find((found) => found !== undefined);
  if (other === undefined) return undefined;
  throw invalid(`${table}, ${property}`, 'otherUnit', { header, unit: other, needed: NEEDED[of] });
}
