import { describe, expect, test } from '@jest/globals';
import { labelKey, lookAlikes, lookKey, nearestLabel } from '../../../src/maths/shared/labels';

describe('labelKey(label) is the same for labels that are one', () => {
  test.each([
    ['Alder-3', ' alder-3 '],
    ['Érable', 'e\u0301RABLE'],
  ])('%s and %s', (one, other) => {
    expect(labelKey(one)).toBe(labelKey(other));
  });

  test('spaces within and hyphens make another', () => {
    expect(labelKey('Alder 3')).not.toBe(labelKey('Alder-3'));
  });
});

describe('lookKey(label) is the same for labels that a reader takes for one another', () => {
  // The capital letters of the three alphabets that are drawn alike: Unicode code charts 0000, 0370 and 0400.
  test.each([
    ['Cyrillic', 'АВЕКМНОРСТУХ', 'ABEKMHOPCTYX'],
    ['Greek', 'ΑΒΕΗΚΜΟΡΤΥΧ', 'ABEHKMOPTYX'],
  ])('letters of the %s alphabet', (_alphabet, letters, latin) => {
    expect([...letters].map(lookKey)).toEqual([...latin].map(lookKey));
    expect(new Set([...letters].map(lookKey)).size).toBe(letters.length);
  });

  test.each([
    ['O-1', '0-1'],
    ['Gl', 'G1'],
    ['GI', 'G1'],
    ['Alder-3', 'Alder 3'],
    ['Alder-3', 'Alder‑3'],
    ['Ｇ１', 'G1'],
    ['Érable', 'Erable'],
  ])('%s and %s', (one, other) => {
    expect(lookKey(one)).toBe(lookKey(other));
  });

  test.each([
    ['Alder-3', 'Alder-8'],
    ['S5', '55'],
  ])('%s and %s look different', (one, other) => {
    expect(lookKey(one)).not.toBe(lookKey(other));
  });
});

describe('nearestLabel(label, labels) is the one that was meant', () => {
  // Letters to change, add or leave out, counted by hand: one in up to seven letters, two in eight to eleven.
  test.each<[string, string[], string | undefined]>([
    ['Alder-3', ['Birch-1', 'ALDER 3'], 'ALDER 3'],
    ['Alder-2', ['Birch-1', 'Alder-3'], 'Alder-3'],
    ['Adler-3', ['Alder-3'], undefined],
    ['Hornbeam', ['Hrnbeem', 'Birch-1'], 'Hrnbeem'],
    ['Hornbeam', ['Hrnbem'], 'Hrnbem'],
    ['Hornbeam', ['Hrnbm'], undefined],
    ['Alder-2', ['Alder-3', 'Alder-1'], undefined],
    ['Alder-2', ['Alder-3', 'alder-3 '], 'alder-3 '],
    ['Alder-2', ['Alder-31', 'Alder-3'], 'Alder-3'],
    ['Gl', ['G2', 'G1'], 'G1'],
    ['G2', ['G1'], undefined],
    ['Fir', ['Fig'], 'Fig'],
    ['-', ['+'], undefined],
    ['A', ['', ' '], undefined],
    ['A', [], undefined],
  ])('%s of %p is %p', (label, labels, meant) => {
    expect(nearestLabel(label, labels)).toBe(meant);
  });
});

describe('lookAlikes(labels) are the first two that look the same and are not', () => {
  test.each<[string[], [string, string] | undefined]>([
    [
      ['Birch-1', 'Alder-3', 'Birch-l', 'Alder 3'],
      ['Birch-1', 'Birch-l'],
    ],
    [['Alder-3', 'alder-3 ', 'Birch-1'], undefined],
    [['-', '+'], undefined],
    [[], undefined],
  ])('of %p: %p', (labels, pair) => {
    expect(lookAlikes(labels)).toEqual(pair);
  });
});
