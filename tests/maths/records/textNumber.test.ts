import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  shareOfFigure,
  textNumber,
  textNumberOrRange,
  type DecimalMark,
  type NumberUnit,
} from '../../../src/maths/records/textNumber';
import { CalcError } from '../../../src/maths/shared/fault';

const codeOf = (text: string, unit: NumberUnit, mark?: DecimalMark): string | number => {
  try {
    return textNumber(text, unit, mark);
  } catch (thrown) {
    if (thrown instanceof CalcError) return thrown.fault.code;
    throw thrown;
  }
};

describe('a text is one number in the stated unit', () => {
  // 1 lb = 0.45359237 kg (international yard and pound agreement, 1959); 16 oz = 1 lb.
  test.each<[string, NumberUnit, number]>([
    ['10 lb', 'lb', 10],
    ['10lbs.', 'lb', 10],
    ['1 lb 4 oz', 'lb', 1.25],
    ['2 kg 300 g', 'kg', 2.3],
    ['1.2 kg', 'kg', 1.2],
    ['1.2 kg', 'g', 1200],
    ['10 lb', 'kg', 4.5359237],
    ['4 oz', 'lb', 0.25],
    ['10 1/2 lb', 'lb', 10.5],
    ['10½', 'lb', 10.5],
    ['½ lb', 'oz', 8],
    ['.5', 'kg', 0.5],
    ['24,1', 'kg', 24.1],
    ['0,125', 'kg', 0.125],
    ['1,250.5', 'g', 1250.5],
    ['1.250,5', 'g', 1250.5],
    ['1,250,000', 'g', 1_250_000],
    ['1 250 g', 'g', 1250],
    ["1'250.75", 'g', 1250.75],
    ['63%', 'share', 0.63],
    ['63 %', 'percent', 0.63],
    ['62', 'percent', 0.62],
    ['0.62', 'share', 0.62],
    ['12 bags', 'number', 12],
    ['40 blks', 'number', 40],
    ['1.20 EUR', 'number', 1.2],
    ['12,50 €', 'number', 12.5],
    ['$1,200.00', 'number', 1200],
    ['2lb4oz', 'lb', 2.25],
    ['3 lb, 8 oz', 'lb', 3.5],
    ['3 lb and 8 oz', 'lb', 3.5],
    ['2# 4oz', 'lb', 2.25],
    ['12\u00a0500,5', 'g', 12500.5],
    ['12\u202f500', 'g', 12500],
    ['\u22125', 'C', -5],
    ['68 degrees', 'F', 68],
    ['20 ºC', 'C', 20],
    ['$0.22', 'number', 0.22],
    // A week has 7 days (ISO 8601).
    ['2 weeks', 'days', 14],
    ['14 d', 'days', 14],
    ['1,5 Wochen', 'days', 10.5],
    ['21 days', 'weeks', 3],
    ['10 wk', 'weeks', 10],
    ['25,00 zł', 'number', 25],
    ['PLN 25,50', 'number', 25.5],
    ['A$34.00', 'number', 34],
    ['R$ 12,50', 'number', 12.5],
    ['120 Kč', 'number', 120],
    ['-4', 'number', -4],
    ['68 °F', 'C', 20],
    ['20C', 'F', 68],
  ])('%s in %s is %d', (text, unit, expected) => {
    expect(textNumber(text, unit)).toBeCloseTo(expected, 10);
  });

  test('a stated decimal mark settles what one mark and three digits are', () => {
    expect(textNumber('1,250', 'g', 'point')).toBe(1250);
    expect(textNumber('1,250', 'g', 'comma')).toBe(1.25);
    expect(textNumber('1.250 kg', 'kg', 'point')).toBe(1.25);
  });
});

test('points that part thousands are read where the comma begins decimals', () => {
  expect(textNumber('1.250.000', 'g', 'comma')).toBe(1_250_000);
});

describe('what may be two numbers, or none, is refused', () => {
  test.each<[string, NumberUnit, DecimalMark | undefined, string]>([
    ['1,250', 'kg', undefined, 'eitherMark'],
    ['1.250', 'kg', undefined, 'eitherMark'],
    ['24,1', 'kg', 'point', 'otherMark'],
    ['1.250.000', 'g', 'point', 'otherMark'],
    ['1,250,000', 'g', 'comma', 'otherMark'],
    ['1,250.5', 'g', 'comma', 'otherMark'],
    ['1,25,000', 'kg', undefined, 'notANumber'],
    ['1.2.3', 'kg', undefined, 'notANumber'],
    ['about 10', 'kg', undefined, 'notANumber'],
    ['10?', 'kg', undefined, 'notANumber'],
    ['10-12', 'kg', undefined, 'notANumber'],
    ['10 + 5', 'kg', undefined, 'notANumber'],
    ['10 20', 'kg', undefined, 'notANumber'],
    ['4 oz 1 lb', 'lb', undefined, 'notANumber'],
    ['1 lb 4', 'lb', undefined, 'notANumber'],
    ['1/0', 'lb', undefined, 'notANumber'],
    ['45/28', 'days', undefined, 'notANumber'],
    ['13/2', 'kg', undefined, 'notANumber'],
    ['', 'kg', undefined, 'notANumber'],
    ['63%', 'kg', undefined, 'otherMeasure'],
    ['10 lb', 'number', undefined, 'otherMeasure'],
    ['10 kg', 'share', undefined, 'otherMeasure'],
    ['20 C', 'kg', undefined, 'otherMeasure'],
    ['62', 'share', undefined, 'notAShare'],
    ['120', 'percent', undefined, 'notInPercent'],
  ])('%p in %s with %s: %s', (text, unit, mark, code) => {
    expect(codeOf(text, unit, mark)).toBe(code);
  });
});

