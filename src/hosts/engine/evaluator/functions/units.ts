import { KILOGRAMS_A_POUND } from '../../../../worksheet/constants';
import type { BuiltIn } from '../builtIn';
import { Lacking } from '../lacking';
import { NOT_AVAILABLE, type Value } from '../values';
import { define, type Given } from './define';

// CONVERT. Names of units: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference. Sizes: exact definitions of the
// International System, of the yard and pound agreement of 1959 and of the US and imperial gallon. Units whose size in
// the vendor's product is measured or rounded (astronomical, atomic, electric) are left out.

const [POUND, INCH] = [KILOGRAMS_A_POUND, 0.0254];
const GALLON = 231 * INCH ** 3 * 1000;
const IMPERIAL = 4.54609;
const STANDARD_GRAVITY = 9.80665;

interface Unit {
  readonly dimension: string;
  readonly size: number;
  /** Whether `k`, `m` and the like may be put before it. */
  readonly takesPrefix: boolean;
  /** To what power a prefix is raised. */
  readonly power: number;
}

const table = new Map<string, Unit>();

function add(dimension: string, sizes: Readonly<Record<string, number>>, metric = '', power = 1): void {
  const prefixed = new Set(metric.split(' '));
  for (const [name, size] of Object.entries(sizes)) {
    table.set(name, { dimension, size, takesPrefix: prefixed.has(name), power });
  }
}

add(
  'mass',
  {
    ...{ g: 1e-3, lbm: POUND, ozm: POUND / 16, grain: POUND / 7000, stone: 14 * POUND, ton: 2000 * POUND },
    ...{
      cwt: 100 * POUND,
      shweight: 100 * POUND,
      uk_cwt: 112 * POUND,
      lcwt: 112 * POUND,
      hweight: 112 * POUND,
    },
    ...{ uk_ton: 2240 * POUND, LTON: 2240 * POUND, brton: 2240 * POUND },
  },
  'g',
);
add(
  'length',
  {
    ...{
      m: 1,
      in: INCH,
      ft: 12 * INCH,
      yd: 36 * INCH,
      mi: 63_360 * INCH,
      Nmi: 1852,
      ang: 1e-10,
      ell: 45 * INCH,
    },
    ...{ Picapt: INCH / 72, Pica: INCH / 72, pica: INCH / 6 },
  },
  'm ang',
);
add('area', { 'm^2': 1, m2: 1 }, 'm^2 m2', 2);
add(
  'area',
  {
    ...{ ha: 1e4, ar: 100, Morgen: 2500, uk_acre: 4840 * (36 * INCH) ** 2 },
    ...{ 'in^2': INCH ** 2, in2: INCH ** 2, 'ft^2': (12 * INCH) ** 2, ft2: (12 * INCH) ** 2 },
    ...{
      'yd^2': (36 * INCH) ** 2,
      yd2: (36 * INCH) ** 2,
      'mi^2': (63_360 * INCH) ** 2,
      mi2: (63_360 * INCH) ** 2,
    },
    ...{ 'Nmi^2': 1852 ** 2, Nmi2: 1852 ** 2 },
  },
  'ar',
);
add('volume', { 'm^3': 1000, m3: 1000 }, 'm^3 m3', 3);
add(
  'volume',
  {
    ...{
      l: 1,
      L: 1,
      lt: 1,
      gal: GALLON,
      qt: GALLON / 4,
      pt: GALLON / 8,
      us_pt: GALLON / 8,
      cup: GALLON / 16,
    },
    ...{ oz: GALLON / 128, tbs: GALLON / 256, tsp: GALLON / 768, tspm: 0.005 },
    ...{ uk_gal: IMPERIAL, uk_qt: IMPERIAL / 4, uk_pt: IMPERIAL / 8, barrel: 42 * GALLON },
    ...{
      'in^3': INCH ** 3 * 1000,
      in3: INCH ** 3 * 1000,
      'ft^3': (12 * INCH) ** 3 * 1000,
      ft3: (12 * INCH) ** 3 * 1000,
    },
    ...{ 'yd^3': (36 * INCH) ** 3 * 1000, yd3: (36 * INCH) ** 3 * 1000, bushel: 2150.42 * INCH ** 3 * 1000 },
  },
  'l L lt',
);
add('time', { yr: 31_557_600, day: 86_400, d: 86_400, hr: 3600, mn: 60, min: 60, sec: 1, s: 1 }, 'sec s');
const POUND_FORCE = POUND * STANDARD_GRAVITY;
add(
  'pressure',
  { Pa: 1, p: 1, atm: 101_325, at: 101_325, psi: POUND_FORCE / INCH ** 2, Torr: 101_325 / 760 },
  'Pa p atm at',
);
add('force', { N: 1, dyn: 1e-5, dy: 1e-5, lbf: POUND_FORCE, pond: STANDARD_GRAVITY / 1000 }, 'N dyn dy pond');
add(
  'energy',
  { J: 1, e: 1e-7, Wh: 3600, wh: 3600, cal: 4.1868, c: 4.184, flb: POUND_FORCE * 12 * INCH },
  'J e Wh wh cal c',
);
add('power', { W: 1, w: 1, HP: 550 * POUND_FORCE * 12 * INCH, h: 550 * POUND_FORCE * 12 * INCH }, 'W w');
add(
  'speed',
  { 'm/s': 1, 'm/sec': 1, 'm/h': 1 / 3600, 'm/hr': 1 / 3600, mph: (63_360 * INCH) / 3600, kn: 1852 / 3600 },
  'm/s m/sec m/h m/hr',
);
add('information', { bit: 1, byte: 8 }, 'bit byte');

