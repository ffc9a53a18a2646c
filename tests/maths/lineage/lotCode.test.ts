import { describe, expect, test } from '@jest/globals';
import { lotCode, type LotLabel } from '../../../src/maths/lineage/lotCode';
import { dateOf } from '../../../src/maths/shared/fault';
import { serialOf } from '../../../src/maths/shared/serial';
import { expectFault, type Refusal } from '../expectFault';

const lot: LotLabel = {
  species: 'Shiitake',
  strain: 'Alder-3',
  generation: 2,
  madeSerial: serialOf(2026, 3, 2),
  serial: 1,
};

describe('lotCode(lot) writes a label of species, strain, generation, day and serial with a check character', () => {
  // Dates: GS1 General Specifications write 1 July 1999 as 990701 and 26 November 2001 as 011126; same pattern here.
  test.each([
    [lot, 'SHI-ALDER3-G2-260302-01-'],
    [{ ...lot, madeSerial: serialOf(2001, 11, 26) }, 'SHI-ALDER3-G2-011126-01-'],
    [
      { ...lot, species: 'lion’s mane', strain: ' rowan 2', generation: 0, serial: 99 },
      'LIO-ROWAN2-G0-260302-99-',
    ],
    [{ ...lot, strain: '7', madeSerial: serialOf(2026, 3, 2) + 0.75 }, 'SHI-7-G2-260302-01-'],
    [{ ...lot, species: 'Shimeji brown' }, 'SHM-ALDER3-G2-260302-01-'],
    [{ ...lot, letters: ' xyz' }, 'XYZ-ALDER3-G2-260302-01-'],
  ])('%p is %p and its check character', (given, start) => {
    expect(lotCode(given, 1900)).toMatch(new RegExp(`^${start}[0-9A-Z]$`));
  });

  // ISO/IEC 7064 MOD 37,36 by hand for SHI7G226030201: carries 36 → 19 → 35 → 34 → 10 → 15 → 34 → 35 → 10 → 20 → 9 →
  // 18 → 3 → 6 → 14, and 37 − 14 = 23 is N.
  test('computes the check character over letters and digits, hyphens left out', () => {
    expect(lotCode({ ...lot, strain: '7' }, 1900)).toBe('SHI-7-G2-260302-01-N');
  });

  test('with a strain of six characters fits a GS1 batch number of 20 characters', () => {
    expect(lotCode(lot, 1900).replaceAll('-', '')).toHaveLength(20);
  });

  test('is the same in both date systems of a workbook', () => {
    expect(lotCode({ ...lot, madeSerial: serialOf(2026, 3, 2, 1904) }, 1904)).toBe(lotCode(lot, 1900));
  });

  test.each<[LotLabel, Refusal]>([
    [{ ...lot, species: 'LE' }, ['species', 'tooFewLetters', { least: 3, given: 'LE' }]],
    [{ ...lot, letters: 'XY' }, ['letters', 'notSpeciesLetters', { letters: 3, given: 'XY' }]],
    [{ ...lot, species: 'Träuschling' }, ['species', 'foreignLetter', { given: 'Träuschling' }]],
    [{ ...lot, strain: 'Alder/3' }, ['strain', 'signInName', { given: 'Alder/3' }]],
    [{ ...lot, strain: 'Alder_3' }, ['strain', 'signInName', { given: 'Alder_3' }]],
    [{ ...lot, species: 'Shii+take' }, ['species', 'signInName', { given: 'Shii+take' }]],
    [{ ...lot, strain: '--' }, ['strain', 'notForLabel', { most: 12, given: '--' }]],
    [{ ...lot, strain: 'a very long strain' }, ['strain', 'notForLabel', { given: 'a very long strain' }]],
    [{ ...lot, generation: 10 }, ['generation', 'outside', { from: 0, to: 9, whole: true, given: 10 }]],
    [{ ...lot, generation: 1.5 }, ['generation', 'outside', { whole: true, given: 1.5 }]],
    [{ ...lot, serial: 0 }, ['serial', 'outside', { from: 1, to: 99, given: 0 }]],
    [{ ...lot, serial: NaN }, ['serial', 'outside', { given: NaN }]],
    [
      { ...lot, madeSerial: serialOf(1999, 12, 31) },
      ['made', 'notInCentury', { given: dateOf(serialOf(1999, 12, 31)) }],
    ],
    [{ ...lot, madeSerial: NaN }, ['made', 'outside', { above: 0, given: NaN }]],
  ])('refuses %p', (given, refusal) => {
    expectFault(() => lotCode(given, 1900), refusal);
  });
});
