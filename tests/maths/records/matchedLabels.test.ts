import { describe, expect, test } from '@jest/globals';
import { matchedLabels } from '../../../src/maths/records/matchedLabels';
import { CalcError } from '../../../src/maths/shared/fault';

const LIST = ['Fernbank-7', 'Alder-3', 'Alder-4', 'Birchwood', 'Oak'];
const match = (label: string, list: readonly string[] = LIST) => {
  const [answer] = matchedLabels([label], list);
  return answer instanceof CalcError ? answer.fault.code : answer;
};

describe('a label is the one of the list that it must mean', () => {
  // The four slips are those of Damerau (1964): a letter more, less, other, or two neighbours exchanged.
  test.each([
    ['Fernbank-7', 'Fernbank-7'],
    [' FERNBANK-7 ', 'Fernbank-7'],
    ['Fernbank 7', 'Fernbank-7'],
    ['fernbank7', 'Fernbank-7'],
    ['Fernbnak-7', 'Fernbank-7'],
    ['Fernban-7', 'Fernbank-7'],
    ['Fernnbank-7', 'Fernbank-7'],
    ['Fernbonk-7', 'Fernbank-7'],
    ['Alder–3', 'Alder-3'],
    ['birchwod', 'Birchwood'],
  ])('%s is %s', (label, expected) => {
    expect(match(label)).toBe(expected);
  });
});

describe('a label that may mean two, or none, is refused', () => {
  test.each([
    ['Alder-5', 'notIn'],
    ['Alder-33', 'notIn'],
    ['Oat', 'notIn'],
    ['Frnbnk-7', 'notIn'],
    ['Shiitake', 'notIn'],
  ])('%s: %s', (label, code) => {
    expect(match(label)).toBe(code);
  });

  test('one slip from two labels, or the same look as two', () => {
    expect(match('Rowanbank', ['Rowanbark', 'Rowantank'])).toBe('nearSeveral');
    expect(match('Elm 1', ['Elm-1', 'Elm.1'])).toBe('nearSeveral');
  });

  test('what stands in brackets behind a name may be left out, where that leaves one', () => {
    const list = ['Elm 4', 'Elm 9 (early)'];
    expect([match('Elm 9', list), match('elm-9', list), match('Elm 4 (old spawn)', list)]).toEqual([
      'Elm 9 (early)',
      'Elm 9 (early)',
      'Elm 4',
    ]);
    expect(match('Elm 9', ['Elm 9 (early)', 'Elm 9 (late)'])).toBe('nearSeveral');
    expect(match('Elm 9', ['Elm 9', 'Elm 9 (late)'])).toBe('Elm 9');
  });

  test('a list that has a label twice has it once', () => {
    expect(match('Elm 1', ['Elm-1', 'elm-1 '])).toBe('Elm-1');
  });
});
