import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { checkCharacter, isChecked } from '../../../src/maths/lineage/checkCharacter';
import { expectFault } from '../expectFault';

const CHARACTERS = [...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const strings = fc.string({ unit: fc.constantFrom(...CHARACTERS), minLength: 1, maxLength: 30 });

describe('checkCharacter(text) is ISO/IEC 7064, MOD 37,36', () => {
  test.each([
    // The example of the Global Release Identifier standard (IFPI), whose check character is ISO 7064 MOD 37,36; also
    // the doctest of python-stdnum, stdnum.iso7064.mod_37_36.
    ['A12425GABC1234002', 'M'],
    // README of cdigit (LiosK), an implementation of the standard: 12CD → 5
    ['12CD', '5'],
    // Function reference of Lobster _data, “checksum ISO 7064 Mod. 37/36”
    ['123AB', 'X'],
    ['DADPIDA3897722461', 'J'],
    // Tests of Verticon Tracker, CheckISO7064Mod37_36Test
    ['104G7M', '3'],
    // Test vectors that cdigit and @konfirm/iso7064 share
    ['RABD', 'A'],
    ['X0H', 'X'],
    ['B7Q3SFTUSH2QN7BIXBPMNZAM', 'I'],
    ['UFSYYJO9FCID766EJYAEINTG43UZDD84MT6ZUDH08OM4N1K', 'N'],
    ['9', 'J'],
    ['KV0MFQXMAL4W5ICNH', 'P'],
    ['WP8Z0', '9'],
  ])('of %p is %p', (text, check) => {
    expect(checkCharacter(text)).toBe(check);
    expect(isChecked(text + check)).toBe(true);
  });

  // An independent method: the standard's congruence, Σ over the string in one pass of exact integers. With P(1) = 36
  // and P(j + 1) = 2·(P(j) + a(j) by 36, 36 for 0) by 37, the string is good where P(n) + a(n) leaves 1 by 36. Here
  // every check character is tried until that holds.
  test('is the only character for which the standard’s congruence holds', () => {
    fc.assert(
      fc.property(strings, (text) => {
        const holds = (whole: string): boolean => {
          let p = 36;
          for (const character of whole.slice(0, -1)) {
            const sum = (p + Number.parseInt(character, 36)) % 36;
            p = ((sum === 0 ? 36 : sum) * 2) % 37;
          }
          return (p + Number.parseInt(whole.at(-1)!, 36)) % 36 === 1;
        };
        expect(CHARACTERS.filter((character) => holds(text + character))).toEqual([checkCharacter(text)]);
      }),
    );
  });

  test.each(['', 'a', 'A-1', 'A 1', 'É'])('refuses %p', (text) => {
    expectFault(() => checkCharacter(text), ['text', 'foreignCharacter', { label: text }]);
  });
});

const LABELS = [
  'A12425GABC1234002M',
  'SHIALDER32260302018',
  'OYSBIRCH10260115992',
  '0000000000',
  'ZZZZZZZZZZZZ',
].map((label) => label.slice(0, -1) + checkCharacter(label.slice(0, -1)));

describe('a checked text gives slips of the hand away', () => {
  // The standard's scope (ISO/IEC 7064:2003, 1.3): its systems detect a) all single substitution errors, b) all or
  // nearly all single local transposition errors.
  test.each(LABELS)('every character of %p mistaken for any other', (label) => {
    let tried = 0;
    for (let at = 0; at < label.length; at++) {
      for (const character of CHARACTERS) {
        if (character === label[at]) continue;
        tried++;
        expect(isChecked(label.slice(0, at) + character + label.slice(at + 1))).toBe(false);
      }
    }
    expect(tried).toBe(35 * label.length);
  });

  test('every swap of neighbours but one pair in 630, whatever came before: 36 of 22,680 in all', () => {
    // What came before acts only through the carry, of which there are 36; one prefix for each.
    const prefixes = CHARACTERS;
    const slipped: string[] = [];
    let swaps = 0;
    for (const prefix of prefixes) {
      for (let a = 0; a < 36; a++) {
        for (let b = 0; b < a; b++) {
          swaps++;
          const [x, y] = [CHARACTERS[a]!, CHARACTERS[b]!];
          if (checkCharacter(prefix + x + y) === checkCharacter(prefix + y + x)) slipped.push(prefix + x + y);
        }
      }
    }
    expect(new Set(prefixes.map(checkCharacter)).size).toBe(36);
    expect(swaps).toBe(22_680);
    expect(slipped).toHaveLength(36);
    for (const [, x, y] of slipped.map((text) => [...text])) {
      const apart = Math.abs(CHARACTERS.indexOf(x!) - CHARACTERS.indexOf(y!));
      expect([1, 35]).toContain(apart);
    }
  });

  test.each(LABELS)('every swap of neighbours in %p, unless it is such a pair', (label) => {
    for (let at = 0; at + 1 < label.length; at++) {
      const [x, y] = [label[at]!, label[at + 1]!];
      if (x === y) continue;
      const swapped = label.slice(0, at) + y + x + label.slice(at + 2);
      const prefix = label.slice(0, at);
      const isBlind = checkCharacter(prefix + x + y) === checkCharacter(prefix + y + x);
      const apart = Math.abs(CHARACTERS.indexOf(x) - CHARACTERS.indexOf(y));
      expect(isBlind && ![1, 35].includes(apart)).toBe(false);
      expect(isChecked(swapped)).toBe(isBlind);
    }
  });
});
