import { invalid } from '../shared/fault';

/** The characters of the system, each worth its place: 0 to 9, then A to Z for 10 to 35. */
const CHARACTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';
const MODULUS = CHARACTERS.length;

/**
 * The character that, put behind a string of digits and capital letters, guards it against slips of the hand: ISO/IEC
 * 7064, MOD 37,36.
 *
 * Start with 36; for each character add its value, take the rest by 36 (36 for 0), double, take the rest by 37. The check
 * character is the one that would make the next such sum leave 1. Every single character mistaken for another is caught.
 * Two neighbours swapped are caught but for one pair out of the 630 in each place: their values are next to each other,
 * and which pair it is depends on all characters before them.
 *
 * @param text digits and capital letters, at least one
 * @returns one digit or capital letter
 * @throws invalid where the text is empty or holds another character
 * @source ISO/IEC 7064:2003 Information technology – Security techniques – Check character systems, hybrid system MOD 37,36
 */
export function checkCharacter(text: string): string {
  return CHARACTERS[(MODULUS + 1 - carried(text)) % MODULUS]!;
}

/** Whether the last character is the check character of those before it. */
export function isChecked(text: string): boolean {
  return text.length > 1 && checkCharacter(text.slice(0, -1)) === text.at(-1);
}

/** What the characters so far carry over to the next, 1 to 36. */
function carried(text: string): number {
  if (text === '') throw invalid('text', 'foreignCharacter', { label: text });
  let carry = MODULUS;
  for (const character of text) {
    const value = CHARACTERS.indexOf(character);
    if (value < 0) throw invalid('text', 'foreignCharacter', { label: text });
    carry = (((carry + value) % MODULUS || MODULUS) * 2) % (MODULUS + 1);
  }
  return carry;
}
