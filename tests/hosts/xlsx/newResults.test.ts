import { describe, expect, test } from '@jest/globals';
import { cellError, type Cell } from '../../../src/worksheet/cells/cell';
import type { Change } from '../../../src/hosts/xlsx/change';
import { withNewResults } from '../../../src/hosts/xlsx/newResults';

// What is written follows from how files store results (ISO/IEC 29500-1, 18.3.1.4): numbers without a type, text as
// `str`, truths as `b`, errors as `e`.

const sheet = (cells: string, prefix = ''): string =>
  `<${prefix}worksheet><${prefix}sheetData><${prefix}row r="1">${cells}</${prefix}row></${prefix}sheetData></${prefix}worksheet>`;
const result = (address: string, value: Cell): Change => ({ sheet: 'Lots', address, values: [[value]] });

describe('a result of one cell is written, and nothing else of the sheet changes', () => {
  test.each<[why: string, before: string, value: Cell, after: string]>([
    ['a number for the zero of a library', '<f>B1*2</f><v>0</v>', 2.5, '><f>B1*2</f><v>2.5</v>'],
    ['a number where no result is stored', '<f>B1*2</f>', 3, '><f>B1*2</f><v>3</v>'],
    ['a number in an empty element', '<f>B1*2</f><v></v>', 3, '><f>B1*2</f><v>3</v>'],
    [
      'text, and what steers XML in it',
      '<f>B1&amp;"x"</f><v>0</v>',
      'a<b',
      ' t="str"><f>B1&amp;"x"</f><v>a&lt;b</v>',
    ],
    ['empty text', '<f>B1&amp;""</f><v>0</v>', '', ' t="str"><f>B1&amp;""</f><v></v>'],
    ['a truth', '<f>B1&gt;2</f><v>0</v>', true, ' t="b"><f>B1&gt;2</f><v>1</v>'],
    ['an error', '<f>1/B1</f><v>0</v>', cellError('#DIV/0!'), ' t="e"><f>1/B1</f><v>#DIV/0!</v>'],
    ['one of a shared formula', '<f t="shared" si="0"/><v>0</v>', 4, '><f t="shared" si="0"/><v>4</v>'],
    [
      'one that begins a shared formula',
      '<f t="shared" ref="A1:A9" si="0">B1*2</f><v>0</v>',
      4,
      '><f t="shared" ref="A1:A9" si="0">B1*2</f><v>4</v>',
    ],
  ])('%s', (_why, before, value, after) => {
    const rest = '<c r="B1"><v>1.250</v></c><!-- kept -->';
    const { text, others } = withNewResults(sheet(`<c r="A1">${before}</c>${rest}`), 'sheet1.xml', [
      result('A1', value),
    ]);
    expect(text).toBe(sheet(`<c r="A1"${after}</c>${rest}`));
    expect(others).toEqual([]);
  });

  test('style and other attributes stay, the type of before and its record go', () => {
    const { text } = withNewResults(
      sheet('<c s="3" r="A1" ph="1" t="str" vm="2"><f>B1</f><v>x</v></c>'),
      'sheet1.xml',
      [result('A1', 7)],
    );
    expect(text).toBe(sheet('<c r="A1" ph="1" s="3"><f>B1</f><v>7</v></c>'));
  });

  test('a damaged style stays what it is, and no markup', () => {
    const before = (v: string): string => sheet(`<c r="A1" s="&quot;&lt;"><f>B1</f><v>${v}</v></c>`);
    expect(withNewResults(before('0'), 'sheet1.xml', [result('A1', 7)]).text).toBe(before('7'));
  });

  test('names of elements keep their prefix', () => {
    const before = sheet('<x:c r="A1"><x:f>B1</x:f><x:v>0</x:v></x:c>', 'x:');
    expect(withNewResults(before, 'sheet1.xml', [result('A1', 'oak')]).text).toBe(
      sheet('<x:c r="A1" t="str"><x:f>B1</x:f><x:v>oak</x:v></x:c>', 'x:'),
    );
  });

  test('a cell that stores its result already is not touched, however it is written', () => {
    const before = sheet('<c t="n" r="A1"><f>B1</f><v>2.50</v></c><c r="B1" t="str"><f>"a"</f><v>a</v></c>');
    const changes = [result('A1', 2.5), result('B1', 'a')];
    expect(withNewResults(before, 'sheet1.xml', changes)).toEqual({ text: before, others: [] });
  });
});

describe('what asks for more than a new result is left for later, and the sheet as it was', () => {
  test.each<[why: string, cell: string, change: Partial<Change>]>([
    ['an array', '<f t="array" ref="A1">B1:B2</f><v>0</v>', {}],
    ['a call of ours that Excel would not calculate', '<f>PINSET.BIOEFFICIENCY(1,2,60%)</f><v>0</v>', {}],
    ['a constant', '<v>0</v>', {}],
    ['another formula', '<f>B1</f><v>0</v>', { formula: '=C1' }],
    ['no formula any more', '<f>B1</f><v>0</v>', { formula: null }],
    ['a format', '<f>B1</f><v>0</v>', { formats: ['date'] }],
    ['a number format', '<f>B1</f><v>0</v>', { numberFormat: '0.0' }],
    ['a block', '<f>B1</f><v>0</v>', { values: [[1, 2]] }],
  ])('%s', (_why, cell, more) => {
    const before = sheet(`<c r="A1">${cell}</c>`);
    const change = { ...result('A1', 1), ...more };
    expect(withNewResults(before, 'sheet1.xml', [change])).toEqual({ text: before, others: [change] });
  });

  test('a cell that is not there', () => {
    const before = sheet('<c r="B1"><f>C1</f><v>0</v></c>');
    const [there, missing] = [result('B1', 5), result('A1', 1)];
    expect(withNewResults(before, 'sheet1.xml', [there, missing])).toEqual({
      text: sheet('<c r="B1"><f>C1</f><v>5</v></c>'),
      others: [missing],
    });
  });

  test('one that shares a formula of ours, which stands further on', () => {
    const before = sheet(
      '<c r="A1"><f t="shared" si="0"/><v>0</v></c>' +
        '<c r="B1"><f t="shared" ref="A1:B1" si="0">PINSET.BIOEFFICIENCY(1,2,60%)</f><v>0</v></c>',
    );
    const changes = [result('A1', 1)];
    expect(withNewResults(before, 'sheet1.xml', changes)).toEqual({ text: before, others: changes });
  });

  test('all of a damaged sheet that has a cell twice', () => {
    const before = sheet('<c r="A1"><f>B1</f><v>0</v></c><c r="A1"><f>C1</f><v>0</v></c>');
    const changes = [result('A1', 1)];
    expect(withNewResults(before, 'sheet1.xml', changes)).toEqual({ text: before, others: changes });
  });

  test('of two results for one cell the later counts', () => {
    const before = sheet('<c r="A1"><f>B1</f><v>0</v></c>');
    expect(withNewResults(before, 'sheet1.xml', [result('A1', 1), result('A1', 2)])).toEqual({
      text: sheet('<c r="A1"><f>B1</f><v>2</v></c>'),
      others: [],
    });
  });
});
