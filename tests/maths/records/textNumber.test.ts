import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  shareOfFigure,
  textNumber,
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
    ['0.62', 'percent', 0.62],
    ['0.62', 'share', 0.62],
    ['12 bags', 'number', 12],
    ['$0.22', 'number', 0.22],
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

describe('what may be two numbers, or none, is refused', () => {
  test.each<[string, NumberUnit, DecimalMark | undefined, string]>([
    ['1,250', 'kg', undefined, 'eitherMark'],
    ['1.250', 'kg', undefined, 'eitherMark'],
    ['24,1', 'kg', 'point', 'otherMark'],
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
