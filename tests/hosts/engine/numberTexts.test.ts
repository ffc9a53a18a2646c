import { expect, test } from '@jest/globals';
import { numberAsText } from '../../../src/hosts/engine/evaluator/coercion';

// How Excel writes numbers as text. The examples were observed in Excel by the authors of Apache POI, who list them in
// NumberToTextConversionExamples (poi 5, Apache License 2.0).
test.each([
  [0.000012345678901234568, '1.23456789012346E-05'],
  [0.0000123456789, '0.0000123456789'],
  [5.6789012345e-8, '0.000000056789012345'],
  [5.67890123456e-8, '5.67890123456E-08'],
  [5.678902e-8, '0.00000005678902'],
  [1234567890123456.8, '1234567890123460'],
  [12345678901234567000, '12345678901234600000'],
  [-12345678901234567000, '-12345678901234600000'],
  [123456789012345680000, '1.23456789012346E+20'],
  [123499999999999900000, '1.235E+20'],
  [1.234999999999999e-8, '0.00000001235'],
  [9.999999999999999e-9, '0.00000001'],
  [-9.999999999999999e-9, '-0.00000001'],
  [999999999999999900000, '1E+21'],
  [0, '0'],
])('%d as text is %s', (number, text) => {
  expect(numberAsText(number)).toBe(text);
});