test.each([
  ...[
    '~10 kg',
    'approx 10',
    'ca. 10 kg',
    '10+',
    '> 10',
    '10–12',
    '10 to 12',
    '10kg/',
    '10 lb/bag',
    '10 lb each',
    '10?',
  ],
  ...[
    '5 lb 20 oz',
    '5 lb 16 oz',
    '2 lb 2 lb',
    '4 oz 2 lb',
    '(5)',
    '5-',
    '12..5',
    '1,2,3',
    '1e3',
    '1.5k',
    '$12.50',
    'TBD',
    'n/a',
    '-',
    'nil',
  ],
])('%s is no single figure in kg', (text) => {
  expect(codeOf(text, 'kg')).toBe('notANumber');
});

test('a bare figure up to 1 is the share or the percentage that lies by the rest of its column, and otherwise refused', () => {
  const moistures = { least: 0.58, most: 0.66 };
  const losses = { least: 0.012, most: 0.05 };
  expect(shareOfFigure(0.61, 'percent', moistures)).toBe(0.61);
  expect(shareOfFigure(0.5, 'percent', losses)).toBe(0.005);
  expect(shareOfFigure(1, 'percent', losses)).toBe(0.01);
  expect(textNumber('0.5', 'percent', undefined, losses)).toBe(0.005);
  const refused = [undefined, { least: 0.006, most: 0.6 }, { least: 0.1, most: 0.12 }];
  for (const rest of refused) expect(() => shareOfFigure(0.5, 'percent', rest)).toThrow(/eitherShare/);
  expect(codeOf('0.62', 'percent')).toBe('eitherShare');
  expect(codeOf('0.62%', 'percent')).toBeCloseTo(0.0062, 12);
});

test('a figure that was typed as a number is judged as a share in the same way', () => {
  expect(shareOfFigure(62, 'percent')).toBe(0.62);
  expect(shareOfFigure(0.62, 'share')).toBe(0.62);
  expect(() => shareOfFigure(62, 'share')).toThrow(CalcError);
  expect(() => shareOfFigure(-0.1, 'percent')).toThrow(CalcError);
});

test('a number as a program writes it, with a unit behind, comes back as it was', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 99_999 }), fc.constantFrom('kg', 'g', 'lb', 'oz'), (tens, unit) => {
      const figure = tens / 10;
      expect(textNumber(`${figure} ${unit}`, unit as NumberUnit, 'point')).toBe(figure);
    }),
  );
});

test('whatever a text holds, the answer is a finite number or a fault', () => {
  const piece = fc.constantFrom('1', '250', ',', '.', ' ', '/', '%', 'lb', 'oz', '½', '-', "'", 'kg', '0');
  fc.assert(
    fc.property(
      fc.array(piece, { maxLength: 8 }),
      fc.constantFrom('lb', 'share', 'number'),
      (parts, unit) => {
        const answer = codeOf(parts.join(''), unit);
        expect(typeof answer === 'string' || Number.isFinite(answer)).toBe(true);
      },
    ),
    { numRuns: 2000 },
  );
});

describe('of a range the stated figure counts', () => {
  test.each<[string, NumberUnit, 'from' | 'to' | 'middle', number]>([
    ['70–80 days', 'days', 'from', 70],
    ['70 - 80 days', 'days', 'to', 80],
    ['8 to 10', 'days', 'middle', 9],
    ['10-12 weeks', 'days', 'middle', 77],
    ['10 d – 2 weeks', 'days', 'to', 14],
    ['60–75%', 'percent', 'middle', 0.675],
    ['4,5-5,5 kg', 'kg', 'middle', 5],
    ['12 lb', 'lb', 'from', 12],
  ])('%s in %s, %s', (text, unit, end, expected) => {
    expect(textNumberOrRange(text, unit, undefined, undefined, end)).toBeCloseTo(expected, 12);
  });

  test('a range is refused where none is stated, where it falls, and where its unit is another', () => {
    const code = (text: string, end?: 'from'): string => {
      try {
        return String(textNumberOrRange(text, 'days', undefined, undefined, end));
      } catch (thrown) {
        return (thrown as CalcError).fault.code;
      }
    };
    expect([
      code('8-10 days'),
      code('10-8', 'from'),
      code('8-10 lb', 'from'),
      code('8-10-12', 'from'),
    ]).toEqual(['notANumber', 'notANumber', 'otherMeasure', 'notANumber']);
  });
});
