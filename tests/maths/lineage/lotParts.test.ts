import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { lotCode, type LotLabel } from '../../../src/maths/lineage/lotCode';
import { lotParts } from '../../../src/maths/lineage/lotParts';
import { CalcError } from '../../../src/maths/shared/fault';
import { serialOf } from '../../../src/maths/shared/serial';
import { expectFault } from '../expectFault';

const lot: LotLabel = {
  species: 'Shiitake',
  strain: 'Alder-3',
  generation: 2,
  madeSerial: serialOf(2026, 3, 2),
  serial: 1,
};

const CHARACTERS = [...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

const lots = fc.record({
  species: fc.constantFrom('Shiitake', 'Oyster', 'Maitake', 'Nameko'),
  strain: fc.string({ unit: fc.constantFrom(...CHARACTERS), minLength: 1, maxLength: 12 }),
  generation: fc.integer({ min: 0, max: 9 }),
  madeSerial: fc.integer({ min: serialOf(2000, 1, 1), max: serialOf(2099, 12, 31) }),
  serial: fc.integer({ min: 1, max: 99 }),
});

describe('lotParts(code) reads a label back once its check character vouches for it', () => {
  test('gives back what lotCode wrote', () => {
    fc.assert(
      fc.property(lots, (given) => {
        const label = lotCode(given, 1900);
        const species = given.species.slice(0, 3).toUpperCase();
        expect(lotParts(label, 1900)).toEqual({ ...given, species, label });
      }),
    );
  });

  test.each([
    'shi-alder3-g2-260302-01-7',
    'SHIALDER3G2260302017',
    '  SHI alder3 G2 260302 01 7',
    'SHI--ALDER3-G2-2603-0201-7',
  ])('forgives case, spaces and hyphens: %p', (code) => {
    expect(lotParts(code, 1900)).toMatchObject({
      strain: 'ALDER3',
      madeSerial: serialOf(2026, 3, 2),
      label: 'SHI-ALDER3-G2-260302-01-7',
    });
  });

  const labels = [
    lot,
    { ...lot, species: 'Oyster', strain: 'Birch-10', serial: 12 },
    { ...lot, strain: 'G2X' },
  ].map((given) => lotCode(given, 1900).replaceAll('-', ''));

  test.each(labels)('catches every single character of %p mistaken for any other', (label) => {
    for (let at = 0; at < label.length; at++) {
      for (const character of CHARACTERS.filter((one) => one !== label[at])) {
        expect(() => lotParts(label.slice(0, at) + character + label.slice(at + 1), 1900)).toThrow(CalcError);
      }
    }
  });

  test.each(labels)('catches every swap of neighbours in %p', (label) => {
    for (let at = 0; at + 1 < label.length; at++) {
      if (label[at] === label[at + 1]) continue;
      const swapped = label.slice(0, at) + label[at + 1]! + label[at]! + label.slice(at + 2);
      expect(() => lotParts(swapped, 1900)).toThrow(CalcError);
    }
  });

  // Over many labels: the system lets one pair of neighbours in 630 pass, and only where their values are neighbours too.
  test('catches all swaps of neighbours but about one in six hundred', () => {
    let swaps = 0;
    let passed = 0;
    fc.assert(
      fc.property(lots, (given) => {
        const label = lotCode(given, 1900).replaceAll('-', '');
        for (let at = 0; at + 1 < label.length; at++) {
          const [x, y] = [label[at]!, label[at + 1]!];
          if (x === y) continue;
          swaps++;
          try {
            lotParts(label.slice(0, at) + y + x + label.slice(at + 2), 1900);
          } catch {
            continue;
          }
          passed++;
          expect([1, 35]).toContain(Math.abs(CHARACTERS.indexOf(x) - CHARACTERS.indexOf(y)));
        }
      }),
      { numRuns: 500, seed: 7 },
    );
    expect(swaps).toBeGreaterThan(5000);
    expect(passed / swaps).toBeLessThan(0.004);
  });

  test.each([
    // An O for a 0 stands where only digits do; an I for a 1 in the strain passes the pattern and fails the check.
    ['SHI-ALDER3-G2-26O302-01-7', 14, 'O', '0'],
    ['SHI-ALDER3-G2-260302-0I-7', 19, 'I', '1'],
    ['SHI-A1DER3-G2-260302-01-7', 5, '1', 'L'],
    ['5HI-ALDER3-G2-260302-01-7', 1, '5', 'S'],
  ])('finds the look-alike in %p', (code, at, was, should) => {
    expectFault(() => lotParts(code, 1900), ['code', 'lookAlike', { label: code, at, was, should }]);
  });

  test.each([
    ['SHI-ALDER3-G2-260302-01-8', 'checkFails'],
    ['Block 7', 'noLabel'],
    ['SHI/ALDER3', 'foreignCharacter'],
    ['', 'noLabel'],
  ] as const)('refuses %p', (label, code) => {
    expectFault(() => lotParts(label, 1900), ['code', code, { label }]);
  });

  test('refuses a label of a day that is not in the calendar', () => {
    // 30 February, with a check character that fits
    const bare = 'SHIALDER3G226023001';
    const fits = CHARACTERS.map((check) => bare + check).filter((code) => {
      try {
        lotParts(code, 1900);
        return true;
      } catch (fault) {
        return (fault as CalcError).fault.code === 'noSuchDay';
      }
    });
    expect(fits).toHaveLength(1);
    expectFault(() => lotParts(fits[0]!, 1900), ['code', 'noSuchDay', { label: fits[0]! }]);
  });
});
