import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { contrastOf, DARK_INK, DARK_SHEET, darkened, darkLine } from '../../../src/hosts/engine/darkLooks';

// 4.5 is the least contrast of text in WCAG 2.2, success criterion 1.4.3.
const LEAST = 4.5;
const hex = fc.integer({ min: 0, max: 0xffffff }).map((colour) => `#${colour.toString(16).padStart(6, '0')}`);

describe('contrastOf(one, other) is the ratio that WCAG 2.2 defines', () => {
  test.each([
    // Worked by hand: luminance 1 and 0; (1 + 0.05) / (0.2159 + 0.05) with #808080 at 0.2159.
    ['#000000', '#ffffff', 21],
    ['#808080', '#ffffff', 3.95],
    ['#ffffff', '#fff', 1],
  ])('%s on %s: %f', (one, other, wanted) => {
    expect(contrastOf(one, other)).toBeCloseTo(wanted, 2);
  });
});

describe('darkened(fill, text) can be read on a dark sheet', () => {
  // Fills and texts that books often have, from the palettes of themes; from memory, unverified.
  test.each([
    ['#FFF2CC', '#000000'],
    ['#C6EFCE', '#006100'],
    ['#FFC7CE', '#9C0006'],
    ['#FFEB9C', '#9C5700'],
    ['#00B050', '#000000'],
    ['#70AD47', '#ffffff'],
    ['#5B9BD5', '#000000'],
    ['#1F4E78', '#FFFFFF'],
    ['#FFFF00', '#FF0000'],
    [undefined, '#0563C1'],
    [undefined, undefined],
    ['#FFFFFF', '#000000'],
  ])('a fill of %s under text of %s', (fill, text) => {
    const dark = darkened(fill, text);
    expect(contrastOf(dark.fill ?? DARK_SHEET, dark.text)).toBeGreaterThanOrEqual(LEAST);
  });

  test('any text on any fill, and on none', () => {
    fc.assert(
      fc.property(fc.option(hex, { nil: undefined }), fc.option(hex, { nil: undefined }), (fill, text) => {
        const dark = darkened(fill, text);
        expect(contrastOf(dark.fill ?? DARK_SHEET, dark.text)).toBeGreaterThanOrEqual(LEAST);
      }),
    );
  });

  test('a fill is darker than the text that is usual on it, and keeps telling its cell from others', () => {
    const fills = ['#FFF2CC', '#C6EFCE', '#FFC7CE', '#DDEBF7'].map((fill) => darkened(fill, undefined).fill!);
    expect(new Set([...fills, DARK_SHEET]).size).toBe(5);
    for (const fill of fills) expect(contrastOf(fill, DARK_INK)).toBeGreaterThan(LEAST);
  });

  test('a white fill is the sheet itself', () => {
    expect(darkened('#ffffff', undefined).fill).toBeUndefined();
  });

  test('what is no colour is black', () => {
    expect(darkened(undefined, 'navy')).toEqual(darkened(undefined, '#000000'));
    expect(darkLine('navy')).toBe('navy');
  });
});