const PREFIXES: Readonly<Record<string, number>> = {
  ...{ Y: 1e24, Z: 1e21, E: 1e18, P: 1e15, T: 1e12, G: 1e9, M: 1e6, k: 1e3, h: 1e2, da: 10, e: 10 },
  ...{ d: 1e-1, c: 1e-2, m: 1e-3, u: 1e-6, n: 1e-9, p: 1e-12, f: 1e-15, a: 1e-18, z: 1e-21, y: 1e-24 },
};

/** Temperatures: what one degree is and where zero is, in kelvins. */
const TEMPERATURES: Readonly<Record<string, readonly [size: number, zero: number]>> = {
  ...{ C: [1, 273.15], cel: [1, 273.15], K: [1, 0], kel: [1, 0], F: [5 / 9, 459.67 * (5 / 9)] },
  ...{ fah: [5 / 9, 459.67 * (5 / 9)], Rank: [5 / 9, 0], Reau: [1.25, 273.15] },
};

function unitOf(name: string): { dimension: string; size: number } | undefined {
  const plain = table.get(name);
  if (plain) return plain;
  for (const length of [1, 2]) {
    const factor = PREFIXES[name.slice(0, length)];
    const unit = table.get(name.slice(length));
    if (factor !== undefined && unit?.takesPrefix)
      return { dimension: unit.dimension, size: unit.size * factor ** unit.power };
  }
  return undefined;
}

function convertedTemperature(number: number, from: string, to: string): number {
  if (from === to) return number;
  const fahrenheit = ['F', 'fah'];
  const celsius = ['C', 'cel'];
  // Straight from one to the other, without the digits that kelvins cost.
  if (fahrenheit.includes(from) && celsius.includes(to)) return ((number - 32) * 5) / 9;
  if (celsius.includes(from) && fahrenheit.includes(to)) return (number * 9) / 5 + 32;
  const [[size, zero], [toSize, toZero]] = [TEMPERATURES[from]!, TEMPERATURES[to]!];
  return (number * size + zero - toZero) / toSize;
}

/** Units the vendor has beside these, with or without a prefix. */
const LEFT_OUT =
  /^(?:[YZEPTGMkhedcmunpfazy]|da|[YZEPTGMk]i)?(?:sg|u|ly|parsec|pc|survey_mi|us_acre|mmHg|eV|ev|HPh|hh|BTU|btu|PS|T|ga|MTON|GRT|regton|admkn|uk_ton|ang\^?[23]|ly\^?[23]|mi\^?3|Nmi\^?3|Pica(?:pt)?\^?[23]|bit|byte|sg)$/;

const convert = (given: Given): Value => {
  const [number, from, to] = [given.number(0), given.text(1), given.text(2)];
  if (from in TEMPERATURES && to in TEMPERATURES) return convertedTemperature(number, from, to);
  const [one, other] = [unitOf(from), unitOf(to)];
  if (!one || !other) {
    const left = [from, to].find((name) => LEFT_OUT.test(name));
    if (left !== undefined) throw new Lacking(`CONVERT with the unit ${left}`);
    return NOT_AVAILABLE;
  }
  return one.dimension === other.dimension ? (number * one.size) / other.size : NOT_AVAILABLE;
};

export const units: readonly BuiltIn[] = [define('CONVERT', [3, 3], 'value', convert)];
